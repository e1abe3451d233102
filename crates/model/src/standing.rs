//! What the load of a case is set down on: asked for, solved once, read by every rule that needs it.

use crate::ask::{Ask, Asked, Hurts, words};
use crate::case::Case;
use crate::entries::{Floor, Load, Stand};
use crate::scope::Declared;
use crate::values::{Pads, Standing, Station};
use crate::{Given, centre_of_gravity};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::plan::{Polygon, rectangle};
use plumbhook_mechanics::standing::{NoShare, PadShare, worst_pad_shares};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, Heading, Length, Mass, Measured};
use std::sync::Arc;

/// One pad where it stands in the plant.
#[derive(Clone, Debug)]
pub struct PadAt {
    /// Its name.
    pub name: Box<str>,
    /// Its middle in the plant's frame.
    pub centre: [Length; 2],
    /// Its outline in the plant's frame; `None` where its size is not given.
    pub outline: Option<Polygon>,
}

/// The load on one stand at one station.
#[derive(Debug)]
pub struct SetDown {
    /// The stand.
    pub stand: Arc<Declared>,
    /// The floor under it, if that is known.
    pub floor: Option<Arc<Declared>>,
    /// Where the station says so.
    pub origin: Origin,
    /// What was asked for and is missing.
    pub asked: Asked,
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
        let at = ask.value(&format!("place of {name}"), &body.at, |at| {
            words(&format!("({:.2} m, {:.2} m)", at.x.si(), at.y.si()))
        });
        let pads = ask.value(&format!("pads of {name}"), &body.pads, |pads| {
            words(&format!("{} pads", pads.points.len()))
        });
        let own = ask.band(&format!("mass of {name}"), &body.mass, Hurts::High);
        let size = size(&mut ask, name, pads);
        let standing = at
            .zip(pads)
            .map(|(at, pads)| place_pads(pads, [at.value.x, at.value.y]));
        let load = case.load();
        let moves = case.moves();
        let mut it = Self {
            stand: Arc::clone(stand),
            floor,
            origin: station.height_origin.clone(),
            asked: Asked::default(),
            pads: standing.unwrap_or_default(),
            pads_origin: body.pads.datum.origin().clone(),
            size,
            load: Band::unknown(),
            own,
            dynamic: moves
                .and_then(|moves| ask.exact::<f64>("dynamic factor", &moves.dynamic))
                .filter(|factor| *factor >= 1.0),
            shares: None,
        };
        let heading =
            moves.and_then(|moves| ask.exact::<Heading>("heading of the load", &moves.heading));
        if let Some((declared, load)) = load {
            it.load = ask.claims(
                &format!("mass of {}", declared.name()),
                &load.mass,
                Hurts::High,
            );
            it.shares = it.share(&mut ask, (declared, load), heading, station);
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
        station: &Station,
    ) -> Option<Result<Vec<PadShare>, NoShare>> {
        let [x, y, _] = centre_of_gravity(ask, declared, load);
        let box_of = |band: Band<Length>| band.both().map(|(lo, hi)| Interval { lo, hi });
        let cg = [box_of(x)?, box_of(y)?];
        if self.pads.is_empty() {
            return None;
        }
        let pads: Vec<_> = self.pads.iter().map(|pad| pad.centre).collect();
        Some(worst_pad_shares(
            &pads,
            cg,
            heading?,
            [station.at.x, station.at.y],
        ))
    }
}

fn size(ask: &mut Ask<'_>, name: &str, pads: Option<&Given<Pads>>) -> Option<[Length; 2]> {
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

fn place_pads(pads: &Given<Pads>, at: [Length; 2]) -> Vec<PadAt> {
    pads.value
        .points
        .iter()
        .map(|point| {
            let centre = [point.at[0] + at[0], point.at[1] + at[1]];
            PadAt {
                name: point.name.clone(),
                centre,
                outline: pads
                    .value
                    .size
                    .and_then(|size| rectangle(centre, size, Heading::from_si(0.0)).ok()),
            }
        })
        .collect()
}
