//! What Chromium's own tracing tells of a visit: how long the page's thread was at each task, and how often it
//! drew.
//!
//! The browser writes the trace while it runs and ends it when it is closed. Moments of the page come into it by
//! `performance.mark`.

use super::Visit;
use serde_json::Value;
use std::path::Path;

/// What is traced: the tasks of each thread, the steps of drawing, the marks of the page.
const CATEGORIES: &str = "toplevel,devtools.timeline,blink.user_timing";

/// The options that have a browser write a trace into a file.
pub(super) fn options(file: &Path) -> [String; 4] {
    [
        format!("--trace-startup={CATEGORIES}"),
        format!("--trace-startup-file={}", file.display()),
        "--trace-startup-format=json".to_owned(),
        // Until the browser is closed.
        "--trace-startup-duration=0".to_owned(),
    ]
}

/// The events of the page's thread, and of nothing else.
pub(crate) struct Trace(Vec<Value>);

impl Visit {
    /// Opens Beatwalk in a browser that traces itself.
    pub(crate) fn to_beatwalk_traced() -> Self {
        let visit = Self::prepared_with(super::Content::Folder(super::built()), &[], true);
        visit.go_to_the_page();
        visit
    }

    /// Ends the visit; its trace.
    pub(crate) fn trace(mut self) -> Trace {
        self.chromium.close();
        let file = self.chromium.trace();
        let text = std::fs::read_to_string(&file).expect("Chromium wrote its trace");
        let mut all: Value = serde_json::from_str(&text).expect("the trace is JSON");
        let Value::Array(mut events) = all["traceEvents"].take() else { panic!("no events") };
        // The thread of the page is the one that has the marks.
        let thread = |event: &Value| (event["pid"].as_u64(), event["tid"].as_u64());
        let marked = events.iter().find(|event| {
            let kind = event["cat"].as_str().unwrap_or_default();
            kind.contains("blink.user_timing") && event["name"].as_str() == Some(MEASURED_FROM)
        });
        let page = thread(marked.expect("the page has marks"));
        events.retain(|event| thread(event) == page);
        Trace(events)
    }
}

/// The mark where measuring begins, and where it ends.
pub(crate) const MEASURED_FROM: &str = "measured from here";
pub(crate) const MEASURED_TO: &str = "measured to here";

impl Trace {
    /// The longest task of the page's thread between the two marks, ms.
    pub(crate) fn longest_task(&self) -> f64 {
        let tasks = self.between("ThreadControllerImpl::RunTask");
        tasks.filter_map(|task| task["dur"].as_f64()).fold(0.0, f64::max) / 1e3
    }

    /// How many frames the page drew in a second between the two marks.
    pub(crate) fn frames_per_second(&self) -> f64 {
        let (begin, end) = self.marks();
        let begun =
            self.between("AnimationFrame").filter(|event| event["ph"].as_str() == Some("b"));
        begun.count() as f64 / (end - begin) * 1e6
    }

    /// The events of this name that began between the two marks or ended there.
    fn between<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a Value> {
        let (begin, end) = self.marks();
        self.0.iter().filter(move |event| {
            let began = event["ts"].as_f64().unwrap_or_default();
            let ended = began + event["dur"].as_f64().unwrap_or_default();
            event["name"].as_str() == Some(name) && ended > begin && began < end
        })
    }

    /// When the two marks were made, µs.
    fn marks(&self) -> (f64, f64) {
        let at = |name: &str| {
            let mark = self.0.iter().find(|event| event["name"].as_str() == Some(name));
            mark.and_then(|mark| mark["ts"].as_f64()).unwrap_or_else(|| panic!("no mark {name:?}"))
        };
        (at(MEASURED_FROM), at(MEASURED_TO))
    }
}
