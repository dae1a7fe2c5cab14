//! A visit to the page: what a student, a teacher or a school's network could do with it.
//!
//! Everything waits: what is looked for may come within [`PATIENCE`], and a visit that waits in vain
//! says what it saw instead. Visits take turns, because one browser keeps this machine busy.

mod chromium;
mod files;
mod finding;
mod firefox;
mod gestures;
mod network;
mod paper;
mod screen;
mod server;
mod speed;
mod storage;
mod trace;

pub(crate) use finding::Part;
pub(crate) use firefox::Firefox;
pub(crate) use gestures::{Point, Zooming};
pub(crate) use paper::Paper;
pub(crate) use screen::Screen;
pub(crate) use speed::Held;
pub(crate) use storage::let_it_be_written;
pub(crate) use thirtyfour::Key;
pub(crate) use trace::{MEASURED_FROM, MEASURED_TO};

use chromium::Chromium;
use serde_json::Value;
use server::{Content, Host};
use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use thirtyfour::error::WebDriverResult;
use thirtyfour::extensions::cdp::ChromeDevTools;

/// What `trunk build` made.
pub(crate) fn built() -> PathBuf {
    let built = Path::new(env!("CARGO_MANIFEST_DIR")).join("dist");
    assert!(built.join("index.html").exists(), "there is no page yet: run `trunk build` first");
    built
}

/// How long something may take to appear.
const PATIENCE: Duration = Duration::from_secs(20);

/// Whose turn it is.
static TURN: Mutex<()> = Mutex::new(());

/// One browser with one page in it.
pub(crate) struct Visit {
    chromium: Chromium,
    host: Host,
    /// The address of the page.
    page: String,
    /// What the addresses begin with that the page may ask for.
    own: String,
    heard: RefCell<Vec<String>>,
    _turn: MutexGuard<'static, ()>,
}

impl Visit {
    /// Opens Beatwalk as `trunk build` made it, in a browser that has never seen it.
    pub(crate) fn to_beatwalk() -> Self {
        Self::to_beatwalk_with(&[])
    }

    /// The same from a server that sends these headers too.
    pub(crate) fn to_beatwalk_with(headers: &[String]) -> Self {
        let visit = Self::prepared(Content::Folder(built()), headers);
        visit.go_to_the_page();
        visit
    }

    /// Opens Beatwalk's page in one file, as it lies alone on a memory stick.
    pub(crate) fn to_one_file() -> Self {
        let mut visit = Self::prepared(Content::Page(""), &[]);
        let stick = visit.chromium.files().join("memory stick");
        std::fs::create_dir_all(&stick).unwrap();
        let page = stick.join("beatwalk.html");
        std::fs::copy(built().join("beatwalk.html"), &page).unwrap();
        visit.page = format!("file://{}", page.display().to_string().replace(' ', "%20"));
        visit.own = visit.page.clone();
        visit.go_to_the_page();
        visit
    }

    /// Opens a page made for the test.
    pub(crate) fn to_page(html: &'static str) -> Self {
        let visit = Self::prepared(Content::Page(html), &[]);
        visit.go_to_the_page();
        visit
    }

    fn prepared(content: Content, headers: &[String]) -> Self {
        Self::prepared_with(content, headers, false)
    }

    fn prepared_with(content: Content, headers: &[String], is_traced: bool) -> Self {
        let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
        let (host, chromium) = (Host::serving(content, headers), Chromium::start(is_traced));
        let (page, own) = (host.page(), host.origin() + "/");
        Self { chromium, host, page, own, heard: RefCell::default(), _turn: turn }
    }

    /// Goes to the page by its address, as from a bookmark.
    pub(crate) fn go_to_the_page(&self) {
        self.chromium.wait(self.chromium.driver().goto(&self.page)).expect("the page loads");
    }

    /// From now on the server has the files of another folder.
    pub(crate) fn serve_instead(&self, folder: &Path) {
        self.host.serve(Content::Folder(folder.to_owned()));
    }

    /// Loads the page again.
    pub(crate) fn reload(&self) {
        self.listen();
        self.chromium.wait(self.chromium.driver().refresh()).expect("the page loads again");
    }

    /// Closes the browser and opens the page in a new one with the same profile.
    pub(crate) fn close_and_come_back(&mut self) {
        self.listen();
        self.chromium.reopen();
        self.go_to_the_page();
    }

    /// The title of the page.
    pub(crate) fn title(&self) -> String {
        self.chromium.wait(self.chromium.driver().title()).unwrap()
    }

    /// Unfolds everything that is folded.
    pub(crate) fn unfold(&self) {
        self.run("document.querySelectorAll('details').forEach(it => it.open = true)", Vec::new());
    }

    /// What a piece of JavaScript returns; the arguments are in `arguments`.
    pub(crate) fn run(&self, script: &str, arguments: Vec<Value>) -> Value {
        let answer = self.chromium.wait(self.chromium.driver().execute(script, arguments));
        answer.unwrap_or_else(|error| panic!("{script}: {error}")).json().clone()
    }

    /// Runs a program in the page's own scope and past its policy, as the browser's developer tools do.
    pub(crate) fn add_program(&self, program: &str) {
        let answer = self.command("Runtime.evaluate", serde_json::json!({ "expression": program }));
        assert!(answer["exceptionDetails"].is_null(), "{answer}");
    }

    /// Waits until `look` finds something, and gives it back.
    pub(crate) fn wait_for<T>(&self, what: &str, mut look: impl FnMut() -> Option<T>) -> T {
        let began = Instant::now();
        loop {
            if let Some(found) = look() {
                return found;
            }
            assert!(began.elapsed() < PATIENCE, "waited in vain for {what}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// Waits until the page shows a text somewhere.
    pub(crate) fn wait_for_text(&self, text: &str) {
        let shown = || self.run("return document.body.innerText", Vec::new());
        self.wait_for(&format!("the text {text:?}"), || {
            shown().as_str().is_some_and(|all| all.contains(text)).then_some(())
        });
    }

    /// Sends a command of the browser's developer tools.
    fn command(&self, name: &str, parameters: Value) -> Value {
        self.try_command(name, parameters).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    fn try_command(&self, name: &str, parameters: Value) -> WebDriverResult<Value> {
        let tools = ChromeDevTools::new(self.chromium.driver().handle.clone());
        self.chromium.wait(tools.execute_cdp_with_params(name, parameters))
    }
}

impl Drop for Visit {
    fn drop(&mut self) {
        if std::thread::panicking() && self.chromium.is_open() {
            self.leave_a_picture_of_the_fault();
        }
    }
}
