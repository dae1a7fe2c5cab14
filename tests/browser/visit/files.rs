//! Files that come in by drop, by picker and by clipboard, and files that go out.

use super::{Point, Visit};
use serde_json::json;
use std::path::{Path, PathBuf};

impl Visit {
    /// Drops files from the disk onto a place of the page, as the browser itself does it.
    pub(crate) fn drop_files(&self, place: Point, files: &[&Path]) {
        let files: Vec<PathBuf> =
            files.iter().map(|file| file.canonicalize().expect("a file to drop")).collect();
        let data = json!({ "items": [], "files": files, "dragOperationsMask": 1 });
        for kind in ["dragEnter", "dragOver", "drop"] {
            let event = json!({ "type": kind, "x": place.x, "y": place.y, "data": data });
            self.command("Input.dispatchDragEvent", event);
        }
    }

    /// Drops files that a test has made up.
    pub(crate) fn drop_bytes(&self, place: Point, files: &[(&str, &[u8])]) {
        let written: Vec<PathBuf> =
            files.iter().map(|(name, bytes)| self.write_file(name, bytes)).collect();
        self.drop_files(place, &written.iter().map(PathBuf::as_path).collect::<Vec<_>>());
    }

    /// Chooses files in the page's file picker.
    pub(crate) fn choose_files(&self, files: &[&Path]) {
        let names: Vec<String> = files
            .iter()
            .map(|file| file.canonicalize().expect("a file to choose").display().to_string())
            .collect();
        self.select("input[type=file]").keys(names.join("\n").as_str());
    }

    /// Pastes a text with Control and v, wherever the keyboard is.
    pub(crate) fn paste(&self, text: &str) {
        self.command(
            "Browser.grantPermissions",
            json!({ "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] }),
        );
        // Only a page that has the focus may; a browser without a window gives it to none by itself.
        self.command("Emulation.setFocusEmulationEnabled", json!({ "enabled": true }));
        self.run("return navigator.clipboard.writeText(arguments[0])", vec![json!(text)]);
        self.press_with(thirtyfour::Key::Control, 'v');
    }

    /// Lets the page save files, and gives what it has saved by then under a name.
    pub(crate) fn downloaded(&self, name: &str, save: impl FnOnce()) -> Vec<u8> {
        let folder = self.chromium.files().join("saved");
        std::fs::create_dir_all(&folder).unwrap();
        self.command(
            "Browser.setDownloadBehavior",
            json!({ "behavior": "allow", "downloadPath": folder }),
        );
        save();
        let path = folder.join(name);
        // The browser writes under another name and renames the file when it is whole; until then an empty one may
        // stand for it.
        let whole = || std::fs::read(&path).ok().filter(|bytes| !bytes.is_empty());
        self.wait_for(&format!("the file {name}"), whole)
    }

    fn write_file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.chromium.files().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }
}
