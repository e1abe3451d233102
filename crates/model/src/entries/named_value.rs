//! `let`: a value with a name.

use crate::values::NamedValue;
use crate::{Once, block};

block! {
    /// A value with a name, for the entries of this file alone: `let wall = 600 mm`, `let plate = 7850 kg/m3 * 2 m * 1 m * 50 mm`. Earlier or later makes no difference.
    "let" => Let [] {
        /// The value: a quantity with its tolerance, a range, a bound, `unknown`, or a calculation with other names of this file.
        header: Once<NamedValue>,
    }
}
