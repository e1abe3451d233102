//! `sling`: a type of sling the house owns.

use crate::gear::Gear;
use crate::values::{Banded, Hitch, Rated, Words};
use crate::{Claims, Once, block};
use plumbhook_units::{Length, Mass, Stiffness};

block! {
    /// A type of sling the house owns.
    "sling" => Sling [Gear] {
        /// Construction, in words: wire-rope, class, core, grade, diameter, splice.
        kind: Once<Words>,
        /// Length from bearing to bearing, with its tolerance.
        long: Once<Banded<Length>>,
        /// Rated capacity by hitch, from its tag; repeat the line for each hitch.
        rated: Claims<Rated>,
        /// Its own mass.
        mass: Once<Banded<Mass>>,
        /// Force over stretch of the whole sling, with its tolerance.
        stiffness: Once<Banded<Stiffness>>,
    }
}

impl Gear for Sling {
    fn length(&self) -> &Once<Banded<Length>> {
        &self.long
    }
    fn mass(&self) -> &Once<Banded<Mass>> {
        &self.mass
    }
    fn rated(&self) -> &Claims<Rated> {
        &self.rated
    }
    fn rating_counts(&self, rated: &Rated) -> bool {
        rated.hitch == Some(Hitch::Vertical)
    }
    fn stiffness(&self) -> Option<&Once<Banded<Stiffness>>> {
        Some(&self.stiffness)
    }
}
