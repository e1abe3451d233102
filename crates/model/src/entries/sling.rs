//! `sling`: a type of sling the house owns.

use crate::gear::Gear;
use crate::values::{Banded, Chosen, Exact, Hitch, Rated, RatedBy, SlingKind};
use crate::{Claims, Once, block};
use plumbhook_units::{Length, Mass, Stiffness};

block! {
    /// A type of sling the house owns.
    "sling" => Sling [Gear] {
        /// What it is made of, with what a table asks of it: grade, diameter; class, core and splice too.
        kind: Once<SlingKind>,
        /// Length from bearing to bearing, with its tolerance.
        long: Once<Banded<Length>>,
        /// Rated capacity by hitch, from its tag; repeat the line for each hitch.
        rated: Claims<Rated>,
        /// Without a tag's rating: `table`, the published one of the rule set for its kind.
        rated_by = "rated-by": Once<Chosen<RatedBy>>,
        /// Smallest diameter that it may go round in a basket at its full rating, as its maker says.
        bends_over = "bends-over": Once<Exact<Length>>,
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
    fn goes_round(&self) -> bool {
        true
    }
    fn stiffness(&self) -> Option<&Once<Banded<Stiffness>>> {
        Some(&self.stiffness)
    }
}
