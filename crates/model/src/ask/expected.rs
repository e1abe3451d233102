//! Asking for the tool's own numbers: what `expected` stands for.

use super::Ask;
use crate::Pedigree;
use crate::estimate::Estimate;
use crate::values::Banded;
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Length, Mass, Measured, Printer};

const MEND: &str = "name a take-off or a weighing: `expected from takeoff-1`";

impl<'c> Ask<'c> {
    /// How the case prints numbers.
    pub fn printer(&self) -> Printer {
        self.case.printer
    }

    /// The take-off or weighing behind an expected number; what keeps from knowing it is noted.
    fn estimate(
        &mut self,
        what: &str,
        pedigree: &Pedigree,
        origin: &Origin,
    ) -> Option<&'c Estimate> {
        if self.estimating {
            // Its own answer, or that of another which may wait for this one.
            self.lacks(
                format!("{what}: `expected` inside a take-off or a weighing"),
                Lack::NoAnswer,
                origin,
                "write the number itself",
            );
            return None;
        }
        let Some((name, place)) = &pedigree.source else {
            self.lacks(
                format!("what {what} is computed from"),
                Lack::Absent,
                origin,
                MEND,
            );
            return None;
        };
        let case = self.case;
        let Some(estimate) = case.estimate(name) else {
            self.lacks(
                format!("take-off or weighing `{name}`"),
                Lack::NotFound,
                place,
                MEND,
            );
            return None;
        };
        self.asked.include(&estimate.asked);
        Some(estimate)
    }

    /// The expected mass of a line, in whichever kind the line is of.
    pub(super) fn expected_mass<T: Measured>(
        &mut self,
        what: &str,
        pedigree: &Pedigree,
        origin: &Origin,
    ) -> Banded<T> {
        let found = self.estimate(what, pedigree, origin);
        let mass = found.and_then(|found| found.mass.filter(|_| T::KIND == Mass::KIND));
        let typed = |side: Option<Mass>| side.map(|side| T::from_si(side.si()));
        mass.map_or(Banded::EXPECTED, |mass| Banded {
            lo: typed(mass.lo),
            hi: typed(mass.hi),
            nominal: typed(mass.nominal),
            expected: false,
        })
    }

    /// The expected centre of gravity of a line along one axis; without sides where its source does not tell it.
    pub(crate) fn expected_cg(
        &mut self,
        what: &str,
        axis: usize,
        (pedigree, origin): (&Pedigree, &Origin),
    ) -> Banded<Length> {
        let found = self.estimate(what, pedigree, origin);
        let told = found.and_then(|found| *found.cg.get(axis)?);
        told.unwrap_or(Banded::EXPECTED)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Case, Declared, Layer, Scope, Settings, Shared};
    use std::sync::Arc;

    #[test]
    fn an_estimate_never_waits_for_an_estimate() {
        let file: Arc<str> = "a.pick".into();
        let entries = ["job it\n", "move M1\n", "takeoff count-1\n"];
        let read = entries.map(|text| Arc::new(Declared::read(&file, 0, text)));
        let [job, movement, _] = &read;
        let scope = Scope::new(vec![Arc::new(Layer::new(read.to_vec()))]);
        let shared = Shared::new(&scope, Settings::default());
        let case = Case::build(&scope, &shared, job, movement).0;
        let mut ask = Ask::for_estimate(&case);
        let pedigree = Pedigree {
            source: Some(("count-1".into(), Origin::header(&movement.key))),
            ..Pedigree::default()
        };
        let expected = Banded::<Mass>::EXPECTED;
        let found = ask.closed(
            "mass of a part",
            &expected,
            &pedigree,
            &Origin::header(&job.key),
        );
        assert!(found.lo.is_none() && found.hi.is_none());
        assert_eq!(
            ask.asked.missing[0].what,
            "mass of a part: `expected` inside a take-off or a weighing"
        );
    }
}
