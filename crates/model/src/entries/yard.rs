//! `yard`: opens a file of the house's own gear.

use crate::block;

block! {
    /// Opens a yard file: the gear the house owns, by its own names.
    "yard" => Yard [] {
    }
}
