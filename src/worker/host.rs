//! The worker's side: takes a request, does it, answers.

use super::protocol::{Answer, Opened, RateWanted, Request, Stage, Trace, said};
use super::wire::{Parcel, buffer_to_bytes, buffer_to_samples, samples_to_buffer};
use beatwalk::analysis;
use beatwalk::formats::{
    How, KnownShapes, OpenError, Opening, SourceFile, Understood, decode_with, is_saved_work,
};
use beatwalk::homework::{Assignment, Marker};
use beatwalk::report::{PoolEntry, entries_of_saved};
use beatwalk::signal::Recording;
use beatwalk::synth::Demo;
use beatwalk::words::Phrase;
use js_sys::ArrayBuffer;
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent, Performance, TextDecoder};

/// The shortest time between two reports of progress, in ms: ten a second look smooth.
const REPORT_EVERY: f64 = 100.0;

/// Takes requests until the page ends the worker.
pub fn serve(scope: DedicatedWorkerGlobalScope) {
    decode_with(by_the_browser);
    let desk = Desk { scope: scope.clone(), job: 0 };
    desk.say(Answer::Ready, Vec::new());
    let on_message = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        if let Some(Parcel { job, message, buffers }) = Parcel::<Request>::unpack(&event.data()) {
            Desk { scope: desk.scope.clone(), job }.serve(message, &buffers);
        }
    });
    scope.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
    // Lives as long as the worker.
    on_message.forget();
}

/// The browser's own tables of older encodings.
fn by_the_browser(encoding: &str, bytes: &[u8]) -> Option<String> {
    TextDecoder::new_with_label(encoding).ok()?.decode_with_u8_array(bytes).ok()
}

/// Where one job is done and answered from.
struct Desk {
    scope: DedicatedWorkerGlobalScope,
    job: u32,
}

impl Desk {
    fn say(&self, message: Answer, buffers: Vec<ArrayBuffer>) {
        let parcel = Parcel { job: self.job, message, buffers };
        // A message that can't be posted has nobody to be told: the page notices that nothing comes.
        if let Ok((posted, handed)) = parcel.pack() {
            let _ = self.scope.post_message_with_transfer(&posted, &handed);
        }
    }

    /// Reports progress, but not more often than the page can show.
    fn progress(&self, stage: Stage) -> impl FnMut(f64) + '_ {
        let clock = self.scope.performance();
        let now = move || clock.as_ref().map_or(0.0, Performance::now);
        let mut last = f64::NEG_INFINITY;
        move |part| {
            let now = now();
            if now - last >= REPORT_EVERY {
                last = now;
                self.say(Answer::Progress(stage, part), Vec::new());
            }
        }
    }

    fn serve(&self, request: Request, buffers: &[ArrayBuffer]) {
        match request {
            Request::Open { names, how } => {
                let files = names
                    .into_iter()
                    .zip(buffers)
                    .map(|(name, buffer)| SourceFile { name, bytes: buffer_to_bytes(buffer) })
                    .collect::<Vec<_>>();
                self.open(&files, how);
            }
            Request::Demo { key, how } => {
                let demo = Demo::ALL.into_iter().find(|demo| demo.key() == key);
                if let Some((name, Ok(text))) = demo.map(|demo| (demo.file_name(), demo.csv())) {
                    // By the same way in as any file of a class.
                    let file = SourceFile { name: name.to_owned(), bytes: text.into_bytes() };
                    self.open(&[file], how);
                }
            }
            Request::Pool { name, known } => {
                let bytes = buffers.first().map(buffer_to_bytes).unwrap_or_default();
                self.say(pooled(SourceFile { name, bytes }, known), Vec::new());
            }
            Request::Mark { names, takes_others } => self.mark(&names, takes_others, buffers),
            Request::Make { keys } => self.make(&keys),
            Request::Read { trace, edits } => {
                let samples = buffers.first().map(buffer_to_samples).unwrap_or_default();
                let recording = trace.with_samples(samples);
                let progress = &mut self.progress(Stage::Reading);
                let reading = analysis::read_corrected(&recording, &edits, progress);
                self.say(Answer::Read(Box::new(reading)), Vec::new());
            }
        }
    }

    fn make(&self, keys: &[String]) {
        let demos = keys.iter().filter_map(|key| Demo::ALL.into_iter().find(|it| it.key() == key));
        let made: Vec<Recording> = demos.filter_map(|demo| demo.recording().ok()).collect();
        let buffers = made.iter().map(|recording| samples_to_buffer(&recording.samples)).collect();
        let read = |recording| (Trace::of(recording), analysis::read(recording, &mut ()));
        self.say(Answer::Made(made.iter().map(read).collect()), buffers);
    }

    /// Marks one hand-in after the other and says each at once, so that the page can show them as they come.
    fn mark(&self, names: &[String], takes_others: bool, buffers: &[ArrayBuffer]) {
        let mut texts = buffers.iter().map(buffer_to_bytes);
        let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
        let assignment = Assignment::from_json(&texts.next().map(text).unwrap_or_default());
        let mut marker = match assignment {
            Ok(assignment) => Marker::new(assignment),
            Err(error) => {
                let failed = Answer::Failed { what: error.said(), remedy: error.remedy() };
                return self.say(failed, Vec::new());
            }
        };
        marker.takes_others = takes_others;
        for (name, bytes) in names.iter().zip(texts) {
            let marked = marker.mark(name, &text(bytes), &mut ());
            self.say(Answer::Marked(Box::new(marked)), Vec::new());
        }
    }

    fn open(&self, files: &[SourceFile], how: How) {
        match how.open(files, &mut self.progress(Stage::Opening)) {
            Ok(understood) => self.say_opened(understood),
            Err(error) => self.say_failed(&error),
        }
    }

    fn say_opened(&self, Understood { opening, found, choices }: Understood) {
        match opening {
            Opening::Ready(opened) => {
                let buffers =
                    opened.traces.iter().map(|trace| samples_to_buffer(&trace.samples)).collect();
                let head = Opened {
                    file: opened.file,
                    traces: opened.traces.iter().map(Trace::of).collect(),
                    suggested: opened.suggested,
                    notes: said(&opened.notes),
                    layout: opened.layout,
                    found,
                    choices,
                };
                self.say(Answer::Opened(head), buffers);
            }
            Opening::NeedsRate(wanted) => {
                let head = RateWanted {
                    file: wanted.file,
                    samples: wanted.samples,
                    plausible_hz: wanted.plausible_hz,
                    notes: said(&wanted.notes),
                    layout: wanted.layout,
                    found,
                    choices,
                };
                self.say(Answer::RateWanted(head), Vec::new());
            }
        }
    }

    fn say_failed(&self, error: &OpenError) {
        let failed = Answer::Failed { what: error.said(), remedy: error.remedy() };
        self.say(failed, Vec::new());
    }
}

/// The numbers of one file: a document of ours, or a recording in any form that can be opened.
fn pooled(file: SourceFile, known: KnownShapes) -> Answer {
    if is_saved_work(&file.bytes) {
        return match entries_of_saved(&file.name, &String::from_utf8_lossy(&file.bytes)) {
            Ok(entries) => Answer::Pooled(entries),
            Err(error) => Answer::Failed { what: error.said(), remedy: error.remedy() },
        };
    }
    let name = file.name.clone();
    match How::AsBefore(known).open(&[file], &mut |_| {}) {
        Err(error) => Answer::Failed { what: error.said(), remedy: error.remedy() },
        Ok(Understood { opening: Opening::NeedsRate(_), .. }) => Answer::Failed {
            what: Phrase::message("bench.rate_wanted").with("file", &name),
            remedy: Phrase::message("class.rate_remedy"),
        },
        Ok(Understood { opening: Opening::Ready(opened), .. }) => {
            let trace = opened.traces.get(opened.suggested);
            let entry = |trace| PoolEntry::of(&name, trace, &analysis::read(trace, &mut |_| {}));
            Answer::Pooled(trace.map(entry).into_iter().collect())
        }
    }
}
