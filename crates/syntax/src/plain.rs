//! Tells the many lines that the quick grammar reads right from the few that need the exact one.

use memchr::memchr;

/// Whether the quick grammar gives the same tokens for this line as the exact one.
///
/// May say no without need, never yes wrongly: a property test compares both grammars.
pub(crate) fn is_plain(line: &str) -> bool {
    let bytes = line.as_bytes();
    let mut at = 0;
    // Whether a token would start here for certain.
    let mut fresh = true;
    while let Some(&byte) = bytes.get(at) {
        let next = bytes.get(at + 1).copied();
        match byte {
            b' ' | b',' | b')' => fresh = true,
            b'(' | b'|' if fresh => {}
            b'#' if fresh => return true,
            b'"' if fresh => match memchr(b'"', bytes.get(at + 1..).unwrap_or_default()) {
                Some(length) => at += length + 1,
                None => return true,
            },
            b'"' => {
                let before = at.checked_sub(1).and_then(|i| bytes.get(i));
                if !before.is_some_and(u8::is_ascii_digit) {
                    return false;
                }
            }
            b'(' | b'|' | b'#' | b'=' | b'<' | b'>' if !fresh => return false,
            b'.' if !fresh && next == Some(b'.') => return false,
            b'+' if !fresh && next == Some(b'/') => return false,
            0..=31 | 127.. => return false,
            _ => fresh = false,
        }
        at += 1;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::is_plain;

    #[test]
    fn a_line_as_engineers_write_it_is_plain() {
        for line in [
            "  mass       31.5 t +/- 8 %                       from d-204",
            "  shape      ring, outside 20'-4\", high 3'-7 1/2\"  # as drawn, 100 °",
            "  hold H2    at 2 in  \"light all round: 90°\"   by rigger-lead",
            "    | (32.3 m, 5.4 m)   | EL 104.25 m        |",
        ] {
            assert!(is_plain(line), "{line}");
        }
    }

    #[test]
    fn what_is_glued_to_a_word_or_number_is_not_plain() {
        for line in [
            "mass\t31.5 t",
            "mass 31.5 t#note",
            "quote\"62 tons\"",
            "mass 31.5\u{a0}t",
            "|a|b|",
            "5..8 t",
            "let a=5",
            "at(5 m, 3 m)",
            "5+/-3",
        ] {
            assert!(!is_plain(line), "{line}");
        }
    }
}
