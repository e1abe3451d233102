//! `option`: one of several ways to do the job.

use crate::block;

block! {
    /// One of several ways to do the job: entries that say `in option A` belong to it alone, all others to each. Every move is checked once for each option that it belongs to.
    "option" => Alternative [Option] {
    }
}
