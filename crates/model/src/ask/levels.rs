//! Asking for levels: above whichever datum they are written, they come out above the plant's own.

use super::{Ask, Hurts};
use crate::declare::nearest;
use crate::entries::{NamedPlace, Plant};
use crate::values::{DatumName, Level, PlaceName};
use crate::{Datum, Given, Once};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, ClaimId, Length, Measured};

impl Ask<'_> {
    /// The band of a level that may stand once, above the plant's own datum.
    pub fn level(&mut self, what: &str, once: &Once<Level>, hurts: Hurts) -> Band<Length> {
        let band = self.once(what, once, |level| &level.above, hurts);
        match once.known() {
            Some(given) => self.above_own(what, &given.value.datum, band),
            None => band,
        }
    }

    /// The band of a level that is a part of a line, above the plant's own datum.
    pub fn level_part<V>(
        &mut self,
        what: &str,
        given: &Given<V>,
        label: &str,
        part: Option<&Level>,
        hurts: Hurts,
    ) -> Band<Length> {
        let above = part.map(|level| &level.above);
        let band = self.part(what, given, label, above, hurts);
        match part {
            Some(level) => self.above_own(what, &level.datum, band),
            None => band,
        }
    }

    /// The level of a named place, or of a named place in it.
    pub fn level_of_place(&mut self, name: &PlaceName, hurts: Hurts) -> Band<Length> {
        let what = format!("level of {}", name.name);
        let Some((_, place)) = self.case.find::<NamedPlace, _>(name) else {
            self.lacks(
                what,
                Lack::NotFound,
                &name.origin,
                "name a `place` that has a level, or a `spot` of it",
            );
            return Band::unknown();
        };
        let Some(inner) = name.inner() else {
            return self.level(&what, &place.level, hurts);
        };
        match self.member(&what, &place.spot, inner) {
            Some(spot) => self.level_part(&what, spot, "EL", spot.value.level.as_ref(), hurts),
            None => Band::unknown(),
        }
    }

    /// A height above a datum as one above the plant's own; the change stands on the sheet.
    pub fn above_own(
        &mut self,
        what: &str,
        datum: &DatumName,
        above: Band<Length>,
    ) -> Band<Length> {
        let mut through = Vec::new();
        let Some(zero) = self.zero_of(datum, &mut through) else {
            return Band::unknown();
        };
        if through.len() == 1 {
            return above;
        }
        let own = above.plus(zero);
        let base = through.last().map_or("", |name| &**name);
        self.note_band(
            &format!("{what} above {base}"),
            own,
            vec![datum.origin.clone()],
            "",
        );
        own
    }

    /// How far the zero of a datum lies above that of the plant's own; `None` where that is not known, which is noted.
    fn zero_of(&mut self, datum: &DatumName, through: &mut Vec<Box<str>>) -> Option<Band<Length>> {
        let name = &datum.name;
        let what = format!("level datum {name}");
        if through.contains(name) {
            self.lacks(
                format!("{what}: it counts from itself"),
                Lack::NoAnswer,
                &datum.origin,
                "one datum of the plant has no `at`, and the others count from it",
            );
            return None;
        }
        through.push(name.clone());
        let plant = self.case.plant().map(|(_, plant)| plant);
        let line = plant.and_then(|plant| Some((plant, plant.datum.get(name)?)));
        let Some((plant, line)) = line else {
            let mend = plant.map_or_else(String::new, |plant| mend_of_datum(plant, name));
            self.lacks(what, Lack::NotFound, &datum.origin, mend);
            return None;
        };
        let given = match line {
            Datum::Known(given) => given,
            Datum::Lacking(lacking) => {
                self.lacking(&what, plant.datum.key, lacking);
                return None;
            }
        };
        let Some(zero) = &given.value.zero else {
            return self.own(plant, name, &given.origin);
        };
        let label = format!("datum {name} at {}", zero.datum.name);
        let what = format!("zero of {name} above {}", zero.datum.name);
        let above = self.part(&what, given, &label, Some(&zero.above), Hurts::Both);
        Some(above.plus(self.zero_of(&zero.datum, through)?))
    }

    /// The plant's own datum is the one without `at`; nobody knows how two of them lie to each other.
    fn own(&mut self, plant: &Plant, name: &str, origin: &Origin) -> Option<Band<Length>> {
        let other = plant.datum.members.iter().find(|(other, line)| {
            **other != *name && line.known().is_some_and(|line| line.value.zero.is_none())
        });
        if let Some((other, _)) = other {
            self.lacks(
                format!("how far level datum {name} lies above {other}"),
                Lack::Absent,
                origin,
                format!("write `datum {name} at {other} … +/- …`, or the other way round"),
            );
            return None;
        }
        Some(Band::exact(Length::from_si(0.0), ClaimId(0)))
    }
}

/// The datum that was meant, or all that there are.
pub(crate) fn mend_of_datum(plant: &Plant, name: &str) -> String {
    let names: Vec<&str> = plant
        .datum
        .members
        .iter()
        .map(|(name, _)| &**name)
        .collect();
    match nearest(name, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if names.is_empty() => {
            format!("declare it in the plant: `datum {name} \"…\"`")
        }
        None => format!("the level datums of the plant are {}", names.join(", ")),
    }
}
