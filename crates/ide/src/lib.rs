//! Questions about a snapshot, without a protocol type: one file each.
//!
//! A place is a path, a line from 0 and bytes in the line. Nothing here computes: what a check found is read from
//! its sheet, what a name means from the entry it leads to.

mod definition;
mod diagnostics;
mod hover;
mod place;
mod results;

pub use definition::definition;
pub use diagnostics::{Diagnostic, FileDiagnostics, Level, diagnostics};
pub use hover::{Hover, hover};
