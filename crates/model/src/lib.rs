//! Declared entries, names, frames, rigs and what lies under a place.
//!
//! Reading never fails: an entry is a struct of data that are known, or say why not and where. A
//! [`Case`] is all that the rules of one move may see: closed and owned, with its solutions.

pub mod adopt;
mod allowance;
pub mod ask;
mod breaking_free;
mod carried;
mod case;
mod centre_of_gravity;
mod cursor;
mod datum;
pub mod declare;
pub mod entries;
mod follows;
mod gear;
mod hanging;
mod in_plant;
mod like;
mod meeting;
mod named;
pub mod notices;
mod pedigree;
mod placed;
mod quoted;
mod reading;
mod rule_set;
mod scope;
mod standing;
pub mod values;

pub use adopt::{Adoption, Adoptions};
pub use allowance::{is_weighing, mass_with_allowance};
pub use breaking_free::{Holding, Pull};
pub use carried::{Weight, attitude, total, weights};
pub use case::{Case, Needs, Settings, Settled, Shared, stage_of};
pub use centre_of_gravity::centre_of_gravity;
pub use cursor::{Broken, Cursor, Fail};
pub use datum::{Claims, Datum, Given, Lacking, Lines, Members, Once, Several, Value};
pub use declare::{Block, Body, EntryKind, Field, Key, Link, Repeat, Role, Said, Shape};
pub use gear::Gear;
pub use hanging::{Hanging, LegUse};
pub use like::{Like, header_like};
pub use meeting::contradictions;
pub use named::{LET, LetText, Named, read_named};
pub use pedigree::{BASES, Pedigree};
pub use placed::{Coordinate, Placed, Region, middle};
pub use quoted::ReadAs;
pub use reading::{Around, LookedUp, Reading, WordFound};
pub use rule_set::{ClassTrigger, LegFactor, RULE_SETS, RuleSet, Trigger, rule_set};
pub use scope::{Declared, Found, Layer, OptionOf, Scope, Through, name_notices, same_entries};
pub use standing::{PadAt, SetDown, SetDowns};
