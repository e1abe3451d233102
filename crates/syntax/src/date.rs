//! Days: which forms are dates, and what a doubtful one may mean.

/// What a piece of text is, as a date.
#[derive(Debug, PartialEq)]
pub(crate) enum Date {
    /// Year-month-day, and a day of the calendar.
    Day,
    /// Year-month-day, and no day of the calendar.
    NoSuchDay,
    /// Another form, with the days it may mean.
    Doubtful(Vec<Box<str>>),
}

/// Reads `text` as a date; nothing if it does not look like one.
///
/// `12-06-31` does not: two digits for the year and hyphens are a serial number as often as a day.
pub(crate) fn date(text: &str) -> Option<Date> {
    let separator = ['-', '/', '.'].into_iter().find(|c| text.contains(*c))?;
    let mut parts = text.split(separator);
    let (a, b, c) = (parts.next()?, parts.next()?, parts.next()?);
    let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    if parts.next().is_some() || ![a, b, c].into_iter().all(digits) || b.len() > 2 {
        return None;
    }
    match (separator, a.len(), c.len()) {
        ('-', 4, 2) if b.len() == 2 => Some(if day(a, b, c).is_some() {
            Date::Day
        } else {
            Date::NoSuchDay
        }),
        (_, 4, 1 | 2) => Some(doubtful(&[day(a, b, c)])),
        (_, 1 | 2, 4) => Some(doubtful(&[day(c, a, b), day(c, b, a)])),
        ('/' | '.', 1 | 2, 2) if a.len() == 2 || separator == '/' => Some(doubtful(&[
            day(&century(c), a, b),
            day(&century(c), b, a),
            day(&century(a), b, c),
        ])),
        _ => None,
    }
}

/// No plan is made for the last century.
fn century(year: &str) -> String {
    format!("20{year:0>2}")
}

fn doubtful(readings: &[Option<Box<str>>]) -> Date {
    let mut all: Vec<Box<str>> = readings.iter().flatten().cloned().collect();
    all.sort();
    all.dedup();
    Date::Doubtful(all)
}

/// The day as year-month-day, if the Gregorian calendar has it.
fn day(year: &str, month: &str, day: &str) -> Option<Box<str>> {
    let (y, m, d): (u32, u32, u32) = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
    let leap = y % 4 == 0 && (y % 100 != 0 || y % 400 == 0);
    let last = match m {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return None,
    };
    ((1..=last).contains(&d) && y > 0).then(|| format!("{y:04}-{m:02}-{d:02}").into())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn readings(text: &str) -> Vec<String> {
        match date(text) {
            Some(Date::Doubtful(all)) => all.iter().map(ToString::to_string).collect(),
            other => panic!("{text}: {other:?}"),
        }
    }

    #[test]
    fn only_days_of_the_calendar_are_days() {
        // Source: the Gregorian rule as in ISO 8601-1:2019, 4.2.1 (from memory): centuries are leap years only if
        // divisible by 400.
        for (text, what) in [
            ("2026-10-12", Date::Day),
            ("2024-02-29", Date::Day),
            ("2000-02-29", Date::Day),
            ("1900-02-29", Date::NoSuchDay),
            ("2026-02-29", Date::NoSuchDay),
            ("2026-13-01", Date::NoSuchDay),
            ("2026-04-31", Date::NoSuchDay),
            ("2026-00-10", Date::NoSuchDay),
            ("0000-01-01", Date::NoSuchDay),
        ] {
            assert_eq!(date(text), Some(what), "{text}");
        }
    }

    #[test]
    fn a_doubtful_date_lists_every_day_it_may_mean() {
        assert_eq!(readings("01/02/2026"), ["2026-01-02", "2026-02-01"]);
        assert_eq!(readings("13/02/2026"), ["2026-02-13"]);
        assert_eq!(readings("31.12.2026"), ["2026-12-31"]);
        assert_eq!(readings("2026/5/1"), ["2026-05-01"]);
        assert_eq!(readings("2026-5-1"), ["2026-05-01"]);
        assert_eq!(
            readings("1/2/26"),
            ["2001-02-26", "2026-01-02", "2026-02-01"]
        );
        assert_eq!(readings("45/45/2026"), [""; 0]);
    }

    #[test]
    fn other_groups_of_digits_are_no_dates() {
        for text in [
            "12-06-31",
            "1.2.3",
            "1-1/8",
            "12",
            "1:50",
            "2026-10",
            "2026-10-12-3",
        ] {
            assert_eq!(date(text), None, "{text}");
        }
    }
}
