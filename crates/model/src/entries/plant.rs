//! `plant`: opens a plant file.

use crate::values::Words;
use crate::{Once, block};

block! {
    /// Opens a plant file: what stands there, in one frame.
    "plant" => Plant [Plant] {
        /// Where the frame's origin is and which way its axes point, in words.
        frame: Once<Words>,
        /// The level that heights are counted from, in words.
        datum: Once<Words>,
    }
}
