//! Fetches a file from the disk, and with a record everything that belongs to it.

use beatwalk::formats::{LARGEST_FILE, SourceFile, named_files};
use std::path::{Path, PathBuf};

/// Endings of files that may share a record's name but are no annotations of it.
const NOT_ANNOTATIONS: [&str; 11] =
    ["csv", "tsv", "txt", "json", "md", "edf", "bdf", "pdf", "wav", "zip", "gz"];

/// The file, and what else is needed to read it.
pub(crate) fn with_partners(file: &str) -> Result<Vec<SourceFile>, String> {
    let path = Path::new(file);
    let header = match ending(path).as_str() {
        "hea" => Some(path.to_path_buf()),
        "dat" | "xyz" => Some(path.with_extension("hea")).filter(|header| header.exists()),
        _ => None,
    };
    let Some(header) = header else { return Ok(vec![load(path)?]) };
    let mut files = vec![load(&header)?];
    let mut named = named_files(&files[0]);
    let mut next = 0;
    while let Some(name) = named.get(next) {
        let partner = header.with_file_name(name);
        if partner.exists() {
            let file = load(&partner)?;
            // The header of a part names files in its turn.
            if ending(&partner) == "hea" {
                let more = named_files(&file).into_iter().filter(|name| !named.contains(name));
                named.extend(more.collect::<Vec<_>>());
            }
            files.push(file);
        }
        next += 1;
    }
    for annotations in annotation_files(&header, &named) {
        files.push(load(&annotations)?);
    }
    Ok(files)
}

/// The files beside a header that have its name, in the order of their endings.
fn annotation_files(header: &Path, named: &[String]) -> Vec<PathBuf> {
    let folder = header.parent().filter(|folder| !folder.as_os_str().is_empty());
    let entries = std::fs::read_dir(folder.unwrap_or_else(|| Path::new("."))).into_iter().flatten();
    let mut found: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.file_stem() == header.file_stem() && path.is_file())
        .filter(|path| ending(path) != "hea" && !NOT_ANNOTATIONS.contains(&ending(path).as_str()))
        .filter(|path| !named.contains(&name(path)))
        .collect();
    found.sort();
    found
}

/// Reads a file, unless it is too large.
fn load(path: &Path) -> Result<SourceFile, String> {
    let cannot = |error: std::io::Error| format!("{} can't be opened: {error}", path.display());
    let size = std::fs::metadata(path).map_err(cannot)?.len();
    if size > LARGEST_FILE {
        let (megabytes, most) = (size >> 20, LARGEST_FILE >> 20);
        return Err(format!(
            "{} has {megabytes} MB; at most {most} MB can be read. Export a shorter part",
            path.display()
        ));
    }
    Ok(SourceFile { name: name(path), bytes: std::fs::read(path).map_err(cannot)? })
}

fn name(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

fn ending(path: &Path) -> String {
    path.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase()).unwrap_or_default()
}
