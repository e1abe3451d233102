//! The value of digits: decimals, fractions, inches. Pure text in, number out.

/// Digits with at most one decimal point inside: `4`, `4.20`; not `.5`, not `5.`, no sign, no exponent.
pub(crate) fn decimal(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    if is_digits(whole) && is_digits(part) {
        text.parse().ok()
    } else {
        None
    }
}

/// `a/b` of whole numbers.
pub(crate) fn fraction(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    if !is_digits(above) || !is_digits(below) {
        return None;
    }
    let value = above.parse::<f64>().ok()? / below.parse::<f64>().ok()?;
    value.is_finite().then_some(value)
}

/// `a/b` that can stand behind a whole number: below one.
pub(crate) fn proper_fraction(text: &str) -> Option<f64> {
    fraction(text).filter(|value| *value < 1.0)
}

/// `1-1/8`: a whole number and a fraction.
pub(crate) fn mixed(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('-')?;
    Some(integer(whole)? + proper_fraction(part)?)
}

/// A decimal, a fraction, or both in one.
pub(crate) fn real(text: &str) -> Option<f64> {
    decimal(text)
        .or_else(|| fraction(text))
        .or_else(|| mixed(text))
}

/// A whole number.
pub(crate) fn integer(text: &str) -> Option<f64> {
    if is_digits(text) {
        text.parse().ok()
    } else {
        None
    }
}

/// Whether all of it is digits, and something is there.
pub(crate) fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_read_and_nothing_else() {
        assert_eq!(decimal("4.20"), Some(4.2));
        assert_eq!(decimal("0412"), Some(412.0));
        for text in [
            "", ".", ".5", "5.", "1.2.3", "1e3", "-1", "1,5", "inf", "NaN", "٣",
        ] {
            assert_eq!(decimal(text), None, "{text}");
        }
    }

    #[test]
    fn a_fraction_is_over_something_and_below_one_behind_a_whole_number() {
        assert_eq!(real("1/8"), Some(0.125));
        assert_eq!(real("1-1/8"), Some(1.125));
        assert_eq!(real("9/8"), Some(1.125));
        for text in [
            "1/0", "0/0", "1-9/8", "1-8/8", "1.5-1/8", "1/2/3", "1/2-1/8", "/8", "1/",
        ] {
            assert_eq!(real(text), None, "{text}");
        }
    }
}
