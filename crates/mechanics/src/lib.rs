//! The engineering: pure functions on quantities, with their published sources.
#![allow(dead_code)]
pub mod hanging;
