//! Screens a class has, a slow machine, and pictures of what is on them.

use super::Visit;
use base64::Engine;
use serde_json::json;
use std::path::{Path, PathBuf};

/// The screens a class has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Screen {
    /// A small laptop, 1366 x 768.
    Laptop,
    /// A teacher's projector, 1920 x 1080.
    Projector,
    /// A phone, 400 points wide and twice as sharp, touched.
    Phone,
}

impl Screen {
    /// All of them.
    pub(crate) const ALL: [Self; 3] = [Self::Laptop, Self::Projector, Self::Phone];

    /// The name in the names of pictures.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Laptop => "laptop",
            Self::Projector => "projector",
            Self::Phone => "phone",
        }
    }

    const fn size(self) -> (u32, u32, u32) {
        match self {
            Self::Laptop => (1366, 768, 1),
            Self::Projector => (1920, 1080, 1),
            Self::Phone => (400, 800, 2),
        }
    }
}

impl Visit {
    /// Goes on on another screen.
    pub(crate) fn use_screen(&self, screen: Screen) {
        let (width, height, sharpness) = screen.size();
        let touched = screen == Screen::Phone;
        self.command(
            "Emulation.setDeviceMetricsOverride",
            json!({ "width": width, "height": height, "deviceScaleFactor": sharpness, "mobile": touched }),
        );
        self.command(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": touched, "maxTouchPoints": 5 }),
        );
    }

    /// Makes the machine so many times slower, as a cheap laptop is.
    pub(crate) fn slow_down(&self, times: f64) {
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": times }));
    }

    /// Takes a picture of the screen for README.md, kept only with `BEATWALK_PICTURES=1`.
    pub(crate) fn picture(&self, name: &str) {
        if std::env::var_os("BEATWALK_PICTURES").is_some() {
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/images");
            self.picture_in(&folder, name);
        } else {
            self.sketch(name);
        }
    }

    /// Takes a picture of the screen to look at; it is left among what was built.
    pub(crate) fn sketch(&self, name: &str) {
        self.picture_in(&scratch(), name);
    }

    /// Takes a picture of all of the page, as far as it goes below the screen.
    pub(crate) fn sketch_whole(&self, name: &str) {
        self.settle();
        let taken =
            self.command("Page.captureScreenshot", json!({ "captureBeyondViewport": true }));
        let coded = taken["data"].as_str().expect("a picture");
        let picture = base64::engine::general_purpose::STANDARD.decode(coded).expect("a PNG");
        std::fs::create_dir_all(scratch()).unwrap();
        std::fs::write(scratch().join(format!("{name}.png")), picture).unwrap();
    }

    /// Fonts and canvases have been drawn once two frames have gone by.
    pub(super) fn settle(&self) {
        self.run(
            "return new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))",
            Vec::new(),
        );
    }

    fn picture_in(&self, folder: &Path, name: &str) {
        self.settle();
        self.save_picture(&folder.join(format!("{name}.png"))).expect("a picture");
    }

    /// Leaves a picture behind when a test fails, and says where. Never panics: that would hide
    /// the fault itself.
    pub(super) fn leave_a_picture_of_the_fault(&self) {
        let name = std::thread::current().name().unwrap_or("test").replace("::", "-");
        let path = scratch().join(format!("failed-{name}.png"));
        if self.save_picture(&path).is_ok() {
            eprintln!("the screen at that moment: {}", path.display());
        }
    }

    fn save_picture(&self, path: &Path) -> Result<(), Box<dyn std::error::Error>> {
        let picture = self.chromium.wait(self.chromium.driver().screenshot_as_png())?;
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        Ok(std::fs::write(path, picture)?)
    }
}

pub(super) fn scratch() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("browser")
}
