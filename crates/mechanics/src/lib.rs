//! The engineering: pure functions on quantities, with their published sources.

pub mod hanging;
