//! Questions about a snapshot, without a protocol type: one file each.
//!
//! A place is a path, a line from 0 and bytes in the line. Nothing here computes: what a check found is read from
//! its sheet, what a name means from the entry it leads to.

mod calculation;
mod completion;
mod definition;
mod diagnostics;
mod formatting;
mod hover;
mod inlay;
mod outline;
mod place;
mod references;
mod rename;
mod results;
mod symbols;
mod tokens;

pub use completion::{Completion, Offer, OfferKind, completion};
pub use definition::definition;
pub use diagnostics::{Diagnostic, FileDiagnostics, Level, diagnostics};
pub use formatting::{TextEdit, formatting, range_formatting};
pub use hover::{Hover, hover};
pub use inlay::{Inlay, inlays};
pub use outline::{Fold, Stretch, folds, selections};
pub use references::{Reference, highlights, references};
pub use rename::{Renamable, Renamed, renamable, rename};
pub use symbols::{Symbol, document_symbols, workspace_symbols};
pub use tokens::{SemanticToken, TokenClass, semantic_tokens};
