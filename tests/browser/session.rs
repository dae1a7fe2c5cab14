//! A lesson from end to end, in any language: what the tests of sealing and of working offline go through.

use crate::investigate::take_by;
use crate::visit::{Part, Visit};
use beatwalk::words::{Language, say};

/// The page in one language.
pub(crate) struct Session<'a> {
    visit: &'a Visit,
    language: Language,
}

impl<'a> Session<'a> {
    /// Has the page speak a language, which is not the one it speaks now unless that is English.
    pub(crate) fn begin(visit: &'a Visit, language: Language) -> Self {
        let choice = visit.find_any("combobox");
        if choice.value() != language.tag() {
            choice.choose(language.own_name());
        }
        let session = Self { visit, language };
        session.wait_for("page.teaching");
        session
    }

    /// Opens the first invented recording, and waits until its beats are found: the worker did that.
    pub(crate) fn read_beats(&self) {
        self.button("page.screen.open").click();
        self.visit.find_containing("button", &self.say("demo.resting.name")).click();
        self.visit.wait_for_text(&format!("{}\n32", self.say("page.see.beats_found")));
    }

    /// Walks a step, looks at the results, and takes the work along as a file.
    pub(crate) fn walk_and_save(&self) {
        self.button("page.screen.walk").click();
        self.wait_for("page.walk.choose_title");
        self.button("page.walk.next").click();
        self.visit.find_any("slider");
        self.button("page.screen.results").click();
        self.wait_for("page.results.typical");
        let name = "quillmere-10k-q03-resting.beatwalk.json";
        let saved = self.visit.downloaded(name, || {
            self.button("page.results.save_work").click();
        });
        let saved: serde_json::Value = serde_json::from_slice(&saved).unwrap();
        assert_eq!(saved["beatwalk"], "reading");
    }

    /// Compares two conditions, and looks at the class desk.
    pub(crate) fn investigate(&self) {
        self.button("page.screen.open").click();
        self.button("bench.title").click();
        let title = self.say("conditions.protocol.title");
        self.visit.find_containing("button", &title).click();
        take_by(self.visit, &self.say("bench.seat.demo"), 2);
        self.wait_for("bench.each_beat");
        self.button("bench.others").click();
        self.visit.find_containing("button", &self.say("class.title")).click();
        self.button("class.pick");
    }

    pub(crate) fn wait_for(&self, key: &str) {
        self.visit.wait_for_text(&self.say(key));
    }

    pub(crate) fn button(&self, key: &str) -> Part<'a> {
        self.visit.find("button", &self.say(key))
    }

    fn say(&self, key: &str) -> String {
        say(self.language, key).into_owned()
    }
}

/// Waits until the browser keeps the whole page.
pub(crate) fn wait_until_kept(visit: &Visit) {
    visit.wait_for_text(&say(Language::English, "page.offline.whole"));
}
