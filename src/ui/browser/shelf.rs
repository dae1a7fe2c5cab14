//! Which shelf of the kept work is this tab's: two tabs never write over each other.
//!
//! A tab holds a lock of the browser on its shelf for as long as it lives, and the number of the shelf stays
//! with the tab through a reload. A new tab takes the first shelf that is free and has work on it, else the
//! first empty one. Where the browser has no locks there is one shelf for all.

use super::store::Store;
use js_sys::{Array, Function, Object, Promise, Reflect};
use std::collections::BTreeSet;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::AbortSignal;

/// The number of a shelf, the first being 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shelf(u32);

/// Under what name a tab remembers its shelf.
const REMEMBERED: &str = "beatwalk-shelf";
/// How long a tab waits for its own shelf, ms.
const PATIENCE: u32 = 500;

/// When a shelf is wanted.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wish {
    /// At once or not at all.
    Now,
    /// Within [`PATIENCE`]: the page before in this tab lets go of it late. Some browsers keep that page, lock and
    /// all, should the student go back to it, and only give it up once somebody waits for its lock.
    Soon,
}

impl Shelf {
    /// The shelf whose number is written at the start of a key; the first writes none.
    pub(super) fn of_key(key: &str) -> Self {
        Self(key.split_once('/').and_then(|(number, _)| number.parse().ok()).unwrap_or_default())
    }

    /// What a drawer of this shelf is called.
    pub(super) fn key(self, drawer: &str) -> String {
        match self.0 {
            0 => drawer.to_owned(),
            number => format!("{number}/{drawer}"),
        }
    }

    fn lock(self) -> String {
        format!("beatwalk-shelf-{}", self.0)
    }

    /// Takes a shelf for this tab, and holds it as long as the tab lives.
    pub async fn take(store: &Store) -> Self {
        let Some(locks) = locks() else { return Self::default() };
        if let Some(own) = remembered()
            && own.hold(&locks, Wish::Soon).await
        {
            return own;
        }
        let filled = store.filled_shelves().await.unwrap_or_default();
        let highest = filled.last().map_or(0, |shelf| shelf.0);
        let others = (0..).map(Self).filter(|shelf| !filled.contains(shelf));
        // One empty shelf is free for certain: there are not so many tabs.
        let few = others.take(highest as usize + 100);
        for shelf in filled.iter().copied().chain(few) {
            if shelf.hold(&locks, Wish::Now).await {
                shelf.remember();
                return shelf;
            }
        }
        Self::default()
    }

    /// The shelves with work on them that no tab has: left behind by a tab that was closed.
    pub async fn left_behind(store: &Store) -> BTreeSet<Self> {
        let mut left = store.filled_shelves().await.unwrap_or_default();
        let held = held().await.unwrap_or_default();
        left.retain(|shelf| !held.contains(&shelf.lock()));
        left
    }

    /// Makes this the shelf that the tab takes when it is loaded again.
    pub fn remember(self) {
        if let Some(session) = session() {
            let _ = session.set_item(REMEMBERED, &self.0.to_string());
        }
    }

    /// Whether the lock on this shelf is ours now; it is never given back.
    async fn hold(self, locks: &JsValue, wish: Wish) -> bool {
        let name = self.lock();
        let asked = Promise::new(&mut |answer, failed| {
            let hear = Closure::once_into_js(move |lock: JsValue| {
                let ours = !lock.is_null();
                let _ = answer.call1(&JsValue::UNDEFINED, &ours.into());
                // The lock is held until what is given back here comes to an end.
                if ours { Promise::new(&mut |_, _| {}).into() } else { JsValue::UNDEFINED }
            });
            let options = Object::new();
            let _ = match wish {
                Wish::Now => Reflect::set(&options, &"ifAvailable".into(), &true.into()),
                Wish::Soon => {
                    let signal = AbortSignal::timeout_with_u32(PATIENCE);
                    Reflect::set(&options, &"signal".into(), &signal)
                }
            };
            let asked = method(locks, "request")
                .and_then(|request| request.call3(locks, &name.as_str().into(), &options, &hear));
            // Patience that ran out is told by the promise of the request.
            let _ = asked.and_then(|asked| method(&asked, "catch")?.call1(&asked, &failed));
        });
        JsFuture::from(asked).await.is_ok_and(|ours| ours.is_truthy())
    }
}

/// The names of the locks that tabs hold.
async fn held() -> Option<Vec<String>> {
    let locks = locks()?;
    let asked: Promise = method(&locks, "query").ok()?.call0(&locks).ok()?.dyn_into().ok()?;
    let answer = JsFuture::from(asked).await.ok()?;
    let held: Array = Reflect::get(&answer, &"held".into()).ok()?.dyn_into().ok()?;
    let name = |lock: JsValue| Reflect::get(&lock, &"name".into()).ok()?.as_string();
    Some(held.iter().filter_map(name).collect())
}

/// The browser's locks, by name: the bindings have them only among what may change.
fn locks() -> Option<JsValue> {
    let navigator = web_sys::window()?.navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    locks.is_object().then_some(locks)
}

fn method(of: &JsValue, name: &str) -> Result<Function, JsValue> {
    Reflect::get(of, &name.into())?.dyn_into()
}

fn session() -> Option<web_sys::Storage> {
    web_sys::window()?.session_storage().ok()?
}

fn remembered() -> Option<Shelf> {
    session()?.get_item(REMEMBERED).ok()??.parse().ok().map(Shelf)
}
