//! How copies of a part lie: around a ring, or at the corners of a rectangle.

use super::axes::{AXES, signs};
use super::part::set;
use super::quantity::Banded;
use crate::{Cursor, Fail};
use plumbhook_syntax::Node;
use plumbhook_units::Length;

/// How copies of a part lie around its place.
#[derive(Clone, Debug, PartialEq)]
pub enum Copies {
    /// Around a ring, each with its own x outwards.
    Ring {
        /// How many.
        count: u32,
        /// From the place of the part.
        radius: Option<Banded<Length>>,
        /// The direction of the first, in x and y.
        first: [f64; 2],
        /// The sense of counting.
        anticlockwise: bool,
    },
    /// At the corners of a rectangle.
    Rectangle {
        /// Its sides along x and y.
        sides: [Option<Banded<Length>>; 2],
    },
}

impl Copies {
    /// How many there are.
    pub fn count(&self) -> usize {
        match self {
            Self::Ring { count, .. } => *count as usize,
            Self::Rectangle { .. } => 4,
        }
    }
}

pub(super) fn read_copies(line: &mut Cursor<'_, '_>) -> Result<Copies, Fail> {
    let count = match line.peek().map(|item| &item.node) {
        Some(Node::Number { value, .. })
            if *value >= 2.0 && *value <= 1000.0 && value.fract() == 0.0 =>
        {
            *value
        }
        _ => {
            return Err(line.broken(
                "how many there are is wanted here, from 2 to 1000",
                "as `times 6 ring radius 1.20 m +/- 2 mm, first +x, anticlockwise`",
            ));
        }
    };
    line.take();
    // Between 2 and 1000 and whole, as just seen.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "seen above"
    )]
    let count = count as u32;
    if line.word("ring") {
        return ring(line, count);
    }
    if line.word("rectangle") && count == 4 {
        let mut sides = [None, None];
        loop {
            let Some(index) = AXES.iter().take(2).position(|axis| line.word(axis)) else {
                return Err(line.broken("a rectangle is given by x and y", ""));
            };
            set(line, &mut sides[index], AXES[index], Banded::read_part)?;
            if !(line
                .next_after_comma()
                .is_some_and(|next| AXES.contains(&next))
                && line.comma())
            {
                return Ok(Copies::Rectangle { sides });
            }
        }
    }
    Err(line.broken(
        "copies lie around a `ring`, or four of them at the corners of a `rectangle`",
        "",
    ))
}

fn ring(line: &mut Cursor<'_, '_>, count: u32) -> Result<Copies, Fail> {
    const LABELS: [&str; 4] = ["radius", "first", "anticlockwise", "clockwise"];
    let (mut radius, mut first, mut turn) = (None, None, None);
    loop {
        if line.word("radius") {
            set(line, &mut radius, "radius", Banded::read_part)?;
        } else if line.word("first") {
            set(line, &mut first, "first", direction)?;
        } else if !sense(line, &mut turn)? {
            return Err(line.broken(
                "a ring is given by radius, `first` and a sense of turning",
                "",
            ));
        }
        if !(line
            .next_after_comma()
            .is_some_and(|next| LABELS.contains(&next))
            && line.comma())
        {
            break;
        }
    }
    match (first, turn) {
        (Some(first), Some(anticlockwise)) => Ok(Copies::Ring {
            count,
            radius,
            first,
            anticlockwise,
        }),
        (None, _) => Err(line.broken("where the first copy lies is missing", "add `first +x`")),
        (_, None) => Err(line.broken(
            "the order of the copies is missing",
            "add `anticlockwise` or `clockwise`",
        )),
    }
}

/// Takes `anticlockwise` or `clockwise` if one of them stands next; whether it did.
pub(super) fn sense(
    line: &mut Cursor<'_, '_>,
    anticlockwise: &mut Option<bool>,
) -> Result<bool, Fail> {
    let here = line.here();
    let found = line.word("anticlockwise");
    if !found && !line.word("clockwise") {
        return Ok(false);
    }
    if anticlockwise.replace(found).is_some() {
        let say = "the sense of turning stands twice";
        return Err(line.broken_at(here, say, "keep the one that is right"));
    }
    Ok(true)
}

/// `+x`, `-y`, `+x+y`: a direction in plan.
fn direction(line: &mut Cursor<'_, '_>) -> Result<[f64; 2], Fail> {
    let found = line.peek().and_then(|item| match item.node {
        Node::Axis(axis) => signs(axis),
        _ => None,
    });
    match found {
        Some([x, y, 0.0]) => {
            line.take();
            Ok([x, y])
        }
        _ => Err(line.broken("`first` names a direction in x and y", "as `first +x`")),
    }
}
