//! Whether two stations are the same, and whether they certainly are not, by what is written.

use crate::values::{CountsFrom, Level, PlanPlace, Standing, Station};
use plumbhook_units::{Length, Measured};

/// What two stations have to differ by to be two, in metres. Common practice, no source: nobody sets down finer.
const FINEST: f64 = 0.001;

/// Whether two stations certainly differ in place or height. What counts from different things may be the same.
pub(crate) fn apart(a: &Station, b: &Station) -> bool {
    let beyond = |(a, within): (Length, Length), (b, other): (Length, Length)| {
        (a.si() - b.si()).abs() > within.si() + other.si() + FINEST
    };
    let aside = same_base(&a.at, &b.at)
        && a.at
            .offset
            .iter()
            .zip(b.at.offset)
            .any(|(a, b)| beyond(*a, b));
    aside || (a.of == b.of && at_other_heights(&a.standing, &b.standing))
}

fn at_other_heights(a: &Standing, b: &Standing) -> bool {
    match (a, b) {
        (Standing::Level(a), Standing::Level(b)) if a.datum.name == b.datum.name => {
            clear_of(a, b) || clear_of(b, a)
        }
        (Standing::Above(a, high), Standing::Above(b, other)) => {
            a.name == b.name && (high.si() - other.si()).abs() > FINEST
        }
        // Off what it stood on, or onto something else.
        (Standing::On(a), Standing::On(b)) => a.name != b.name,
        (Standing::On(_), _) | (_, Standing::On(_)) => true,
        _ => false,
    }
}

/// Whether all that a level may be is below all that another may be.
fn clear_of(low: &Level, high: &Level) -> bool {
    let top = low.above.hi.or(low.above.nominal);
    let bottom = high.above.lo.or(high.above.nominal);
    top.zip(bottom)
        .is_some_and(|(top, bottom)| bottom.si() - top.si() > FINEST)
}

/// Whether two stations are written alike.
pub(crate) fn same_station(a: &Station, b: &Station) -> bool {
    a.of == b.of && same_height(&a.standing, &b.standing) && same_place(&a.at, &b.at)
}

fn same_place(a: &PlanPlace, b: &PlanPlace) -> bool {
    same_base(a, b) && a.offset == b.offset
}

fn same_base(a: &PlanPlace, b: &PlanPlace) -> bool {
    match (&a.from, &b.from) {
        (CountsFrom::Frame, CountsFrom::Frame) => true,
        (CountsFrom::Grid(a), CountsFrom::Grid(b)) => a.name == b.name,
        (CountsFrom::Named(a), CountsFrom::Named(b)) => a.name == b.name,
        _ => false,
    }
}

fn same_height(a: &Standing, b: &Standing) -> bool {
    match (a, b) {
        (Standing::Level(a), Standing::Level(b)) => {
            a.datum.name == b.datum.name && a.above.nominal == b.above.nominal
        }
        (Standing::Above(a, high), Standing::Above(b, other)) => {
            a.name == b.name && (high.si() - other.si()).abs() < 1e-9
        }
        (Standing::On(a), Standing::On(b)) => a.name == b.name,
        (Standing::At(a), Standing::At(b)) => a.name == b.name,
        _ => false,
    }
}
