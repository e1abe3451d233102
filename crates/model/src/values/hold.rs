//! Holds and stops of a move: what has to be seen before it goes on, and the reading at which it stops.

use super::quantity::{Banded, one_plain};
use crate::declare::Shape;
use crate::pedigree::text;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::{Length, Mass, Measured, Ratio};

/// The reading of the hook's cell that lets a move go on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Window {
    /// What is calculated to hang there.
    Expected,
    /// Typed, as a mass.
    Typed(Banded<Mass>),
}

impl Window {
    /// For the sheet.
    pub fn is_expected(&self) -> bool {
        matches!(self, Self::Expected)
    }

    /// Reads `cell within expected` or `cell 30 t .. 35 t`; `None` where `cell` does not stand next.
    fn read(line: &mut Cursor<'_, '_>) -> Result<Option<Self>, Fail> {
        if !line.word("cell") {
            return Ok(None);
        }
        if line.word("within") {
            if line.word("expected") {
                return Ok(Some(Self::Expected));
            }
            return Err(line.broken("`within` is followed by `expected` here", EXAMPLE));
        }
        let typed = Banded::read_part(line)?;
        if typed.lo.is_none() || typed.hi.is_none() {
            return Err(line.broken("a window of the cell has two sides", EXAMPLE));
        }
        Ok(Some(Self::Typed(typed)))
    }
}

const EXAMPLE: &str = "write `cell within expected` or `cell 30 t .. 35 t`";

/// `at 2 in cell within expected "all bolts out" by rigger-lead`: a member of a move.
#[derive(Clone, Debug)]
pub struct Hold {
    /// How far the load is up from where it stood; absent where a station says the place.
    pub at: Option<Length>,
    /// The reading that lets the move go on.
    pub window: Option<Window>,
    /// What has to be seen, in words.
    pub seen: String,
    /// Who says so.
    pub by: String,
}

impl Value for Hold {
    const SHAPE: Shape = Shape {
        say: "its name, how far up, the reading of the cell, what has to be seen and by whom: `H1 at 2 in cell within expected \"all bolts out\" by rigger-lead`",
        kind: None,
        words: &["at", "cell", "within", "expected", "by", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let at = if line.word("at") {
            let say = "how far up the hold is, is one length without a tolerance";
            let fits = |up: Length| up.si() >= 0.0;
            Some(one_plain(line, fits, (say, "as `at 2 in`"))?)
        } else {
            None
        };
        let window = Window::read(line)?;
        let seen = text(line).unwrap_or_default();
        let by = if line.word("by") {
            let role = line.word("role");
            match text(line) {
                Some(by) => by,
                None if !role => line.name("who says so")?.0.to_owned(),
                None => return Err(line.broken("the role, in quotes, is missing here", "")),
            }
        } else {
            String::new()
        };
        Ok(Self {
            at,
            window,
            seen,
            by,
        })
    }
}

/// The `hold` cell of a station: `H1 cell within expected`, `H2 light on the hook, check`.
#[derive(Clone, Debug)]
pub struct HoldHere {
    /// Its name; the move may say more of it in a line `hold`.
    pub name: Box<str>,
    /// The reading that lets the move go on.
    pub window: Option<Window>,
    /// What else stands there, in words.
    pub words: String,
}

impl Value for HoldHere {
    const SHAPE: Shape = Shape {
        say: "the name of a hold and the reading of the cell, as `H1 cell within expected`",
        kind: None,
        words: &["cell", "within", "expected"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let name = line.name("the name of a hold")?.0.into();
        let window = Window::read(line)?;
        let words = if line.done() || window.is_some() {
            text(line).unwrap_or_default()
        } else {
            super::words::Words::read(line)?.0
        };
        Ok(Self {
            name,
            window,
            words,
        })
    }
}

/// What a stop reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StopAt {
    /// The cell at the hook.
    Cell,
    /// A cell in any of the legs.
    AnyLeg,
}

impl StopAt {
    /// For messages.
    pub fn say(self) -> &'static str {
        match self {
            Self::Cell => "cell",
            Self::AnyLeg => "any leg",
        }
    }
}

/// The reading above which a move stops.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StopAbove {
    /// So many times what is calculated to come.
    Expected(Ratio),
    /// Typed, as a mass.
    Typed(Mass),
}

/// `any leg above 110 % of expected`, `cell above 36 t`.
#[derive(Clone, Copy, Debug)]
pub struct Stop {
    /// What is read.
    pub at: StopAt,
    /// Above which reading it stops.
    pub above: StopAbove,
}

impl Value for Stop {
    const SHAPE: Shape = Shape {
        say: "what is read and above which value the move stops, as `cell above 36 t` or `any leg above 110 % of expected`",
        kind: None,
        words: &["cell", "any leg", "above", "of expected", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        const EXAMPLE: &str =
            "write `stop cell above 36 t` or `stop any leg above 110 % of expected`";
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let at = if line.word("cell") {
            StopAt::Cell
        } else if line.word("any") && line.word("leg") {
            StopAt::AnyLeg
        } else {
            return Err(line.broken("a stop says what is read", EXAMPLE));
        };
        if !line.word("above") {
            return Err(line.broken("a stop says above which value", EXAMPLE));
        }
        let share = matches!(
            line.peek().map(|item| &item.node),
            Some(Node::Quantity { unit, .. }) if unit.symbol == "%"
        );
        let above = if share {
            let share = one::<Ratio>(line, EXAMPLE)?;
            if !(line.word("of") && line.word("expected")) {
                return Err(line.broken("a share is `of expected`", EXAMPLE));
            }
            StopAbove::Expected(share)
        } else {
            StopAbove::Typed(one::<Mass>(line, EXAMPLE)?)
        };
        Ok(Self { at, above })
    }
}

fn one<T: Measured + 'static>(line: &mut Cursor<'_, '_>, example: &str) -> Result<T, Fail> {
    let say = "one value above zero is wanted here";
    one_plain(line, |value: T| value.si() > 0.0, (say, example))
}
