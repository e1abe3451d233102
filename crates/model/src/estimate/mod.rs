//! What a take-off or a weighing comes to: computed once a case, for every line that says `expected` or that gives one
//! of them as its source.

mod counted;
mod line;
mod weighed;

use crate::ask::{Ask, Asked};
use crate::case::Case;
use crate::entries::{Takeoff, Weighing};
use crate::values::Banded;
use plumbhook_mechanics::Interval;
use plumbhook_sheet::{Book, Step};
use plumbhook_units::{Length, Mass, Measured};

/// What a take-off or a weighing comes to.
#[derive(Debug, Default)]
pub struct Estimate {
    /// Mass; `None` where something is missing.
    pub mass: Option<Banded<Mass>>,
    /// Centre of gravity in the load's own frame; an axis that it does not tell is `None`.
    pub cg: [Option<Banded<Length>>; 3],
    /// What was asked for and what is missing.
    pub asked: Asked,
    /// How it was computed.
    pub steps: Vec<Step>,
}

impl Estimate {
    /// Every estimate of a case, by the name of its entry.
    pub(crate) fn all(case: &Case) -> Vec<(Box<str>, Self)> {
        let counted = case.all::<Takeoff>().map(|(declared, takeoff)| {
            let (mut ask, mut book) = (Ask::for_estimate(case), Book::default());
            let found = counted::solve(&mut ask, declared, takeoff, &mut book);
            (declared.name().into(), Self::of(ask, book, found))
        });
        let weighed = case.all::<Weighing>().map(|(declared, weighing)| {
            let (mut ask, mut book) = (Ask::for_estimate(case), Book::default());
            let found = weighed::solve(&mut ask, declared, weighing, &mut book);
            (declared.name().into(), Self::of(ask, book, found))
        });
        counted.chain(weighed).collect()
    }

    fn of(ask: Ask<'_>, book: Book, found: Option<Found>) -> Self {
        let mut it = Self {
            asked: ask.asked,
            steps: book.0,
            ..Self::default()
        };
        // Whatever is missing of it makes all of it unknown: a part left out would make it light.
        if let Some(found) = found.filter(|_| it.asked.missing.is_empty()) {
            it.mass = Some(banded(found.mass));
            it.cg = found.cg.map(|axis| axis.map(banded));
        }
        it
    }
}

/// Numbers with their middles.
struct Found {
    mass: (Interval<Mass>, Mass),
    cg: [Option<(Interval<Length>, Length)>; 3],
}

fn banded<T: Measured>((ends, middle): (Interval<T>, T)) -> Banded<T> {
    Banded::between(ends.lo, middle, ends.hi)
}
