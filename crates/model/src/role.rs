//! What an entry can be for others that name it.

/// What an entry can be for others that name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// A plant.
    Plant,
    /// A document or measurement behind a value.
    Source,
    /// Something that is lifted or moved.
    Load,
    /// A set of legs.
    Rigging,
    /// A piece that can stand in a leg.
    Gear,
    /// A spreader or lifting beam: it hangs by its tops and carries by its ends.
    Beam,
    /// A type of lifting point.
    Lug,
    /// Something that carries a load and moves it.
    Machine,
    /// A mobile crane with its charts, wherever it is set up.
    Crane,
    /// Something that loads or stands can stand on; part of the plant, seen by every case.
    Surface,
    /// Something that stands on a surface and carries a load.
    Stand,
    /// A change of the state of a load: each makes cases.
    Move,
    /// One of several ways to do the job.
    Option,
    /// What is asked of somebody.
    Question,
    /// Something that has a place in plan.
    Spot,
    /// A level datum of the plant: no entry, a line of it.
    Datum,
    /// Two grid lines of the plant that cross: no entry, lines of it.
    Grid,
}

impl Role {
    /// "a piece of gear": for "names no …".
    pub const fn say(self) -> &'static str {
        match self {
            Self::Plant => "plant",
            Self::Source => "source",
            Self::Load => "load",
            Self::Rigging => "rigging",
            Self::Gear => "piece of gear",
            Self::Beam => "spreader or lifting beam",
            Self::Lug => "type of lug",
            Self::Machine => "machine",
            Self::Crane => "crane",
            Self::Surface => "floor or ground",
            Self::Stand => "stand",
            Self::Move => "move",
            Self::Option => "option",
            Self::Question => "question",
            Self::Spot => "place in plan",
            Self::Datum => "level datum",
            Self::Grid => "grid crossing",
        }
    }

    /// Whether a line of the plant has this role, and no entry.
    pub const fn is_in_plant(self) -> bool {
        matches!(self, Self::Datum | Self::Grid)
    }
}
