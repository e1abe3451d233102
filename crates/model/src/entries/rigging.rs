//! `rigging`: the legs between a load and a hook.

use crate::declare::{Link, Role};
use crate::values::{GearName, InOption, LegLine, MachineName};
use crate::{Cursor, Fail, Lines, Once, Shape, Value, block};

block! {
    /// The legs between a load and a hook.
    "rigging" => Rigging [Rigging] {
        /// The option that it belongs to; to all of them without this.
        in_option = "in": Once<InOption>,
        /// Points, where the legs gather, and the pieces from the load upwards; repeat the line for legs of other pieces.
        legs: Lines<LegLine>,
        /// What the legs gather in, and the hook it hangs by: `ring-1 by hall-crane.main`.
        hung: Once<Hung>,
    }
}

/// `ring-1 by hall-crane.main`.
#[derive(Clone, Debug)]
pub struct Hung {
    /// The ring.
    pub ring: GearName,
    /// The hook.
    pub hook: MachineName,
}

impl Value for Hung {
    const SHAPE: Shape = Shape {
        say: "the ring and its hook, as `ring-1 by hall-crane.main`",
        kind: None,
        words: &["by"],
        role: Some(Role::Machine),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let ring = GearName::read_part(line)?;
        if !line.word("by") {
            return Err(line.broken("the hook is missing here", "as `ring-1 by hall-crane.main`"));
        }
        let hook = MachineName::read_part(line)?;
        Ok(Self { ring, hook })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.ring.link());
        out.push(self.hook.link());
    }
}
