//! A weighing: mass and centre of gravity from what its cells read.

use super::Found;
use crate::ask::Ask;
use crate::entries::Weighing;
use crate::scope::Declared;
use crate::values::{AXES, Accuracy, Banded, LoadCell, Readings, Tilted};
use crate::{Given, Pedigree};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::weighing::{CellReading, NoWeighing, Weighed, height_by_tilting, weigh};
use plumbhook_sheet::{Basis, Book, Lack, Method, Step, Trail};
use plumbhook_units::{Amount, Length, Mass, Measured, Round, Slope};

/// Where and how exactly the cells stand, closed.
struct Standing<'w> {
    name: &'w str,
    cells: &'w Given<Readings>,
    accuracy: Accuracy,
    at: Vec<[Interval<Length>; 3]>,
}

pub(super) fn solve(
    ask: &mut Ask<'_>,
    declared: &Declared,
    weighing: &Weighing,
    book: &mut Book,
) -> Option<Found> {
    let name = declared.name();
    let standing = standing(ask, name, weighing)?;
    let level = standing.weigh(ask, "", |cell| Some(cell.reading))?;
    let mut all = vec![("level", level)];
    if standing.has(|cell| cell.again) {
        all.push(("again", standing.weigh(ask, " again", |cell| cell.again)?));
    }
    let mut mass = (level.mass, level.middle_mass);
    let mut cg = [0, 1].map(|axis| (level.cg[axis], level.middle_cg[axis]));
    for (word, other) in &all[1..] {
        standing.agree(ask, word, &level, other)?;
        mass.0 = united(mass.0, other.mass);
        for (axis, cg) in cg.iter_mut().enumerate() {
            cg.0 = united(cg.0, other.cg[axis]);
        }
    }
    let height = standing.height(ask, weighing, &level, &mut mass.0, book)?;
    for (word, weighed) in &all {
        show(name, word, weighed, book);
    }
    Some(Found {
        mass,
        cg: [Some(cg[0]), Some(cg[1]), height],
    })
}

fn standing<'w>(ask: &mut Ask<'_>, name: &'w str, weighing: &'w Weighing) -> Option<Standing<'w>> {
    let printer = ask.printer();
    let accuracy = match &weighing.accuracy.datum {
        crate::Datum::Known(given) => Some(given),
        crate::Datum::Lacking(lacking) => {
            ask.lacks(
                format!("how exact the cells of {name} read"),
                lacking.lack,
                &lacking.origin,
                format!(
                    "add a line `accuracy …`: {}",
                    weighing.accuracy.key.shape.say
                ),
            );
            None
        }
    };
    let cells = match &weighing.cells.datum {
        crate::Datum::Known(given) => Some(given),
        crate::Datum::Lacking(lacking) => {
            ask.lacks(
                format!("what the cells of {name} read"),
                lacking.lack,
                &lacking.origin,
                weighing.cells.key.shape.say,
            );
            None
        }
    };
    let (accuracy, cells) = (accuracy?, cells?);
    let said = format!(
        "{} of the reading and {}",
        plumbhook_units::Printer::utilisation(accuracy.value.share.si()),
        printer.amount(Amount::of(accuracy.value.each), Round::Up)
    );
    ask.used(&format!("accuracy of {name}"), said, &accuracy.origin);
    let mut at = Vec::new();
    let names = || cells.value.0.iter().map(|cell| &cell.name);
    let mut twins = names()
        .enumerate()
        .filter(|(index, name)| names().take(*index).any(|other| other == *name));
    if let Some((_, twin)) = twins.next() {
        ask.lacks(
            format!("{name} has no answer: its cell {twin} stands twice"),
            Lack::NoAnswer,
            &cells.origin,
            "give each cell a name of its own",
        );
        return None;
    }
    for cell in &cells.value.0 {
        let what = format!("reading of {} of {name}", cell.name);
        ask.note(&what, Amount::of(cell.reading), &cell.origin);
        at.push(place(ask, name, cell, &cells.pedigree));
    }
    Some(Standing {
        name,
        cells,
        accuracy: accuracy.value,
        at: at.into_iter().collect::<Option<_>>()?,
    })
}

fn place(
    ask: &mut Ask<'_>,
    name: &str,
    cell: &LoadCell,
    pedigree: &Pedigree,
) -> Option<[Interval<Length>; 3]> {
    let mut out = [Interval::exact(Length::from_si(0.0)); 3];
    let mut whole = true;
    for ((side, given), axis) in out.iter_mut().zip(&cell.at).zip(AXES) {
        let what = format!("{axis} of cell {} of {name}", cell.name);
        let closed: Banded<Length> = ask.closed(&what, given, pedigree, &cell.origin);
        let (Some(lo), Some(hi)) = (closed.lo, closed.hi) else {
            ask.lacks(
                format!("{what}: how exact it is"),
                Lack::OneSided,
                &cell.origin,
                "state the tolerance of the place, as `(1.2 m, 0.8 m, 0) +/- 5 mm`",
            );
            whole = false;
            continue;
        };
        *side = Interval { lo, hi };
    }
    whole.then_some(out)
}

impl Standing<'_> {
    /// Whether any cell was read in that state.
    fn has(&self, of: fn(&LoadCell) -> Option<Mass>) -> bool {
        self.cells.value.0.iter().any(|cell| of(cell).is_some())
    }

    fn weigh(
        &self,
        ask: &mut Ask<'_>,
        word: &str,
        of: impl Fn(&LoadCell) -> Option<Mass>,
    ) -> Option<Weighed> {
        let mut readings = Vec::new();
        for (cell, [x, y, _]) in self.cells.value.0.iter().zip(&self.at) {
            let Some(reading) = of(cell) else {
                ask.lacks(
                    format!("reading{word} of {} of {}", cell.name, self.name),
                    Lack::Absent,
                    &cell.origin,
                    "all cells are read in one and the same state",
                );
                return None;
            };
            readings.push(CellReading {
                at: [*x, *y],
                reading: self.accuracy.band(reading),
            });
        }
        match weigh(&readings) {
            Ok(found) => Some(found),
            Err(why) => {
                let origin = match why {
                    NoWeighing::Negative { cell } | NoWeighing::NotFinite { cell } => {
                        self.cells.value.0.get(cell).map(|cell| &cell.origin)
                    }
                    _ => None,
                };
                ask.lacks(
                    format!("{}{word} has no answer: {why}", self.name),
                    Lack::NoAnswer,
                    origin.unwrap_or(&self.cells.origin),
                    "mend the readings, or weigh again",
                );
                None
            }
        }
    }

    /// Two weighings of one load: each states its bands, and some value has to satisfy both.
    fn agree(&self, ask: &mut Ask<'_>, word: &str, one: &Weighed, two: &Weighed) -> Option<()> {
        let printer = ask.printer();
        let mass =
            |of: Interval<Mass>| printer.band(Some(Amount::of(of.lo)), Some(Amount::of(of.hi)));
        let mut apart = None;
        if gap(one.mass, two.mass) > 0.0 {
            apart = Some(format!("{} and {word} {}", mass(one.mass), mass(two.mass)));
        }
        let axes = one.cg.iter().zip(&two.cg).zip(AXES);
        for ((one, two), axis) in axes.filter(|_| word == "again") {
            if gap(*one, *two) > 0.0 {
                apart = apart.or_else(|| {
                    let off = Length::from_si(gap(*one, *two));
                    let off = printer.amount(Amount::of(off), Round::Up);
                    Some(format!(
                        "centres of gravity that are {off} apart along {axis}"
                    ))
                });
            }
        }
        let Some(apart) = apart else { return Some(()) };
        ask.lacks(
            format!(
                "{} has no answer: two weighings of one load give {apart}, further than their accuracy allows",
                self.name
            ),
            Lack::NoAnswer,
            &self.cells.origin,
            "find out what changed between them, and weigh again",
        );
        None
    }

    /// How high the centre of gravity lies, where the load was weighed tilted too. The outer `None` says that
    /// something of it is missing.
    #[allow(clippy::option_option, reason = "not told is not the same as missing")]
    fn height(
        &self,
        ask: &mut Ask<'_>,
        weighing: &Weighing,
        level: &Weighed,
        mass: &mut Interval<Mass>,
        book: &mut Book,
    ) -> Option<Option<(Interval<Length>, Length)>> {
        let how = match (&weighing.tilted.datum, weighing.tilted.is_absent()) {
            (_, true) if !self.has(|cell| cell.tilted) => return Some(None),
            (crate::Datum::Known(given), _) if self.has(|cell| cell.tilted) => given,
            (datum, _) => {
                let absent = if weighing.tilted.is_absent() || datum.known().is_some() {
                    Lack::Absent
                } else {
                    Lack::Broken
                };
                ask.lacks(
                    format!(
                        "how the load was tilted for {}, and what the cells read then",
                        self.name
                    ),
                    absent,
                    datum.origin(),
                    "give the line `tilted` and the column `tilted`, or neither",
                );
                return None;
            }
        };
        let side = format!(
            "{}{} up",
            if how.value.forwards { '+' } else { '-' },
            AXES[how.value.axis]
        );
        ask.used(&format!("tilt of {}", self.name), side, &how.origin);
        let tilted = self.weigh(ask, " tilted", |cell| cell.tilted)?;
        self.agree(ask, "tilted", level, &tilted)?;
        *mass = united(*mass, tilted.mass);
        let slope = self.slope(ask, how)?;
        let plane = self.plane(ask)?;
        let towards = |side: Interval<Length>| {
            if how.value.forwards {
                side
            } else {
                Interval {
                    lo: -side.hi,
                    hi: -side.lo,
                }
            }
        };
        let axis = how.value.axis;
        let flat = towards(*level.cg.get(axis)?);
        let up = towards(*tilted.cg.get(axis)?);
        let above = match height_by_tilting(flat, up, slope) {
            Ok(above) => above,
            Err(why) => {
                ask.lacks(
                    format!("{} has no answer: {why}", self.name),
                    Lack::NoAnswer,
                    &how.origin,
                    "raise one side further",
                );
                return None;
            }
        };
        let z = Interval {
            lo: plane.lo + above.lo,
            hi: plane.hi + above.hi,
        };
        book.add(Step::Method(Method {
            say: format!(
                "height of the centre of gravity in {}: (x level - x tilted) / tan(tilt) above the plane of the cells",
                self.name
            ),
            residual: None,
            results: vec![
                ("above the cells from".into(), Amount::of(above.lo)),
                ("to".into(), Amount::of(above.hi)),
            ],
            basis: Basis::STATICS,
        }));
        Some(Some((z, (z.lo + z.hi) / 2.0)))
    }

    /// The tangent of the tilt: the rise over what is left of the length, level.
    fn slope(&self, ask: &mut Ask<'_>, how: &Given<Tilted>) -> Option<Interval<Slope>> {
        let mut side = |label: &str, banded: &Banded<Length>| {
            let what = format!("{label} of the tilt of {}", self.name);
            let closed = ask.closed(&what, banded, &how.pedigree, &how.origin);
            if let (Some(lo), Some(hi)) = (closed.lo, closed.hi) {
                return Some((lo.si(), hi.si()));
            }
            ask.lacks(
                format!("{what}: how exact it is"),
                Lack::OneSided,
                &how.origin,
                "state its tolerance, as `up +x 300 mm +/- 2 mm over 3.00 m +/- 2 mm`",
            );
            None
        };
        let (rise, over) = (
            side("rise", &how.value.rise),
            side("length", &how.value.over),
        );
        let ((low, high), (short, long)) = (rise?, over?);
        if !(low > 0.0 && short > high) {
            ask.lacks(
                format!(
                    "{} has no answer: the tilt must be above zero and below a right angle",
                    self.name
                ),
                Lack::NoAnswer,
                &how.origin,
                "mend the rise or the length of the line `tilted`",
            );
            return None;
        }
        let tangent = |rise: f64, over: f64| rise / (over * over - rise * rise).sqrt();
        Some(Interval {
            lo: Slope::from_si(tangent(low, long)),
            hi: Slope::from_si(tangent(high, short)),
        })
    }

    /// The level plane in which all cells carry.
    fn plane(&self, ask: &mut Ask<'_>) -> Option<Interval<Length>> {
        let all = self.at.iter().map(|[_, _, z]| *z);
        let plane = all.clone().reduce(united)?;
        let lowest_high = all.clone().map(|z| z.hi.si()).fold(f64::INFINITY, f64::min);
        let highest_low = all.map(|z| z.lo.si()).fold(f64::NEG_INFINITY, f64::max);
        if highest_low <= lowest_high {
            return Some(plane);
        }
        ask.lacks(
            format!(
                "{} has no answer: its cells do not carry in one plane",
                self.name
            ),
            Lack::NoAnswer,
            &self.cells.origin,
            "a height by tilting takes cells of one z",
        );
        None
    }
}

/// How far two intervals are apart; zero or less where they touch.
fn gap<T: Measured>(one: Interval<T>, two: Interval<T>) -> f64 {
    (one.lo.si() - two.hi.si()).max(two.lo.si() - one.hi.si())
}

fn united<T: Measured>(one: Interval<T>, two: Interval<T>) -> Interval<T> {
    Interval {
        lo: if two.lo < one.lo { two.lo } else { one.lo },
        hi: if two.hi > one.hi { two.hi } else { one.hi },
    }
}

fn show(name: &str, word: &str, weighed: &Weighed, book: &mut Book) {
    let mut results = vec![
        ("mass from".to_owned(), Amount::of(weighed.mass.lo)),
        ("to".to_owned(), Amount::of(weighed.mass.hi)),
    ];
    for (side, axis) in weighed.cg.iter().zip(AXES) {
        results.push((format!("cg {axis} from"), Amount::of(side.lo)));
        results.push((format!("cg {axis} to"), Amount::of(side.hi)));
    }
    book.add(Step::Method(Method {
        say: format!("{name}, {word}: the sum of the readings and of their moments, with the exact ends over all readings and places"),
        residual: None,
        results,
        basis: Basis::STATICS,
    }));
}
