//! Finds parts of the page as assistive technology does: by role and accessible name.
//!
//! The browser's own accessibility tree is asked, so what is found here has a role and a name for a
//! screen reader too. Roles are those of WAI-ARIA, such as `button`, `textbox`, `slider`, `row`.

use super::{Point, Visit};
use serde_json::{Value, json};
use thirtyfour::{Key, WebElement};

/// A part of the page.
pub(crate) struct Part<'a> {
    visit: &'a Visit,
    element: WebElement,
}

impl Visit {
    /// The one part with a role and a name, as soon as it is there. Spaces in the name don't count.
    pub(crate) fn find(&self, role: &str, name: &str) -> Part<'_> {
        self.find_where(role, &format!("{name:?}"), |found| same_words(found, name))
    }

    /// The first part with a role whose name contains some words.
    pub(crate) fn find_containing(&self, role: &str, words: &str) -> Part<'_> {
        self.find_where(role, &format!("…{words}…"), |found| found.contains(words))
    }

    /// The first part with a role, whatever its name.
    pub(crate) fn find_any(&self, role: &str) -> Part<'_> {
        self.find_where(role, "of any name", |_| true)
    }

    /// The names of all parts with a role, in the order of the page.
    pub(crate) fn names(&self, role: &str) -> Vec<String> {
        self.parts_with(role).into_iter().map(|(name, _)| name).collect()
    }

    /// Whether there is no such part now.
    pub(crate) fn is_absent(&self, role: &str, name: &str) -> bool {
        !self.names(role).iter().any(|found| same_words(found, name))
    }

    /// The part that has the keyboard.
    pub(crate) fn focused(&self) -> Part<'_> {
        let element = self.chromium.wait(self.chromium.driver().active_element()).unwrap();
        Part { visit: self, element }
    }

    /// The first part that matches a CSS selector, for what has no role of its own.
    pub(super) fn select(&self, selector: &str) -> Part<'_> {
        let element = self.wait_for(selector, || {
            let look = self.chromium.driver().find(thirtyfour::By::Css(selector));
            self.chromium.wait(look).ok()
        });
        Part { visit: self, element }
    }

    fn find_where(&self, role: &str, sought: &str, fits: impl Fn(&str) -> bool) -> Part<'_> {
        let mut seen = Vec::new();
        let began = std::time::Instant::now();
        loop {
            let parts = self.parts_with(role);
            let found = parts.iter().find(|(name, _)| fits(name)).map(|(_, node)| *node);
            if let Some(element) = found.and_then(|node| self.element_of(node)) {
                return Part { visit: self, element };
            }
            seen.clear();
            seen.extend(parts.into_iter().map(|(name, _)| name));
            assert!(began.elapsed() < super::PATIENCE, "no {role} {sought}; there are {seen:?}");
            std::thread::sleep(std::time::Duration::from_millis(50));
        }
    }

    /// Name and DOM node of every part with a role.
    fn parts_with(&self, role: &str) -> Vec<(String, u64)> {
        // Chromium calls the role `img` by another name of its own.
        let role = if role == "img" { "image" } else { role };
        // It has no answer while the page is being exchanged for another.
        let tree = self.wait_for("the parts of the page", || {
            let document = self.command("DOM.getDocument", json!({ "depth": 0 }));
            let root = &document["root"]["nodeId"];
            self.try_command("Accessibility.queryAXTree", json!({ "nodeId": root, "role": role }))
                .ok()
        });
        let nodes = tree["nodes"].as_array().cloned().unwrap_or_default();
        nodes
            .iter()
            .filter(|node| node["ignored"] != true)
            .filter_map(|node| {
                let name = node["name"]["value"].as_str().unwrap_or_default().to_owned();
                Some((name, node["backendDOMNodeId"].as_u64()?))
            })
            .collect()
    }

    /// Hands a node from the developer tools to WebDriver; `None` when it has gone in the meantime.
    fn element_of(&self, node: u64) -> Option<WebElement> {
        let tools =
            thirtyfour::extensions::cdp::ChromeDevTools::new(self.chromium.driver().handle.clone());
        let resolve =
            tools.execute_cdp_with_params("DOM.resolveNode", json!({ "backendNodeId": node }));
        let object = self.chromium.wait(resolve).ok()?["object"]["objectId"].clone();
        self.command(
            "Runtime.callFunctionOn",
            json!({ "objectId": object, "functionDeclaration": "function() { window.foundByTest = this; }" }),
        );
        let script = self.chromium.driver().execute("return window.foundByTest", Vec::new());
        self.chromium.wait(script).ok()?.element().ok()
    }
}

fn same_words(a: &str, b: &str) -> bool {
    a.split_whitespace().eq(b.split_whitespace())
}

impl Part<'_> {
    /// Clicks in its middle.
    pub(crate) fn click(&self) -> &Self {
        self.visit.chromium.wait(self.element.click()).expect("it can be clicked");
        self
    }

    /// The text it shows.
    pub(crate) fn text(&self) -> String {
        self.visit.chromium.wait(self.element.text()).unwrap()
    }

    /// What stands in it, for what can be filled in.
    pub(crate) fn value(&self) -> String {
        self.visit.chromium.wait(self.element.value()).unwrap().unwrap_or_default()
    }

    /// An attribute, such as `aria-pressed`.
    pub(crate) fn attribute(&self, name: &str) -> Option<String> {
        self.visit.chromium.wait(self.element.attr(name.to_owned())).unwrap()
    }

    /// Whether it can be used.
    pub(crate) fn is_enabled(&self) -> bool {
        self.visit.chromium.wait(self.element.is_enabled()).unwrap()
    }

    /// Empties it and types a text.
    pub(crate) fn fill(&self, text: &str) -> &Self {
        self.visit.chromium.wait(self.element.clear()).expect("it can be emptied");
        self.keys(text)
    }

    /// Gives it the keyboard and presses a key.
    pub(crate) fn press(&self, key: Key) -> &Self {
        self.keys(key)
    }

    /// Chooses an entry of a list by its text.
    pub(crate) fn choose(&self, entry: &str) -> &Self {
        let script = "const [list, text] = arguments;
            const entry = [...list.options].find(o => o.text.trim() === text);
            if (!entry) return [...list.options].map(o => o.text);
            list.value = entry.value;
            list.dispatchEvent(new Event('input', { bubbles: true }));
            list.dispatchEvent(new Event('change', { bubbles: true }));
            return null;";
        let others = self.visit.run(script, vec![self.element.to_json().unwrap(), json!(entry)]);
        assert!(others.is_null(), "no entry {entry:?}; there are {others}");
        self
    }

    /// A point in it: (0, 0) is the top left corner, (1, 1) the bottom right.
    pub(crate) fn at(&self, across: f64, down: f64) -> Point {
        let script = "arguments[0].scrollIntoView({ block: 'nearest' });
            const box = arguments[0].getBoundingClientRect();
            return [box.x, box.y, box.width, box.height];";
        let found = self.visit.run(script, vec![self.element.to_json().unwrap()]);
        let number = |i: usize| found.get(i).and_then(Value::as_f64).unwrap();
        Point { x: number(0) + across * number(2), y: number(1) + down * number(3) }
    }

    /// What a piece of JavaScript returns for it; it is `arguments[0]`.
    pub(crate) fn run(&self, script: &str) -> Value {
        self.visit.run(script, vec![self.element.to_json().unwrap()])
    }

    pub(super) fn keys(&self, keys: impl Into<thirtyfour::TypingData>) -> &Self {
        self.visit.chromium.wait(self.element.send_keys(keys)).expect("it takes keys");
        self
    }
}
