//! Declared entries, names, frames, rigs and what lies under a place.
//!
//! Reading never fails: an entry is a struct of data that are known, or say why not and where. A
//! [`Case`] is all that the rules of one move may see: closed and owned, with its solutions.

pub mod ask;
mod case;
mod centre_of_gravity;
mod cursor;
mod datum;
pub mod declare;
pub mod entries;
mod figure;
mod gear;
mod hanging;
mod in_plant;
mod legs;
mod like;
pub mod notices;
mod pedigree;
mod placed;
mod rule_set;
mod scope;
mod standing;
pub mod values;

pub use case::{Case, Needs, Settings, Shared, stage_of};
pub use centre_of_gravity::centre_of_gravity;
pub use cursor::{Broken, Cursor, Fail};
pub use datum::{Claims, Datum, Given, Lacking, Lines, Members, Once, Several, Value};
pub use declare::{Block, Body, EntryKind, Field, Key, Like, Link, Repeat, Role, Shape};
pub use gear::Gear;
pub use hanging::Hanging;
pub use legs::LegUse;
pub use pedigree::{BASES, Pedigree};
pub use placed::{Coordinate, Placed, Region, middle};
pub use rule_set::{LegFactor, RULE_SETS, RuleSet, rule_set};
pub use scope::{Declared, Found, Layer, Scope, name_notices, same_entries};
pub use standing::{PadAt, SetDown, SetDowns};
