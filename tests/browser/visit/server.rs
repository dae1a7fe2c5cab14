//! A web server for one test on a port of its own.
//!
//! The files are served below a folder, not at the root, as a school's web space would have it.
//! Every request is written down.

use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;
use tiny_http::{Header, Request, Response, Server};

/// Where the page lies on the server.
const FOLDER: &str = "/science/beatwalk/";

/// What is served.
pub(crate) enum Content {
    /// The files of a folder.
    Folder(PathBuf),
    /// One page, whatever is asked for.
    Page(&'static str),
}

/// A server on a thread; it ends when this is dropped.
pub(super) struct Host {
    server: Arc<Server>,
    asked_for: Arc<Mutex<Vec<String>>>,
    away: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Host {
    pub(super) fn serving(content: Content) -> Self {
        let server = Arc::new(Server::http("127.0.0.1:0").expect("a free port"));
        let asked_for = Arc::new(Mutex::new(Vec::new()));
        let away = Arc::new(AtomicBool::new(false));
        let thread = std::thread::spawn({
            let (server, asked_for, away) = (server.clone(), asked_for.clone(), away.clone());
            move || {
                for request in server.incoming_requests() {
                    asked_for.lock().unwrap().push(request.url().to_owned());
                    // Dropping a request answers it with an error.
                    if !away.load(Ordering::Relaxed) {
                        content.answer(request);
                    }
                }
            }
        });
        Self { server, asked_for, away, thread: Some(thread) }
    }

    fn address(&self) -> SocketAddr {
        self.server.server_addr().to_ip().expect("an IP address")
    }

    pub(super) fn origin(&self) -> String {
        format!("http://{}", self.address())
    }

    pub(super) fn page(&self) -> String {
        format!("{}{FOLDER}", self.origin())
    }

    /// What was asked for so far, in order.
    pub(super) fn asked_for(&self) -> Vec<String> {
        self.asked_for.lock().unwrap().clone()
    }

    /// From now on the server is out of reach, or back.
    pub(super) fn set_away(&self, away: bool) {
        self.away.store(away, Ordering::Relaxed);
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        self.server.unblock();
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

impl Content {
    fn answer(&self, request: Request) {
        let path = request.url().split(['?', '#']).next().unwrap_or_default().to_owned();
        let found = path.strip_prefix(FOLDER).and_then(|name| self.bytes_of(name));
        // A browser that hung up in the meantime is no fault of the page's.
        let _ = match found {
            Some((bytes, kind)) => {
                request.respond(Response::from_data(bytes).with_header(content_type(kind)))
            }
            None => request.respond(Response::empty(404)),
        };
    }

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

fn content_type(kind: &str) -> Header {
    Header::from_bytes("Content-Type", kind).expect("a plain header")
}
