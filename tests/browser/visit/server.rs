//! A web server for one test on a port of its own.
//!
//! The files are served below a folder, not at the root, as a school's web space would have it.
//! Every request is written down. A thread for each request and no connection kept open: a browser
//! holds on to more connections than a small server's pool has threads, and a page then never
//! finishes loading.

use std::io::{BufRead, BufReader, Result, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};

/// Where the page lies on the server.
const FOLDER: &str = "/science/beatwalk/";

/// What is served.
pub(crate) enum Content {
    /// The files of a folder.
    Folder(PathBuf),
    /// One page, whatever is asked for.
    Page(&'static str),
}

/// A server; it ends when this is dropped.
pub(super) struct Host {
    address: SocketAddr,
    shared: Arc<Shared>,
}

struct Shared {
    content: Mutex<Content>,
    headers: String,
    asked_for: Mutex<Vec<String>>,
    away: AtomicBool,
    ended: AtomicBool,
}

impl Host {
    /// Serves this, with further headers in every answer.
    pub(super) fn serving(content: Content, headers: &[String]) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
        let address = listener.local_addr().expect("an address");
        let shared = Arc::new(Shared {
            content: Mutex::new(content),
            headers: headers.iter().map(|header| format!("{header}\r\n")).collect(),
            asked_for: Mutex::default(),
            away: AtomicBool::new(false),
            ended: AtomicBool::new(false),
        });
        std::thread::spawn({
            let shared = shared.clone();
            move || {
                for stream in listener.incoming().map_while(Result::ok) {
                    if shared.ended.load(Ordering::Relaxed) {
                        return;
                    }
                    let shared = shared.clone();
                    // A browser that hangs up is no fault of the page's.
                    std::thread::spawn(move || shared.answer(stream).unwrap_or_default());
                }
            }
        });
        Self { address, shared }
    }

    pub(super) fn origin(&self) -> String {
        format!("http://{}", self.address)
    }

    pub(super) fn page(&self) -> String {
        format!("{}{FOLDER}", self.origin())
    }

    /// What was asked for so far, in order.
    pub(super) fn asked_for(&self) -> Vec<String> {
        self.shared.asked_for.lock().unwrap().clone()
    }

    /// From now on something else is served.
    pub(super) fn serve(&self, content: Content) {
        *self.shared.content.lock().unwrap() = content;
    }

    /// From now on the server is out of reach, or back.
    pub(super) fn set_away(&self, away: bool) {
        self.shared.away.store(away, Ordering::Relaxed);
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        self.shared.ended.store(true, Ordering::Relaxed);
        // One last call, so that the listening thread looks up and ends.
        let _ = TcpStream::connect(self.address);
    }
}

impl Shared {
    fn answer(&self, mut stream: TcpStream) -> Result<()> {
        let mut lines = BufReader::new(stream.try_clone()?).lines();
        let first = lines.next().transpose()?.unwrap_or_default();
        for line in lines {
            if line?.is_empty() {
                break;
            }
        }
        // A connection opened in advance and never used asks for nothing.
        let Some(path) = first.split(' ').nth(1) else { return Ok(()) };
        self.asked_for.lock().unwrap().push(path.to_owned());
        if self.away.load(Ordering::Relaxed) {
            return Ok(());
        }
        let name = path.split(['?', '#']).next().and_then(|path| path.strip_prefix(FOLDER));
        let (status, kind, bytes) =
            match name.and_then(|name| self.content.lock().unwrap().bytes_of(name)) {
                Some((bytes, kind)) => ("200 OK", kind, bytes),
                None => ("404 Not Found", "text/plain", Vec::new()),
            };
        write!(
            stream,
            "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n{}Connection: close\r\n\r\n",
            bytes.len(),
            self.headers
        )?;
        stream.write_all(&bytes)
    }
}

impl Content {
    fn bytes_of(&self, name: &str) -> Option<(Vec<u8>, &'static str)> {
        match self {
            Self::Page(html) => name.is_empty().then(|| (html.as_bytes().to_vec(), "text/html")),
            Self::Folder(folder) => {
                let name = if name.is_empty() { "index.html" } else { name };
                let plain = !name.split('/').any(|part| part == "..");
                let bytes = plain.then(|| std::fs::read(folder.join(name)).ok())??;
                Some((bytes, kind_of(name)))
            }
        }
    }
}

fn kind_of(name: &str) -> &'static str {
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html",
        "js" => "text/javascript",
        "wasm" => "application/wasm",
        "css" => "text/css",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "csv" => "text/csv",
        _ => "application/octet-stream",
    }
}
