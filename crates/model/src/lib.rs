//! Declared entries, names, frames, rigs and what lies under a place.
//!
//! Reading never fails: an entry is a struct of data that are known, or say why not and where. A
//! [`Case`] is all that the rules of one move may see: closed and owned, with its solutions.

pub mod adopt;
mod allowance;
pub mod ask;
pub mod astray;
mod breaking_free;
mod carried;
mod case;
mod centre_of_gravity;
mod csv_table;
mod cursor;
mod datum;
pub mod declare;
pub mod entries;
mod estimate;
mod follows;
mod gear;
mod hanging;
mod in_plant;
mod like;
mod meeting;
mod members;
mod mentions;
mod named;
pub mod notices;
mod option_of;
mod pedigree;
mod placed;
mod quoted;
mod reach;
mod reading;
mod role;
mod rule_set;
mod scope;
mod standing;
mod stations;
mod tag_and_table;
pub mod values;

pub use adopt::{Adoption, Adoptions};
pub use allowance::{is_weighing, mass_with_allowance};
pub use breaking_free::{Holding, Pull};
pub use carried::{Weight, attitude, total, weights};
pub use case::{Case, Needs, Settings, Settled, Shared, stage_of};
pub use centre_of_gravity::centre_of_gravity;
pub use csv_table::LARGEST_CSV;
pub use cursor::{Broken, Cursor, Fail};
pub use datum::{Claims, Datum, Given, Lacking, Lines, Once, Several, Value};
pub use declare::{Block, Body, EntryKind, Field, Key, Link, Repeat, Role, Said, Shape};
pub use estimate::Estimate;
pub use gear::Gear;
pub use hanging::{Fast, Hanging, LegUse, Thing, ThingKind};
pub use like::{Like, header_like};
pub use meeting::contradictions;
pub use members::Members;
pub use mentions::{Mentions, Names};
pub use named::{LET, LetText, Named, read_named};
pub use option_of::{OptionOf, name_notices};
pub use pedigree::{BASES, Pedigree};
pub use placed::{Coordinate, Placed, Region, middle};
pub use quoted::ReadAs;
pub use reading::{Around, Beside, LookedUp, Reading, Texts, WordFound, wanted_texts};
pub use rule_set::{
    ClassTrigger, HitchFactor, LegFactor, RULE_SETS, RuleSet, Trigger, USACE_CRITICAL, rule_set,
};
pub use scope::{Declared, Found, Layer, Scope, Through, same_entries};
pub use standing::{PadAt, Pressed, Pushes, SetDown, SetDowns, in_plan, pad_size, place_pads};
pub use tag_and_table::tags_above_tables;
