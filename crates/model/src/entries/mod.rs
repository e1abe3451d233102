//! Every kind of entry. A new family adds its file and its line in the list below.

use crate::EntryKind;

/// One line makes a file part of the crate and its entry part of the language. `cargo fmt` does not follow
/// modules that a macro declares, so a test of the house asks `rustfmt` for every file.
macro_rules! entries {
    ($($file:ident::$kind:ident,)*) => {
        $(
            mod $file;
            pub use $file::$kind;
        )*

        /// Every kind of entry, in the order of the reference.
        pub const KINDS: &[EntryKind] = &[$($kind::KIND,)*];
    };
}

entries! {
    job::Job,
    plant::Plant,
    place::NamedPlace,
    yard::Yard,
    source::Source,
    named_value::Let,
    load::Load,
    takeoff::Takeoff,
    weighing::Weighing,
    rigging::Rigging,
    movement::Move,
    option::Alternative,
    question::Question,
    sling::Sling,
    shackle::Shackle,
    ring::Ring,
    lug::Lug,
    beam::Beam,
    overhead_crane::OverheadCrane,
    crane::Crane,
    set_up::SetUp,
    floor::Floor,
    stand::Stand,
}

pub use beam::BeamKind;
pub use job::Revision;
pub use movement::{ByMachine, HungFrom, LiftClass};

/// The words that open a file: all its entries belong to the one that does.
pub const OPENERS: [&str; 3] = ["job", "plant", "yard"];
