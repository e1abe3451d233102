//! Where a formula, a limit or a table comes from.

use serde::Serialize;

/// How far a basis can be trusted as proof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trust {
    /// A published text, named with its edition and section.
    Published,
    /// Follows from equilibrium or geometry alone; needs no publication.
    Mechanics,
    /// What the trade does, with no text behind it that we have read.
    CommonPractice,
    /// Taken from memory of a text; to be checked against it.
    FromMemory,
}

/// The publication behind a formula or a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Basis {
    /// Title with edition or date.
    pub publication: &'static str,
    /// Section, table or paragraph; empty where the whole is meant.
    pub section: &'static str,
    /// What it proves.
    pub trust: Trust,
}

impl Basis {
    /// Equilibrium of forces and moments.
    pub const STATICS: Self = Self {
        publication: "statics",
        section: "equilibrium of forces and moments",
        trust: Trust::Mechanics,
    };
    /// Geometry of lengths and places.
    pub const GEOMETRY: Self = Self {
        publication: "geometry",
        section: "lengths and places",
        trust: Trust::Mechanics,
    };

    /// One line for a person: publication, section, and the caution that the trust calls for.
    pub fn say(&self) -> String {
        let mut text = self.publication.to_owned();
        if !self.section.is_empty() && self.trust != Trust::Mechanics {
            text.push_str(", ");
            text.push_str(self.section);
        }
        match self.trust {
            Trust::Published | Trust::Mechanics => {}
            Trust::CommonPractice => text.push_str(" (common practice, no source)"),
            Trust::FromMemory => text.push_str(" (from memory)"),
        }
        text
    }
}
