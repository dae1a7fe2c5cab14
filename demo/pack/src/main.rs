//! Packs what Trunk built: seals the page, lists its files for the service worker, and makes the one-file page.
//!
//! Trunk runs it as the last step of each build (`Trunk.toml`) on its staging folder, so that `trunk build`
//! alone makes everything. `beatwalk-pack weigh FOLDER` tells what each file weighs on its way to a school
//! and fails when it is more than `weight.rs` allows. Each step fails rather than leave a page that is
//! half sealed: a file that is named but missing, an address that leads elsewhere, a script without a hash.

mod alike;
mod offline;
mod one_file;
mod order;
mod page;
mod policy;
mod weight;
mod words;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The one-file page, made beside the others and asked for by nobody.
const ONE_FILE: &str = "beatwalk.html";
const PAGE: &str = "index.html";
const SERVICE_WORKER: &str = "sw.js";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match words[..] {
        [] => match std::env::var_os("TRUNK_STAGING_DIR") {
            Some(folder) => pack(&PathBuf::from(folder)),
            None => {
                Err("there is no TRUNK_STAGING_DIR: this is a step of `trunk build`".to_owned())
            }
        },
        ["weigh", folder] => weigh(Path::new(folder)),
        _ => Err("either no argument, as a step of `trunk build`, or `weigh FOLDER`".to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("{fault}");
            ExitCode::FAILURE
        }
    }
}

fn pack(folder: &Path) -> Result<(), String> {
    for (name, bytes) in files_in(folder)?.iter().filter(|(name, _)| name.ends_with(".wasm")) {
        let path = folder.join(name);
        fs::write(&path, order::ordered(bytes)?)
            .map_err(|fault| format!("{}: {fault}", path.display()))?;
    }
    let words = words::files()?;
    for (name, text) in &words {
        write(&folder.join(name), text)?;
    }
    let built = words::named_in(&read_text(&folder.join(PAGE))?, &words)?;
    let text_of = |name: &str| read_text(&folder.join(name));
    let bytes_of = |name: &str| read(&folder.join(name));
    let one_file = one_file::made_from(&built, text_of, bytes_of)?;
    write(&folder.join(PAGE), &policy::seal(&built, policy::hosted)?)?;
    let files = files_in(folder)?;
    let listed = files.iter().filter(|(name, _)| name != ONE_FILE && name != SERVICE_WORKER);
    write(&folder.join(SERVICE_WORKER), &offline::service_worker(listed))?;
    write(&folder.join(ONE_FILE), &one_file)
}

#[allow(clippy::print_stdout, reason = "it is asked for the table")]
fn weigh(folder: &Path) -> Result<(), String> {
    let scale = weight::Scale::of(files_in(folder)?)?;
    print!("{}", scale.table());
    let over = scale.over();
    if over.is_empty() { Ok(()) } else { Err(over.join("\n")) }
}

/// The files below a folder with their names from there, in the order of their names.
fn files_in(folder: &Path) -> Result<Vec<(String, Vec<u8>)>, String> {
    let mut found = Vec::new();
    let mut folders = vec![(folder.to_owned(), String::new())];
    while let Some((path, prefix)) = folders.pop() {
        let entries =
            fs::read_dir(&path).map_err(|fault| format!("{}: {fault}", path.display()))?;
        for entry in entries {
            let entry = entry.map_err(|fault| format!("{}: {fault}", path.display()))?;
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                folders.push((entry.path(), format!("{name}/")));
            } else {
                found.push((name, read(&entry.path())?));
            }
        }
    }
    found.sort();
    Ok(found)
}

fn read(path: &Path) -> Result<Vec<u8>, String> {
    fs::read(path).map_err(|fault| format!("{}: {fault}", path.display()))
}

fn read_text(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|fault| format!("{}: {fault}", path.display()))
}

fn write(path: &Path, text: &str) -> Result<(), String> {
    fs::write(path, text).map_err(|fault| format!("{}: {fault}", path.display()))
}
