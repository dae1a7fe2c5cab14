//! Files from a drop or a picker, and their bytes.

use beatwalk::formats::LARGEST_FILE;
use beatwalk::words::Phrase;
use gloo_file::{File, FileList};
use js_sys::{ArrayBuffer, Uint8Array};
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

/// All bytes of all files, with their names, in the browser's own memory: what is only handed on is not copied.
///
/// # Errors
/// What is wrong and what to do, when a file is too large (known before anything is read) or can't
/// be read.
pub async fn read_buffers(files: &[File]) -> Result<Vec<(String, ArrayBuffer)>, (Phrase, Phrase)> {
    let total: u64 = files.iter().map(|file| file.size()).sum();
    if total > LARGEST_FILE {
        let megabytes = total.div_ceil(1 << 20);
        return Err((
            Phrase::message("faults.file.together_too_large")
                .with("megabytes", megabytes)
                .with("most", LARGEST_FILE >> 20),
            Phrase::message("faults.remedy.file.cut"),
        ));
    }
    let mut read = Vec::with_capacity(files.len());
    for file in files {
        let bytes = gloo_file::futures::read_as_array_buffer(file).await.map_err(|error| {
            (
                Phrase::message("faults.file.unreadable")
                    .with("file", &file.name())
                    .with("why", &error.to_string()),
                Phrase::message("faults.remedy.file.check"),
            )
        })?;
        read.push((file.name(), bytes));
    }
    Ok(read)
}

/// All bytes of all files, with their names.
///
/// # Errors
/// As [`read_buffers`].
pub async fn read_bytes(files: &[File]) -> Result<Vec<(String, Vec<u8>)>, (Phrase, Phrase)> {
    let read = read_buffers(files).await?;
    Ok(read.into_iter().map(|(name, buffer)| (name, Uint8Array::new(&buffer).to_vec())).collect())
}
