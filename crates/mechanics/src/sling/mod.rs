//! Slings: what published tables rate them at, by hitch, and what an angle of choke leaves of a choker rating.

mod choke;
mod tables;

pub use choke::{Choke, NoChoke, of_choker_rating};
pub use tables::{Cell, NotInTable, SlingTable, en_tables, longshoring_tables, us_tables};

/// How a sling is hitched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hitch {
    /// Straight pull along its length.
    Vertical,
    /// Choked.
    Choker,
    /// In a basket: round the load, with both ends up.
    Basket,
}

impl Hitch {
    /// Every hitch.
    pub const ALL: [Self; 3] = [Self::Vertical, Self::Choker, Self::Basket];

    /// Its word in a text and in a table.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Vertical => "vertical",
            Self::Choker => "choker",
            Self::Basket => "basket",
        }
    }
}
