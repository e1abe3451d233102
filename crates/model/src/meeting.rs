//! Where one move ends and the next begins: what the two say of that has to be the same.

use crate::ask::Ask;
use crate::case::Case;
use crate::entries::{Load, Move};
use crate::notices;
use crate::scope::Declared;
use crate::values::{Carries, InAttitude, Standing, Station};
use crate::{Datum, Given};
use plumbhook_mechanics::hanging::Rotation;
use plumbhook_sheet::{Notice, Origin, Related};
use plumbhook_units::{Amount, Heading, Measured, Printer, Round};

/// What two plans of one place may differ by before they contradict each other, in metres. Common practice, no source:
/// nobody sets down finer.
const MEETS: f64 = 0.001;

/// Where a move contradicts the end of the one that it follows, both places named.
pub fn contradictions(case: &Case) -> Vec<Notice> {
    let meeting = case.own_move().zip(case.before());
    let Some((own, before)) = meeting else {
        return vec![];
    };
    let Some(theirs) = before.of::<Move>() else {
        return vec![];
    };
    let mut found = Found {
        case,
        before: before.name(),
        notices: vec![],
    };
    found.carries(own, theirs);
    if let Some(end) = theirs.stations.known().and_then(|rows| rows.value.0.last()) {
        found.start(own, end);
    }
    found.heading(own, theirs);
    found.notices
}

struct Found<'c> {
    case: &'c Case,
    before: &'c str,
    notices: Vec<Notice>,
}

impl<'c> Found<'c> {
    /// `ends` and `begins` are what the two moves say, in words.
    fn differ(&mut self, ends: (&str, &Origin), begins: (&str, &Origin)) {
        let own = self.case.movement.name();
        self.notices.push(Notice {
            code: &notices::MOVES_CONTRADICT,
            say: format!(
                "{own} begins with {}, but {}, which it follows, ends with {}",
                begins.0, self.before, ends.0
            ),
            origin: begins.1.clone(),
            related: vec![Related {
                origin: ends.1.clone(),
                say: format!("the end of {}: {}", self.before, ends.0),
            }],
            mend: format!(
                "take it out here, so that {own} begins where {} ends; or mend that end",
                self.before
            ),
        });
    }

    fn carries(&mut self, own: &'c Move, theirs: &'c Move) {
        let (Some(mine), Some(before)) = (own.carries.known(), theirs.carries.known()) else {
            return;
        };
        let loads = [&before.value.load.name, &mine.value.load.name];
        if loads[0] != loads[1] {
            self.differ((loads[0], &before.origin), (loads[1], &mine.origin));
            return;
        }
        let InAttitude::Named(name, origin) = &mine.value.attitude else {
            return;
        };
        let turn = |carries: &Given<Carries>| {
            let name = match &carries.value.attitude {
                InAttitude::AsInstalled => return Some(Rotation::AS_INSTALLED),
                InAttitude::Named(name, _) => name,
                InAttitude::NotKnown(_) => return None,
            };
            let (_, load) = self.case.find::<Load, _>(&carries.value.load)?;
            load.attitude
                .get(name)
                .and_then(Datum::known)
                .map(|given| given.value.0)
        };
        let (Some(here), Some(there)) = (turn(mine), turn(before)) else {
            return;
        };
        if here != there {
            let ends = match &before.value.attitude {
                InAttitude::Named(name, _) => format!("attitude {name}"),
                InAttitude::AsInstalled | InAttitude::NotKnown(_) => {
                    "the load as installed".to_owned()
                }
            };
            let begins = format!("attitude {name}");
            self.differ((&ends, &before.origin), (&begins, origin));
        }
    }

    /// Where the move says that it starts, or where a load that stands would have to leave from.
    fn start(&mut self, own: &'c Move, end: &'c Station) {
        let first = own.stations.known().and_then(|rows| rows.value.0.first());
        let stands = matches!(end.standing, Standing::On(_));
        let start = own.start.known().map(|start| &start.value.0);
        // A load on a stand goes nowhere before it is lifted: the first row is above where it stands.
        let lifted = first.filter(|_| start.is_none() && stands && self.case.hung_from().is_some());
        let Some(start) = start.or(lifted) else {
            return;
        };
        let mut ask = Ask::new(self.case);
        if let (Some(here), Some(there)) =
            (ask.place("start", &start.at), ask.place("end", &end.at))
        {
            let aside = here.iter().zip(&there).any(|(here, there)| {
                let (low, high) = here.seen_from(there);
                low.si() > MEETS || high.si() < -MEETS
            });
            if aside {
                let [ends, begins] =
                    [end, start].map(|at| format!("the load at {}", at.at.written()));
                self.differ((&ends, &end.at.origin), (&begins, &start.at.origin));
                return;
            }
        }
        let begins_on = match (&start.standing, &end.standing) {
            (Standing::On(here), Standing::On(there)) if here.name != there.name => true,
            _ if lifted.is_some() || start.of != end.of => return,
            _ => false,
        };
        let (there, here) = (
            ask.station_level("the end", end),
            ask.station_level("the start", start),
        );
        let apart = |low: Option<plumbhook_units::Length>,
                     high: Option<plumbhook_units::Length>| {
            low.zip(high)
                .is_some_and(|(low, high)| low.si() - high.si() > MEETS)
        };
        if begins_on || apart(here.lo(), there.hi()) || apart(there.lo(), here.hi()) {
            let ends = format!("the load {}", how_high(end));
            let begins = format!("the load {}", how_high(start));
            self.differ((&ends, &end.height_origin), (&begins, &start.height_origin));
        }
    }

    /// No load turns between two moves, whether it stands or hangs.
    fn heading(&mut self, own: &'c Move, theirs: &'c Move) {
        let (Some(here), Some(there)) = (own.heading.known(), theirs.heading.known()) else {
            return;
        };
        let turn = (here.value.0.si() - there.value.0.si()).rem_euclid(std::f64::consts::TAU);
        if turn.min(std::f64::consts::TAU - turn) > 1e-6 {
            let say = |heading: Heading| {
                let angle = Printer::default().metric(Amount::of(heading), Round::Nearest);
                format!("the load at heading {angle}")
            };
            let (ends, begins) = (say(there.value.0), say(here.value.0));
            self.differ((&ends, &there.origin), (&begins, &here.origin));
        }
    }
}

fn how_high(at: &Station) -> String {
    let metric = |length| Printer::default().metric(Amount::of(length), Round::Nearest);
    match &at.standing {
        Standing::On(stand) => format!("on {}", stand.name),
        Standing::At(place) => format!("at {}", place.name),
        Standing::Above(floor, above) => format!("{} above {}", metric(*above), floor.name),
        Standing::Level(level) => level.above.nominal.map_or_else(String::new, |above| {
            format!("at {} {}", level.datum.name, metric(above))
        }),
    }
}

/// The names that the end of the move before leads to.
pub(crate) fn links_of_the_end(before: Option<&Declared>) -> Vec<crate::Link<'_>> {
    let rows = before.and_then(|before| before.of::<Move>()?.stations.known());
    let mut links = Vec::new();
    if let Some(end) = rows.and_then(|rows| rows.value.0.last()) {
        end.links_to(&mut links);
    }
    links
}
