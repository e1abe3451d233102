//! `plant`: opens a plant file.

use crate::values::{DatumLine, GridLines, Words};
use crate::{Lines, Members, Once, block};

block! {
    /// Opens a plant file: what stands there, in one frame.
    "plant" => Plant [Plant] {
        /// Where the frame's origin is and which way its axes point, in words.
        frame: Once<Words>,
        /// A level that heights are counted from; one of them has no `at`, the others lie at a level of another.
        datum: Members<DatumLine>,
        /// Grid lines along x or along y, named in order; a place is named by two that cross, as `A/1`.
        grid: Lines<GridLines>,
    }
}
