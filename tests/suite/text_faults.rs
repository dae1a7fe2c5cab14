//! What can't be read gives one clear sentence with its place, and something to do.

use beatwalk::formats::{Choices, LARGEST_FILE, OpenError, Opening, SourceFile, open};

fn error(bytes: &[u8], choices: &Choices) -> OpenError {
    let file = SourceFile { name: "trace.csv".to_owned(), bytes: bytes.to_vec() };
    match open(&[file], choices, &mut ()) {
        Err(error) => error,
        Ok(Opening::Ready(opened)) => panic!("read {} traces", opened.traces.len()),
        Ok(Opening::NeedsRate(asked)) => panic!("read {} values", asked.samples),
    }
}

fn rows(row: impl Fn(usize) -> String) -> Vec<u8> {
    (0..100).map(row).collect::<String>().into_bytes()
}

#[test]
fn each_fault_is_said_in_one_sentence() {
    let blank = [b"t,ecg\n".as_slice(), &rows(|row| format!("{row},\n"))].concat();
    let nan = [b"t,ecg\n".as_slice(), &rows(|row| format!("{row},NaN\n"))].concat();
    for (bytes, sentence) in [
        (b"".as_slice(), "trace.csv is empty"),
        (b"time,ecg\n", "no row of numbers was found; line 1 says \"time,ecg\": trace.csv"),
        (b"\n \n", "no row of numbers was found; line 1 says \"\": trace.csv"),
        (b"a\nb\nc d\n", "no row of numbers was found; line 3 says \"c d\": trace.csv"),
        (b"%PDF-1.7 ...", "trace.csv is a PDF document, not a recording"),
        (b"\x89PNG\r\n", "trace.csv is an image (PNG), not a recording"),
        (b"7z\xBC\xAF\x27", "trace.csv is a compressed archive (7Z), not a recording"),
        (b"RIFF\0\0\0\0AVI ", "trace.csv is a film or an image (AVI, WEBP), not a recording"),
        (
            &[0, 1, 2, 3, 4, 5, 200, 7, 8],
            "trace.csv is neither text nor a known recording, not a recording",
        ),
        (&blank, "column 2 has no value from line 2 on: trace.csv"),
        (&nan, "column 2 has no value from line 2 on: trace.csv"),
        (
            b"t,ecg\n0.1,1\n0.2,2\n0.3,3\n",
            "there are only 3 rows of numbers, from line 2 on: trace.csv",
        ),
    ] {
        let error = error(bytes, &Choices::default());
        assert_eq!(error.to_string(), sentence);
        let remedy = error.remedy().to_string();
        assert!(remedy.ends_with('.') && remedy.len() > 20);
    }
    let both = rows(|row| format!("0,{row:03},0,0{}\n", 100 + row));
    assert!(error(&both, &Choices::default()).to_string().starts_with("line 1 uses the comma"));
}

#[test]
fn impossible_choices_are_refused() {
    let table = rows(|row| format!("{row},{}\n", row * 7 % 5));
    let column = Choices { value_column: Some(7), ..Choices::default() };
    assert!(error(&table, &column).to_string().contains("no column 8"));
    let rate = Choices { rate_hz: Some(-1.0), ..Choices::default() };
    assert!(error(&table, &rate).to_string().contains("not possible"));
}

#[test]
fn a_file_past_the_limit_is_not_begun() {
    let size = usize::try_from(LARGEST_FILE).unwrap() + 1;
    let file = SourceFile { name: "long.csv".to_owned(), bytes: vec![b'1'; size] };
    let error = open(&[file], &Choices::default(), &mut ()).unwrap_err();
    assert_eq!(error.to_string(), "long.csv has 300 MB; at most 300 MB can be read");
}

#[test]
fn absurd_values_are_read_and_said() {
    let table =
        [b"t_s,ecg_mV\n".as_slice(), &rows(|row| format!("0.{row:02},{}e9\n", row * 7 % 11))]
            .concat();
    let file = SourceFile { name: "wild.csv".to_owned(), bytes: table };
    let Ok(Opening::Ready(opened)) = open(&[file], &Choices::default(), &mut ()) else { panic!() };
    assert!(opened.notes.iter().any(|note| note.to_string().contains("no skin voltage")));
}
