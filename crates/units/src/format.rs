//! The one place that turns a number into text for people.

use std::fmt;

use crate::digits::{decimals_for, exact_decimals, push, round_to, text};
use crate::ladder::{Rung, metric, us};
use crate::{Amount, Band, Kind, Length, Measured, Quantity, RISE, Round, System, Unit};

/// Prints amounts for every face.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Printer {
    /// Whether the US unit stands in brackets behind the metric one, as US rule sets want.
    pub us_beside: bool,
}

impl Printer {
    /// `14.5 t`, or `14.5 t (31,967 lb)` with `us_beside`; each is rounded in the direction of
    /// `round` from the exact value, never one from the other.
    pub fn amount(&self, amount: Amount, round: Round) -> String {
        self.printed(amount, round, 0)
    }

    /// `14.5 t`, never with the second unit; for narrow places.
    pub fn metric(&self, amount: Amount, round: Round) -> String {
        single(amount, metric(amount.kind), round)
    }

    /// The amount in a unit that the reader chose, as a gauge's own; `None` where that unit may not
    /// state this kind.
    pub fn in_unit(&self, amount: Amount, unit: &Unit, round: Round) -> Option<String> {
        amount.in_unit(unit)?;
        Some(single(amount, &[Rung::chosen(unit.symbol)], round))
    }

    /// `28.98 .. 34.02 t`, and with `us_beside` `28.98 .. 34.02 t, 63,889 .. 75,002 lb`: the low side
    /// rounded down, the high side up. A side that is not known is said in words.
    ///
    /// Both sides are of one kind; a pair of two kinds is printed as two amounts.
    pub fn band(&self, lo: Option<Amount>, hi: Option<Amount>) -> String {
        match (lo, hi) {
            (None, None) => "unknown".to_owned(),
            (Some(lo), None) => {
                let bound = self.bound(lo, Round::Down);
                format!("at least {bound}, high side unknown")
            }
            (None, Some(hi)) => {
                let bound = self.bound(hi, Round::Up);
                format!("at most {bound}, low side unknown")
            }
            (Some(lo), Some(hi)) if lo.kind == hi.kind && both_finite(lo, hi) => {
                let sides = [(lo, Round::Down), (hi, Round::Up)];
                let first = on_ladder(&sides, metric(lo.kind), BOUND_DIGITS);
                match self.beside(lo.kind) {
                    Some(ladder) => format!("{first}, {}", on_ladder(&sides, ladder, BOUND_DIGITS)),
                    None => first,
                }
            }
            (Some(lo), Some(hi)) => {
                let lo = self.bound(lo, Round::Down);
                format!("{lo} .. {}", self.bound(hi, Round::Up))
            }
        }
    }

    /// A band of typed values, as [`Printer::band`] prints it.
    pub fn band_of<M: Measured>(&self, band: &Band<M>) -> String {
        self.band(band.lo().map(Amount::of), band.hi().map(Amount::of))
    }

    /// A side of a band, with one digit more than a result has: `34.02 t`.
    pub fn bound(self, amount: Amount, round: Round) -> String {
        self.printed(amount, round, BOUND_DIGITS)
    }

    fn printed(self, amount: Amount, round: Round, extra_digits: u8) -> String {
        let sides = [(amount, round)];
        let first = on_ladder(&sides, metric(amount.kind), extra_digits);
        match self.beside(amount.kind) {
            Some(ladder) if amount.si.is_finite() => {
                format!("{first} ({})", on_ladder(&sides, ladder, extra_digits))
            }
            _ => first,
        }
    }

    fn beside(self, kind: Kind) -> Option<&'static [Rung]> {
        let ladder = us(kind);
        (self.us_beside && !ladder.is_empty()).then_some(ladder)
    }

    /// A utilisation in whole per cent, rounded up: `103 %`. Above 1 it never prints as 100 %.
    pub fn utilisation(share: f64) -> String {
        if !share.is_finite() {
            return not_finite(share).to_owned();
        }
        let percent = round_to(share * 100.0, 0, Round::Up);
        let percent = if share > 1.0 {
            percent.max(101.0)
        } else {
            percent
        };
        format!("{} %", text(percent, 0, 5))
    }

    /// A height over the plant's datum, nearest centimetre: `EL 118.95 m`.
    pub fn level(level: Length) -> String {
        Self::level_rounded(level, Round::Nearest)
    }

    /// The same, rounded as a demand or a capacity: the hook must reach, the hook bears up to.
    pub fn level_rounded(level: Length, round: Round) -> String {
        if !level.value.is_finite() {
            return format!("EL {}", not_finite(level.value));
        }
        format!("EL {} m", text(round_to(level.value, 2, round), 2, 5))
    }

    /// An amount that always shows its sign, nearest: `-60 mm`, `+60 mm`, `0 mm`; for corners.
    pub fn signed(amount: Amount) -> String {
        let plain = single(amount, metric(amount.kind), Round::Nearest);
        let number = plain.split(' ').next().unwrap_or_default();
        let is_zero = !number.contains(|c: char| ('1'..='9').contains(&c));
        if plain.starts_with('-') || is_zero {
            plain
        } else {
            format!("+{plain}")
        }
    }
}

/// As typed: `31.5 t`, `8 %`, `0.05`, `1:50`.
impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.unit == RISE && self.value != 0.0 {
            return write!(f, "1:{}", round_to(1.0 / self.value, 3, Round::Nearest));
        }
        write!(f, "{}", self.value)?;
        if !self.unit.symbol.is_empty() {
            write!(f, " {}", self.unit.symbol)?;
        }
        Ok(())
    }
}

fn both_finite(lo: Amount, hi: Amount) -> bool {
    lo.si.is_finite() && hi.si.is_finite()
}

fn not_finite(value: f64) -> &'static str {
    if value.is_nan() {
        "not a number"
    } else if value > 0.0 {
        "infinite"
    } else {
        "minus infinite"
    }
}

/// One number with as many digits as an engineer prints.
fn single(amount: Amount, ladder: &[Rung], round: Round) -> String {
    on_ladder(&[(amount, round)], ladder, 0)
}

/// Bounds carry one digit more than results, since others are computed from them.
const BOUND_DIGITS: u8 = 1;

/// All `sides` in the first rung that they stay under when rounded, with the same decimals.
fn on_ladder<const SIDES: usize>(
    sides: &[(Amount, Round); SIDES],
    ladder: &[Rung],
    extra_digits: u8,
) -> String {
    if let Some((amount, _)) = sides.iter().find(|(amount, _)| !amount.si.is_finite()) {
        return not_finite(amount.si).to_owned();
    }
    for rung in ladder {
        let unit = rung.unit();
        // A ladder holds units of its kind only.
        let values =
            sides.map(|(amount, round)| (amount.in_unit(unit).unwrap_or(f64::INFINITY), round));
        let decimals = common_decimals(&values, rung, rung.significant + extra_digits);
        let rounded = values.map(|(value, round)| round_to(value, decimals, round));
        if values.iter().all(|(value, _)| value.is_finite())
            && rounded.iter().all(|value| value.abs() < rung.below)
        {
            return joined(&rounded, decimals, rung.symbol, grouped_from(unit));
        }
    }
    // The last rung has no limit, so only a number beyond every double passes it.
    not_finite(f64::INFINITY).to_owned()
}

/// `28.98 .. 34.02 t`; what prints alike is printed once.
fn joined(numbers: &[f64], decimals: usize, symbol: &str, grouped_from: usize) -> String {
    let mut out = String::with_capacity(24);
    for number in numbers {
        let before = out.len();
        if before > 0 {
            out.push_str(" .. ");
        }
        let start = out.len();
        push(&mut out, *number, decimals, grouped_from);
        if before > 0 && out.get(start..) == out.get(..before) {
            out.truncate(before);
        }
    }
    if !symbol.is_empty() {
        out.push(' ');
        out.push_str(symbol);
    }
    out
}

/// The decimals that the largest of `values` asks for, or fewer where none of them needs so many.
fn common_decimals(values: &[(f64, Round)], rung: &Rung, significant: u8) -> usize {
    let (least, most) = rung.decimals;
    let Some(&(largest, round)) = values
        .iter()
        .max_by(|(a, _), (b, _)| a.abs().total_cmp(&b.abs()))
    else {
        return least;
    };
    let first = decimals_for(largest, significant, least, most);
    let few = values
        .iter()
        .map(|(value, _)| exact_decimals(*value, first))
        .try_fold(0, |so_far, few| few.map(|few| so_far.max(few)));
    match few {
        Some(few) if rung.trim => few,
        // Rounding may carry into one more digit: 9.996 is 10.0, not 10.00.
        _ => decimals_for(round_to(largest, first, round), significant, least, most),
    }
}

/// US practice groups thousands from the first on; metric practice leaves four digits together.
fn grouped_from(unit: &Unit) -> usize {
    if unit.system == System::Us { 4 } else { 5 }
}
