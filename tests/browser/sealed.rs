//! Nothing leaves the page: what it asks for in a whole lesson, what its policy blocks, and what is in its files.

use crate::session::{Session, wait_until_kept};
use crate::visit::{Visit, built};
use beatwalk::words::Language;
use serde_json::json;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Tries several ways out to an address, in the page and in a worker; what the policy blocked, by its directive.
pub(crate) const WAYS_OUT: &str = "
    const [address] = arguments;
    const blocked = new Set();
    document.addEventListener('securitypolicyviolation', event => {
        blocked.add(event.effectiveDirective.replace(/-(elem|attr)$/, ''));
    });
    const tag = (name, about) => document.body.append(Object.assign(document.createElement(name), about));
    const way = start => new Promise(done => { try { start().then(done, done) } catch { done() } });
    const worker = new Worker(URL.createObjectURL(new Blob([
        `onmessage = ({ data }) => fetch(data).then(() => postMessage('out'), () => postMessage('blocked'))`,
    ])));
    worker.postMessage(address);
    tag('img', { src: address });
    tag('script', { src: address });
    tag('script', { textContent: 'window.ran = true' });
    tag('link', { rel: 'stylesheet', href: address });
    navigator.sendBeacon(address, 'x');
    try { new WebSocket(address.replace('https', 'wss')) } catch {}
    return Promise.all([
        way(() => fetch(address)),
        new Promise(done => { worker.onmessage = ({ data }) => done(data) }),
        new Promise(done => setTimeout(done, 300)),
    ]).then(([, told]) => {
        if (told !== 'blocked' || window.ran) blocked.add('a way out was open');
        return [...blocked].sort();
    });
";

#[test]
fn a_whole_lesson_asks_for_the_files_of_the_page_and_for_nothing_else() {
    let visit = Visit::to_beatwalk();
    wait_until_kept(&visit);
    let session = Session::begin(&visit, Language::English);
    session.read_beats();
    session.walk_and_save();
    session.investigate();
    let known: BTreeSet<String> = files(&built())
        .into_iter()
        .map(|path| format!("/science/beatwalk/{}", path.strip_prefix(built()).unwrap().display()))
        .collect();
    let asked: BTreeSet<String> = visit.asked_of_the_server().into_iter().collect();
    let strange: Vec<&String> =
        asked.difference(&known).filter(|path| *path != "/science/beatwalk/").collect();
    assert!(strange.is_empty(), "asked for {strange:#?}");
    let one_file = "/science/beatwalk/beatwalk.html".to_owned();
    let never: Vec<&String> = known.difference(&asked).filter(|path| **path != one_file).collect();
    assert!(never.is_empty(), "not kept for working offline: {never:#?}");
    // No violation of the policy either: the console would have it.
    visit.leave_in_peace();
}

#[test]
fn the_policy_blocks_every_way_out_of_the_page_and_of_its_worker() {
    let visit = Visit::to_beatwalk();
    Session::begin(&visit, Language::English);
    let blocked = visit.run(WAYS_OUT, vec!["https://example.invalid/".into()]);
    assert_eq!(blocked, json!(["connect-src", "img-src", "script-src", "style-src"]));
    visit.forget_console_errors();
    visit.leave_in_peace();
}

#[test]
fn code_is_not_made_from_text() {
    let visit = Visit::to_beatwalk();
    // Later, and so on the page's own account: what a test runs itself is let pass.
    let tried = "return new Promise(done => setTimeout(() => {\
        try { done((0, eval)('1 + 1')) } catch (fault) { done(fault.name) }\
    }))";
    assert_eq!(visit.run(tried, Vec::new()), "EvalError");
    visit.forget_console_errors();
    visit.leave_in_peace();
}

/// The lines of headers that the note for administrators gives.
fn recommended_headers() -> Vec<String> {
    let note = include_str!("../../demo/FOR-ADMINISTRATORS.md");
    let (_, rest) = note.split_once("```http\n").expect("a block of headers");
    let (block, _) = rest.split_once("```").expect("the end of the block");
    block.lines().map(str::to_owned).collect()
}

#[test]
fn a_lesson_works_with_the_headers_that_administrators_are_given_and_no_sensor_is_open_to_it() {
    let headers = recommended_headers();
    assert!(headers.iter().any(|header| header.starts_with("Permissions-Policy: ")));
    let visit = Visit::to_beatwalk_with(&headers);
    let session = Session::begin(&visit, Language::English);
    session.read_beats();
    session.walk_and_save();
    session.investigate();
    let allowed = "return document.featurePolicy.allowedFeatures()";
    let allowed = visit.run(allowed, Vec::new()).to_string();
    for sensor in [
        "accelerometer",
        "ambient-light-sensor",
        "bluetooth",
        "camera",
        "display-capture",
        "geolocation",
        "gyroscope",
        "hid",
        "magnetometer",
        "microphone",
        "midi",
        "serial",
        "usb",
    ] {
        assert!(!allowed.contains(&format!("\"{sensor}\"")), "{sensor} in {allowed}");
        let denied = headers.iter().any(|header| header.contains(&format!("{sensor}=()")));
        assert!(denied, "{sensor} is not in the note");
    }
    visit.leave_in_peace();
}

/// All files below a folder.
fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

#[test]
fn no_file_of_the_page_names_another_place() {
    // Names of languages, not places: nothing is ever asked there.
    let names = [
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1999/xhtml",
        "http://www.w3.org/1998/Math/MathML",
    ];
    let mut looked_at = 0;
    for path in files(&built()) {
        let ending = path.extension().unwrap_or_default().to_string_lossy().into_owned();
        if ["wasm", "png"].contains(&ending.as_str()) {
            continue;
        }
        looked_at += 1;
        let mut text = std::fs::read_to_string(&path).unwrap();
        for name in names {
            text = text.replace(name, "");
        }
        for sign in ["http://", "https://", "ws://", "wss://", "\"//", "'//"] {
            let at = text.find(sign);
            let found = at.map(|at| text.get(at..).unwrap().chars().take(80).collect::<String>());
            assert_eq!(found, None, "{}", path.display());
        }
    }
    assert!(looked_at > 10, "only {looked_at} files");
}
