//! What is said of the ropes of the clean lift.

use crate::said::of;
use plumbhook_sheet::{Aspect, Verdict};

pub(crate) const KIND: &str =
    "kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical";

pub(crate) const TAG: &str = "rated      vertical 10.0 t          from tag quote \"V 10.0 t\"";

/// One pound-force in newtons, exact by the 1959 pound and standard gravity (NIST SP 811, Appendix B).
pub(crate) const LBF: f64 = 4.448_221_615_260_5;

pub(crate) fn sling(changes: &[(&'static str, &str)]) -> Aspect {
    let changes: Vec<_> = changes
        .iter()
        .map(|(from, to)| (*from, (*to).to_owned()))
        .collect();
    of("sling-rating", "rope-32-long-5", &changes)
}

/// What it is rated at, in pounds.
pub(crate) fn pounds(aspect: &Aspect) -> Option<f64> {
    aspect.sheet.capacity.map(|capacity| capacity.si / LBF)
}

pub(crate) fn is_missing(aspect: &Aspect, what: &str) -> bool {
    match &aspect.verdict {
        Verdict::CannotTell(missing) => missing.iter().any(|missing| missing.what.contains(what)),
        _ => false,
    }
}
