//! The engineering: pure functions on quantities, with their published sources.

pub mod density;
pub mod hanging;
pub mod leg;
pub mod load_chart;
pub mod lug;
pub mod plan;
mod plane;
mod ratio;
pub mod shackle;
pub mod sling;
pub mod standing;
pub mod takeoff;
pub mod together;
pub mod weighing;

pub use hanging::Interval;
