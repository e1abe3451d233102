//! `place`: a place of the plant that has a name.

use crate::values::{Level, NamedSpot, PlanPlace};
use crate::{Members, Once, block};

block! {
    /// A place of the plant that has a name, and named places around it.
    "place" => NamedPlace [Spot] {
        /// Where it is in plan.
        at: Once<PlanPlace>,
        /// How high it is.
        level: Once<Level>,
        /// A named place in it, reached by a dot (`unit-3.pit`).
        spot: Members<NamedSpot>,
    }
}
