//! The angle of a leg, with what it is measured from.

use super::quantity::Banded;
use super::stated::{in_slot, stated_line};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{HorizontalAngle, Kind, Known, VerticalAngle};
use std::f64::consts::FRAC_PI_2;

/// An angle of a leg, from level (0 deg from horizontal) to plumb (0 deg from vertical). A bare angle is refused: half
/// of the trade counts from one, half from the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LegAngle {
    /// `60 deg from horizontal`.
    FromHorizontal(Banded<HorizontalAngle>),
    /// `30 deg from vertical`.
    FromVertical(Banded<VerticalAngle>),
}

impl LegAngle {
    /// Measured from horizontal, whichever is written: 90 deg less an angle from vertical, whose low side is the high
    /// side here.
    pub fn to_horizontal(self) -> Banded<HorizontalAngle> {
        match self {
            Self::FromHorizontal(angle) => angle,
            Self::FromVertical(angle) => Banded {
                lo: angle.hi.map(VerticalAngle::to_horizontal),
                hi: angle.lo.map(VerticalAngle::to_horizontal),
                nominal: angle.nominal.map(VerticalAngle::to_horizontal),
                expected: false,
            },
        }
    }
}

impl Value for LegAngle {
    const SHAPE: Shape = Shape {
        say: "an angle and what it is measured from, as `60 deg from horizontal` or `30 deg from vertical`",
        kind: Some(Kind::HorizontalAngle),
        words: &[
            "from horizontal",
            "from vertical",
            "at least",
            "at most",
            "unknown",
        ],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let Some(item) = line.peek() else {
            return Err(line.broken("the angle is missing here", ""));
        };
        let term = stated_line(line, None)?;
        let known = |kind: Kind| in_slot(line, item, term, kind);
        let (horizontal, vertical) = (Kind::HorizontalAngle, Kind::VerticalAngle);
        let read = match (
            term.meaning.may_be(horizontal),
            term.meaning.may_be(vertical),
        ) {
            (true, false) => (
                known(horizontal)?,
                Self::FromHorizontal(Banded::of(known(horizontal)?)),
            ),
            (false, true) => (
                known(vertical)?,
                Self::FromVertical(Banded::of(known(vertical)?)),
            ),
            (true, true) => {
                let raw = item.raw(line.text);
                let say = format!("`{raw}` does not say what it is measured from");
                let mend = format!("write `{raw} from horizontal` or `{raw} from vertical`");
                return Err(line.broken_at(item.place, say, &mend));
            }
            (false, false) => {
                let say = format!(
                    "`{}` is {}; an angle is wanted here",
                    item.raw(line.text),
                    term.meaning
                );
                return Err(line.broken_at(item.place, say, ""));
            }
        };
        let (known, angle) = read;
        let sides = match known {
            Known::Exact(value) | Known::Plain(value) => [Some(value), None, None],
            Known::Banded { lo, hi, nominal } => [lo, hi, nominal],
        };
        // 90 deg in radians is no exact double.
        let beyond = |side: f64| !(-1e-9..=FRAC_PI_2 + 1e-9).contains(&side);
        if sides.into_iter().flatten().any(beyond) {
            return Err(line.broken_at(
                item.place,
                "a leg stands between level and plumb, 0 to 90 deg",
                "",
            ));
        }
        Ok(angle)
    }
}
