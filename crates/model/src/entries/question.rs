//! `question`: what is asked of somebody, and what waits for the answer.

use crate::values::{DatumPath, Day, MoveNames, Words};
use crate::{Lines, Once, block};

block! {
    /// What is asked of somebody, and what waits for the answer. An answer closes the question; the datum itself is written where it belongs.
    "question" => Question [Question] {
        /// Who is asked.
        to: Once<Words>,
        /// The day on which it was asked.
        asked: Once<Day>,
        /// The day by which the answer is needed.
        needed_by = "needed-by": Once<Day>,
        /// The datum that the answer gives, as entry and key: `runner.mass`; repeat the line for each.
        closes: Lines<DatumPath>,
        /// The moves that may not begin without the answer.
        blocks: Once<MoveNames>,
        /// What is taken until then, in words; no check takes it.
        meanwhile: Once<Words>,
        /// The answer, in words.
        answer: Once<Words>,
    }
}
