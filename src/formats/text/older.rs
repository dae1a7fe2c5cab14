//! Which of the older encodings a text is in, told by what its bytes become in each of them.
//!
//! A table of numbers holds few letters beyond ASCII: the names of its columns and their units. Every
//! encoding in which the bytes are possible is tried and what comes out is judged. Words that head a
//! table of signals speak for it, then whole words of one script with capitals only where capitals stand;
//! mixed scripts, lone accents in a row and signs that nobody writes speak against it. The earlier of
//! equals is taken, so that windows-1252 stays where nothing speaks. Common practice: no published rule.

use super::decoding::decoded;
use super::unit_words::{names_time, unit};

/// The encodings that are tried, the likeliest first, as the WHATWG encoding standard names them.
pub(super) const TRIED: [&str; 18] = [
    "windows-1252",
    "windows-1254",
    "windows-1250",
    "windows-1251",
    "Shift_JIS",
    "GBK",
    "EUC-KR",
    "Big5",
    "EUC-JP",
    "KOI8-U",
    "IBM866",
    "windows-1253",
    "windows-1257",
    "windows-1255",
    "windows-1256",
    "windows-874",
    "ISO-8859-2",
    "macintosh",
];

/// Words that head a table of signals, in lower case, beside those of time and units.
const HEADS: [&str; 42] = [
    "µv",
    "μv",
    "µs",
    "μs",
    "ms²",
    "größe",
    "gerät",
    "messgröße",
    "élève",
    "durée",
    "fréquence",
    "señal",
    "derivación",
    "tensión",
    "tensão",
    "amplitudine",
    "spänning",
    "jännite",
    "napięcie",
    "sygnał",
    "częstotliwość",
    "napětí",
    "měření",
    "feszültség",
    "напряжение",
    "сигнал",
    "экг",
    "отведение",
    "частота",
    "напруга",
    "χρόνος",
    "τάση",
    "σήμα",
    "זמן",
    "מתח",
    "الوقت",
    "الجهد",
    "เวลา",
    "시간",
    "전압",
    "신호",
    "심전도",
];

/// Signs of Chinese and Japanese in the head of a table: what is read by mistake is seldom one of them.
const COMMON: &str = "时间秒毫微伏特电压心图信号通道采样频率数据值单位日期记录导联姓名\
    時間電壓圖信號採樣頻率數據單記錄導聯圧測定値誘導波形分点番号入力";

/// What the bytes are most likely written in: `odd` are some lines with letters beyond ASCII.
pub(super) fn guess(odd: &[u8]) -> &'static str {
    let judged = TRIED.iter().filter_map(|&name| Some((name, judge(&decoded(name, odd)?)?)));
    let best = judged.reduce(|best, next| if next.1 > best.1 { next } else { best });
    best.map_or("windows-1252", |(name, _)| name)
}

/// How well a text reads; `None` when it can't be one. Per byte, so that signs of two bytes weigh as much.
fn judge(text: &str) -> Option<f64> {
    let impossible =
        |sign: char| matches!(sign, '\u{80}'..='\u{9f}' | '\u{e000}'..='\u{f8ff}' | '\u{fffd}');
    if text.contains(impossible) {
        return None;
    }
    let words: f64 = text.split(|sign: char| !sign.is_alphabetic()).map(judge_word).sum();
    let signs = text.chars().filter(|sign| !sign.is_ascii() && !sign.is_alphabetic());
    Some(words + signs.map(judge_sign).sum::<f64>())
}

fn judge_sign(sign: char) -> f64 {
    let usual = "°²³±·–—‘’“”„…½¼×÷§€«»¿¡".contains(sign)
        || matches!(sign, '\u{3000}'..='\u{303f}' | '\u{ff00}'..='\u{ffef}')
        || sign.is_alphanumeric();
    match sign {
        '\u{a0}' => 0.0,
        _ if usual => 0.5,
        _ => -2.0,
    }
}

fn judge_word(word: &str) -> f64 {
    if word.is_ascii() {
        return 0.0;
    }
    let letters: Vec<char> = word.chars().collect();
    let scripts: Vec<Script> = letters.iter().map(|&letter| Script::of(letter)).collect();
    let script = scripts.iter().copied().find(|&script| script != Script::Latin);
    let width = if script.is_some_and(Script::is_wide) { 2.0 } else { 1.0 };
    let beyond = letters.iter().filter(|letter| !letter.is_ascii()).count() as f64;
    let is_head = || HEADS.contains(&&*word.to_lowercase());
    if letters.len() > 1 && (is_head() || names_time(word) || unit(word).is_some()) {
        return 10.0 + 5.0 * width * beyond;
    }
    let Some(script) = script else { return judge_latin(&letters, beyond) };
    // A letter alone says nothing, and `°C` can be taken for one of two bytes.
    if beyond < 2.0 && !word.contains(|letter| COMMON.contains(letter)) {
        return 0.0;
    }
    let goes = |&other: &Script| {
        other == script
            || script.is_wide() && other == Script::Latin
            || matches!((script, other), (Script::Han, Script::Kana) | (Script::Kana, Script::Han))
    };
    if !scripts.iter().all(goes) {
        return -2.0 * width * beyond;
    }
    let is_loud = letters.len() > 1 && letters.iter().all(|letter| letter.is_uppercase());
    let weigh = |letter: char| match Script::of(letter) {
        Script::Han if COMMON.contains(letter) => 4.0,
        Script::Han => 1.0,
        Script::HalfKana | Script::Other => -1.0,
        Script::Kana => 3.0,
        Script::Hangul => 2.5,
        Script::Greek if is_greek(&letters) => 4.0,
        Script::Greek => -1.0,
        _ if !is_cased_well(&letters) => -3.0,
        _ if is_loud => 1.0,
        _ => 3.0,
    };
    letters.iter().filter(|letter| !letter.is_ascii()).map(|&letter| width * weigh(letter)).sum()
}

/// Words of the West have a few accents among plain letters.
fn judge_latin(letters: &[char], beyond: f64) -> f64 {
    let many = beyond * 2.0 > letters.len() as f64 && letters.len() > 1;
    if many || !is_cased_well(letters) {
        -2.0 * beyond
    } else if letters.len() > 2 {
        // Far more write Turkish than Icelandic, whose letters take the same places.
        if letters.iter().any(|letter| "ðÐþÞ".contains(*letter)) { 1.0 } else { 2.0 }
    } else {
        0.0
    }
}

/// Small letters after the first, or capitals throughout.
fn is_cased_well(letters: &[char]) -> bool {
    let rest = letters.get(1..).unwrap_or_default();
    let first_is_small = letters.first().is_some_and(|letter| letter.is_lowercase());
    !rest.iter().any(|letter| letter.is_uppercase())
        || !first_is_small && !rest.iter().any(|letter| letter.is_lowercase())
}

/// One accent in each Greek word of small letters; ς at its end only.
fn is_greek(letters: &[char]) -> bool {
    let accents = letters.iter().filter(|letter| "άέήίόύώΐΰΆΈΉΊΌΎΏ".contains(**letter)).count();
    let inner = letters.get(..letters.len().saturating_sub(1)).unwrap_or_default();
    let is_upper = letters.iter().all(|letter| letter.is_uppercase());
    is_cased_well(letters) && !inner.contains(&'ς') && (accents == 1 || is_upper && accents == 0)
}

/// The scripts that a word is not mixed from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Script {
    Latin,
    Greek,
    Cyrillic,
    Hebrew,
    Arabic,
    Thai,
    Kana,
    HalfKana,
    Han,
    Hangul,
    Other,
}

impl Script {
    const fn of(letter: char) -> Self {
        match letter {
            '\0'..='\u{24f}' => Self::Latin,
            '\u{370}'..='\u{3ff}' => Self::Greek,
            '\u{400}'..='\u{52f}' => Self::Cyrillic,
            '\u{590}'..='\u{5ff}' => Self::Hebrew,
            '\u{600}'..='\u{6ff}' => Self::Arabic,
            '\u{e00}'..='\u{e7f}' => Self::Thai,
            '\u{3040}'..='\u{30ff}' | '々' => Self::Kana,
            '\u{ff66}'..='\u{ff9f}' => Self::HalfKana,
            '\u{3400}'..='\u{9fff}' => Self::Han,
            '\u{ac00}'..='\u{d7af}' => Self::Hangul,
            _ => Self::Other,
        }
    }

    /// Written in two bytes a letter.
    const fn is_wide(self) -> bool {
        matches!(self, Self::Kana | Self::Han | Self::Hangul)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Heads of tables in the languages of schools, each in the encodings it was written in.
    const WRITTEN: [(&str, &[&str]); 24] = [
        ("Zeit (s);EKG (µV)", &["windows-1252", "windows-1250", "windows-1251"]),
        ("Zeit;Spannung [µV] für Schüler Müller", &["windows-1252"]),
        ("durée;élève;dérivation I", &["windows-1252"]),
        ("tiempo;señal;derivación", &["windows-1252"]),
        ("tempo (s);tensão (mV);aluno João", &["windows-1252"]),
        ("tid;spänning;försök", &["windows-1252"]),
        ("czas;napięcie;częstotliwość;sygnał", &["windows-1250", "ISO-8859-2"]),
        ("čas;napětí;měření", &["windows-1250"]),
        ("idő;feszültség", &["windows-1250"]),
        ("süre;gerilim;öğrenci", &["windows-1254"]),
        ("Время, с;ЭКГ, мВ", &["windows-1251", "KOI8-U", "IBM866"]),
        ("напряжение канал первый", &["windows-1251", "KOI8-U", "IBM866"]),
        ("Запись сделана учеником", &["windows-1251", "KOI8-U", "IBM866"]),
        ("Χρόνος;Τάση", &["windows-1253"]),
        ("μέτρηση;καρδιά;μαθητής", &["windows-1253"]),
        ("זמן;מתח", &["windows-1255"]),
        ("الوقت;الجهد", &["windows-1256"]),
        ("เวลา;แรงดัน", &["windows-874"]),
        ("時間(秒),電圧(mV)", &["Shift_JIS", "EUC-JP"]),
        ("サンプリング周波数,心電図", &["Shift_JIS", "EUC-JP"]),
        ("时间(秒),电压(毫伏)", &["GBK"]),
        ("采样频率,心电信号,学生", &["GBK"]),
        ("時間,電壓,心電圖", &["Big5"]),
        ("시간(초),전압(밀리볼트),심전도", &["EUC-KR"]),
    ];

    #[test]
    fn heads_of_tables_are_read_in_their_encoding() {
        let mut wrong = Vec::new();
        for (text, encodings) in WRITTEN {
            for &name in encodings {
                let encoding = encoding_rs::Encoding::for_label(name.as_bytes()).unwrap();
                let (bytes, _, lost) = encoding.encode(text);
                assert!(!lost, "{text} can't be written in {name}");
                let read = decoded(guess(&bytes), &bytes).unwrap();
                if read != text {
                    wrong.push(format!("{name}: {text} became {read} ({})", guess(&bytes)));
                }
            }
        }
        assert_eq!(wrong, Vec::<String>::new());
    }

    #[test]
    fn what_says_nothing_is_western() {
        for bytes in [b"".as_slice(), b"12,5 \xB0C", b"\xB5;1\n", b"1;2;\xFF\n"] {
            assert_eq!(guess(bytes), "windows-1252", "{bytes:?}");
        }
    }
}
