//! The shapes of values: each reads itself from the items of a line.

mod allowable;
mod attitude;
mod axes;
mod carries;
mod choice;
mod datum_line;
mod expression;
mod fact;
mod grid;
mod heading;
mod hook;
mod legs;
mod named_value;
mod number;
mod on_load;
mod outline;
mod pads;
mod patterns;
mod place;
mod points;
mod quantity;
mod rated;
mod reference;
mod shape;
mod spot;
mod stations;
mod table;
mod verified;
mod void;
mod words;

pub use allowable::{Allowable, AllowableFor};
pub use attitude::Attitude;
pub use axes::{AXES, Axes};
pub use carries::Carries;
pub use choice::{Choice, Chosen};
pub use datum_line::DatumLine;
pub use fact::Fact;
pub use grid::{GridLine, GridLines};
pub use hook::MachineHook;
pub use legs::{LegLine, PieceUse};
pub use named_value::NamedValue;
pub use number::{amount, number};
pub use on_load::{Content, Contents, HeldBy, Marked, PartOf};
pub use outline::Outline;
pub use pads::Pads;
pub use place::{CountsFrom, Level, PlanPlace};
pub use points::{LiftingPoint, Points};
pub use quantity::{Banded, Exact, Limit};
pub use rated::{Hitch, Rated};
pub use reference::{
    DatumName, GearName, GridName, LoadName, MachineName, NameOf, PlaceName, PlantName,
    RiggingName, StandName, SurfaceName, Target,
};
pub use shape::{BodyShape, Turned};
pub use spot::NamedSpot;
pub use stations::{Standing, Station, Stations};
pub use table::{Cells, Column, InCell, MOST_ROWS, Table, TableRow, grid};
pub use verified::Verified;
pub use void::Void;
pub use words::{Header, NameList, Words};
