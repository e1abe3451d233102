//! `floor`: what loads and stands stand on.

use crate::values::{Allowable, Choice, Chosen, Level, Outline, Verified, Void};
use crate::{Claims, Members, Once, block};
use plumbhook_sheet::Origin;

block! {
    /// A floor of the plant, seen by every case.
    "floor" => Floor [Surface, Spot] {
        /// Its outline in plan; outside it nothing is known to carry.
        outline: Once<Outline>,
        /// Level of its top.
        top: Once<Level>,
        /// What it allows, and for what kind of loading; repeat the line for each claim, the lowest counts.
        allows: Claims<Allowable>,
        /// Whether all holes and cavities are known: `none`, `listed` or `unknown`.
        voids: Once<Chosen<VoidsKnown>>,
        /// A hole through it.
        hole: Members<Void>,
        /// A cavity under it.
        cavity: Members<Void>,
        /// Who has verified what it carries, when and for what.
        verified: Once<Verified>,
    }
}

/// Whether all holes and cavities of a floor are known.
#[derive(Debug)]
pub enum VoidsKnown {}

impl Choice for VoidsKnown {
    const WORDS: &'static [&'static str] = &["none", "listed"];
}

impl Floor {
    /// Where it says that it has no holes and cavities though lines of it give some.
    pub fn says_none_and_lists(&self) -> Option<&Origin> {
        let said = self
            .voids
            .known()
            .filter(|said| said.value.word == "none")?;
        let some = !(self.hole.members.is_empty() && self.cavity.members.is_empty());
        some.then_some(&said.origin)
    }
}
