//! A place in a body's own frame, axis by axis, each with its band.

use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Length};

/// `x 0 +/- 60 mm, y 0 +/- 60 mm, z 0.74 m +/- 60 mm`, or `expected`: the tool's own numbers; an axis that is not given or `unknown` is `None`.
///
/// The tolerance is per axis: a box, not a ball. The second part says which axes are typed `unknown`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axes(pub [Option<Banded<Length>>; 3], pub [bool; 3]);

/// Names of the axes, in order.
pub const AXES: [&str; 3] = ["x", "y", "z"];

/// `+x+y`: a sign along each axis, zero along those that are not named; `None` where one is named twice or is none.
pub(super) fn signs(written: &str) -> Option<[f64; 3]> {
    let mut signs = [0.0; 3];
    let mut letters = written.chars();
    while let Some(sign) = letters.next() {
        let sign = match sign {
            '+' => 1.0,
            '-' => -1.0,
            _ => return None,
        };
        let letter = letters.next()?;
        let slot = match letter {
            'x' => &mut signs[0],
            'y' => &mut signs[1],
            'z' => &mut signs[2],
            _ => return None,
        };
        if *slot != 0.0 {
            return None;
        }
        *slot = sign;
    }
    Some(signs)
}

/// `+x`: one axis, and whether its own way.
pub(super) fn signed(written: &str) -> Option<(usize, bool)> {
    let signs = signs(written)?;
    let mut named = (0..).zip(signs).filter(|(_, sign)| *sign != 0.0);
    let (axis, sign) = named.next()?;
    named.next().is_none().then_some((axis, sign > 0.0))
}

/// The same where an axis stands next, which is taken then.
pub(super) fn take_signed(line: &mut Cursor<'_, '_>) -> Option<(usize, bool)> {
    let Node::Axis(written) = line.peek()?.node else {
        return None;
    };
    let found = signed(written)?;
    line.take();
    Some(found)
}

impl Value for Axes {
    const SHAPE: Shape = Shape {
        say: "each axis with its tolerance, as `x 0 +/- 60 mm, y 0 +/- 60 mm, z 0.74 m +/- 60 mm`",
        kind: Some(Kind::Length),
        words: &["x", "y", "z", "expected", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("expected") {
            return Ok(Self([Some(Banded::EXPECTED); 3], [false; 3]));
        }
        let mut axes = [None; 3];
        let mut unknown = [false; 3];
        let mut seen = [false; 3];
        loop {
            let Some(index) = AXES.iter().position(|axis| line.word(axis)) else {
                return Err(line.broken("an axis is missing here", "write `x …, y …, z …`"));
            };
            if std::mem::replace(&mut seen[index], true) {
                return Err(line.broken(format!("{} stands twice", AXES[index]), ""));
            }
            if line.word("expected") {
                axes[index] = Some(Banded::EXPECTED);
                if !line.comma() {
                    return Ok(Self(axes, unknown));
                }
                continue;
            }
            match Banded::read_part(line) {
                Ok(band) => axes[index] = Some(band),
                Err(Fail::Unknown) => {
                    // `unknown within shape` says where it may be; the shape is no bound of its own yet.
                    let _ = line.word("within") && line.word("shape");
                    unknown[index] = true;
                }
                Err(broken) => return Err(broken),
            }
            if !line.comma() {
                return Ok(Self(axes, unknown));
            }
        }
    }
}
