//! `load`: what is lifted or moved.

use crate::values::{
    Attitude, Axes, Banded, BodyShape, Contents, HeldBy, InOption, LugAt, PartOf, Points, Words,
};
use crate::{Adoptions, Claims, Lines, Members, Once, block};
use plumbhook_units::Mass;

block! {
    /// What is lifted or moved: a body in its own frame, whose numbers never change.
    "load" => Load [Load] {
        /// The option that it belongs to; to all of them without this.
        in_option = "in": Once<InOption>,
        /// Where the frame's origin is and which way its axes point, in words; z is up as installed.
        #[like(geometry)]
        frame: Once<Words>,
        /// Its mass; repeat the line for each claim.
        mass: Claims<Banded<Mass>>,
        /// Centre of gravity in the load's own frame, each axis with its tolerance; repeat the line for each claim.
        cg: Claims<Axes>,
        /// Which claim counts for a key, by whom and why; the others are dropped, except a weighing:
        /// `adopt mass from d-31 by role "lead engineer" on 2026-11-04 because "…"`.
        adopt: Adoptions,
        /// A part that can be taken off, with its own mass and centre of gravity; on, until a move says `without`.
        part: Members<PartOf>,
        /// What is inside that the mass does not count: water, oil, silt; or `nothing`.
        inside: Lines<Contents>,
        /// What holds it where it is until it is proved free, or `nothing`.
        held_by = "held-by": Once<HeldBy>,
        /// How it can be turned, by name: which axis is up and which way another points.
        #[like(geometry)]
        attitude: Members<Attitude>,
        /// The outside, in the load's own frame.
        #[like(geometry)]
        shape: Once<BodyShape>,
        /// Lifting points in the load's own frame.
        #[like(geometry)]
        points: Once<Points>,
        /// Which type of lug stands at which lifting points; repeat the line for points of another type. It is no
        /// geometry: a point at the same place of another load carries what its own lug carries.
        lug: Lines<LugAt>,
        /// What it is made of, in words.
        material: Once<Words>,
    }
}
