//! What the load of a case is set down on: asked for, solved once, read by every rule that needs it.

use crate::ask::{Ask, Asked, Hurts, words};
use crate::carried::{attitude, total, weights};
use crate::case::Case;
use crate::entries::{Floor, Load, Stand};
use crate::placed::{Coordinate, Placed, middle};
use crate::scope::Declared;
use crate::values::{Pads, Standing, Station};
use crate::{Given, centre_of_gravity};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::hanging::Rotation;
use plumbhook_mechanics::plan::{Polygon, rectangle};
use plumbhook_mechanics::standing::{NoShare, PadShare, worst_pad_shares};
use plumbhook_sheet::{Lack, Origin, Step};
use plumbhook_units::{Band, Force, Heading, Length, Mass, Measured, Pressure};
use std::sync::Arc;

/// One pad where it stands in the plant.
#[derive(Clone, Debug)]
pub struct PadAt {
    /// Its name.
    pub name: Box<str>,
    /// Its middle in the plant's frame, where the middle of its stand's place is.
    pub centre: [Length; 2],
    /// How far it may stand off to either side along x and y, as its stand does.
    pub within: [Length; 2],
    /// Its outline in the plant's frame around `centre`; `None` where its size is not given.
    pub outline: Option<Polygon>,
}

/// What a machine leaves on its worst pad.
#[derive(Debug)]
pub struct Pressed {
    /// As the known bounds prove it.
    pub proved: Option<Pushes>,
    /// At the worst; `None` unless every hurting side is known.
    pub worst: Option<Pushes>,
    /// Where the machine tips, with how far, as the known bounds prove it.
    pub tips: Option<String>,
    /// The station or state that governs.
    pub state: String,
    /// How it was found.
    pub steps: Vec<Step>,
}

/// What pushes on a pad.
#[derive(Clone, Copy, Debug)]
pub enum Pushes {
    /// A force on the whole face of the pad.
    Force(Force),
    /// A pressure, as the maker of the machine gives it.
    Pressure(Pressure),
}

/// The load on one stand at one station, or a machine where it is set up.
#[derive(Debug)]
pub struct SetDown {
    /// What presses where it is a machine; the load and its shares are then no part of it.
    pub pressed: Option<Pressed>,
    /// The stand, or the set-up.
    pub stand: Arc<Declared>,
    /// The floor under it, if that is known.
    pub floor: Option<Arc<Declared>>,
    /// Where the station says so.
    pub origin: Origin,
    /// What was asked for and is missing.
    pub asked: Asked,
    /// Of that, what settles on which floor the pads stand and where.
    pub pads_asked: Asked,
    /// Where the pads stand; empty where that is not known.
    pub pads: Vec<PadAt>,
    /// Where the stand's pads are declared.
    pub pads_origin: Origin,
    /// Size of each pad; `None` where it is not given.
    pub size: Option<[Length; 2]>,
    /// Mass of the load.
    pub load: Band<Mass>,
    /// Mass of the stand, counted whole on each pad: nobody says where its own centre of gravity lies.
    pub own: Band<Mass>,
    /// Factor on the load while it is set down; `None` where it is not known.
    pub dynamic: Option<f64>,
    /// The worst share of each pad; `None` where the place of the centre of gravity is not known.
    pub shares: Option<Result<Vec<PadShare>, NoShare>>,
}

/// Every set-down of a case, and what keeps from knowing them.
#[derive(Debug, Default)]
pub struct SetDowns {
    /// Each, in the order of the stations.
    pub all: Vec<SetDown>,
    /// What was asked for and is missing before any can be known.
    pub asked: Asked,
}

impl SetDowns {
    pub(crate) fn solve(case: &Case) -> Self {
        let mut ask = Ask::new(case);
        let stations = case.moves().and_then(|moves| {
            ask.value("stations", &moves.stations, |stations| {
                words(&stations.0.len().to_string())
            })
        });
        let mut it = Self::default();
        for station in stations.iter().flat_map(|stations| &stations.value.0) {
            let Standing::On(name) = &station.standing else {
                continue;
            };
            if let Some((stand, body)) = ask.entry::<Stand, _>(name) {
                it.all.push(SetDown::solve(case, station, stand, body));
            }
        }
        it.asked = ask.asked;
        it
    }
}

impl SetDown {
    fn solve<'c>(
        case: &'c Case,
        station: &'c Station,
        stand: &Arc<Declared>,
        body: &'c Stand,
    ) -> Self {
        let mut ask = Ask::new(case);
        let name = stand.name();
        let floor = ask
            .value(&format!("the floor under {name}"), &body.on, |on| {
                words(&on.name)
            })
            .and_then(|on| ask.entry::<Floor, _>(&on.value))
            .map(|(floor, _)| Arc::clone(floor));
        let at = ask.place_once(&format!("place of {name}"), &body.at);
        let turned = ask.exact::<Heading>(&format!("heading of {name}"), &body.heading);
        let pads = ask.value(&format!("pads of {name}"), &body.pads, |pads| {
            words(&format!("{} pads", pads.points.len()))
        });
        let size = pad_size(&mut ask, name, pads);
        let pads_asked = ask.asked.clone();
        let own = ask.band(&format!("mass of {name}"), &body.mass, Hurts::High);
        let standing = at
            .as_ref()
            .zip(turned)
            .zip(pads)
            .map(|((at, heading), pads)| place_pads(pads, at, heading));
        let placed = ask.place("place of the station", &station.at);
        let over = placed
            .zip(at)
            .map(|(station, stand)| load_over(&station, &stand));
        let load = case.load();
        let moves = case.moves();
        let mut it = Self {
            pressed: None,
            stand: Arc::clone(stand),
            floor,
            origin: station.height_origin.clone(),
            asked: Asked::default(),
            pads_asked,
            pads: standing.unwrap_or_default(),
            pads_origin: body.pads.datum.origin().clone(),
            size,
            load: Band::unknown(),
            own,
            dynamic: ask.dynamic_factor(),
            shares: None,
        };
        let heading =
            moves.and_then(|moves| ask.exact::<Heading>("heading of the load", &moves.heading));
        if let Some((declared, load)) = load {
            it.load = total(&weights(&mut ask, declared, load, Hurts::High));
            it.shares = it.share(&mut ask, (declared, load), heading, over);
        } else {
            ask.lacks(
                "the load that stands there",
                Lack::NotFound,
                &case.hanging_home(),
                "name a load that is declared",
            );
        }
        it.asked = ask.asked;
        it
    }

    fn share(
        &self,
        ask: &mut Ask<'_>,
        (declared, load): (&Declared, &Load),
        heading: Option<Heading>,
        over: Option<Vec<[Length; 2]>>,
    ) -> Option<Result<Vec<PadShare>, NoShare>> {
        let attitude = attitude(ask);
        let [x, y, z] = centre_of_gravity(ask, declared, load);
        let cg = in_plan(attitude?, [x, y, z])?;
        if self.pads.is_empty() {
            return None;
        }
        let pads: Vec<_> = self.pads.iter().map(|pad| pad.centre).collect();
        let heading = heading?;
        let places = over?.into_iter();
        places
            .map(|place| worst_pad_shares(&pads, cg, heading, place))
            .reduce(|one, other| Ok(worse_of_each(one?, other?)))
    }
}

/// The box of the centre of gravity as it lies in plan while the load is turned: the box itself where quarter turns
/// bring axes onto axes, else the box around it. An axis that points plumb is not asked for.
pub fn in_plan(turn: Rotation, bands: [Band<Length>; 3]) -> Option<[Interval<Length>; 2]> {
    let [first, second] = [0, 1].map(|level: usize| {
        let mut side = (0.0, 0.0);
        for (axis, band) in turn.axes().into_iter().zip(bands) {
            let part = axis.get(level).copied().unwrap_or_default();
            if part.abs() < 1e-12 {
                continue;
            }
            let (lo, hi) = band.both()?;
            let ends = (part * lo.si(), part * hi.si());
            side.0 += ends.0.min(ends.1);
            side.1 += ends.0.max(ends.1);
        }
        Some(Interval {
            lo: Length::from_si(side.0),
            hi: Length::from_si(side.1),
        })
    });
    Some([first?, second?])
}

/// The larger share of each pad.
fn worse_of_each(one: Vec<PadShare>, other: Vec<PadShare>) -> Vec<PadShare> {
    let pairs = one.into_iter().zip(other);
    pairs
        .map(|(one, other)| if one.share < other.share { other } else { one })
        .collect()
}

/// Where the load may stand while its stand is at the middle of its own place: the corners of that box, which stand
/// for all of it, each once. What both places count from moves both and is not counted.
fn load_over(station: &Placed, stand: &Placed) -> Vec<[Length; 2]> {
    let [x, y] = stand;
    let ends = |axis: usize, stand: &Coordinate| {
        let (low, high) = station
            .get(axis)
            .map_or_else(|| stand.ends(), |at| at.seen_from(stand));
        let ends = [stand.middle + low, stand.middle + high];
        if ends[0] == ends[1] {
            ends[..1].to_vec()
        } else {
            ends.to_vec()
        }
    };
    let ys = ends(1, y);
    ends(0, x)
        .into_iter()
        .flat_map(|x| ys.iter().map(move |y| [x, *y]))
        .collect()
}

/// The size of the pads; that it is missing is noted.
pub fn pad_size(ask: &mut Ask<'_>, name: &str, pads: Option<&Given<Pads>>) -> Option<[Length; 2]> {
    let pads = pads?;
    if pads.value.size.is_none() {
        ask.lacks(
            format!("size of the pads of {name}"),
            Lack::Absent,
            &pads.origin,
            "add `, size 300 mm x 300 mm` behind the pads",
        );
    }
    pads.value.size
}

/// Where pads stand whose stand has its origin there.
pub fn place_pads(pads: &Given<Pads>, at: &Placed, heading: Heading) -> Vec<PadAt> {
    let (sin, cos) = heading.si().sin_cos();
    let [x, y] = middle(at);
    let within = at.each_ref().map(Coordinate::within);
    pads.value
        .points
        .iter()
        .map(|point| {
            let [along, across, _] = point.at;
            let centre = [
                x + along * cos - across * sin,
                y + along * sin + across * cos,
            ];
            PadAt {
                name: point.name.clone(),
                centre,
                within,
                outline: pads
                    .value
                    .size
                    .and_then(|size| rectangle(centre, size, heading).ok()),
            }
        })
        .collect()
}
