//! Times of day and dates: `09:14:05.250`, `2026-03-02T09:14:05Z`, `2.3.2026 9:14:05,25`, `3/2/2026 9:14:05 PM`.
//!
//! Two parts, `14:05.25`, are minutes and seconds. Dates follow ISO 8601, or day.month.year with points,
//! or month/day/year with strokes unless the first number can only be a day. Only differences are
//! used, so the calendar's zero does not matter; a stated shift from UTC is taken off.

use super::super::DecimalMark;
use super::number::number;

/// A moment: seconds of the day, or seconds since 1970-01-01 when there was a date.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Moment {
    pub(super) seconds: f64,
    pub(super) dated: bool,
}

/// Reads a moment.
pub(super) fn moment(cell: &[u8]) -> Option<Moment> {
    if cell.len() > 40 {
        return None;
    }
    let text = std::str::from_utf8(cell).ok()?;
    let text = text.trim_matches(['[', ']', '(', ')', '\'']);
    let Some(colon) = text.find(':') else { return without_colons(text) };
    let start =
        text.get(..colon)?.rfind(|sign: char| !sign.is_ascii_digit()).map_or(0, |at| at + 1);
    let (before, time) = text.split_at_checked(start)?;
    let seconds = time_of_day(time)?;
    let before = before.trim_end_matches(['T', ' ', '_', ',']);
    if before.is_empty() {
        return (start == 0).then_some(Moment { seconds, dated: false });
    }
    Some(Moment { seconds: seconds + 86_400.0 * day_number(before)?, dated: true })
}

/// `20260302T091405.250Z`, the basic form of ISO 8601.
fn without_colons(text: &str) -> Option<Moment> {
    let (date, time) = text.split_once('T')?;
    let (whole, rest) = (date.len() == 8).then(|| time.split_at_checked(6))??;
    let (hours, rest_of) = whole.split_at_checked(2)?;
    let (minutes, seconds) = rest_of.split_at_checked(2)?;
    let (year, rest_of) = date.split_at_checked(4)?;
    let (month, day) = rest_of.split_at_checked(2)?;
    let days = day_number(&format!("{year}-{month}-{day}"))?;
    let seconds = time_of_day(&format!("{hours}:{minutes}:{seconds}{rest}"))?;
    Some(Moment { seconds: seconds + 86_400.0 * days, dated: true })
}

fn time_of_day(text: &str) -> Option<f64> {
    let tail = text.find(|sign: char| !(sign.is_ascii_digit() || ":.,".contains(sign)));
    let (clock, tail) = text.split_at_checked(tail.unwrap_or(text.len()))?;
    let mut parts = clock.split(':');
    let first = whole(parts.next()?)?;
    let second = parts.next()?;
    let (hours, minutes, seconds) = match (parts.next(), parts.next()) {
        (None, _) => (0.0, first, decimal(second)?),
        (Some(third), None) => (first, whole(second)?, decimal(third)?),
        (Some(third), Some(thousandths)) if parts.next().is_none() => {
            (first, whole(second)?, whole(third)? + whole(thousandths)? / 1000.0)
        }
        _ => return None,
    };
    if minutes >= 60.0 && hours > 0.0 || seconds > 61.0 {
        return None;
    }
    let tail = tail.trim();
    let says = |word: &str| tail.eq_ignore_ascii_case(word);
    let shift = if tail.is_empty() || says("z") || says("utc") {
        0.0
    } else if says("am") || says("a.m.") {
        if hours >= 12.0 { -43_200.0 } else { 0.0 }
    } else if says("pm") || says("p.m.") {
        if hours < 12.0 { 43_200.0 } else { 0.0 }
    } else {
        -zone(tail)?
    };
    Some(hours * 3600.0 + minutes * 60.0 + seconds + shift)
}

/// Seconds ahead of UTC from `+01:00`, `-0530`, `+01`.
fn zone(text: &str) -> Option<f64> {
    let (sign, digits) = match text.split_at_checked(1)? {
        ("+", digits) => (1.0, digits),
        ("-", digits) => (-1.0, digits),
        _ => return None,
    };
    let digits = digits.replace(':', "");
    let (hours, minutes) = digits.split_at_checked(2)?;
    let minutes = if minutes.is_empty() { 0.0 } else { whole(minutes)? };
    Some(sign * (whole(hours)? * 3600.0 + minutes * 60.0))
}

fn whole(text: &str) -> Option<f64> {
    let fits = (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

fn decimal(text: &str) -> Option<f64> {
    let mark = if text.contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    number(text.as_bytes(), mark).filter(|_| text.starts_with(|sign: char| sign.is_ascii_digit()))
}

/// The first three letters of the months, in English and as German and Spanish spell them otherwise.
const MONTHS: [&[&str]; 12] = [
    &["jan", "ene"],
    &["feb"],
    &["mar", "mär"],
    &["apr", "abr"],
    &["may", "mai"],
    &["jun"],
    &["jul"],
    &["aug", "ago"],
    &["sep"],
    &["oct", "okt"],
    &["nov"],
    &["dec", "dez", "dic"],
];

/// `2-Mar-2026`, `Mar 2 2026`, `Mon Mar 2 2026` with its month as a number: `2.3.2026`.
fn with_month_number(text: &str) -> Option<String> {
    let mut numbers = Vec::new();
    let mut month = None;
    for word in text.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty()) {
        if word.starts_with(|sign: char| sign.is_ascii_digit()) {
            numbers.push(word);
        } else {
            let start: String = word.to_lowercase().chars().take(3).collect();
            month = month.or(MONTHS.iter().position(|names| names.contains(&start.as_str())));
        }
    }
    match (month, numbers.as_slice()) {
        (Some(month), [year, day]) if year.len() == 4 => {
            Some(format!("{day}.{}.{year}", month + 1))
        }
        (Some(month), [day, year]) => Some(format!("{day}.{}.{year}", month + 1)),
        _ => None,
    }
}

/// Days since 1970-01-01 in the Gregorian calendar.
fn day_number(text: &str) -> Option<f64> {
    if text.contains(char::is_alphabetic) {
        return day_number(&with_month_number(text)?);
    }
    let sign = text.chars().find(|sign| !sign.is_ascii_digit())?;
    if !"-/.".contains(sign) {
        return None;
    }
    let mut parts = text.splitn(3, sign).map(whole);
    let (a, b, c) = (parts.next()??, parts.next()??, parts.next()??);
    let (year, month, day) = match sign {
        _ if a > 31.0 => (a, b, c),
        '/' if a <= 12.0 => (c, a, b),
        _ => (c, b, a),
    };
    if !(1.0..=12.0).contains(&month) || !(1.0..=31.0).contains(&day) {
        return None;
    }
    // The year starts in March, so that the leap day comes last.
    let year = if month <= 2.0 { year - 1.0 } else { year };
    let month = (month + 9.0) % 12.0;
    let leap_days = (year / 4.0).floor() - (year / 100.0).floor() + (year / 400.0).floor();
    Some(year * 365.0 + leap_days + ((153.0 * month + 2.0) / 5.0).floor() + day - 1.0 - 719_468.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seconds(text: &str) -> Option<f64> {
        moment(text.as_bytes()).map(|moment| moment.seconds)
    }

    #[test]
    fn a_time_of_day_is_seconds_after_midnight() {
        assert_eq!(seconds("09:14:05.25"), Some(33_245.25));
        assert_eq!(seconds("9:14:05,25"), Some(33_245.25));
        assert_eq!(seconds("09:14:05:250"), Some(33_245.25));
        assert_eq!(seconds("14:05.25"), Some(845.25));
        assert_eq!(seconds("12:00:01 AM"), Some(1.0));
        assert_eq!(seconds("1:00:00 PM"), Some(46_800.0));
    }

    #[test]
    fn dates_are_counted_in_days() {
        assert_eq!(seconds("1970-01-02T00:00:01Z"), Some(86_401.0));
        assert_eq!(seconds("2000-03-01 00:00:00"), Some(951_868_800.0));
        assert_eq!(seconds("1.3.2000 00:00:00"), seconds("2000-03-01 00:00:00"));
        assert_eq!(seconds("3/1/2000 00:00:00"), seconds("2000-03-01 00:00:00"));
        assert_eq!(seconds("2000-03-01T01:00:00+01:00"), seconds("2000-03-01T00:00:00Z"));
        for text in [
            "20000301T000000",
            "1-Mar-2000 00:00:00",
            "Mar 1, 2000 00:00:00",
            "Wed 1 Mär 2000 00:00:00",
        ] {
            assert_eq!(seconds(text), Some(951_868_800.0), "{text}");
        }
        assert_eq!(seconds("[09:14:05.250]"), Some(33_245.25));
    }

    #[test]
    fn what_is_no_moment_stays_text() {
        for text in [
            "",
            ":",
            "rate: 5",
            "a:b:c",
            "12:",
            "2026-99-99 00:00:00",
            "09:15:00 0.03",
            "1:2:3:4:5",
        ] {
            assert_eq!(seconds(text), None, "{text}");
        }
    }
}
