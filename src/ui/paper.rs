//! The page as it will be printed: chosen paper, shown on the screen by the very rules that print it.

use super::state::App;
use crate::ui::reactive::follow;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// A sheet of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    A4,
    /// 8.5 in by 11 in (ANSI Y14.1).
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// The name used in message keys and classes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// What printers of the browser's region hold: Letter in North America, A4 elsewhere. Common practice.
    fn usual() -> Self {
        let tag = web_sys::window().and_then(|window| window.navigator().language());
        let letter = |tag: String| ["-US", "-CA", "-MX"].iter().any(|end| tag.ends_with(end));
        if tag.is_some_and(letter) { Self::Letter } else { Self::A4 }
    }
}

impl App {
    /// Shows the page as it will be printed.
    pub fn preview(self) {
        self.paper.set(Some(Paper::usual()));
    }

    /// Lays the rules of paper over the page while it is previewed.
    pub fn show_paper(self) {
        follow(move || {
            let Some(document) = web_sys::window().and_then(|window| window.document()) else {
                return;
            };
            let paper = self.paper.get();
            if let Some(style) = document.get_element_by_id("on-paper") {
                let media = if paper.is_some() { "all" } else { "print" };
                let _ = style.set_attribute("media", media);
            }
            let root = document.document_element().and_then(|it| it.dyn_into::<HtmlElement>().ok());
            let Some(root) = root else { return };
            let classes = root.class_list();
            if paper.is_some() && !classes.contains("paper") {
                // A sheet is read from its top.
                root.set_scroll_top(0);
            }
            let _ = classes.toggle_with_force("paper", paper.is_some());
            for one in Paper::ALL {
                let _ =
                    classes.toggle_with_force(&format!("paper--{}", one.key()), paper == Some(one));
            }
        });
    }
}
