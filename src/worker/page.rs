//! The page's side: starts the worker, sends it one job at a time, ends it to cancel.
//!
//! The worker starts from a Blob, so that the app also runs where there is no server. The Blob
//! imports the same glue as the page and gets the already compiled module, so nothing is fetched or
//! compiled twice.

use super::protocol::{Answer, Request};
use super::wire::{Parcel, buffer_to_samples, bytes_to_buffer, samples_to_buffer};
use beatwalk::analysis::BeatEdits;
use beatwalk::signal::Recording;
use beatwalk::words::Phrase;
use js_sys::{Array, Object, Reflect};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, BlobPropertyBag, Event, HtmlLinkElement, MessageEvent, Url, Worker};

/// What the worker runs first: it waits for the glue's address and the module, then hands over to them.
const BOOT: &str = "self.onmessage = async ({ data }) => { self.onmessage = null; \
    const glue = await import(data.glue); await glue.default({ module_or_path: data.module }); };";

/// The sort of function that hears what the worker says: the answer and its traces of samples.
type Listener = Rc<dyn Fn(Answer, Vec<Vec<f32>>)>;

/// The page's hold on its worker.
#[derive(Clone)]
pub struct Analyst(Rc<Inner>);

struct Inner {
    listener: Listener,
    running: RefCell<Option<Running>>,
    job: Cell<u32>,
}

/// A started worker. Ends it, and what listens to it, when dropped.
struct Running {
    worker: Worker,
    ready: bool,
    waiting: Vec<(Array, Array)>,
    _on_message: Closure<dyn FnMut(MessageEvent)>,
    _on_error: Closure<dyn FnMut(Event)>,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

impl Analyst {
    /// A worker that starts with its first job. `listener` hears the answers to the latest job only.
    pub fn new(listener: impl Fn(Answer, Vec<Vec<f32>>) + 'static) -> Self {
        Self(Rc::new(Inner {
            listener: Rc::new(listener),
            running: RefCell::new(None),
            job: Cell::new(0),
        }))
    }

    /// Opens files: their names are in the request, their bytes come in the same order.
    pub fn open(&self, request: &Request, files: &[Vec<u8>]) {
        self.send(request, files.iter().map(|bytes| bytes_to_buffer(bytes)).collect());
    }

    /// Makes invented recordings and reads them.
    pub fn make(&self, keys: Vec<String>) {
        self.send(&Request::Make { keys }, Vec::new());
    }

    /// Reads the beats of a recording, as they were corrected.
    pub fn read(&self, recording: &Recording, edits: BeatEdits) {
        let trace = super::Trace::of(recording);
        self.send(&Request::Read { trace, edits }, vec![samples_to_buffer(&recording.samples)]);
    }

    /// Stops whatever is being done.
    pub fn cancel(&self) {
        self.0.job.set(self.0.job.get() + 1);
        self.0.running.replace(None);
    }

    fn send(&self, request: &Request, buffers: Vec<js_sys::ArrayBuffer>) {
        let job = self.0.job.get() + 1;
        self.0.job.set(job);
        let posted = Parcel { job, message: request.clone(), buffers }.pack();
        let started = posted.and_then(|parcel| {
            let mut running = self.0.running.borrow_mut();
            if running.is_none() {
                *running = Some(self.start()?);
            }
            match running.as_mut() {
                Some(it) if it.ready => it.worker.post_message_with_transfer(&parcel.0, &parcel.1),
                Some(it) => {
                    it.waiting.push(parcel);
                    Ok(())
                }
                None => Ok(()),
            }
        });
        if let Err(reason) = started {
            self.crashed(&format!("{reason:?}"));
        }
    }

    fn start(&self) -> Result<Running, JsValue> {
        let worker = boot()?;
        let analyst = Rc::downgrade(&self.0);
        let on_message = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            if let Some(inner) = analyst.upgrade() {
                Self(inner).hear(&event.data());
            }
        });
        let analyst = Rc::downgrade(&self.0);
        let on_error = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
            if let Some(inner) = analyst.upgrade() {
                let reason = Reflect::get(&event, &"message".into()).ok();
                Self(inner).crashed(&reason.and_then(|text| text.as_string()).unwrap_or_default());
            }
        });
        worker.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
        worker.set_onerror(Some(on_error.as_ref().unchecked_ref()));
        Ok(Running {
            worker,
            ready: false,
            waiting: Vec::new(),
            _on_message: on_message,
            _on_error: on_error,
        })
    }

    fn hear(&self, posted: &JsValue) {
        let Some(Parcel { job, message, buffers }) = Parcel::<Answer>::unpack(posted) else {
            return;
        };
        if matches!(message, Answer::Ready) {
            if let Some(running) = self.0.running.borrow_mut().as_mut() {
                running.ready = true;
                for (parcel, handed) in running.waiting.drain(..) {
                    let _ = running.worker.post_message_with_transfer(&parcel, &handed);
                }
            }
            return;
        }
        // Answers to a job that was given up are not news.
        if job == self.0.job.get() {
            (self.0.listener)(message, buffers.iter().map(buffer_to_samples).collect());
        }
    }

    /// The worker broke: end it, so that the next job starts a new one, and say so.
    fn crashed(&self, reason: &str) {
        self.cancel();
        (self.0.listener)(
            Answer::Failed {
                what: Phrase::message("faults.worker.stopped").with("why", reason),
                remedy: Phrase::message("faults.remedy.worker.again"),
            },
            Vec::new(),
        );
    }
}

/// Starts a worker from a Blob and tells it where the glue is.
fn boot() -> Result<Worker, JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type("text/javascript");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&BOOT.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let worker = Worker::new(&address);
    Url::revoke_object_url(&address)?;
    let worker = worker?;
    let start = Object::new();
    Reflect::set(&start, &"glue".into(), &glue_address()?.into())?;
    Reflect::set(&start, &"module".into(), &wasm_bindgen::module())?;
    worker.post_message(&start)?;
    Ok(worker)
}

/// Where the page got its own glue from: the build leaves a link to it in the head.
fn glue_address() -> Result<String, JsValue> {
    web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.query_selector("link[rel=modulepreload]").ok().flatten())
        .and_then(|link| link.dyn_into::<HtmlLinkElement>().ok())
        .map(|link| link.href())
        .ok_or_else(|| JsValue::from("the page has no link to its program"))
}
