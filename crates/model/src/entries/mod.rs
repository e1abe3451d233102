//! Every kind of entry. A new family adds its file, its `mod` line and its line in [`KINDS`].

mod floor;
mod job;
mod load;
mod movement;
mod overhead_crane;
mod plant;
mod rigging;
mod ring;
mod shackle;
mod sling;
mod source;
mod stand;
mod yard;

pub use floor::Floor;
pub use job::Job;
pub use load::Load;
pub use movement::{ByMachine, HungFrom, Move};
pub use overhead_crane::OverheadCrane;
pub use plant::Plant;
pub use rigging::Rigging;
pub use ring::Ring;
pub use shackle::Shackle;
pub use sling::Sling;
pub use source::Source;
pub use stand::Stand;
pub use yard::Yard;

use crate::EntryKind;

/// Every kind of entry, in the order of the reference.
pub const KINDS: &[EntryKind] = &[
    Job::KIND,
    Plant::KIND,
    Yard::KIND,
    Source::KIND,
    Load::KIND,
    Rigging::KIND,
    Move::KIND,
    Sling::KIND,
    Shackle::KIND,
    Ring::KIND,
    OverheadCrane::KIND,
    Floor::KIND,
    Stand::KIND,
];

/// The words that open a file: all its entries belong to the one that does.
pub const OPENERS: [&str; 3] = ["job", "plant", "yard"];
