//! What a move carries, and how that is turned.

use super::reference::LoadName;
use crate::declare::{Link, Role, Shape};
use crate::{Cursor, Fail, Lacking, Value};
use plumbhook_sheet::{Origin, Part};

/// `runner`, or `runner attitude on-edge`; without a word the load is as installed.
#[derive(Clone, Debug)]
pub struct Carries {
    /// The load.
    pub load: LoadName,
    /// The attitude that it is in.
    pub attitude: InAttitude,
}

/// The attitude that a load is carried in.
#[derive(Clone, Debug)]
pub enum InAttitude {
    /// No word: as installed.
    AsInstalled,
    /// By the name that the load gives it, and where it is named.
    Named(Box<str>, Origin),
    /// That of the end of the move before, which nobody knows.
    NotKnown(Lacking),
}

impl Carries {
    /// For the sheet.
    pub fn words(&self) -> String {
        match &self.attitude {
            InAttitude::Named(attitude, _) => format!("{} attitude {attitude}", self.load.name),
            InAttitude::AsInstalled | InAttitude::NotKnown(_) => self.load.name.to_string(),
        }
    }
}

impl Value for Carries {
    const SHAPE: Shape = Shape {
        say: "a load, and the attitude it is in where that is not as installed: `runner attitude on-edge`",
        kind: None,
        words: &["attitude"],
        role: Some(Role::Load),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let load = LoadName::read_part(line)?;
        let attitude = if line.word("attitude") {
            let (name, place) = line.name("the name of an attitude")?;
            InAttitude::Named(name.into(), line.origin(place, Part::Value))
        } else {
            InAttitude::AsInstalled
        };
        Ok(Self { load, attitude })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.load.link());
    }
}
