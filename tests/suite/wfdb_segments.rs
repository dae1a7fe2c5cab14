//! A record made of parts reads as the whole that the parts were cut from.

use beatwalk::formats::{
    Choices, NoteKind, OpenError, Opened, Opening, SourceFile, WfdbError, WfdbNote, open,
};
use beatwalk::signal::{HoleCause, Recording};
use proptest::prelude::*;
use std::ops::Range;

const FRAMES: usize = 5000;

fn bytes(path: &str) -> Vec<u8> {
    std::fs::read(format!("{}/tests/data/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

fn file(name: &str, bytes: impl Into<Vec<u8>>) -> SourceFile {
    SourceFile { name: name.to_owned(), bytes: bytes.into() }
}

fn opened(files: &[SourceFile]) -> Opened {
    match open(files, &Choices::default(), &mut ()).unwrap() {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(_) => panic!("a header always has a rate"),
    }
}

fn notes(opened: &Opened) -> Vec<WfdbNote> {
    let kinds = opened.notes.iter().map(|note| note.kind.clone());
    kinds
        .filter_map(|kind| if let NoteKind::Wfdb(note) = kind { Some(note) } else { None })
        .collect()
}

/// Twelve leads of ten seconds at 500 Hz in format 16, from LUDB.
fn whole() -> Opened {
    opened(&[file("1.hea", bytes("ludb/1.hea")), file("1.dat", bytes("ludb/1.dat"))])
}

/// The lines of that header for some of its signals, without first value and checksum.
fn lines(name: &str, leads: &[usize]) -> String {
    let header = String::from_utf8(bytes("ludb/1.hea")).unwrap();
    let line = |lead: &usize| {
        let fields: Vec<&str> = header.lines().nth(lead + 1).unwrap().split(' ').collect();
        format!("{name} 16 {}\n", fields[2])
    };
    let named = |lead: &usize| {
        let label = header.lines().nth(lead + 1).unwrap().rsplit(' ').next().unwrap();
        line(lead).trim_end().to_owned() + &format!(" 16 0 0 0 0 {label}\n")
    };
    leads.iter().map(named).collect()
}

/// The header and the signal file of a part. The first value is wrong on purpose: it is not looked at.
fn part(name: &str, leads: &[usize], frames: Range<usize>) -> [SourceFile; 2] {
    let data = bytes("ludb/1.dat");
    let mut cut = Vec::new();
    for frame in frames.clone() {
        for lead in leads {
            cut.extend(&data[(frame * 12 + lead) * 2..][..2]);
        }
    }
    let header = format!(
        "{name} {} 500 {}\n{}",
        leads.len(),
        frames.len(),
        lines(&format!("{name}.dat"), leads)
    );
    [file(&format!("{name}.hea"), header), file(&format!("{name}.dat"), cut)]
}

/// What is said beside first values and checksums, which the parts do not have.
fn said(opened: &Opened) -> Vec<WfdbNote> {
    notes(opened)
        .into_iter()
        .filter(|note| {
            !matches!(note, WfdbNote::FirstValueDiffers { .. } | WfdbNote::ChecksumDiffers { .. })
        })
        .collect()
}

fn holes(trace: &Recording) -> Vec<(Range<usize>, HoleCause)> {
    trace.holes.iter().map(|hole| (hole.span.range(), hole.cause)).collect()
}

const ALL: [usize; 12] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

#[test]
fn parts_of_a_fixed_layout_are_joined_with_holes_between() {
    let whole = whole();
    let mut files = vec![file("m.hea", "m/4 12 500 5300\na 1200\n~ 300\nb 1800\nc 2000\n")];
    files.extend(part("a", &ALL, 0..1200));
    files.extend(part("b", &ALL, 1200..3000));
    files.extend(part("c", &ALL, 3000..5000));
    let joined = opened(&files);
    assert_eq!((joined.file.as_str(), joined.traces.len()), ("m.hea", 12));
    for (trace, right) in joined.traces.iter().zip(&whole.traces) {
        assert_eq!((&trace.name, trace.rate, trace.unit), (&right.name, right.rate, right.unit));
        assert_eq!(trace.samples.len(), 5300);
        assert_eq!(trace.samples[..1200], right.samples[..1200]);
        assert_eq!(trace.samples[1500..], right.samples[1200..]);
        assert_eq!(holes(trace), [(1200..1500, HoleCause::NoRows)]);
        assert_eq!(trace.recorded_samples(), FRAMES);
    }
    assert_eq!(joined.suggested, whole.suggested);
    let only_holes = said(&joined).into_iter().all(|note| matches!(note, WfdbNote::Holes { .. }));
    assert!(only_holes, "{:?}", said(&joined));
}

#[test]
fn parts_of_a_varying_layout_are_told_by_the_names_of_their_signals() {
    let whole = whole();
    let layout = lines("~", &[0, 1, 6]).replace("~ 16 ", "~ 0 ");
    let mut files = vec![
        file("m.hea", "m/4 3 500 5000\nlayout 0\na 1200\nb 1800\nc 2000\n"),
        file("layout.hea", format!("layout 3 500 0\n{layout}")),
    ];
    files.extend(part("a", &[1, 0], 0..1200));
    files.extend(part("b", &[6, 0], 1200..3000));
    files.extend(part("c", &[0, 1, 6], 3000..5000));
    for with_layout in [true, false] {
        let dropped: Vec<SourceFile> =
            files.iter().filter(|file| with_layout || file.name != "layout.hea").cloned().collect();
        let joined = opened(&dropped);
        let mut names: Vec<&str> = joined.traces.iter().map(|trace| trace.name.as_str()).collect();
        if with_layout {
            assert_eq!(names, ["i", "ii", "v1"]);
        }
        names.sort_unstable();
        assert_eq!(names, ["i", "ii", "v1"]);
        for (lead, name, gap) in [(0, "i", 0..0), (1, "ii", 1200..3000), (6, "v1", 0..1200)] {
            let trace = joined.traces.iter().find(|trace| trace.name == name).unwrap();
            let right = &whole.traces[lead];
            assert_eq!(trace.samples.len(), FRAMES);
            for at in (0..FRAMES).filter(|at| !gap.contains(at)) {
                assert_eq!(trace.samples[at], right.samples[at], "{name} at {at}");
            }
            let expected = if gap.is_empty() { vec![] } else { vec![(gap, HoleCause::NoRows)] };
            assert_eq!(holes(trace), expected, "{name}");
        }
        assert_eq!(joined.traces[joined.suggested].name, "i");
    }
}

#[test]
fn a_part_that_was_not_dropped_is_a_hole_and_all_of_them_an_error() {
    let master = file("m.hea", "m/3 12 500 5000\na 1200\nb 1800\nc 2000\n");
    let (a, b, c) =
        (part("a", &ALL, 0..1200), part("b", &ALL, 1200..3000), part("c", &ALL, 3000..5000));
    let [b_header, b_signal] = b;
    for (left, missing) in [(vec![b_signal], "b.hea"), (vec![b_header], "b.dat")] {
        let files = [vec![master.clone()], a.to_vec(), c.to_vec(), left].concat();
        let joined = opened(&files);
        assert_eq!(holes(&joined.traces[0]), [(1200..3000, HoleCause::NoRows)], "{missing}");
        let files = vec![missing.to_owned()];
        assert!(notes(&joined).contains(&WfdbNote::SegmentsMissing { files }), "{missing}");
    }
    let Err(OpenError::Wfdb(error)) =
        open(std::slice::from_ref(&master), &Choices::default(), &mut ())
    else {
        panic!()
    };
    assert_eq!(
        error.to_string(),
        "the header m.hea holds no samples: they are in a.hea, b.hea, c.hea"
    );
    assert_eq!(error.remedy().to_string(), "Drop a.hea, b.hea, c.hea together with m.hea.");

    let slow = file("b.hea", "b 1 250 5\nb.dat 16\n");
    let joined = opened(&[vec![master.clone(), slow.clone()], a.to_vec()].concat());
    let reason = "b: its sampling rate is not that of the whole record";
    assert!(notes(&joined).iter().any(|note| note.to_string().ends_with(reason)));
    let error = open(&[master, slow], &Choices::default(), &mut ()).unwrap_err();
    assert!(matches!(error, OpenError::Wfdb(WfdbError::NoSegments { .. })), "{error}");
    let empty = open(&[file("m.hea", "m/1 1 250 9\n~ 9\n")], &Choices::default(), &mut ());
    let said = "the header m.hea only describes its signals: nothing was recorded";
    assert_eq!(empty.unwrap_err().to_string(), said);
}

#[test]
fn a_break_longer_than_all_that_was_recorded_begins_new_traces() {
    let mut files =
        vec![file("m.hea", "m/4 1 500\n~ 2000000000000\na 1200\n~ 1000000000000\nb 1800\n")];
    files.extend(part("a", &[0], 0..1200));
    files.extend(part("b", &[0], 1200..3000));
    // Beats at the first sample of each part; long steps of time need several words.
    let mut marks = Vec::new();
    for steps in [2_000_000_000_000u64, 1_000_000_001_200] {
        let most = i32::MAX as u64;
        for step in std::iter::repeat_n(most, (steps / most) as usize).chain([steps % most]) {
            marks.extend((59u16 << 10).to_le_bytes());
            marks.extend([(step >> 16) as u16, step as u16].map(u16::to_le_bytes).concat());
        }
        marks.extend((1u16 << 10).to_le_bytes());
    }
    marks.extend([0, 0]);
    files.push(file("m.atr", marks));
    let joined = opened(&files);
    let lengths: Vec<usize> = joined.traces.iter().map(|trace| trace.samples.len()).collect();
    assert_eq!(lengths, [1200, 1800]);
    assert!(notes(&joined).contains(&WfdbNote::Stretches { stretches: 2 }));
    for trace in &joined.traces {
        let at: Vec<usize> = trace.marks.iter().map(|mark| mark.at.get()).collect();
        assert_eq!((at, trace.holes.len()), (vec![0], 0));
    }
}

#[test]
fn a_part_listed_again_and_again_takes_no_more_than_it_warrants() {
    let [header, signal] = part("a", &[0], 0..100);
    let master = format!("m/5000 1 500\n{}", "a 100\n".repeat(5000));
    let bytes = master.len() + header.bytes.len() + signal.bytes.len();
    let joined = opened(&[file("m.hea", master), header, signal]);
    let samples: usize = joined.traces.iter().map(|trace| trace.samples.len()).sum();
    assert!(samples <= 8 * bytes, "{samples}");
    assert!(samples > 100 * 100, "a part may be listed more than once");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn wherever_a_record_is_cut_the_parts_are_the_whole(cuts in proptest::collection::vec(1..FRAMES, 1..5)) {
        let whole = whole();
        let mut edges = [cuts, vec![0, FRAMES]].concat();
        edges.sort_unstable();
        edges.dedup();
        let mut master = format!("m/{} 12 500 {FRAMES}\n", edges.len() - 1);
        let mut files = Vec::new();
        for (number, pair) in edges.windows(2).enumerate() {
            master += &format!("p{number} {}\n", pair[1] - pair[0]);
            files.extend(part(&format!("p{number}"), &ALL, pair[0]..pair[1]));
        }
        files.push(file("m.hea", master));
        let joined = opened(&files);
        prop_assert_eq!(joined.traces, whole.traces);
    }

    #[test]
    fn any_master_is_answered(text in "m/[1-9] [1-3]( 500)?\n((a|b|~|l) [0-9]{1,5}\n){0,9}") {
        let mut files = vec![file("m.hea", text)];
        files.extend(part("a", &[0, 1], 0..50));
        files.extend(part("b", &[1], 50..90));
        if let Ok(Opening::Ready(opened)) = open(&files, &Choices::default(), &mut ()) {
            for trace in &opened.traces {
                prop_assert!(trace.samples.len() <= 8 * 400);
                prop_assert!(trace.samples.iter().all(|value| value.is_finite()));
                prop_assert!(trace.holes.iter().all(|hole| hole.span.end().get() <= trace.samples.len()));
            }
        }
    }
}
