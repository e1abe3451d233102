//! `stand`: stools, trestles, saddles: what a load is set down on.

use crate::values::{Banded, Exact, Pads, PlanPlace, SurfaceName};
use crate::{Once, block};
use plumbhook_units::{Length, Mass};

block! {
    /// What a load is set down on: it stands on three or four pads on a floor.
    "stand" => Stand [Stand] {
        /// The floor it stands on.
        on: Once<SurfaceName>,
        /// Where its own origin is in plan.
        at: Once<PlanPlace>,
        /// Height of its top above the floor.
        high: Once<Exact<Length>>,
        /// Its own mass.
        mass: Once<Banded<Mass>>,
        /// Its pads in its own frame, and their size.
        pads: Once<Pads>,
    }
}
