//! `floor`: what loads and stands stand on.

use crate::values::{Allowable, Choice, Chosen, Level, Outline, Verified, Void};
use crate::{Claims, Members, Once, block};

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
