//! Work kept in this browser, so that a reload or a closed lid loses nothing.
//!
//! One object store. Each tab has a shelf of its own in it, with a drawer each for the recording (written once
//! per opened file, its samples as numbers beside the text) and the work on it (small, written at each change), one for the reading before, so that
//! opening another file loses no work, two likewise for an investigation and for homework, and one for what is
//! being marked. What the student should not have to say twice lies beside the shelves: how files of a shape
//! are read, the scale of the sensor, and the language. Nothing else is stored anywhere.

use super::shelf::Shelf;
use beatwalk::report::SavedRecording;
use idb::{
    Database, DatabaseEvent, Error, Factory, ObjectStoreParams, Transaction, TransactionMode,
};
use js_sys::{Array, Float32Array};
use std::collections::BTreeSet;
use wasm_bindgen::{JsCast, JsValue};

const DATABASE: &str = "beatwalk";
const STORE: &str = "work";

/// One thing that is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
    /// What a teacher set.
    Assignment,
    /// What the student did of it.
    Homework,
    /// The recordings that the student brought to it.
    Brought,
    /// Which of its recordings lies on the desk.
    HomeworkAt,
    /// What a teacher is about to set.
    Draft,
    /// The assignment whose hand-ins are being marked.
    MarkedFor,
    /// The hand-ins, as they were marked.
    Sheets,
    /// The teacher's points and comments.
    Marks,
}

impl Drawer {
    const fn name(self) -> &'static str {
        match self {
            Self::Recording => "recording",
            Self::Work => "work",
            Self::Replaced => "replaced",
            Self::Shapes => "shapes",
            Self::Scale => "scale",
            Self::Language => "language",
            Self::Bench => "bench",
            Self::Sheet => "sheet",
            Self::Assignment => "assignment",
            Self::Homework => "homework",
            Self::Brought => "brought",
            Self::HomeworkAt => "homework_at",
            Self::Draft => "draft",
            Self::MarkedFor => "marked_for",
            Self::Sheets => "sheets",
            Self::Marks => "marks",
        }
    }

    /// Whether it is the same for every tab.
    const fn is_shared(self) -> bool {
        matches!(self, Self::Shapes | Self::Scale | Self::Language)
    }
}

/// The storage of this browser, as one tab uses it.
#[derive(Clone)]
pub struct Store {
    database: std::rc::Rc<Database>,
    shelf: Shelf,
}

/// What a drawer holds: a text, with the samples of a recording beside it where they are no part of the text.
#[derive(Clone, Debug)]
pub struct Kept {
    /// The text.
    pub text: String,
    /// The samples beside it.
    pub samples: Option<Float32Array>,
}

impl From<String> for Kept {
    fn from(text: String) -> Self {
        Self { text, samples: None }
    }
}

impl Kept {
    fn to_value(&self) -> JsValue {
        let text = JsValue::from(&self.text);
        match &self.samples {
            None => text,
            Some(samples) => Array::of2(&text, samples).into(),
        }
    }

    fn of_value(value: &JsValue) -> Option<Self> {
        if let Some(parts) = value.dyn_ref::<Array>() {
            let samples = parts.get(1).dyn_into().ok()?;
            return Some(Self { text: parts.get(0).as_string()?, samples: Some(samples) });
        }
        value.as_string().map(Self::from)
    }

    /// All of it as one text.
    fn into_text(self) -> String {
        match self.samples {
            None => self.text,
            Some(samples) => SavedRecording::filled_in(&self.text, &samples.to_vec()),
        }
    }
}

/// What could not be written.
#[derive(Debug)]
pub struct NotKept;

impl Store {
    /// Opens the storage and takes a shelf in it for this tab.
    ///
    /// # Errors
    /// When the browser has none or denies it, as in some private windows.
    pub async fn open() -> Result<Self, Error> {
        let mut request = Factory::new()?.open(DATABASE, Some(1))?;
        request.on_upgrade_needed(|event| {
            if let Ok(database) = event.database() {
                // Fails when the store is there already, which is as good.
                let _ = database.create_object_store(STORE, ObjectStoreParams::new());
            }
        });
        let database = std::rc::Rc::new(request.await?);
        let store = Self { database, shelf: Shelf::default() };
        let shelf = Shelf::take(&store).await;
        Ok(Self { shelf, ..store })
    }

    /// Puts something into a drawer in place of what was there; an empty text empties the drawer.
    ///
    /// # Errors
    /// [`NotKept`] when the storage is full or was taken away; what was there before is there still.
    pub async fn put(&self, drawer: Drawer, kept: &Kept) -> Result<(), NotKept> {
        let key = self.key(drawer);
        self.change(|transaction| async move {
            let store = transaction.object_store(STORE)?;
            if kept.text.is_empty() {
                store.delete(idb::Query::Key(key))?.await?;
            } else {
                store.put(&kept.to_value(), Some(&key))?.await?;
            }
            Ok(transaction)
        })
        .await
    }

    /// What a drawer holds, as one text.
    pub async fn take(&self, drawer: Drawer) -> Result<Option<String>, Error> {
        Ok(self.take_apart(drawer).await?.map(Kept::into_text))
    }

    /// What a drawer holds, samples apart from the text when they were put there so.
    pub async fn take_apart(&self, drawer: Drawer) -> Result<Option<Kept>, Error> {
        let transaction = self.database.transaction(&[STORE], TransactionMode::ReadOnly)?;
        let held = transaction.object_store(STORE)?.get(self.key(drawer))?.await?;
        Ok(held.as_ref().and_then(Kept::of_value))
    }

    /// What a drawer holds; one that can't be opened is as good as empty.
    pub async fn text(&self, drawer: Drawer) -> Option<String> {
        self.take(drawer).await.ok().flatten()
    }

    /// Empties all drawers, those of other tabs too.
    ///
    /// # Errors
    /// [`NotKept`] when the storage was taken away.
    pub async fn clear(&self) -> Result<(), NotKept> {
        self.change(|transaction| async move {
            transaction.object_store(STORE)?.clear()?.await?;
            Ok(transaction)
        })
        .await
    }

    /// The other shelves with work on them that no tab has.
    pub async fn left_behind(&self) -> BTreeSet<Shelf> {
        let mut left = Shelf::left_behind(self).await;
        left.remove(&self.shelf);
        left
    }

    /// The shelves with work on them.
    pub(super) async fn filled_shelves(&self) -> Result<BTreeSet<Shelf>, Error> {
        let transaction = self.database.transaction(&[STORE], TransactionMode::ReadOnly)?;
        let keys = transaction.object_store(STORE)?.get_all_keys(None, None)?.await?;
        let shared = [Drawer::Shapes, Drawer::Scale, Drawer::Language].map(Drawer::name);
        let keys = keys.into_iter().filter_map(|key| key.as_string());
        let own = keys.filter(|key| !shared.contains(&key.as_str()));
        // To collect a set would sort it first, with a sort for this alone.
        let mut filled = BTreeSet::new();
        filled.extend(own.map(|key| Shelf::of_key(&key)));
        Ok(filled)
    }

    fn key(&self, drawer: Drawer) -> JsValue {
        match drawer.is_shared() {
            true => drawer.name().into(),
            false => self.shelf.key(drawer.name()).into(),
        }
    }

    /// A change is kept once its transaction is: storage that runs full lets each step pass and drops them all.
    async fn change<F>(&self, act: impl FnOnce(Transaction) -> F) -> Result<(), NotKept>
    where
        F: Future<Output = Result<Transaction, Error>>,
    {
        let begun = self.database.transaction(&[STORE], TransactionMode::ReadWrite);
        let ended = async { act(begun?).await?.commit()?.await }.await;
        if ended.is_ok_and(|ended| ended.is_committed()) { Ok(()) } else { Err(NotKept) }
    }
}
