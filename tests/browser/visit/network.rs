//! What the page asked for, what it complained about, and a network that goes away.
//!
//! Requests come from the browser's own network log. It names the origin on whose behalf each was
//! made, so requests of workers, sockets and beacons count, and what the browser asks for itself
//! does not.

use super::Visit;
use http::Method;
use serde_json::{Value, json};
use std::path::Path;
use std::sync::Arc;
use thirtyfour::common::command::{Command, ExtensionCommand};

impl Visit {
    /// Closes the browser, and fails when there was an error in the console, or when anything in the
    /// page asked for another place than the page's own server.
    pub(crate) fn leave_in_peace(mut self) {
        self.expect_no_console_errors();
        self.chromium.close();
        let logs = self.chromium.network_logs();
        let strange: Vec<String> = logs.iter().flat_map(|log| self.strangers(log)).collect();
        assert!(strange.is_empty(), "asked of others: {strange:#?}");
    }

    /// The paths that the page's own server was asked for.
    pub(crate) fn asked_of_the_server(&self) -> Vec<String> {
        self.host.asked_for()
    }

    /// The errors in the console so far, with uncaught panics and files that did not load.
    pub(crate) fn console_errors(&self) -> Vec<String> {
        self.listen();
        self.heard.borrow().clone()
    }

    /// Fails when there is an error in the console.
    pub(crate) fn expect_no_console_errors(&self) {
        let errors = self.console_errors();
        assert!(errors.is_empty(), "errors in the console: {errors:#?}");
    }

    /// Takes the errors in the console so far as expected, and gives them back.
    pub(crate) fn forget_console_errors(&self) -> Vec<String> {
        self.listen();
        self.heard.take()
    }

    /// Takes the network away, from the page and from the server.
    pub(crate) fn go_offline(&self) {
        self.host.set_away(true);
        self.emulate_network(true);
    }

    /// Gives the network back.
    pub(crate) fn go_online(&self) {
        self.host.set_away(false);
        self.emulate_network(false);
    }

    /// Stops the server for good, and empties what the browser keeps of its own accord.
    pub(crate) fn stop_the_server(&self) {
        self.host.set_away(true);
        self.command("Network.enable", json!({}));
        self.command("Network.clearBrowserCache", json!({}));
    }

    fn emulate_network(&self, offline: bool) {
        self.command("Network.enable", json!({}));
        self.command(
            "Network.emulateNetworkConditions",
            json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 }),
        );
    }

    /// Takes over what the console says up to now; it can be read only once.
    pub(super) fn listen(&self) {
        let driver = self.chromium.driver();
        let command = Command::ExtensionCommand(Box::new(ReadConsole));
        let answer = self.chromium.wait(driver.cmd(command)).and_then(|answer| answer.value());
        let entries: Vec<Value> = answer.expect("the browser's console");
        let errors = entries.iter().filter(|entry| entry["level"] == "SEVERE");
        let texts = errors.map(|entry| entry["message"].as_str().unwrap_or_default().to_owned());
        self.heard.borrow_mut().extend(texts);
    }

    /// The addresses that a page asked for outside its own server.
    fn strangers(&self, log: &Path) -> Vec<String> {
        let text = std::fs::read_to_string(log).expect("the network log");
        let log: Value = serde_json::from_str(&text).expect("the whole network log");
        let kind = &log["constants"]["logEventTypes"]["URL_REQUEST_START_JOB"];
        let events = log["events"].as_array().expect("a list of events").iter();
        let asked = events.filter(|event| event["type"] == *kind).map(|event| &event["params"]);
        let by_pages = asked.filter(|request| {
            let initiator = request["initiator"].as_str().unwrap_or_default();
            // The browser's own requests have no origin; its own pages live at chrome://.
            initiator != "not an origin" && !initiator.starts_with("chrome")
        });
        by_pages
            .filter_map(|request| request["url"].as_str())
            .filter(|address| !address.starts_with(&self.own))
            .map(str::to_owned)
            .collect()
    }
}

/// ChromeDriver's command for what was written to the console.
#[derive(Debug)]
struct ReadConsole;

impl ExtensionCommand for ReadConsole {
    fn parameters_json(&self) -> Option<Value> {
        Some(json!({ "type": "browser" }))
    }

    fn method(&self) -> Method {
        Method::POST
    }

    fn endpoint(&self) -> Arc<str> {
        "/se/log".into()
    }
}
