//! Packed files open as what is in them, and what must not be unpacked is refused.

use beatwalk::formats::{Choices, Format, OpenError, Opened, Opening, SourceFile, open};
use flate2::Compression;
use flate2::write::GzEncoder;
use proptest::collection::vec;
use proptest::prelude::*;
use std::io::Write;

pub(crate) fn bytes(path: &str) -> Vec<u8> {
    std::fs::read(format!("{}/tests/data/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

pub(crate) fn file(name: &str, bytes: Vec<u8>) -> SourceFile {
    SourceFile { name: name.to_owned(), bytes }
}

pub(crate) fn try_open(files: &[SourceFile]) -> Result<Opening, OpenError> {
    open(files, &Choices::default(), &mut ())
}

pub(crate) fn opened(files: &[SourceFile]) -> Opened {
    match try_open(files).unwrap() {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(needs) => panic!("{} asks for its rate", needs.file),
    }
}

pub(crate) fn notes(opened: &Opened) -> Vec<String> {
    opened.notes.iter().map(ToString::to_string).collect()
}

pub(crate) fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

/// A zip archive of stored members.
pub(crate) fn zip(members: &[(&str, &[u8])]) -> Vec<u8> {
    let (mut archive, mut list) = (Vec::new(), Vec::new());
    for (name, bytes) in members {
        let mut checksum = flate2::Crc::new();
        checksum.update(bytes);
        let (size, at) = (bytes.len() as u32, archive.len() as u32);
        let mut common = vec![20, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        common.extend([checksum.sum(), size, size].iter().flat_map(|word| word.to_le_bytes()));
        common.extend([name.len() as u8, 0, 0, 0]);
        archive.extend([b"PK\x03\x04".as_slice(), &common, name.as_bytes(), bytes].concat());
        list.extend([b"PK\x01\x02\x14\0".as_slice(), &common, &[0; 10]].concat());
        list.extend(at.to_le_bytes());
        list.extend(name.as_bytes());
    }
    let (size, at, count) = (list.len() as u32, archive.len() as u32, members.len() as u8);
    archive.extend(list);
    archive.extend([b"PK\x05\x06".as_slice(), &[0, 0, 0, 0, count, 0, count, 0]].concat());
    archive.extend([size, at].iter().flat_map(|word| word.to_le_bytes()));
    archive.extend([0, 0]);
    archive
}

#[test]
fn a_packed_table_is_the_table() {
    let plain = opened(&[file("a.csv", bytes("field-cases/o28-three-beats.csv"))]);
    for archive in ["o28-three-beats.csv.gz", "one.zip"] {
        let packed = opened(&[file(archive, bytes(&format!("archive/{archive}")))]);
        assert_eq!(packed.traces, plain.traces);
        assert_eq!(packed.layout, plain.layout);
        assert!(notes(&packed)[0].starts_with(&format!("unpacked from {archive}: ")));
    }
    let zipped = opened(&[file("one.zip", bytes("archive/one.zip"))]);
    assert_eq!(zipped.file, "rest.csv");
    let left =
        "left out: read me.txt: no row of numbers was found; line 1 says \"made up\": read me.txt";
    assert!(notes(&zipped).iter().any(|note| note == left), "{:?}", notes(&zipped));
}

#[test]
fn a_packed_record_is_the_record() {
    let part = |ending: &str| bytes(&format!("field-cases/o16.{ending}"));
    let plain = opened(&[file("o16.hea", part("hea")), file("o16.dat", part("dat"))]);
    let zipped = opened(&[file("record.zip", bytes("archive/record.zip"))]);
    let half = opened(&[file("o16.hea", part("hea")), file("o16.dat.gz", gzip(&part("dat")))]);
    assert_eq!(zipped.format, Format::Wfdb);
    assert_eq!(zipped.traces, plain.traces);
    assert_eq!(half.traces, plain.traces);
    let left = "left out, because they do not belong to o16.hea: class/notes.txt";
    assert!(notes(&zipped).iter().any(|note| note == left), "{:?}", notes(&zipped));
}

#[test]
fn several_tables_become_traces_in_order() {
    let class = opened(&[file("class.zip", bytes("archive/class.zip"))]);
    let names: Vec<&str> = class.traces.iter().map(|trace| trace.name.as_str()).collect();
    assert_eq!(names, ["q03/ecg.csv", "q11/ecg.csv"]);
    assert_eq!((class.file.as_str(), class.suggested), ("class.zip", 0));
    let left = "left out: photo.png: photo.png is an image (PNG), not a recording";
    assert!(notes(&class).iter().any(|note| note == left), "{:?}", notes(&class));
}

#[test]
fn a_table_without_a_rate_asks_for_it() {
    let values = bytes("field-cases/o08-one-column-no-rate.csv");
    let packed = [file("two.zip", zip(&[("a.csv", &values), ("b.csv", &values)]))];
    let Opening::NeedsRate(needs) = try_open(&packed).unwrap() else { panic!() };
    assert_eq!(needs.file, "a.csv");
    let choices = Choices { rate_hz: Some(250.0), ..Choices::default() };
    let Ok(Opening::Ready(both)) = open(&packed, &choices, &mut ()) else { panic!() };
    assert_eq!(both.traces.len(), 2);
}

#[test]
fn each_fault_is_said_in_one_sentence() {
    let table = bytes("field-cases/o28-three-beats.csv");
    let locked = {
        let mut archive = zip(&[("a.csv", &table)]);
        let flags = archive.windows(4).position(|window| window == b"PK\x01\x02").unwrap() + 8;
        archive[flags] = 1;
        archive
    };
    let mut changed = zip(&[("a.csv", &table)]);
    changed[60] ^= 1;
    let mut checksum = gzip(&table);
    let last = checksum.len() - 8;
    checksum[last] ^= 1;
    for (bytes, sentence) in [
        (zip(&[]), "x holds no file"),
        (zip(&[("__MACOSX/a.csv", &table), ("b/", b"")]), "x holds no file"),
        (zip(&[("a.csv", &table)])[..900].to_vec(), "x is damaged or was cut off"),
        (checksum, "x is damaged or was cut off"),
        (changed, "nothing in x can be read: left out: a.csv: it is damaged"),
        (locked, "a.csv in x is locked with a password"),
        (gzip(&gzip(&gzip(&table))), "x holds another archive, x"),
        (zip(&[("a.zip", &zip(&[("b.gz", &gzip(&table))]))]), "a.zip holds another archive, b.gz"),
        (
            zip(&[("[Content_Types].xml", b"<xml/>")]),
            "x is a spreadsheet or document (XLSX, DOCX, ODS), not a recording",
        ),
        (
            gzip(&vec![b'0'; 1 << 20]),
            "x unpacks to more than 250 times its size, as no recording does",
        ),
        (zip(&[("a.pdf", b"%PDF-1.7")]), "a.pdf is a PDF document, not a recording"),
    ] {
        let error = try_open(&[file("x", bytes)]).unwrap_err();
        assert_eq!(error.to_string(), sentence);
        let remedy = error.remedy().to_string();
        assert!(remedy.ends_with('.') && remedy.len() > 20);
    }
}

#[test]
fn a_gzip_that_was_cut_off_is_read_up_to_there() {
    let whole = bytes("archive/o28-three-beats.csv.gz");
    let cut = opened(&[file("a.csv.gz", whole[..whole.len() / 2].to_vec())]);
    assert!(cut.traces[0].samples.len() > 100);
    assert!(notes(&cut)[0].starts_with("a.csv.gz was cut off"), "{:?}", notes(&cut));
}

#[test]
fn samples_that_begin_as_an_archive_does_stay_samples() {
    let header = b"r 1 250\nr.dat 16 200/mV\n".to_vec();
    for start in [b"PK\x03\x04".as_slice(), b"\x1F\x8B\x08\0"] {
        let signal = [start, &[0; 400]].concat();
        let record = opened(&[file("r.hea", header.clone()), file("r.dat", signal)]);
        assert_eq!(record.traces[0].samples.len(), 202);
    }
}

/// Whatever comes of it, it says something.
fn check(bytes: Vec<u8>) -> Result<(), TestCaseError> {
    match try_open(&[file("x", bytes)]) {
        Ok(Opening::Ready(opened)) => {
            prop_assert!(opened.suggested < opened.traces.len());
            prop_assert!(opened.notes.iter().all(|note| !note.to_string().is_empty()));
        }
        Ok(Opening::NeedsRate(needs)) => prop_assert!(needs.samples > 0),
        Err(error) => prop_assert!(!error.to_string().is_empty()),
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_bytes_are_answered(bytes in vec(any::<u8>(), 0..300), start in 0usize..4) {
        let starts: [&[u8]; 4] = [b"PK\x03\x04", b"PK\x05\x06", b"\x1F\x8B\x08", b"\x1F\x8B\x08\0"];
        check([starts[start], &bytes].concat())?;
    }

    #[test]
    fn any_packed_bytes_are_answered(bytes in vec(any::<u8>(), 0..300)) {
        check(gzip(&bytes))?;
        check(zip(&[("a.hea", &bytes), ("a.dat", &bytes)]))?;
        check(zip(&[("a.csv", &bytes), ("b/a.csv", &bytes)]))?;
    }

    #[test]
    fn any_changed_bytes_are_answered(
        name in prop_oneof![Just("class.zip"), Just("record.zip"), Just("o28-three-beats.csv.gz")],
        changes in vec((any::<proptest::sample::Index>(), any::<u8>()), 1..6),
        from_end in any::<bool>(),
        length in any::<proptest::sample::Index>(),
    ) {
        let mut archive = bytes(&format!("archive/{name}"));
        for (at, byte) in changes {
            // The list of a zip stands in its last bytes.
            let at = if from_end { archive.len() - 1 - at.index(400) } else { at.index(archive.len()) };
            archive[at] = byte;
        }
        check(archive.clone())?;
        archive.truncate(length.index(archive.len()));
        check(archive)?;
    }
}
