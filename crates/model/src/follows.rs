//! `follows M1`: a move takes from the end of another what it does not say itself.

use crate::entries::Move;
use crate::mentions::Mentions;
use crate::notices;
use crate::scope::{Declared, Found, Scope};
use crate::stations::{apart, same_station};
use crate::values::{Carries, InAttitude, Marked, NameList, Station, Table};
use crate::{Datum, Given, Lacking, Once};
use plumbhook_sheet::{Lack, Notice, Origin, Related, Via};
use std::sync::Arc;

/// A move with what it takes from the one that it follows, and that one.
pub(crate) struct Followed {
    /// The move as the rules see it.
    pub(crate) movement: Arc<Declared>,
    /// The move before it, with what that takes from its own.
    pub(crate) before: Option<Arc<Declared>>,
}

/// The moves that a move follows, one before the other.
struct Chain {
    moves: Vec<Arc<Declared>>,
    circle: bool,
}

fn chain(scope: &Scope, movement: &Arc<Declared>, mut looked_up: impl FnMut(&str, Found)) -> Chain {
    let mut moves = vec![Arc::clone(movement)];
    while let Some(last) = moves.last().map(Arc::clone) {
        let Some(name) = last.of::<Move>().and_then(|moves| moves.follows.known()) else {
            break;
        };
        let name = name.value.head();
        let found = scope.find(name);
        let one = match &found {
            Found::One(one) if one.of::<Move>().is_some() => Some(Arc::clone(one)),
            _ => None,
        };
        looked_up(name, found);
        let Some(one) = one else { break };
        if moves.iter().any(|seen| Arc::ptr_eq(&seen.key, &one.key)) {
            return Chain {
                moves,
                circle: true,
            };
        }
        moves.push(one);
    }
    Chain {
        moves,
        circle: false,
    }
}

/// The move as a case sees it. Where moves follow each other in a circle none of them starts anywhere.
pub(crate) fn followed(
    scope: &Scope,
    movement: &Arc<Declared>,
    looked_up: impl FnMut(&str, Found),
) -> Followed {
    let Chain { moves, circle } = chain(scope, movement, looked_up);
    let mut before: Option<Arc<Declared>> = None;
    for (index, declared) in moves.iter().enumerate().rev() {
        let behind = before.as_deref().filter(|_| !circle);
        let as_seen = filled(declared, behind.and_then(|behind| behind.of()));
        if index == 0 {
            return Followed {
                movement: as_seen,
                before: before.filter(|_| !circle),
            };
        }
        before = Some(as_seen);
    }
    Followed {
        movement: Arc::clone(movement),
        before: None,
    }
}

fn filled(declared: &Arc<Declared>, before: Option<&Move>) -> Arc<Declared> {
    let Some(own) = declared.of::<Move>() else {
        return Arc::clone(declared);
    };
    if own.follows.is_absent() && own.start.is_absent() {
        return Arc::clone(declared);
    }
    // Of another load nothing is taken; the contradiction is told.
    let same = |before: &&Move| match (own.carries.known(), before.carries.known()) {
        (Some(mine), Some(theirs)) => mine.value.load.name == theirs.value.load.name,
        _ => true,
    };
    let mut it = own.clone();
    match before {
        Some(before) if same(&before) => take_from_the_end(&mut it, before),
        Some(_) => {}
        None => lose_what_it_would_take(&mut it),
    }
    it.stations = stations(own, before.filter(same));
    Arc::new(Declared {
        key: Arc::clone(&declared.key),
        block: declared.block,
        title: declared.title.clone(),
        mentions: Mentions::of(&it),
        body: Some(Arc::new(it)),
        notices: vec![],
        behind: declared.behind.clone(),
        looked_up: declared.looked_up.clone(),
    })
}

/// What a move takes from the end of the one before it, its start apart.
fn take_from_the_end(it: &mut Move, before: &Move) {
    let name = it.follows.known().map(|name| name.value.name.clone());
    let via = Via::Name(name.unwrap_or_default());
    it.carries = carries(&it.carries, &before.carries, &via);
    if it.heading.is_absent() && !before.heading.is_absent() {
        it.heading = taken(&before.heading, &via);
    }
    let (without, with) = parts(it, before, &via);
    (it.without, it.with) = (without, with);
    if it.held.is_absent() && it.free.is_absent() {
        // Whatever held it before, the load has been carried away from there.
        if carried_away(before)
            && let Some(follows) = own_follows(it)
        {
            it.free = it.free.given_by(Datum::Known(follows));
        } else {
            it.held = taken(&before.held, &via);
            it.free = taken(&before.free, &via);
        }
    }
}

fn own_follows(it: &Move) -> Option<Given<Marked>> {
    it.follows.known().map(|follows| Given {
        value: Marked,
        origin: follows.origin.clone(),
        pedigree: follows.pedigree.clone(),
    })
}

/// Whether a move has carried its load somewhere else.
fn carried_away(moves: &Move) -> bool {
    let carried = moves.by.known().is_some_and(|by| !by.value.0.is_empty());
    let rows = moves.stations.known().map_or(&[][..], |rows| &rows.value.0);
    let ways = rows.iter().zip(rows.iter().skip(1));
    carried && ways.into_iter().any(|(from, to)| apart(from, to))
}

/// Where it is not known which move comes before, so is everything that the move takes from its end.
fn lose_what_it_would_take(it: &mut Move) {
    if it.follows.is_absent() {
        return;
    }
    let (lack, origin) = lost(it);
    let lacking = || Lacking::new(lack, origin.clone());
    if let Datum::Known(carries) = &it.carries.datum
        && matches!(carries.value.attitude, InAttitude::AsInstalled)
    {
        let mut carries = carries.clone();
        carries.value.attitude = InAttitude::NotKnown(lacking());
        it.carries = it.carries.given_by(Datum::Known(carries));
    }
    if it.heading.is_absent() {
        it.heading = it.heading.given_by(Datum::Lacking(lacking()));
    }
    // Parts that its own lines do not name may be off or on.
    it.without = it.without.given_by(Datum::Lacking(lacking()));
    if it.held.is_absent() && it.free.is_absent() {
        it.held = it.held.given_by(Datum::Lacking(lacking()));
    }
}

/// Why it is not known which move comes before, and where it would be said.
fn lost(own: &Move) -> (Lack, Origin) {
    match &own.follows.datum {
        Datum::Known(given) => (Lack::NotFound, given.origin.clone()),
        Datum::Lacking(lacking) => (lacking.lack, lacking.origin.clone()),
    }
}

fn taken<T: Clone>(from: &Once<T>, via: &Via) -> Once<T> {
    if from.is_absent() {
        return from.clone();
    }
    let mut datum = from.datum.clone();
    let origin = match &mut datum {
        Datum::Known(given) => &mut given.origin,
        Datum::Lacking(lacking) => &mut lacking.origin,
    };
    *origin = origin.clone().via(via.clone());
    from.given_by(datum)
}

fn carries(own: &Once<Carries>, before: &Once<Carries>, via: &Via) -> Once<Carries> {
    if own.is_absent() {
        return taken(before, via);
    }
    let Datum::Known(mine) = &own.datum else {
        return own.clone();
    };
    if !matches!(mine.value.attitude, InAttitude::AsInstalled) {
        return own.clone();
    }
    let mut mine = mine.clone();
    mine.value.attitude = match &before.datum {
        Datum::Known(theirs) => theirs.value.attitude.clone(),
        Datum::Lacking(lacking) => {
            let origin = lacking.origin.clone().via(via.clone());
            InAttitude::NotKnown(Lacking::new(lacking.lack, origin))
        }
    };
    own.given_by(Datum::Known(mine))
}

/// The parts that are off and on: those of the end before, but for those that the move itself names.
fn parts(own: &Move, before: &Move, via: &Via) -> (Once<NameList>, Once<NameList>) {
    let mine = [&own.without, &own.with];
    // What cannot be read may name any part: it stands as it is.
    let silent = |list: &Once<NameList>| list.is_absent();
    if mine
        .iter()
        .any(|list| !silent(list) && list.known().is_none())
    {
        return (own.without.clone(), own.with.clone());
    }
    let named: Vec<Box<str>> = mine
        .iter()
        .filter_map(|list| list.known())
        .flat_map(|list| list.value.0.iter().cloned())
        .collect();
    let both = |own: &Once<NameList>, before: &Once<NameList>| {
        let Some(theirs) = before.known() else {
            // Nothing is said before, or nobody knows what: then that is not known here either.
            return if before.is_absent() {
                own.clone()
            } else {
                taken(before, via)
            };
        };
        let mut list = theirs.value.clone();
        list.0.retain(|part| !named.contains(part));
        match own.known() {
            Some(mine) => {
                let mut all = mine.clone();
                all.value.0.extend(list.0);
                own.given_by(Datum::Known(all))
            }
            None if list.0.is_empty() => own.clone(),
            None => {
                let mut all = theirs.clone();
                all.value = list;
                all.origin = all.origin.via(via.clone());
                before.given_by(Datum::Known(all))
            }
        }
    };
    (
        both(&own.without, &before.without),
        both(&own.with, &before.with),
    )
}

/// The stations with the start before them. A start that nobody knows leaves no station known: what the way from
/// there passes is not known either.
fn stations(own: &Move, before: Option<&Move>) -> Once<Table<Station>> {
    let Some(rows) = own.stations.known() else {
        return own.stations.clone();
    };
    let unknown = |lack: Lack, origin: &Origin| {
        own.stations
            .given_by(Datum::Lacking(Lacking::new(lack, origin.clone())))
    };
    let start = if own.start.is_absent() {
        let end = before.map(|before| &before.stations.datum);
        match end {
            Some(Datum::Known(rows)) => rows.value.0.last().cloned(),
            Some(Datum::Lacking(lacking)) => return unknown(lacking.lack, &lacking.origin),
            None => None,
        }
    } else {
        match &own.start.datum {
            Datum::Known(start) => Some(start.value.0.clone()),
            Datum::Lacking(lacking) => return unknown(lacking.lack, &lacking.origin),
        }
    };
    let Some(start) = start else {
        let (lack, origin) = lost(own);
        return unknown(lack, &origin);
    };
    if rows
        .value
        .0
        .first()
        .is_some_and(|first| same_station(first, &start))
    {
        return own.stations.clone();
    }
    let mut rows = rows.clone();
    rows.value.0.insert(
        0,
        Station {
            // What was held at the end of the move before was held there.
            hold: None,
            ..start
        },
    );
    own.stations.given_by(Datum::Known(rows))
}

/// What is wrong with what a move follows, beyond a name that leads nowhere.
pub(crate) fn notice(scope: &Scope, entry: &Declared) -> Option<Notice> {
    let follows = entry.of::<Move>()?.follows.known()?;
    let Found::One(own) = scope.find(entry.name()) else {
        return None;
    };
    if !Arc::ptr_eq(&own.key, &entry.key) {
        return None;
    }
    let chain = chain(scope, &own, |_, _| {});
    if !chain.circle {
        return None;
    }
    let names: Vec<_> = chain.moves.iter().map(|entry| entry.name()).collect();
    let other = chain.moves.get(1).unwrap_or(&own);
    Some(Notice {
        code: &notices::FOLLOWS_IN_A_CIRCLE,
        say: format!(
            "{} follow each other in a circle: none of them starts anywhere",
            names.join(", ")
        ),
        origin: follows.origin.clone(),
        related: vec![Related {
            origin: Origin::header(&other.key),
            say: format!("`{}` is declared here", other.name()),
        }],
        mend: "let one of them say its `start`, and take `follows` out there".into(),
    })
}
