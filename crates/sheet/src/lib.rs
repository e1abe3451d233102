//! What a calculation leaves behind: origin, step, formula, sheet, verdict, finding, figure.
//!
//! A leaf: it knows no text, no rule and no job. Every face (terminal, editor, JSON, drawing) is a
//! view of the types here and computes nothing of its own.

mod basis;
mod figure;
mod finding;
mod formula;
mod origin;
#[allow(
    clippy::module_inception,
    reason = "the sheet is what this crate is named after"
)]
mod sheet;
mod step;
mod verdict;

pub use basis::{Basis, Trust};
pub use figure::{Figure, Mark, Metres, Role};
pub use finding::{Aspect, Finding, Identity, Notice, NoticeCode, Related, Severity, say_blocks};
pub use formula::Formula;
pub use origin::{CalculatedValue, Calculation, EntryKey, EntryRef, Origin, Part, Via};
pub use sheet::{Corner, CornerInput, Input, InputValue, Sheet};
pub use step::{Book, Method, Silent, Step, Trail, Worked};
pub use verdict::{Lack, Missing, Reach, Stage, Verdict, judge};
