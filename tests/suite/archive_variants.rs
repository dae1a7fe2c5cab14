//! Archives as people and programs really make them: in one another, with several records, in every form.

use crate::archive_files::{bytes, file, gzip, notes, opened, try_open, zip};
use beatwalk::formats::only_member;

#[test]
fn an_archive_in_an_archive_is_unpacked() {
    let table = bytes("field-cases/o28-three-beats.csv");
    let plain = opened(&[file("a.csv", table.clone())]);
    let packed = [
        gzip(&gzip(&table)),
        zip(&[("class/a.csv.gz", &gzip(&table))]),
        zip(&[("one/a.zip", &zip(&[("a.csv", &table)]))]),
        gzip(&zip(&[("a.csv", &table)])),
    ];
    for archive in packed {
        assert_eq!(opened(&[file("x", archive)]).traces, plain.traces);
    }
    // Collected work: each student's upload is an archive.
    let inner = zip(&[("a.csv", &table)]);
    let class = opened(&[file("class.zip", zip(&[("kim.zip", &inner), ("lee.zip", &inner)]))]);
    let names: Vec<&str> = class.traces.iter().map(|trace| trace.name.as_str()).collect();
    assert_eq!(names, ["kim.zip/a.csv", "lee.zip/a.csv"]);
    // A spreadsheet among them is left out.
    let sheet = zip(&[("[Content_Types].xml", b"<xml/>")]);
    let mixed = opened(&[file("m.zip", zip(&[("a.csv", &table), ("b.xlsx", &sheet)]))]);
    assert_eq!(mixed.traces, plain.traces);
    let left =
        "left out: b.xlsx: b.xlsx is a spreadsheet or document (XLSX, DOCX, ODS), not a recording";
    assert!(notes(&mixed).iter().any(|note| note == left), "{:?}", notes(&mixed));
    // Archives inside share what the one outside may unpack to.
    let swollen = zip(&[("a.gz", &gzip(&vec![b'0'; 1 << 20]))]);
    let said = "a.gz unpacks to more than 250 times its size, as no recording does";
    assert_eq!(try_open(&[file("x", swollen)]).unwrap_err().to_string(), said);
}

#[test]
fn several_records_become_traces_named_by_their_headers() {
    let (o16, signal) = (bytes("field-cases/o16.hea"), bytes("field-cases/o16.dat"));
    let plain = opened(&[file("o16.hea", o16.clone()), file("o16.dat", signal.clone())]);
    let (leads, values) = (bytes("ludb/1.hea"), bytes("ludb/1.dat"));
    let both = opened(&[file(
        "two.zip",
        zip(&[
            ("class/kim/o16.dat", &signal),
            ("class/lee/1.hea", &leads),
            ("class/kim/o16.hea", &o16),
            ("class/lee/1.dat", &values),
            ("class/RECORDS", b"1\n2\n"),
        ]),
    )]);
    let names: Vec<&str> = both.traces.iter().map(|trace| trace.name.as_str()).collect();
    assert_eq!(names[..2], ["class/lee/1.hea: i", "class/lee/1.hea: ii"]);
    assert_eq!((names.len(), names[12]), (13, "class/kim/o16.hea"));
    assert_eq!(both.traces[12].samples, plain.traces[0].samples);
    let left = "left out, because they do not belong to a record: class/RECORDS";
    assert!(notes(&both).iter().any(|note| note == left), "{:?}", notes(&both));
    // Where the signal of one is missing, the other opens.
    let one = opened(&[file(
        "x.zip",
        zip(&[("a/o16.hea", &o16), ("1.hea", &leads), ("1.dat", &values)]),
    )]);
    assert_eq!(one.traces.len(), 12);
    assert!(
        notes(&one).iter().any(|note| note.starts_with("left out: a/o16.hea: the header o16.hea"))
    );
}

#[test]
fn a_record_in_parts_is_joined_out_of_an_archive() {
    let signal: Vec<u8> = (0..40i16).flat_map(i16::to_le_bytes).collect();
    let archive = zip(&[
        ("m/a.hea", b"a 1 250 20\na.dat 16 100/mV\n"),
        ("m/a.dat", &signal[..40]),
        ("m/b.hea", b"b 1 250 20\nb.dat 16 100/mV\n"),
        ("m/b.dat", &signal[40..]),
        ("m/m.hea", b"m/2 1 250 40\na 20\nb 20\n"),
    ]);
    let joined = opened(&[file("m.zip", archive)]);
    assert_eq!((joined.file.as_str(), joined.traces.len()), ("m.hea", 1));
    let right: Vec<f32> = (0..40).map(|at| (f64::from(at) / 100.0) as f32).collect();
    assert_eq!(joined.traces[0].samples[..], right[..]);
}

#[test]
fn every_way_of_writing_a_zip_is_read() {
    let table = bytes("field-cases/o28-three-beats.csv");
    let plain = opened(&[file("a.csv", table.clone())]);
    // Kept by the fuzzers too: lengths behind the data, and lengths of eight bytes.
    for kept in ["data-descriptor.zip", "zip64.zip"] {
        let path = format!("{}/tests/fuzz/corpus/archive/{kept}", env!("CARGO_MANIFEST_DIR"));
        let opened = opened(&[file(kept, std::fs::read(path).unwrap())]);
        assert_eq!(opened.traces[0].samples[..4], [0.0, 0.7, 0.4, 0.1], "{kept}");
        assert_eq!(opened.traces[0].samples.len(), 20, "{kept}");
    }
    let long = opened(&[file("long.zip", long_zip("a.csv", &table))]);
    assert_eq!(long.traces, plain.traces);
    let hidden = opened(&[file(
        "mac.zip",
        zip(&[
            ("__MACOSX/._a.csv", b"\0\x05\x16\x07"),
            (".DS_Store", b"\0\0"),
            ("b/", b""),
            ("b/a.csv", &table),
        ]),
    )]);
    assert_eq!((hidden.traces, hidden.file.as_str()), (plain.traces, "a.csv"));
}

/// A zip archive that keeps every number in eight bytes.
fn long_zip(name: &str, bytes: &[u8]) -> Vec<u8> {
    let short = zip(&[(name, bytes)]);
    let list_at = short.windows(4).position(|window| window == b"PK\x01\x02").unwrap();
    let mut archive = short[..list_at].to_vec();
    let mut entry = short[list_at..short.len() - 22].to_vec();
    entry[20..28].fill(0xFF);
    entry[42..46].fill(0xFF);
    let numbers = [bytes.len() as u64, bytes.len() as u64, 0].map(u64::to_le_bytes).concat();
    entry[30] = 32;
    entry.extend(b"\x99\x99\0\0\x01\0\x18\0");
    entry.extend(numbers);
    let long_at = archive.len() + entry.len();
    archive.extend(&entry);
    archive.extend(b"PK\x06\x06");
    archive.extend(44u64.to_le_bytes());
    archive.extend([45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    for number in [1, 1, entry.len() as u64, list_at as u64] {
        archive.extend(number.to_le_bytes());
    }
    archive.extend(b"PK\x06\x07\0\0\0\0");
    archive.extend((long_at as u64).to_le_bytes());
    archive.extend([1, 0, 0, 0]);
    archive.extend(b"PK\x05\x06\0\0\0\0");
    archive.extend([0xFF; 12]);
    archive.extend([0, 0]);
    archive
}

#[test]
fn saved_work_in_an_archive_is_found_or_named() {
    let work = bytes("saved/version-1.beatwalk.json");
    for archive in [gzip(&work), zip(&[("kim.beatwalk.json", &work)])] {
        let only = only_member(&file("x", archive.clone())).unwrap();
        assert_eq!(only.bytes, work);
        let error = try_open(&[file("x", archive)]).unwrap_err();
        assert!(
            error.to_string().ends_with(" is saved work, which opens only by itself"),
            "{error}"
        );
    }
    assert!(only_member(&file("x", zip(&[("a", b"1"), ("b", b"2")]))).is_none());
    assert!(only_member(&file("x", work)).is_none());
}

#[test]
fn what_is_locked_or_behind_the_end_is_left_out() {
    let table = bytes("field-cases/o28-three-beats.csv");
    let plain = opened(&[file("a.csv", table.clone())]);
    let mut archive = zip(&[("a.csv", &table), ("b.csv", &table)]);
    let last = archive.windows(4).rposition(|window| window == b"PK\x01\x02").unwrap();
    archive[last + 8] = 1;
    let one = opened(&[file("x.zip", archive)]);
    assert_eq!(one.traces, plain.traces);
    assert_eq!(notes(&one)[0], "left out: b.csv: it is locked with a password");

    let (head, tail) = table.split_at(3000);
    let streams = [gzip(head), gzip(tail)].concat();
    for (behind, said) in [(&[][..], 1), (&[0; 512], 1), (b"junk", 2)] {
        let joined = opened(&[file("a.csv.gz", [&streams, behind].concat())]);
        assert_eq!(joined.traces, plain.traces);
        let own = notes(&joined).iter().filter(|note| note.contains("a.csv.gz")).count();
        assert_eq!(own, said, "{:?}", notes(&joined));
    }
}
