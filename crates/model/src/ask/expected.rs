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
