//! Several tabs of one browser.

use super::Visit;
use thirtyfour::WindowHandle;

impl Visit {
    /// The tab that is looked at.
    pub(crate) fn tab(&self) -> WindowHandle {
        self.chromium.wait(self.chromium.driver().window()).unwrap()
    }

    /// Opens the page in another tab too, and looks at that.
    pub(crate) fn open_another_tab(&self) -> WindowHandle {
        let tab = self.chromium.wait(self.chromium.driver().new_tab()).unwrap();
        self.look_at(&tab);
        self.go_to_the_page();
        tab
    }

    /// Looks at a tab.
    pub(crate) fn look_at(&self, tab: &WindowHandle) {
        self.chromium.wait(self.chromium.driver().switch_to_window(tab.clone())).unwrap();
    }

    /// Closes the tab that is looked at, and looks at another.
    pub(crate) fn close_this_tab(&self, next: &WindowHandle) {
        self.chromium.wait(self.chromium.driver().close_window()).unwrap();
        self.look_at(next);
    }
}
