//! Lines, tokens, items and entries of a job file.
//!
//! Knows text and nothing else: no key, no kind of entry, no job. A [`Document`] holds a text and where its entries
//! stand, and survives edits; [`read_entry`] reads one entry's block into statements of [`Item`]s by position alone.
//! Nothing here fails and nothing is dropped: what cannot be placed is [`Node::Bad`] with a [`Fault`] that says what
//! would mend it, and whoever gives meaning to a line makes its datum unknown wherever one stands, or where items are
//! left over.
//!
//! # What settles an ambiguous text
//! - **Line ends** are `\n`, `\r\n` and a lone `\r`. A byte order mark is no part of the text.
//! - **Blanks** are space, tab and the blanks of Unicode that other programs paste in; they part words and mean
//!   nothing else. Characters that cannot be seen are faults, and so are dashes that look like a hyphen. `−` (U+2212)
//!   is a minus, `×` the `x` of sizes, `±` the same as `+/-`, `′` and `″` are foot and inch marks.
//! - **`#`** starts a comment anywhere outside quotation marks, also glued to a word.
//! - **A quotation mark** opens text at the start of a token; directly behind a digit it is an inch mark. Text ends
//!   in its line.
//! - **`x`** makes sizes only between numbers; **`of`** makes a count only behind a plain number.
//! - **A sign** is glued to its number or axis; **an operator** has a blank on each side; **a hyphen** inside a token
//!   is the name's, except in a fraction before a unit (`1-1/8 in`) and in a year-month-day.
//! - **A unit** stands directly behind its number, with or without a blank, and nowhere else.
//! - **`1 1/2 in`** is left as a number and a quantity where a count could stand, for [`joined`] or refusal by the
//!   slot; behind an operator, `+/-`, `..`, `x`, `of`, and in brackets, it is one quantity.
//! - **`+/-`** belongs to the value on its left; to all sizes, if it stands behind the last and only there. Behind a
//!   calculation it is refused where it matters how much of it is meant.
//! - **`from`** outside brackets is where provenance begins, except in `from horizontal` and `from vertical`, which say
//!   what an angle is measured from.
//! - **Brackets** around one value or calculation group it; any other content is a point.

mod atom;
mod binds;
mod date;
mod document;
mod edit;
mod entry;
mod fault;
mod feet;
mod figure;
pub mod format;
mod item;
mod lines;
mod number;
mod place;
mod plain;
mod reader;
mod token;

pub use document::{Block, BlockId, Document};
pub use entry::{ANGLE_DATUMS, Cell, Entry, Provenance, Row, Statement, provenance_at, read_entry};
pub use fault::Fault;
pub use figure::joined;
pub use item::{Item, Node, coordinates};
pub use place::Place;
pub use reader::{DEEPEST_BRACKET, MOST_OPERATORS, items};
pub use token::{Class, LONGEST_LINE, Token, tokens};
