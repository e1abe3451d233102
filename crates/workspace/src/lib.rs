//! The one owner of texts, configuration, snapshots and kept results; the one `check()`.

mod checked;

pub use checked::{CaseOutcome, Checked, Tally};
