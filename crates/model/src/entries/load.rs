//! `load`: what is lifted or moved.

use crate::values::{Axes, Banded, BodyShape, Points, Words};
use crate::{Claims, Once, block};
use plumbhook_units::Mass;

block! {
    /// What is lifted or moved: a body in its own frame, whose numbers never change.
    "load" => Load [Load] {
        /// Where the frame's origin is and which way its axes point, in words; z is up as installed.
        #[like(geometry)]
        frame: Once<Words>,
        /// Its mass; repeat the line for each claim.
        mass: Claims<Banded<Mass>>,
        /// Centre of gravity in the load's own frame, each axis with its tolerance; repeat the line for each claim.
        cg: Claims<Axes>,
        /// The outside, in the load's own frame.
        #[like(geometry)]
        shape: Once<BodyShape>,
        /// Lifting points in the load's own frame.
        #[like(geometry)]
        points: Once<Points>,
        /// What it is made of, in words.
        material: Once<Words>,
    }
}
