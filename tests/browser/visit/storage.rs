//! What a browser does to work that is kept: several tabs, too little room, none at all.

use super::Visit;
use serde_json::json;
use thirtyfour::WindowHandle;

/// Lets enough time pass for what changed last to be written: changes are gathered for up to 400 ms.
pub(crate) fn let_it_be_written() {
    std::thread::sleep(std::time::Duration::from_millis(900));
}

impl Visit {
    /// Opens the page in a second tab and goes there; gives back the first.
    pub(crate) fn open_tab(&self) -> WindowHandle {
        self.listen();
        let driver = self.chromium.driver();
        let first = self.chromium.wait(driver.window()).expect("a tab");
        let second = self.chromium.wait(driver.new_tab()).expect("a second tab");
        self.chromium.wait(driver.switch_to_window(second)).expect("the second tab");
        self.go_to_the_page();
        first
    }

    /// Goes to another tab; gives back the one it leaves.
    pub(crate) fn go_to_tab(&self, other: &WindowHandle) -> WindowHandle {
        self.listen();
        let driver = self.chromium.driver();
        let this = self.chromium.wait(driver.window()).expect("a tab");
        self.chromium.wait(driver.switch_to_window(other.clone())).expect("the other tab");
        this
    }

    /// Closes this tab and goes to another.
    pub(crate) fn close_tab(&self, other: &WindowHandle) {
        self.listen();
        let driver = self.chromium.driver();
        self.chromium.wait(driver.close_window()).expect("the tab closes");
        self.chromium.wait(driver.switch_to_window(other.clone())).expect("the other tab");
    }

    /// Allows the page so many bytes of storage, or as many as the browser does.
    pub(crate) fn limit_storage(&self, bytes: Option<u64>) {
        let origin = self.run("return location.origin", Vec::new());
        let how = match bytes {
            Some(bytes) => json!({ "origin": origin, "quotaSize": bytes }),
            None => json!({ "origin": origin }),
        };
        self.command("Storage.overrideQuotaForOrigin", how);
    }

    /// Runs a script before any of the page's own, each time it is loaded.
    pub(crate) fn before_each_page(&self, script: &str) {
        self.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script }));
    }
}
