//! Decimal digits: rounding in a stated direction, and how many digits are worth printing.

/// Which way a printed number may differ from the exact one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Round {
    /// Never below the exact value: a demand.
    Up,
    /// Never above the exact value: a capacity.
    Down,
    /// The nearest, halves away from zero: a value that is neither.
    Nearest,
}

/// Binary fractions leave dust: 15.1 is stored as a little more or less. A number within this
/// relative distance of a printable one is that number, whatever the direction of rounding.
const DUST: f64 = 1e-9;

/// From here on a double has no fraction to round.
const NO_FRACTION: f64 = 9_007_199_254_740_992.0;

/// `value` rounded to `decimals`; never minus zero.
pub(crate) fn round_to(value: f64, decimals: usize, round: Round) -> f64 {
    let step = power_of_ten(decimals);
    let scaled = value * step;
    if scaled.is_nan() || scaled.abs() >= NO_FRACTION {
        return value;
    }
    let nearest = scaled.round();
    let rounded = match round {
        _ if is_dust(scaled, nearest) => nearest,
        Round::Up => scaled.ceil(),
        Round::Down => scaled.floor(),
        Round::Nearest => nearest,
    };
    // Adding zero turns minus zero into zero.
    rounded / step + 0.0
}

/// The fewest decimals, at most `decimals`, that lose nothing of `value`; `None` if all lose something.
pub(crate) fn exact_decimals(value: f64, decimals: usize) -> Option<usize> {
    (0..=decimals).find(|&few| {
        let scaled = value * power_of_ten(few);
        is_dust(scaled, scaled.round())
    })
}

fn is_dust(scaled: f64, nearest: f64) -> bool {
    (scaled - nearest).abs() <= DUST * scaled.abs().max(1.0)
}

/// How many decimals show `significant` digits of `value`.
pub(crate) fn decimals_for(value: f64, significant: u8, least: usize, most: usize) -> usize {
    // Counted by comparison: a logarithm may fall on the wrong side of a power of ten.
    let mut wanted = usize::from(significant).saturating_sub(1);
    let mut size = value.abs();
    while size >= 10.0 && wanted > 0 {
        size /= 10.0;
        wanted -= 1;
    }
    while size > 0.0 && size < 1.0 && wanted < most {
        size *= 10.0;
        wanted += 1;
    }
    wanted.clamp(least, most)
}

fn power_of_ten(decimals: usize) -> f64 {
    i32::try_from(decimals).map_or(f64::INFINITY, |n| 10_f64.powi(n))
}

/// `value`, already rounded, with `decimals`; the whole part in groups of three once it has
/// `grouped_from` digits.
pub(crate) fn text(value: f64, decimals: usize, grouped_from: usize) -> String {
    let mut out = String::new();
    push(&mut out, value, decimals, grouped_from);
    out
}

/// The same behind `out`.
pub(crate) fn push(out: &mut String, value: f64, decimals: usize, grouped_from: usize) {
    if value < 0.0 {
        out.push('-');
    }
    let mut room = [0; ROOM];
    let many;
    let digits = if let Some(few) = plain(value.abs(), decimals, &mut room) {
        few
    } else {
        many = format!("{:.decimals$}", value.abs()).replace('.', "");
        many.as_bytes()
    };
    let whole = digits.len().saturating_sub(decimals);
    for (index, digit) in digits.iter().enumerate() {
        if index == whole {
            out.push('.');
        } else if index > 0 && index < whole {
            let left = whole - index;
            if left.is_multiple_of(3) && whole >= grouped_from {
                out.push(',');
            }
        }
        out.push(char::from(*digit));
    }
}

/// Digits of the greatest whole number that a double counts exactly, and some.
const ROOM: usize = 24;

/// The digits of a number that is not negative, without its point: the last `decimals` stand behind it. `None` where
/// it has too many.
fn plain(value: f64, decimals: usize, room: &mut [u8; ROOM]) -> Option<&[u8]> {
    let scaled = value * power_of_ten(decimals);
    if scaled < NO_FRACTION {
        // Whole numbers of this size are exact, and print far faster than fractions do.
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "neither negative nor beyond what a double counts"
        )]
        let mut units = scaled.round_ties_even() as u64;
        let mut first = ROOM;
        while units > 0 || ROOM - first <= decimals {
            first = first.checked_sub(1)?;
            *room.get_mut(first)? = b'0' + u8::try_from(units % 10).ok()?;
            units /= 10;
        }
        return room.get(first..);
    }
    None
}

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "the exact double is what is claimed")]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn dust_is_not_rounded_up() {
        // 0.1 + 0.2 style dust: the doubles next to 15.1, and 3 * 5.1 - 0.2.
        for dusty in [15.1, 15.100_000_000_000_001, 15.099_999_999_999_998] {
            assert_eq!(round_to(dusty, 1, Round::Up), 15.1);
            assert_eq!(round_to(dusty, 1, Round::Down), 15.1);
        }
        assert_eq!(round_to(15.100_001, 1, Round::Up), 15.2);
        assert_eq!(round_to(15.099_999, 1, Round::Down), 15.0);
        assert_eq!(round_to(1e-12, 0, Round::Up), 0.0);
    }

    #[test]
    fn zero_has_no_sign() {
        for round in [Round::Up, Round::Down, Round::Nearest] {
            assert!(round_to(-1e-13, 2, round).is_sign_positive());
        }
        assert!(round_to(-0.4, 0, Round::Up).is_sign_positive());
    }

    #[test]
    fn three_digits_of_any_size() {
        for (value, decimals) in [
            (999.0, 0),
            (99.9, 1),
            (10.0, 1),
            (9.99, 2),
            (0.5, 3),
            (0.0, 2),
        ] {
            assert_eq!(decimals_for(value, 3, 0, 3), decimals, "{value}");
        }
        assert_eq!(decimals_for(1234.0, 3, 1, 3), 1);
    }

    #[test]
    fn groups_of_three() {
        assert_eq!(text(1_234_567.0, 0, 4), "1,234,567");
        assert_eq!(text(-75_002.25, 1, 4), "-75,002.2");
        assert_eq!(text(999.0, 0, 4), "999");
        assert_eq!(text(1_234.5, 1, 5), "1234.5");
    }

    proptest! {
        #[test]
        fn up_is_never_below_and_down_never_above(value in -1e9_f64..1e9, decimals in 0_usize..4) {
            let dust = DUST * value.abs().max(1.0);
            prop_assert!(round_to(value, decimals, Round::Up) >= value - dust);
            prop_assert!(round_to(value, decimals, Round::Down) <= value + dust);
        }

        #[test]
        fn no_direction_moves_more_than_one_last_place(value in -1e6_f64..1e6, decimals in 0_usize..4) {
            let place = 10_f64.powi(-i32::try_from(decimals).unwrap());
            for round in [Round::Up, Round::Down, Round::Nearest] {
                prop_assert!((round_to(value, decimals, round) - value).abs() <= place);
            }
        }

        #[test]
        fn what_is_printed_reads_back_as_it_was_rounded(value in -1e9_f64..1e9, decimals in 0_usize..4) {
            let rounded = round_to(value, decimals, Round::Nearest);
            let back: f64 = text(rounded, decimals, 4).replace(',', "").parse().unwrap();
            prop_assert_eq!(back, rounded);
        }
    }
}
