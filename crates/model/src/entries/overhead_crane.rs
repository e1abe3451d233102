//! `overhead-crane`: a bridge crane of the plant.

use crate::values::{Banded, Fact, MachineHook, Rated};
use crate::{Claims, Members, Once, block};
use plumbhook_units::Mass;

block! {
    /// A bridge crane of the plant.
    "overhead-crane" => OverheadCrane [Machine] {
        /// Rated capacity; repeat the line for each claim, the lowest counts.
        rated: Claims<Rated>,
        /// Mass of the hook block.
        block: Once<Banded<Mass>>,
        /// Whether the rating already allows for the hook block.
        block_in_rating = "block-in-rating": Once<Fact>,
        /// A hook: how high and low it bears, and where it reaches.
        hook: Members<MachineHook>,
    }
}
