//! Which lugs stand at which points of a load, how their plates lie, and who has verified them.

use super::choice::{Choice, Chosen};
use super::number::amount;
use super::points::{Named, names};
use super::reference::LugName;
use super::verified::by_whom;
use crate::declare::{Link, Role, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Measured, RatedForce};

/// `eye-20 at A B C`: the type of lug and the lifting points at which it stands.
#[derive(Clone, Debug)]
pub struct LugAt {
    /// The type of lug.
    pub lug: LugName,
    /// The points, each with its place.
    pub points: Vec<Named>,
}

impl Value for LugAt {
    const SHAPE: Shape = Shape {
        say: "a type of lug and the lifting points at which it stands, as `eye-20 at A B C` or `eye-20 at L1 .. L4`",
        kind: None,
        words: &["at", "unknown"],
        role: Some(Role::Lug),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let lug = LugName::read_part(line)?;
        if !line.word("at") {
            return Err(line.broken(
                "the points at which it stands are missing here",
                "write `eye-20 at A B C`",
            ));
        }
        let points = names(line)?;
        Ok(Self { lug, points })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.lug.link());
    }
}

/// How the plate of a lug lies in the load's own frame.
pub type LugPlane = Chosen<OfPlane>;

/// The ways in which a plate can lie.
#[derive(Debug)]
pub enum OfPlane {}

impl Choice for OfPlane {
    const WORDS: &'static [&'static str] = &["all-round", "radial", "x-y", "x-z", "y-z"];
}

/// `no`, `unknown`, or `by role "structural engineer" on 2026-10-04, covers 16 t`.
#[derive(Clone, Debug, PartialEq)]
pub enum LugVerified {
    /// Nobody has.
    No,
    /// Somebody has.
    Yes {
        /// The role, in the words of the file.
        by: String,
        /// The day, ISO.
        on: String,
        /// The pull that it covers, as a force under standard gravity.
        covers: RatedForce,
    },
}

impl Value for LugVerified {
    const SHAPE: Shape = Shape {
        say: "`no`, or who, when and for what pull: `by role \"structural engineer\" on 2026-10-04, covers 16 t`",
        kind: Some(Kind::Rating),
        words: &["no", "unknown", "by role", "covers"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("no") {
            return Ok(Self::No);
        }
        let (by, on) = by_whom(line, "covers 16 t")?;
        let Some(item) = line.take() else {
            return Err(line.broken("the pull that it covers is missing here", ""));
        };
        let covers = amount(line, item, Kind::Rating)?;
        if covers > 0.0 && covers.is_finite() {
            let covers = RatedForce::from_si(covers);
            Ok(Self::Yes { by, on, covers })
        } else {
            Err(line.broken_at(item.place, "a pull that is verified is above zero", ""))
        }
    }
}
