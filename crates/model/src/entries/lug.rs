//! `lug`: a type of lifting point on a load.

use crate::values::{Exact, LegAngle, Limit, LugPlane, LugVerified, Rated, Words};
use crate::{Claims, Once, block};
use plumbhook_units::{Angle, Length};

block! {
    /// A type of lifting point on a load: a plate with a hole, an eye, a trunnion; with the metal that it sits on.
    "lug" => Lug [Lug] {
        /// Form, how it is made fast and what it sits on, in words.
        kind: Once<Words>,
        /// Rated capacity of one such point, from its mark, a drawing or a calculation.
        rated: Claims<Rated>,
        /// The flattest pull for which the rating holds, from the level of the load as it is meant to hang:
        /// `at least 45 deg from horizontal`; `at least 0 deg from horizontal` where it holds for every pull upwards.
        rated_angle = "rated-angle": Once<LegAngle>,
        /// How its plate lies in the load's frame: `radial` to the z axis, in a plane of two axes (`x-z`), or `all-round`
        /// where it turns into the pull or its rating holds from every side.
        #[like(geometry)]
        plane: Once<LugPlane>,
        /// How far out of the plane of its plate the rating still holds: `at most 5 deg`.
        rated_side = "rated-side": Once<Limit<Angle>>,
        /// Who has verified it with what it sits on, when, and for what pull.
        verified: Once<LugVerified>,
        /// Thickness of the plate where the pin goes through, cheeks included.
        #[like(geometry)]
        thick: Once<Exact<Length>>,
        /// Diameter of the hole.
        #[like(geometry)]
        hole: Once<Exact<Length>>,
    }
}
