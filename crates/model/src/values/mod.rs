//! The shapes of values: each reads itself from the items of a line.

mod allowable;
mod axes;
mod choice;
mod fact;
mod hook;
mod legs;
mod number;
mod outline;
mod pads;
mod place;
mod points;
mod quantity;
mod rated;
mod reference;
mod shape;
mod stations;
mod table;
mod verified;
mod void;
mod words;

pub use allowable::{Allowable, AllowableFor};
pub use axes::{AXES, Axes};
pub use choice::{Choice, Chosen};
pub use fact::Fact;
pub use hook::MachineHook;
pub use legs::{LegLine, PieceUse};
pub use number::{amount, number};
pub use outline::Outline;
pub use pads::Pads;
pub use place::{Level, PlanPlace};
pub use points::{LiftingPoint, Points};
pub use quantity::{Banded, Exact, Limit};
pub use rated::{Hitch, Rated};
pub use reference::{
    GearName, LoadName, MachineName, NameOf, PlantName, RiggingName, StandName, SurfaceName, Target,
};
pub use shape::BodyShape;
pub use stations::{Standing, Station, Stations};
pub use table::{Cells, Column, InCell, MOST_ROWS, Table, TableRow, grid};
pub use verified::Verified;
pub use void::Void;
pub use words::{Header, NameList, Words};
