//! What the page asked for, what it complained about, and a network that goes away.

use super::Visit;
use http::Method;
use serde_json::{Value, json};
use std::sync::Arc;
use thirtyfour::common::command::ExtensionCommand;

/// What was heard of the browser so far; its logs can be read only once.
#[derive(Default)]
pub(super) struct Heard {
    requests: Vec<String>,
    errors: Vec<String>,
}

impl Visit {
    /// The addresses of all requests of the page so far.
    pub(crate) fn requests(&self) -> Vec<String> {
        self.listen();
        self.heard.borrow().requests.clone()
    }

    /// The paths that the page's own server was asked for.
    pub(crate) fn asked_of_the_server(&self) -> Vec<String> {
        self.host.asked_for()
    }

    /// The errors in the console so far, with uncaught panics and files that did not load.
    pub(crate) fn console_errors(&self) -> Vec<String> {
        self.listen();
        self.heard.borrow().errors.clone()
    }

    /// Fails when there is an error in the console.
    pub(crate) fn expect_no_console_errors(&self) {
        let errors = self.console_errors();
        assert!(errors.is_empty(), "errors in the console: {errors:#?}");
    }

    /// Fails when anything asked for another place than the page's own server: the page, a worker or
    /// the browser itself.
    pub(crate) fn expect_nothing_left_the_page(&self) {
        let own =
            [self.host.origin() + "/", format!("blob:{}/", self.host.origin()), "data:".to_owned()];
        let mut strange = self.requests();
        strange.retain(|address| !own.iter().any(|start| address.starts_with(start)));
        strange.extend(self.outside.asked_for());
        assert!(strange.is_empty(), "asked of others: {strange:#?}");
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

    fn emulate_network(&self, offline: bool) {
        self.command("Network.enable", json!({}));
        self.command(
            "Network.emulateNetworkConditions",
            json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 }),
        );
    }

    /// Reads the browser's logs up to now.
    pub(super) fn listen(&self) {
        let mut heard = self.heard.borrow_mut();
        for entry in self.log("performance") {
            let message: Value = entry["message"]
                .as_str()
                .and_then(|text| serde_json::from_str(text).ok())
                .unwrap_or_default();
            let event = &message["message"];
            if event["method"] == "Network.requestWillBeSent"
                && let Some(address) = event["params"]["request"]["url"].as_str()
            {
                heard.requests.push(address.to_owned());
            }
        }
        for entry in self.log("browser") {
            if entry["level"] == "SEVERE" {
                heard.errors.push(entry["message"].as_str().unwrap_or_default().to_owned());
            }
        }
    }

    fn log(&self, kind: &'static str) -> Vec<Value> {
        let driver = self.chromium.driver();
        let answer =
            self.chromium.wait(driver.cmd(thirtyfour::common::command::Command::ExtensionCommand(
                Box::new(ReadLog(kind)),
            )));
        answer.and_then(|answer| answer.value()).expect("the browser's log")
    }
}

/// ChromeDriver's command for the log of a kind.
#[derive(Debug)]
struct ReadLog(&'static str);

impl ExtensionCommand for ReadLog {
    fn parameters_json(&self) -> Option<Value> {
        Some(json!({ "type": self.0 }))
    }

    fn method(&self) -> Method {
        Method::POST
    }

    fn endpoint(&self) -> Arc<str> {
        "/se/log".into()
    }
}
