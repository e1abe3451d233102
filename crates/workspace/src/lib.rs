//! The one owner of texts, configuration, snapshots and kept results; the one `check()`.
//!
//! [`Workspace`] alone changes: texts are opened, edited, closed, changed on disk. A [`Snapshot`] of it never
//! changes; [`Snapshot::check`] is what the command line and the server both ask. Every file belongs to the nearest
//! root file above it, which gives it its yard and its plants.

mod asked;
mod beside;
mod cancel;
mod case;
mod check;
mod checked;
mod claims;
mod config;
mod entries;
mod fence;
mod file;
mod files;
mod kept_names;
mod layout;
mod memo;
mod names;
mod paths;
mod planned;
mod says_both;
mod settings;
mod settled;
mod severity;
mod snapshot;
mod source;
#[cfg(test)]
mod tests;
mod texts;
mod used;
mod view;
mod workspace;

pub use cancel::{Cancel, Cancelled};
pub use check::Targets;
pub use checked::{CaseOutcome, Checked, NotChecked, Tally};
pub use config::{FIRST_LINES, LANGUAGE};
pub use files::{Disk, EXTENSION, Files, InMemory, Listing, ROOT_FILE, Unreadable};
pub use settings::{RootSettings, Setting, UnderRoot};
pub use settled::Loud;
pub use snapshot::{Located, Snapshot};
pub use source::{FileKind, SourceFile};
pub use workspace::Workspace;
