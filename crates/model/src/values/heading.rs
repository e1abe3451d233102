//! Directions in plan.

use super::axes::take_signed;
use crate::{Cursor, Fail};
use plumbhook_syntax::Node;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// As it is typed, for help.
pub(crate) const SAY: &str = "a direction in plan, as `30 deg` (from the plant's +x, anticlockwise seen from above), `+y` (along that axis), or `30 deg clockwise, zero +y`";

/// Reads a direction: the angle from the plant's +x, anticlockwise seen from above, rad, in 0 .. 2 pi where another
/// datum or sense is named.
pub(crate) fn read(
    line: &mut Cursor<'_, '_>,
    angle: impl Fn(&mut Cursor<'_, '_>) -> Result<f64, Fail>,
) -> Result<f64, Fail> {
    if let Some(along) = axis(line)? {
        return Ok(along);
    }
    let angle = angle(line)?;
    let sense = if line.word("clockwise") {
        -1.0
    } else {
        line.word("anticlockwise");
        1.0
    };
    let mut zero = 0.0;
    if line.comma() {
        if !line.word("zero") {
            return Err(line.broken("`zero` may follow here", "as `30 deg clockwise, zero +y`"));
        }
        let Some(along) = axis(line)? else {
            return Err(line.broken("`zero` names an axis of the plant", "as `zero +y`"));
        };
        zero = along;
    }
    if zero == 0.0 && sense > 0.0 {
        return Ok(angle);
    }
    Ok((zero + sense * angle).rem_euclid(TAU))
}

/// The direction of one axis of the plant, if one stands here.
fn axis(line: &mut Cursor<'_, '_>) -> Result<Option<f64>, Fail> {
    let Some(Node::Axis(_)) = line.peek().map(|item| &item.node) else {
        return Ok(None);
    };
    let here = line.here();
    let along = match take_signed(line) {
        Some((0, true)) => 0.0,
        Some((1, true)) => FRAC_PI_2,
        Some((0, false)) => PI,
        Some((1, false)) => PI + FRAC_PI_2,
        _ => {
            let say = "a direction in plan is along one axis";
            return Err(line.broken_at(here, say, "as `+x` or `-y`"));
        }
    };
    Ok(Some(along))
}
