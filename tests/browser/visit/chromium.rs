//! Headless Chromium under ChromeDriver, with a profile of its own.
//!
//! Nothing is downloaded: `chromedriver` comes from PATH or from the variable `CHROMEDRIVER`, and
//! finds the browser installed beside it; `BEATWALK_CHROMIUM` names another one. Everything ends, and
//! the profile goes, when this is dropped, also when a test panics.

use super::trace;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;
use thirtyfour::{CapabilitiesHelper, ChromiumLikeCapabilities, DesiredCapabilities, WebDriver};
use tokio::runtime::Runtime;

pub(super) struct Chromium {
    runtime: Runtime,
    driver_process: Child,
    driver_address: String,
    driver: Option<WebDriver>,
    folder: PathBuf,
    windows: usize,
    is_traced: bool,
}

impl Chromium {
    /// Starts with an empty profile. No other host can be found from it.
    pub(super) fn start(is_traced: bool) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("beatwalk-{}-{number}", std::process::id()));
        std::fs::create_dir_all(folder.join("files")).expect("a temporary folder");
        let (driver_process, port) = start_driver();
        let mut chromium = Self {
            runtime: tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap(),
            driver_process,
            driver_address: format!("http://127.0.0.1:{port}"),
            driver: None,
            folder,
            windows: 0,
            is_traced,
        };
        chromium.open_window();
        chromium
    }

    /// Starts the browser anew with the same profile, as after the student closed it.
    pub(super) fn reopen(&mut self) {
        self.close();
        self.open_window();
    }

    /// Closes the browser, which also completes its network log.
    pub(super) fn close(&mut self) {
        if let Some(driver) = self.driver.take() {
            // A browser that is gone already is as good as closed.
            let quit = async { tokio::time::timeout(Duration::from_secs(20), driver.quit()).await };
            let _ = self.wait(quit);
        }
    }

    /// The network log of each time the browser was open, in order.
    pub(super) fn network_logs(&self) -> Vec<PathBuf> {
        (0..self.windows).map(|number| self.network_log(number)).collect()
    }

    fn network_log(&self, number: usize) -> PathBuf {
        self.folder.join(format!("network-{number}.json"))
    }

    /// Where the trace is, once the browser was closed.
    pub(super) fn trace(&self) -> PathBuf {
        self.folder.join("trace.json")
    }

    pub(super) const fn is_open(&self) -> bool {
        self.driver.is_some()
    }

    pub(super) fn driver(&self) -> &WebDriver {
        self.driver.as_ref().expect("the browser is open")
    }

    pub(super) fn wait<T>(&self, future: impl Future<Output = T>) -> T {
        self.runtime.block_on(future)
    }

    /// A folder for files to drop; it goes with the profile.
    pub(super) fn files(&self) -> PathBuf {
        self.folder.join("files")
    }

    fn open_window(&mut self) {
        let mut wanted = DesiredCapabilities::chrome();
        let profile = format!("--user-data-dir={}", self.folder.join("profile").display());
        let network = format!("--log-net-log={}", self.network_log(self.windows).display());
        let sandbox = is_root().then_some("--no-sandbox");
        let fixed = [
            "--headless",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--no-proxy-server",
            "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
            "--window-size=1366,768",
            "--force-color-profile=srgb",
        ];
        self.windows += 1;
        for option in fixed.into_iter().chain(sandbox).chain([profile.as_str(), network.as_str()]) {
            wanted.add_arg(option).unwrap();
        }
        if self.is_traced {
            for option in trace::options(&self.trace()) {
                wanted.add_arg(&option).unwrap();
            }
        }
        if let Ok(binary) = std::env::var("BEATWALK_CHROMIUM") {
            wanted.set_binary(&binary).unwrap();
        }
        let logs = serde_json::json!({ "browser": "ALL" });
        wanted.insert_base_capability("goog:loggingPrefs".to_owned(), logs);
        let driver = self.wait(WebDriver::new(&self.driver_address, wanted));
        self.driver = Some(driver.expect("Chromium starts"));
    }
}

impl Drop for Chromium {
    fn drop(&mut self) {
        self.close();
        let _ = self.driver_process.kill();
        let _ = self.driver_process.wait();
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// ChromeDriver on a free port, which it prints.
fn start_driver() -> (Child, u16) {
    let name = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "chromedriver".to_owned());
    let mut process = Command::new(&name)
        .arg("--port=0")
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|error| {
            panic!("{name} does not start ({error}); tests/run.sh installs it")
        });
    let mut lines = BufReader::new(process.stdout.take().unwrap()).lines().map_while(Result::ok);
    let port = lines.find_map(|line| {
        let (_, port) = line.split_once("started successfully on port ")?;
        port.trim_end_matches('.').parse().ok()
    });
    // It goes on printing; somebody has to listen, or it would stop.
    std::thread::spawn(move || lines.for_each(drop));
    (process, port.unwrap_or_else(|| panic!("{name} names no port")))
}

/// Chromium's sandbox does not work for root.
fn is_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata(Path::new("/proc/self")).is_ok_and(|own| own.uid() == 0)
}
