//! `hold-window`: what the cell at the hook will read at each hold, against the window and the stops of the move.

use super::{gross, stop, tiers};
use crate::draft::{Compared, Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::entries::Move;
use plumbhook_model::values::{Banded, Hold, Standing, Station, Window};
use plumbhook_model::{Case, Datum, Holding};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Reach, Trust, Verdict};
use plumbhook_units::{Amount, Mass, Measured, RatedForce, Round};

/// Where the practice of holds with a window comes from.
const PRACTICE: Basis = Basis {
    publication: "a hold",
    section: "the reading is compared with what was calculated before the lift goes on",
    trust: Trust::CommonPractice,
};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "hold-window",
    summary: "At each hold the window of the cell holds what is calculated to hang, and no stop lies below it.",
    explanation: "\
The reading of a cell at the hook is calculated with both ends: the load with its parts and contents, every piece \
of every leg and the ring, without the dynamic factor. `cell within expected` lets the crew compare with that band; \
a typed window has to hold it, or a good lift is stopped; where it goes further than that, the headline says how far, \
for nothing above the band was checked. A stop below the highest expected reading stops a good lift too. \
While the load is held no reading can be expected, but at the hold where it is proved free (`free-at`); nor where it \
stands.\n\n\
Mends: a window or a stop by the numbers that are shown, a weight with both sides.",
    basis: &[PRACTICE, Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::Both),
        ("mass of each piece", Hurts::Both),
    ],
    may_lack: &[(
        "hold",
        "where no hold is planned, there is no window to judge",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a window up to 14 t, while up to 15 t will hang",
            subject: "hold H1",
            change: &[(
                "  tilt       at most",
                "  hold       H1 at 100 mm cell 13 t .. 14 t\n  tilt       at most",
            )],
        }),
        Outcome::Shown(Example {
            say: "a window from 12.5 t to 15.5 t around what will hang",
            subject: "hold H1",
            change: &[(
                "  tilt       at most",
                "  hold       H1 at 100 mm cell 12.5 t .. 15.5 t\n  tilt       at most",
            )],
        }),
        Outcome::Shown(Example {
            say: "the weight has no low side, so nobody can say what the cell has to read at the least",
            subject: "hold H1",
            change: &[
                ("mass       14.0 t +/- 5 % ", "mass       at most 14.7 t "),
                (
                    "  tilt       at most",
                    "  hold       H1 at 100 mm cell within expected\n  tilt       at most",
                ),
            ],
        }),
        Outcome::Shown(Example {
            say: "no hold and no stop is planned",
            subject: "holds",
            change: &[],
        }),
    ],
    check,
};

/// A hold with everything that the move says of it.
struct Planned<'c> {
    name: &'c str,
    line: Option<&'c Datum<Hold>>,
    station: Option<(usize, &'c Station)>,
}

impl<'c> Planned<'c> {
    /// Those of stations in their order, then those that only a line plans.
    fn all(moves: &'c Move) -> Vec<Self> {
        let rows = moves.stations.known().map_or(&[][..], |rows| &rows.value.0);
        let mut all: Vec<Self> = (1..)
            .zip(rows)
            .filter_map(|(number, row)| {
                let hold = row.hold.as_ref()?;
                Some(Self {
                    name: &hold.name,
                    line: moves.hold.get(&hold.name),
                    station: Some((number, row)),
                })
            })
            .collect();
        for (name, line) in &moves.hold.members {
            if all.iter().all(|hold| *hold.name != **name) {
                all.push(Self {
                    name,
                    line: Some(line),
                    station: None,
                });
            }
        }
        all
    }

    fn windows(&self) -> Vec<Window> {
        let line = self.line.and_then(Datum::known);
        let here = self.station.and_then(|(_, row)| row.hold.as_ref());
        let both = [
            here.and_then(|here| here.window),
            line.and_then(|line| line.value.window),
        ];
        both.into_iter().flatten().collect()
    }

    fn origin(&self) -> Option<&'c Origin> {
        let row = self.station.map(|(_, row)| &row.origin);
        self.line.map(Datum::origin).or(row)
    }
}

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let none = |because: &str| {
        let draft = Draft::new("holds", home.clone(), Asked::default(), case.printer);
        vec![draft.does_not_apply(because)]
    };
    let Some(moves) = case.moves() else {
        return none("the move could not be read");
    };
    if case.only_stands() {
        return none("the load hangs from nothing");
    }
    let mut aspects = Vec::new();
    if !moves.stations.is_absent() && moves.stations.known().is_none() {
        // A hold may stand in a row that could not be read.
        let mut ask = Ask::new(case);
        let _ = super::hook::stations(case, &mut ask);
        let draft = Draft::new("holds", home.clone(), ask.asked, case.printer);
        aspects.push(draft.against("what is held at the stations", "", Compared::default()));
    }
    let holds = Planned::all(moves);
    aspects.extend(holds.iter().filter_map(|hold| one(case, hold)));
    aspects.extend(stop::all(case, &moves.stop.lines, RULE.basis));
    if aspects.is_empty() {
        return none("the move has no hold with a reading and no stop");
    }
    aspects
}

/// One hold; `None` where it compares no reading.
fn one(case: &Case, hold: &Planned<'_>) -> Option<Aspect> {
    let mut ask = Ask::new(case);
    let subject = format!("hold {}", hold.name);
    let home = hold.origin()?.clone();
    let windows = hold.windows();
    if let Some(Datum::Lacking(lacking)) = hold.line {
        ask.lacks(
            subject.clone(),
            lacking.lack,
            &lacking.origin,
            "write it as `hold H1 at 2 in cell within expected \"all bolts out\" by rigger-lead`",
        );
    } else if windows.is_empty() {
        return None;
    }
    place(&mut ask, hold, &home);
    if windows.windows(2).any(|pair| pair.first() != pair.last()) {
        ask.lacks(
            format!("the window of {subject}: its line and its station say two"),
            Lack::NoAnswer,
            &home,
            "keep the one that is right",
        );
    }
    free(case, &mut ask, hold);
    tiers::refuse_several(case, &mut ask, "what the cell reads at the hook");
    let mut gross = gross::load_and_legs_on(case, &mut ask, Hurts::Both);
    gross::ring_on(case, &mut ask, &mut gross, Hurts::Both);
    let typed = windows.iter().find_map(|window| match window {
        Window::Typed(banded) => Some(banded),
        Window::Expected => None,
    });
    match typed {
        Some(typed) => note_window(case, &mut ask, &subject, typed, &home),
        None => ask.used(&format!("window of {subject}"), "expected", &home),
    }
    let mut draft = Draft::new(subject, home, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    draft.book.0.push(gross.step("what hangs below the cell"));
    draft.sums.push(gross.line(case.printer));
    // Of several hooks none carries the whole, so that proves nothing of what one cell reads.
    let gross = (case.all_hung_from().len() < 2).then_some(gross);
    Some(conclude(draft, gross.as_ref(), typed))
}

/// Where a hold is: at a station where the load hangs, or so far up.
fn place(ask: &mut Ask<'_>, hold: &Planned<'_>, home: &Origin) {
    let line = hold.line.and_then(Datum::known);
    match hold.station {
        Some((number, row)) if matches!(row.standing, Standing::On(_)) => ask.lacks(
            format!(
                "what the cell reads at station {number}, where the load stands, for hold {}",
                hold.name
            ),
            Lack::NoAnswer,
            &row.origin,
            "hold where the load hangs: at a station above, or `at 2 in` in its line",
        ),
        Some((number, row)) => {
            ask.used(
                &format!("place of hold {}", hold.name),
                format!("station {number}"),
                &row.origin,
            );
        }
        None => match line.and_then(|line| line.value.at) {
            Some(up) => ask.note(
                &format!("hold {} above the start", hold.name),
                Amount::of(up),
                home,
            ),
            None if line.is_some() => ask.lacks(
                format!("where hold {} is", hold.name),
                Lack::Absent,
                home,
                "name it in the `hold` cell of a station, or say how far up: `at 2 in`",
            ),
            None => {}
        },
    }
}

/// While something holds the load, its reading is whatever is pulled.
fn free(case: &Case, ask: &mut Ask<'_>, hold: &Planned<'_>) {
    let holding = ask.pull().holding;
    let Some((declared, load)) = case.load() else {
        return;
    };
    let free_at = load
        .held_by
        .known()
        .and_then(|by| by.value.free_at.as_deref());
    let after = free_at.is_some_and(|free| not_before(case, free, hold.name));
    if holding == Holding::Held && !after {
        ask.lacks(
            format!("whether {} is free at hold {}", declared.name(), hold.name),
            Lack::NoAnswer,
            load.held_by.datum.origin(),
            format!(
                "say at which hold it is proved free: end the line `held-by` with `, free-at {}`",
                hold.name
            ),
        );
    }
}

/// Whether the load is proved free at the latest at a hold: at that one itself, or at a station before it.
fn not_before(case: &Case, free: &str, hold: &str) -> bool {
    if free == hold {
        return true;
    }
    let rows = case.moves().and_then(|moves| moves.stations.known());
    let rows = rows.map_or(&[][..], |rows| &rows.value.0);
    let at = |name: &str| {
        rows.iter()
            .position(|row| row.hold.as_ref().is_some_and(|hold| *hold.name == *name))
    };
    at(free)
        .zip(at(hold))
        .is_some_and(|(free, hold)| free < hold)
}

fn note_window(case: &Case, ask: &mut Ask<'_>, of: &str, typed: &Banded<Mass>, home: &Origin) {
    let shown = case
        .printer
        .band(typed.lo.map(Amount::of), typed.hi.map(Amount::of));
    ask.used(&format!("window of {of}"), shown, home);
}

fn read(mass: Mass) -> Amount {
    Amount::of(RatedForce::from_mass(mass))
}

/// The expected reading against the window; without a typed one it only has to be known.
fn conclude(
    mut draft: Draft,
    gross: Option<&gross::Gross>,
    typed: Option<&Banded<Mass>>,
) -> Aspect {
    let printer = draft.printer;
    let low = gross.and_then(gross::Gross::lightest);
    let high = gross.and_then(gross::Gross::most);
    let known = gross.map(gross::Gross::proved);
    let expected = low.zip(high);
    let window = typed.and_then(|typed| typed.lo.zip(typed.hi));
    let reach = match window {
        None => Reach {
            proved: None,
            worst: expected.filter(|_| typed.is_none()).map(|_| 0.0),
        },
        Some((from, to)) => {
            // The highest reading is at least what is proved; the lowest is at most what the high side leaves.
            let above = known.map(|known| known.si() - to.si());
            let below = low.or(high).map(|most| from.si() - most.si());
            let proved = above.into_iter().chain(below).reduce(f64::max);
            let worst = expected.map(|(low, high)| (from.si() - low.si()).max(high.si() - to.si()));
            Reach::beyond(proved, worst)
        }
    };
    let numbers = numbers(expected, window);
    let verdict = draft.judge(reach);
    let reads = expected.map_or_else(String::new, |(low, high)| {
        format!(
            "{} .. {}",
            printer.amount(read(low), Round::Down),
            printer.amount(read(high), Round::Up)
        )
    });
    if let Verdict::Over = verdict
        && expected.is_some()
    {
        draft
            .mends
            .push(format!("a window of {reads} or wider would pass"));
    }
    let subject = draft.subject.clone();
    let headline = match (&verdict, window) {
        (Verdict::CannotTell(missing), _) => {
            cannot_tell(&format!("what the cell reads at {subject}"), missing)
        }
        (_, None) => format!("{subject}: the cell is expected to read {reads}"),
        (_, Some((from, to))) => {
            let shown = printer.band(Some(read(from)), Some(read(to)));
            let reads = if reads.is_empty() {
                format!(
                    "at least {}",
                    printer.amount(read(known.unwrap_or(Mass::from_si(0.0))), Round::Up)
                )
            } else {
                reads
            };
            let further = high
                .filter(|high| *high < to)
                .map_or_else(String::new, |high| {
                    format!(
                        "; above {} nothing was checked",
                        printer.amount(read(high), Round::Up)
                    )
                });
            format!(
                "{subject}: the cell is expected to read {reads}, its window is {shown}{further}"
            )
        }
    };
    draft.finish(verdict, headline, numbers)
}

/// The side that comes nearer to the end of its window.
fn numbers(expected: Option<(Mass, Mass)>, window: Option<(Mass, Mass)>) -> Numbers {
    let Some((low, high)) = expected else {
        return Numbers::default();
    };
    let (demand, capacity) = match window {
        None => (high, None),
        Some((from, to)) if low.si() - from.si() < to.si() - high.si() => (low, Some(from)),
        Some((_, to)) => (high, Some(to)),
    };
    Numbers {
        demand: Some(read(demand)),
        capacity: capacity.map(read),
        utilisation: None,
    }
}
