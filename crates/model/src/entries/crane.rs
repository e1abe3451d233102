//! `crane`: a mobile crane with its load charts.

use crate::values::{Chart, Deducts};
use crate::{Members, Once, block};

block! {
    /// A mobile crane with its load charts. A job places it with a `set-up`.
    "crane" => Crane [Crane] {
        /// A load chart for one configuration; repeat the line for each.
        chart: Members<Chart>,
        /// What counts against a chart's rating beside the load and its rigging.
        deducts: Once<Deducts>,
    }
}
