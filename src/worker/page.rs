//! The page's side: starts the worker, sends it one job at a time, ends it to cancel.
//!
//! The worker starts from a Blob, so that the app also runs where there is no server. The Blob holds or
//! imports the same glue as the page and gets the already compiled module, so nothing is fetched or
//! compiled twice.

use super::protocol::{Answer, Request};
use super::wire::{Parcel, buffer_to_samples, bytes_to_buffer, samples_to_buffer};
use beatwalk::analysis::BeatEdits;
use beatwalk::signal::Recording;
use beatwalk::words::Phrase;
use js_sys::{Array, Reflect};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, BlobPropertyBag, Event, HtmlLinkElement, MessageEvent, Url, Worker};

/// What the worker runs after the glue: it waits for the module, then hands over to it. What fails is thrown
/// where the page hears of it.
const BOOT: &str = "self.onmessage = ({ data }) => { self.onmessage = null; \
    __wbg_init({ module_or_path: data }).catch((fault) => setTimeout(() => { throw fault })); };";

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
    address: String,
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
        // Not before: a browser may read the Blob any time until the worker runs.
        let _ = Url::revoke_object_url(&self.address);
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
        self.hand_over(request, files.iter().map(|bytes| bytes_to_buffer(bytes)).collect());
    }

    /// The same with bytes that are in the browser's own memory; they are gone from there afterwards.
    pub fn hand_over(&self, request: &Request, files: Vec<js_sys::ArrayBuffer>) {
        self.send(request, files);
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
        let (worker, address) = boot()?;
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
            address,
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

/// Starts a worker from a Blob, whose address is given back too, and gives it the module.
fn boot() -> Result<(Worker, String), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type("text/javascript");
    let program = Array::of2(&glue()?.into(), &BOOT.into());
    let blob = Blob::new_with_str_sequence_and_options(&program, &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let worker = Worker::new(&address)?;
    worker.post_message(&wasm_bindgen::module())?;
    Ok((worker, address))
}

/// The glue that the page itself runs, as a script: the text of the page's own when that is one file, else an
/// import from where the build's link in the head says that it is.
fn glue() -> Result<String, JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or("no document")?;
    if let Some(program) = document.get_element_by_id("program") {
        return Ok(program.text_content().unwrap_or_default());
    }
    document
        .query_selector("link[rel=modulepreload]")?
        .and_then(|link| link.dyn_into::<HtmlLinkElement>().ok())
        .map(|link| {
            let address = link.href();
            format!(
                "const __wbg_init = async (about) => (await import({address:?})).default(about);\n"
            )
        })
        .ok_or_else(|| JsValue::from("the page has no link to its program"))
}
