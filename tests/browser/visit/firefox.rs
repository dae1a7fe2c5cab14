//! Headless Firefox with a profile of its own, for what has to work in more than one browser.
//!
//! Driven by Marionette, which Firefox speaks by itself: messages over TCP, each a length, a colon and a list in
//! JSON (Firefox Source Docs, "Marionette protocol"). The usual driver between is in no Debian package.

use super::server::{Content, Host};
use super::{PATIENCE, TURN, built};
use serde_json::{Value, json};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::{MutexGuard, PoisonError};
use std::time::{Duration, Instant};

pub(crate) struct Firefox {
    process: Child,
    stream: TcpStream,
    profile: PathBuf,
    host: Host,
    sent: u32,
    _turn: MutexGuard<'static, ()>,
}

impl Firefox {
    /// Starts with an empty profile.
    pub(crate) fn start() -> Self {
        let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
        let profile = std::env::temp_dir().join(format!("beatwalk-firefox-{}", std::process::id()));
        std::fs::create_dir_all(&profile).unwrap();
        // Any free port; Firefox writes down which.
        std::fs::write(profile.join("user.js"), "user_pref('marionette.port', 0);\n").unwrap();
        let mut process = ["firefox-esr", "firefox"]
            .iter()
            .find_map(|name| {
                let mut command = Command::new(name);
                command.args(["--headless", "--no-remote", "--marionette", "--profile"]);
                command.arg(&profile).stdout(Stdio::null()).stderr(Stdio::null()).spawn().ok()
            })
            .expect("there is no Firefox; tests/run.sh installs it");
        let stream = wait_for("Firefox", || {
            assert!(process.try_wait().unwrap().is_none(), "Firefox ended");
            let port = std::fs::read_to_string(profile.join("MarionetteActivePort")).ok()?;
            TcpStream::connect(("127.0.0.1", port.trim().parse::<u16>().ok()?)).ok()
        });
        let host = Host::serving(Content::Folder(built()), &[]);
        let mut firefox = Self { process, stream, profile, host, sent: 0, _turn: turn };
        firefox.hear();
        firefox.command("WebDriver:NewSession", &json!({ "capabilities": {} }));
        firefox
    }

    /// Opens Beatwalk as `trunk build` made it.
    pub(crate) fn open_beatwalk(&mut self) {
        let page = self.host.page();
        self.command("WebDriver:Navigate", &json!({ "url": page }));
    }

    /// Stops the server, and opens the page again.
    pub(crate) fn open_without_the_server(&mut self) {
        self.host.set_away(true);
        self.open_beatwalk();
    }

    /// Opens Beatwalk's page in one file.
    pub(crate) fn open_one_file(&mut self) {
        let page = format!("file://{}", built().join("beatwalk.html").display());
        self.command("WebDriver:Navigate", &json!({ "url": page }));
    }

    /// Clicks the first button with these words on it, as soon as it is there.
    pub(crate) fn click(&mut self, words: &str) {
        let script = "const found = [...document.querySelectorAll('button')]\
            .find(it => it.innerText.includes(arguments[0])); found?.click(); return Boolean(found)";
        wait_for(words, || (self.run(script, words) == true).then_some(()));
    }

    /// Waits until the page shows a text somewhere.
    pub(crate) fn wait_for_text(&mut self, text: &str) {
        let script = "return document.body.innerText.includes(arguments[0])";
        wait_for(text, || (self.run(script, text) == true).then_some(()));
    }

    fn run(&mut self, script: &str, argument: &str) -> Value {
        let about = json!({ "script": script, "args": [argument] });
        self.command("WebDriver:ExecuteScript", &about)["value"].take()
    }

    fn command(&mut self, name: &str, about: &Value) -> Value {
        self.sent += 1;
        let message = json!([0, self.sent, name, about]).to_string();
        write!(self.stream, "{}:{message}", message.len()).unwrap();
        let mut answer = self.hear();
        assert!(answer[2].is_null(), "{name}: {}", answer[2]);
        answer[3].take()
    }

    /// The next message.
    fn hear(&mut self) -> Value {
        let mut length = 0;
        loop {
            let mut sign = [0];
            self.stream.read_exact(&mut sign).unwrap();
            match sign[0] {
                b':' => break,
                digit => length = length * 10 + usize::from(digit - b'0'),
            }
        }
        let mut message = vec![0; length];
        self.stream.read_exact(&mut message).unwrap();
        serde_json::from_slice(&message).unwrap()
    }
}

impl Drop for Firefox {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}

/// Firefox starts slowly on a busy machine.
fn wait_for<T>(what: &str, mut look: impl FnMut() -> Option<T>) -> T {
    let began = Instant::now();
    loop {
        if let Some(found) = look() {
            return found;
        }
        assert!(began.elapsed() < 3 * PATIENCE, "waited in vain for {what:?} in Firefox");
        std::thread::sleep(Duration::from_millis(100));
    }
}
