//! Steps of a calculation, and the trail that collects them.
//!
//! The expression that computes is the formula that is shown: [`step!`] takes it once. A hot loop
//! passes [`Silent`] and pays nothing; the governing corner is run again with a [`Book`].

use crate::{Basis, Formula};
use plumbhook_units::{Amount, Printer, Round};

/// A formula with the numbers put in.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// The formula as it was computed.
    pub formula: Formula,
    /// Symbols and their values.
    pub inputs: Vec<(&'static str, Amount)>,
    /// The result.
    pub result: Amount,
    /// Its publication.
    pub basis: Basis,
}

impl Worked {
    /// The formula with numbers put in and its result: "34.02 t / 3 = 11.4 t".
    pub fn text(&self, printer: Printer) -> String {
        let filled = self.formula.filled(&|symbol| {
            self.inputs
                .iter()
                .find(|(name, _)| *name == symbol)
                .map(|(_, amount)| printer.metric(*amount, Round::Nearest))
        });
        format!("{filled} = {}", printer.metric(self.result, Round::Nearest))
    }
}

/// A solver, a loop or a table look-up: what it did and how well.
#[derive(Clone, Debug, PartialEq)]
pub struct Method {
    /// What was done, in words.
    pub say: String,
    /// The residual relative to what acts; `None` where nothing is iterated.
    pub residual: Option<f64>,
    /// What came out.
    pub results: Vec<(String, Amount)>,
    /// Its publication.
    pub basis: Basis,
}

/// One step of a calculation.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A formula.
    Worked(Worked),
    /// A method.
    Method(Method),
    /// An itemised sum: the parts and what they make.
    Sum {
        /// What is summed.
        say: String,
        /// Each part, in order.
        parts: Vec<(String, Amount)>,
        /// The whole.
        total: Amount,
    },
}

impl Step {
    pub(crate) fn shrink_to_fit(&mut self) {
        let (say, parts) = match self {
            Self::Worked(worked) => return worked.inputs.shrink_to_fit(),
            Self::Method(method) => (&mut method.say, &mut method.results),
            Self::Sum { say, parts, .. } => (say, parts),
        };
        say.shrink_to_fit();
        for (what, _) in &mut *parts {
            what.shrink_to_fit();
        }
        parts.shrink_to_fit();
    }
}

/// Where steps go.
pub trait Trail {
    /// Whether steps are kept; a caller may skip making one.
    const ON: bool;
    /// Keeps a step.
    fn add(&mut self, step: Step);
    /// Whether this trail keeps steps.
    fn is_on(&self) -> bool {
        Self::ON
    }
}

/// A trail that keeps nothing, for hot loops.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent;

impl Trail for Silent {
    const ON: bool = false;
    fn add(&mut self, _: Step) {}
}

/// A trail that keeps every step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book(pub Vec<Step>);

impl Trail for Book {
    const ON: bool = true;
    fn add(&mut self, step: Step) {
        self.0.push(step);
    }
}

/// Computes `out = expression` and leaves it in the trail as a formula with its numbers.
///
/// ```
/// use plumbhook_sheet::{Basis, Book, Step, step};
/// use plumbhook_units::Printer;
/// let (total, parts) = (12.0_f64, 4.0_f64);
/// let mut book = Book::default();
/// step!(&mut book, Basis::STATICS, [total, parts], share = total / parts);
/// assert_eq!(share, 3.0);
/// let Step::Worked(worked) = &book.0[0] else { panic!() };
/// assert_eq!(worked.formula.text(), "share = total / parts");
/// ```
#[macro_export]
macro_rules! step {
    ($trail:expr, $basis:expr, [$($input:ident),* $(,)?], $out:ident = $($expression:tt)+) => {
        let $out = $($expression)+;
        if $crate::Trail::is_on(&*$trail) {
            $crate::Trail::add(&mut *$trail, $crate::Step::Worked($crate::Worked {
                formula: $crate::Formula { out: stringify!($out), expression: stringify!($($expression)+) },
                inputs: vec![$((stringify!($input), ::plumbhook_units::Amount::of($input))),*],
                result: ::plumbhook_units::Amount::of($out),
                basis: $basis,
            }));
        }
    };
}
