//! `stand`: stools, trestles, saddles: what a load is set down on.

use crate::values::{Banded, Exact, InOption, Pads, PlanPlace, SurfaceName};
use crate::{Once, block};
use plumbhook_units::{Heading, Length, Mass};

block! {
    /// What a load is set down on: it stands on three or four pads on a floor.
    "stand" => Stand [Stand, Spot] {
        /// The option that it belongs to; to all of them without this.
        in_option = "in": Once<InOption>,
        /// The floor it stands on.
        on: Once<SurfaceName>,
        /// Where its own origin is in plan.
        at: Once<PlanPlace>,
        /// Angle of its x axis from the plant's, anticlockwise seen from above; nobody takes it to stand square.
        heading: Once<Exact<Heading>>,
        /// Height of its top above the floor.
        #[like(geometry)]
        high: Once<Exact<Length>>,
        /// Its own mass.
        mass: Once<Banded<Mass>>,
        /// Its pads in its own frame, and their size; they stand square to the plant's axes.
        #[like(geometry)]
        pads: Once<Pads>,
    }
}
