//! Without a network, and across versions: the page opens and works when the server is gone, and a newer version
//! neither disturbs what is open nor mixes with it.

use crate::session::{Session, wait_until_kept};
use crate::visit::{Visit, built};
use beatwalk::words::Language;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;

#[test]
fn everything_works_in_both_languages_once_the_server_is_gone() {
    let mut visit = Visit::to_beatwalk();
    wait_until_kept(&visit);
    visit.stop_the_server();
    // The first page goes on, though its worker starts only now.
    Session::begin(&visit, Language::English).read_beats();
    visit.forget_console_errors();
    for language in [Language::Spanish, Language::English] {
        visit.close_and_come_back();
        let session = Session::begin(&visit, language);
        session.read_beats();
        session.walk_and_save();
        session.investigate();
    }
    // Looking for a newer version in vain is told to the console, and is all that is.
    let told = visit.forget_console_errors();
    assert!(told.iter().all(|line| line.contains("sw.js")), "{told:#?}");
    visit.leave_in_peace();
}

#[test]
fn a_page_asked_for_by_its_name_or_with_a_query_opens_too() {
    let visit = Visit::to_beatwalk();
    wait_until_kept(&visit);
    visit.stop_the_server();
    for address in ["index.html", "?from=the-timetable", "#main"] {
        visit.run("location.assign(arguments[0])", vec![address.into()]);
        Session::begin(&visit, Language::English);
        wait_until_kept(&visit);
    }
}

#[test]
fn a_version_that_does_not_arrive_whole_is_not_taken() {
    let visit = Visit::to_beatwalk();
    wait_until_kept(&visit);
    let half = NewerVersion::made();
    let glue = half.folder().join("beatwalk-newer.js");
    assert!(glue.exists());
    std::fs::write(&glue, "// The upload stopped here.").unwrap();
    visit.serve_instead(half.folder());
    let looked = "return navigator.serviceWorker.ready.then(it => it.update()).then(() => true, () => false)";
    visit.run(looked, Vec::new());
    visit.wait_for("the attempt", || {
        let asked = visit.asked_of_the_server();
        asked.iter().any(|path| path.ends_with("-newer.js")).then_some(())
    });
    visit.reload();
    Session::begin(&visit, Language::English).read_beats();
    assert_eq!(version(&visit), Version::Older);
    assert!(visit.is_absent("button", CHANGE));
}

#[test]
fn a_newer_version_waits_takes_the_work_along_and_never_mixes() {
    let visit = Visit::to_beatwalk();
    wait_until_kept(&visit);
    let newer = NewerVersion::made();
    Session::begin(&visit, Language::English).read_beats();
    let first = visit.open_tab();
    Session::begin(&visit, Language::English);

    // From now on the server has only the newer files.
    visit.serve_instead(newer.folder());
    let second = visit.go_to_tab(&first);
    visit.reload();
    visit.find("button", CHANGE).run("arguments[0].scrollIntoView()");
    visit.sketch("newer-version");
    assert_eq!(version(&visit), Version::Older);
    // Until the student wants it, everything opens in the older version and works there.
    let session = Session::begin(&visit, Language::English);
    session.button("page.screen.results").click();
    visit.find_containing("textbox", "Code").fill("Q-31");
    visit.find("button", CHANGE).click();
    visit.wait_for("the newer version", || (version(&visit) == Version::Newer).then_some(()));
    session.button("page.screen.results").click();
    visit.wait_for("the work", || {
        (visit.find_containing("textbox", "Code").value() == "Q-31").then_some(())
    });
    session.read_beats();

    // The other tab never changed, and starts a worker of its own version.
    visit.go_to_tab(&second);
    assert_eq!(version(&visit), Version::Older);
    Session::begin(&visit, Language::English).read_beats();
    let shelves = "return caches.keys().then(names => names.length)";
    assert_eq!(visit.run(shelves, Vec::new()), 2);
    visit.close_tab(&first);
    visit.reload();
    Session::begin(&visit, Language::English);
    visit.wait_for("the older version put away", || {
        (visit.run(shelves, Vec::new()) == 1).then_some(())
    });
    assert_eq!(version(&visit), Version::Newer);
    visit.leave_in_peace();
}

const CHANGE: &str = "Change to the newer version";

#[derive(Debug, PartialEq, Eq)]
enum Version {
    Older,
    Newer,
}

/// Which version a tab runs: the page and all programs that it loaded have to agree.
fn version(visit: &Visit) -> Version {
    let named = "const loaded = performance.getEntriesByType('resource').map(it => it.name);\
        const programs = loaded.filter(it => /[.](js|wasm)$/.test(it));\
        programs.push(document.querySelector('link[rel=modulepreload]').href);\
        return [...new Set(programs.map(it => it.includes('-newer')))]";
    match visit.run(named, Vec::new()).as_array().unwrap()[..] {
        [Value::Bool(true)] => Version::Newer,
        [Value::Bool(false)] => Version::Older,
        ref mixed => panic!("a mix of versions: {mixed:?}"),
    }
}

/// The same page under other names for its program, packed anew.
struct NewerVersion(PathBuf);

impl NewerVersion {
    fn made() -> Self {
        let folder = std::env::temp_dir().join(format!("beatwalk-{}-newer", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        copy(&built(), &folder);
        let page = std::fs::read_to_string(folder.join("index.html")).unwrap();
        let (_, after) = page.split_once("modulepreload\" href=\"./beatwalk-").unwrap();
        let (hash, _) = after.split_once(".js").unwrap();
        for name in [format!("beatwalk-{hash}.js"), format!("beatwalk-{hash}_bg.wasm")] {
            let newer = folder.join(name.replace(hash, "newer"));
            std::fs::rename(folder.join(&name), newer).unwrap();
        }
        // Without its policy, as Trunk wrote it, for the packing to seal it again.
        let lines = page.split_inclusive('\n').filter(|line| !line.contains("http-equiv"));
        let page = lines.collect::<String>().replace(hash, "newer");
        std::fs::write(folder.join("index.html"), page).unwrap();
        let mut packing = Command::new(env!("CARGO"));
        packing.args(["run", "--quiet", "--locked", "--package", "beatwalk-pack"]);
        packing.env("TRUNK_STAGING_DIR", &folder).current_dir(env!("CARGO_MANIFEST_DIR"));
        assert!(packing.status().unwrap().success());
        Self(folder)
    }

    fn folder(&self) -> &Path {
        &self.0
    }
}

impl Drop for NewerVersion {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            std::fs::copy(&path, &target).unwrap();
        }
    }
}
