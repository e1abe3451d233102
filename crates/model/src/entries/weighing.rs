//! `weighing`: what load cells read under or above a load.

use crate::values::{Accuracy, Limit, Readings, Tilted, Words};
use crate::{Once, block};
use plumbhook_units::Mass;

block! {
    /// What load cells read under or above a load, in its own frame and level: `mass expected from weighing-2`.
    "weighing" => Weighing [Source] {
        /// The instrument, who weighed, and when, in words.
        instrument: Once<Words>,
        /// What each cell read, as a table.
        cells: Once<Readings>,
        /// How exact a reading is.
        accuracy: Once<Accuracy>,
        /// What a cell can read at the most.
        range: Once<Limit<Mass>>,
        /// How the load was tilted for the readings under `tilted`, which tell how high its centre of gravity lies.
        tilted: Once<Tilted>,
    }
}
