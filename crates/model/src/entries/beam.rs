//! `beam`: a spreader or lifting beam that hangs below a hook.

use crate::values::{Axes, Banded, Choice, Chosen, Points, Rated};
use crate::{Claims, Once, block};
use plumbhook_units::{Angle, Length, Mass};

block! {
    /// A spreader or lifting beam: a body of its own between two tiers of legs.
    "beam" => Beam [Beam] {
        /// `spreader`: legs above go out to its tops and press it together; `lifting-beam`: it bends.
        kind: Once<BeamKind>,
        /// Its own mass, with all that is bolted to it.
        mass: Once<Banded<Mass>>,
        /// Centre of gravity in its own frame, each axis with its tolerance.
        cg: Once<Axes>,
        /// Points that the legs below hang from, in its own frame: `L (-2 m, 0, -0.15 m), R (2 m, 0, -0.15 m)`.
        ends: Once<Points>,
        /// Points that it hangs by, in its own frame.
        tops: Once<Points>,
        /// Rated capacity, from its plate: what may hang below it.
        rated: Claims<Rated>,
        /// The span between its outermost ends that the plate rates: `3.9 m .. 4.1 m`.
        rated_span = "rated-span": Once<Banded<Length>>,
        /// How flat the legs above may come by the plate, from horizontal: `at least 60 deg`.
        rated_angle = "rated-angle": Once<Banded<Angle>>,
    }
}

/// A spreader or a lifting beam.
pub type BeamKind = Chosen<OfBeam>;

/// The kinds of beam.
#[derive(Debug)]
pub enum OfBeam {}

impl Choice for OfBeam {
    const WORDS: &'static [&'static str] = &["spreader", "lifting-beam"];
}
