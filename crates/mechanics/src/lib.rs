//! The engineering: pure functions on quantities, with their published sources.

pub mod hanging;
pub mod leg;
pub mod load_chart;
pub mod plan;
mod plane;
pub mod standing;
pub mod together;

pub use hanging::Interval;
