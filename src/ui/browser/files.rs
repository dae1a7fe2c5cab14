//! Files from a drop or a picker, and their bytes.

use beatwalk::formats::LARGEST_FILE;
use gloo_file::{File, FileList};
use wasm_bindgen::JsCast;
use web_sys::{ClipboardEvent, DragEvent, Element, Event, HtmlInputElement};

/// What was dropped or picked.
pub type Dropped = Vec<File>;

/// The files of a drop.
pub fn dropped_files(event: &DragEvent) -> Dropped {
    let list = event.data_transfer().and_then(|transfer| transfer.files());
    list.map(|list| FileList::from(list).to_vec()).unwrap_or_default()
}

/// Text that was pasted on the page itself; pasting into a field is the field's business.
pub fn pasted_text(event: &ClipboardEvent) -> Option<String> {
    let field = event.target()?.dyn_into::<Element>().ok()?.closest("input, textarea").ok()?;
    let text = event.clipboard_data()?.get_data("text/plain").ok()?;
    (field.is_none() && !text.trim().is_empty()).then_some(text)
}

/// The files of a picker. The picker is emptied, so that the same file can be picked again.
pub fn picked_files(event: &Event) -> Dropped {
    let Some(input) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok())
    else {
        return Dropped::new();
    };
    let files = input.files().map(|list| FileList::from(list).to_vec()).unwrap_or_default();
    input.set_value("");
    files
}

/// All bytes of all files, with their names.
///
/// # Errors
/// What is wrong and what to do, when a file is too large (known before anything is read) or can't
/// be read.
pub async fn read_bytes(files: &[File]) -> Result<Vec<(String, Vec<u8>)>, (String, String)> {
    let total: u64 = files.iter().map(|file| file.size()).sum();
    if total > LARGEST_FILE {
        return Err((
            format!(
                "This is {} MB; Beatwalk opens at most {} MB at once.",
                total.div_ceil(1 << 20),
                LARGEST_FILE >> 20
            ),
            "Cut the recording to the part you need, or record again for a shorter time."
                .to_owned(),
        ));
    }
    let mut read = Vec::with_capacity(files.len());
    for file in files {
        let bytes = gloo_file::futures::read_as_bytes(file).await.map_err(|error| {
            (
                format!("{} can't be read from this computer ({error}).", file.name()),
                "Check that the file still exists and is not open elsewhere, then choose it again."
                    .to_owned(),
            )
        })?;
        read.push((file.name(), bytes));
    }
    Ok(read)
}
