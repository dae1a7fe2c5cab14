//! What comes out of the printer, and how the browser's owner wants pages to behave.

use super::Visit;
use super::screen::scratch;
use base64::Engine;
use serde_json::{Value, json};

/// Paper of a school's printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Paper {
    A4,
    Letter,
}

impl Paper {
    /// All of them.
    pub(crate) const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Width and height in inches: ISO 216 and ANSI/ASME Y14.1.
    const fn inches(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0 / 25.4, 297.0 / 25.4),
            Self::Letter => (8.5, 11.0),
        }
    }
}

impl Visit {
    /// Prints the page as a PDF and counts its sheets. The file is left among what was built, to look at.
    pub(crate) fn sheets(&self, name: &str, paper: Paper) -> usize {
        let (width, height) = paper.inches();
        let how = json!({ "paperWidth": width, "paperHeight": height, "printBackground": false });
        let pdf = self.pdf(&format!("{name}-{paper:?}"), how);
        let text = String::from_utf8_lossy(&pdf);
        text.matches("/Type /Page").count() - text.matches("/Type /Pages").count()
    }

    /// The page as a PDF on the paper that the page itself asks for; left among what was built, to look at.
    pub(crate) fn printed(&self, name: &str) -> Vec<u8> {
        self.pdf(name, json!({ "preferCSSPageSize": true, "printBackground": false }))
    }

    fn pdf(&self, name: &str, how: Value) -> Vec<u8> {
        let printed = self.command("Page.printToPDF", how);
        let coded = printed["data"].as_str().expect("a printed page");
        let pdf = base64::engine::general_purpose::STANDARD.decode(coded).expect("a PDF");
        std::fs::create_dir_all(scratch()).unwrap();
        std::fs::write(scratch().join(format!("{name}.pdf")), &pdf).unwrap();
        pdf
    }

    /// Shows the page as it would be printed, or as on a screen again.
    pub(crate) fn as_printed(&self, printed: bool) {
        let media = if printed { "print" } else { "" };
        self.command("Emulation.setEmulatedMedia", json!({ "media": media }));
    }

    /// Says whether the owner of the browser asked for less motion.
    pub(crate) fn prefer_less_motion(&self, less: bool) {
        let value = if less { "reduce" } else { "no-preference" };
        let features = json!([{ "name": "prefers-reduced-motion", "value": value }]);
        self.command("Emulation.setEmulatedMedia", json!({ "features": features }));
    }
}
