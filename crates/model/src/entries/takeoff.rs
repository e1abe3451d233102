//! `takeoff`: a load counted up from its parts.

use crate::values::{Banded, LeftOut, PartLine};
use crate::{Members, Once, block};
use plumbhook_units::Density;

block! {
    /// A load counted up from its parts, in the frame of the load that takes it: `mass expected from takeoff-1`.
    "takeoff" => Takeoff [Source] {
        /// What it weighs by volume, with its range, by the name that parts give: `density steel 7850 kg/m3 +/- 1 %`.
        density: Members<Banded<Density>>,
        /// A part: its name, form, sizes with tolerance, place and material.
        part: Members<PartLine>,
        /// What is cut out of a part: its name, the part, form, sizes and place.
        hole: Members<PartLine>,
        /// What the parts leave out, as a share of their mass; `none` where nothing is.
        left_out = "left-out": Once<LeftOut>,
    }
}
