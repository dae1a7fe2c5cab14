//! Work kept in this browser, so that a reload or a closed lid loses nothing.
//!
//! One object store with a drawer each for the recording (written once per opened file) and the
//! work on it (small, written at each change), one for the reading before, so that opening another
//! file loses no work, two likewise for an investigation, and one each for what the student should not have to
//! say twice: how files of a shape are read, the scale of the sensor, and the language. Nothing else is
//! stored anywhere.

use idb::{Database, DatabaseEvent, Error, Factory, ObjectStoreParams, TransactionMode};
use wasm_bindgen::JsValue;

const DATABASE: &str = "beatwalk";
const SHELF: &str = "work";

/// One thing that is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawer {
    /// The recording that is open.
    Recording,
    /// What the student did with it.
    Work,
    /// The whole reading that was open before, when there was work in it.
    Replaced,
    /// How text files of a known shape are read.
    Shapes,
    /// What was filled in last for the scale of a sensor.
    Scale,
    /// The language the student chose.
    Language,
    /// The recordings of an investigation.
    Bench,
    /// What was chosen and written in it.
    Sheet,
}

impl Drawer {
    fn key(self) -> JsValue {
        match self {
            Self::Recording => "recording".into(),
            Self::Work => "work".into(),
            Self::Replaced => "replaced".into(),
            Self::Shapes => "shapes".into(),
            Self::Scale => "scale".into(),
            Self::Language => "language".into(),
            Self::Bench => "bench".into(),
            Self::Sheet => "sheet".into(),
        }
    }
}

/// The storage of this browser.
#[derive(Clone)]
pub struct Store(std::rc::Rc<Database>);

impl Store {
    /// Opens the storage.
    ///
    /// # Errors
    /// When the browser has none or denies it, as in some private windows.
    pub async fn open() -> Result<Self, Error> {
        let mut request = Factory::new()?.open(DATABASE, Some(1))?;
        request.on_upgrade_needed(|event| {
            if let Ok(database) = event.database() {
                // Fails when the shelf is there already, which is as good.
                let _ = database.create_object_store(SHELF, ObjectStoreParams::new());
            }
        });
        Ok(Self(std::rc::Rc::new(request.await?)))
    }

    /// Puts a text into a drawer in place of what was there.
    pub async fn put(&self, drawer: Drawer, text: &str) -> Result<(), Error> {
        let transaction = self.0.transaction(&[SHELF], TransactionMode::ReadWrite)?;
        transaction.object_store(SHELF)?.put(&text.into(), Some(&drawer.key()))?.await?;
        transaction.commit()?.await?;
        Ok(())
    }

    /// What a drawer holds.
    pub async fn take(&self, drawer: Drawer) -> Result<Option<String>, Error> {
        let transaction = self.0.transaction(&[SHELF], TransactionMode::ReadOnly)?;
        let held = transaction.object_store(SHELF)?.get(drawer.key())?.await?;
        Ok(held.and_then(|value| value.as_string()))
    }

    /// Empties all drawers.
    pub async fn clear(&self) -> Result<(), Error> {
        let transaction = self.0.transaction(&[SHELF], TransactionMode::ReadWrite)?;
        transaction.object_store(SHELF)?.clear()?.await?;
        transaction.commit()?.await?;
        Ok(())
    }
}
