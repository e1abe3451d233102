//! What hangs and what it hangs by: the load, beams, the rings in which legs gather.

use crate::scope::Declared;
use plumbhook_sheet::Origin;
use plumbhook_units::{Band, Length, Mass};
use std::sync::Arc;

/// What a thing of the rigging is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThingKind {
    /// The load.
    Load,
    /// A spreader or lifting beam.
    Beam,
    /// A ring or shackle in which legs gather.
    Ring,
}

/// The load, a beam or a ring.
#[derive(Clone, Debug)]
pub struct Thing {
    /// What it is.
    pub kind: ThingKind,
    /// Its name, as the rigging writes it.
    pub name: Box<str>,
    /// What the name leads to.
    pub entry: Option<Arc<Declared>>,
    /// Which of the move's riggings it belongs to, from zero.
    pub rigging: usize,
    /// Where the rigging names it first.
    pub origin: Origin,
    /// Its own mass.
    pub mass: Band<Mass>,
    /// Its centre of gravity in its own frame; of a ring, its one point.
    pub cg: [Band<Length>; 3],
    /// The hook that carries it, by its place among the move's machines; `None` where legs carry it.
    pub hook: Option<usize>,
    /// Its place among the bodies that are solved; `None` of a ring that hangs by the only hook.
    pub body: Option<usize>,
}

/// What an end of a leg is made fast to: a thing by its place in the list, and the point in its own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fast {
    /// The thing.
    pub thing: usize,
    /// The point.
    pub at: [Length; 3],
}
