//! `source`: a document or a measurement behind values.

use crate::values::{Exact, Fact, Words};
use crate::{Once, block};
use plumbhook_units::{Length, Ratio};

block! {
    /// A document or measurement behind values: `from d-204` names it.
    "source" => Source [Source] {
        /// What it is: drawing, measured, letter and so on, with its date and revision.
        header: Once<Words>,
        /// How exact its lengths are; taken as tolerance where a line from it states none.
        accuracy: Once<Exact<Length>>,
        /// How exact its masses are, as a share; taken as tolerance where a line from it states none.
        mass_accuracy = "mass-accuracy": Once<Exact<Ratio>>,
        /// Whether it can be read throughout.
        legible: Once<Fact>,
        /// Whether it shows what was built.
        as_built = "as-built": Once<Fact>,
    }
}
