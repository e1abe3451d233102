//! Asking for places in plan: from what is written to the plant's frame, by its grid lines and named places.

use super::{Ask, words};
use crate::declare::nearest;
use crate::entries::{Floor, NamedPlace, Plant, Stand};
use crate::placed::{Coordinate, Placed, Region, middle};
use crate::values::{AXES, CountsFrom, GridLine, GridLines, GridName, PlaceName, PlanPlace, Void};
use crate::{Datum, Given, Once};
use plumbhook_sheet::{InputValue, Lack, Origin};
use plumbhook_units::{Amount, Length, Measured, Printer, Round};

/// Places that others count from, on the way to one: none of them twice.
type Through = Vec<Origin>;

impl<'c> Ask<'c> {
    /// Where a place is in the plant's frame; what keeps from knowing it is noted. A place that is more than
    /// coordinates stands on the sheet with what it comes to.
    pub fn place(&mut self, what: &str, place: &'c PlanPlace) -> Option<Placed> {
        let placed = self.resolve(what, place, &mut Through::new())?;
        if !place.is_bare() {
            let value = words(&format!("{} = {}", place.written(), said(&placed)));
            self.got(what, value, vec![place.origin.clone()], String::new());
        }
        Some(placed)
    }

    /// A place that may stand once.
    pub fn place_once(&mut self, what: &str, once: &'c Once<PlanPlace>) -> Option<Placed> {
        let given = self.value(what, once, |place| words(&place.written()))?;
        self.resolve_noted(what, &given.value)
    }

    /// Corners in the plant's frame; `None` where one of them is not known.
    pub fn region(&mut self, what: &str, corners: &'c [PlanPlace]) -> Option<Region> {
        let places: Vec<_> = corners
            .iter()
            .map(|corner| self.resolve_noted(&format!("corner of {what}"), corner))
            .collect();
        let places: Option<Vec<Placed>> = places.into_iter().collect();
        Some(Region::of(&places?))
    }

    /// The four corners of a rectangle by two opposite ones, in order.
    pub fn rectangle(&mut self, what: &str, void: &'c Void) -> Option<Region> {
        let mut region = self.region(what, &void.corners)?;
        if let [[ax, ay], [bx, by]] = region.corners[..] {
            region.corners = vec![[ax, ay], [bx, ay], [bx, by], [ax, by]];
        }
        Some(region)
    }

    /// As [`Ask::place`], for one whose writing stands on the sheet already.
    fn resolve_noted(&mut self, what: &str, place: &'c PlanPlace) -> Option<Placed> {
        let placed = self.resolve(what, place, &mut Through::new())?;
        if !place.is_bare() {
            let what = format!("{what} in the plant's frame");
            let value = words(&said(&placed));
            self.got(&what, value, vec![place.origin.clone()], String::new());
        }
        Some(placed)
    }

    fn resolve(
        &mut self,
        what: &str,
        place: &'c PlanPlace,
        through: &mut Through,
    ) -> Option<Placed> {
        if through.contains(&place.origin) {
            self.lacks(
                format!("{what}: it counts from itself"),
                Lack::NoAnswer,
                &place.origin,
                "give one of these places by coordinates or by grid lines",
            );
            return None;
        }
        through.push(place.origin.clone());
        let base = match &place.from {
            CountsFrom::Frame => [0.0; 2].map(|at| Coordinate::exact(Length::from_si(at))),
            CountsFrom::Grid(lines) => self.crossing(lines)?,
            CountsFrom::Named(name) => self.named_place(what, name, through)?,
        };
        through.pop();
        let [x, y] = base;
        let [along, across] = place.offset;
        Some([
            x.plus(along.0, along.1, &place.origin),
            y.plus(across.0, across.1, &place.origin),
        ])
    }

    fn named_place(
        &mut self,
        what: &str,
        name: &PlaceName,
        through: &mut Through,
    ) -> Option<Placed> {
        let case = self.case;
        let Some(declared) = case.entry(name) else {
            self.leads_nowhere("place", name, "declare it, or name one that is declared");
            return None;
        };
        let own = |it: &mut Self, at: &'c Once<PlanPlace>, through: &mut Through| {
            let what = format!("place of {}", declared.name());
            let given = it.value(&what, at, |place| words(&place.written()))?;
            it.resolve(&what, &given.value, through)
        };
        match name.inner() {
            None => {
                if let Some(stand) = declared.of::<Stand>() {
                    return own(self, &stand.at, through);
                }
                if let Some(place) = declared.of::<NamedPlace>() {
                    return own(self, &place.at, through);
                }
            }
            Some(inner) => {
                if let Some(place) = declared.of::<NamedPlace>() {
                    let spot = self.member(&format!("place {}", name.name), &place.spot, inner)?;
                    return self.resolve(what, &spot.value.at, through);
                }
                let floor = declared.of::<Floor>();
                let void = floor.and_then(|floor| {
                    floor
                        .hole
                        .get(inner)
                        .or_else(|| floor.cavity.get(inner))?
                        .known()
                });
                if let Some(void) = void {
                    return self.middle_of(what, void, through);
                }
            }
        }
        self.lacks(
            format!("place `{}`", name.name),
            Lack::NotFound,
            &name.origin,
            "name a stand, a `place`, or behind a dot a `spot` of a place or a hole of a floor",
        );
        None
    }

    fn middle_of(
        &mut self,
        what: &str,
        void: &'c Given<Void>,
        through: &mut Through,
    ) -> Option<Placed> {
        let [a, b] = &void.value.corners;
        let a = self.resolve(what, a, through)?;
        let b = self.resolve(what, b, through)?;
        let [ax, ay] = &a;
        let [bx, by] = &b;
        Some([
            Coordinate::between(ax, bx, &void.origin),
            Coordinate::between(ay, by, &void.origin),
        ])
    }

    fn crossing(&mut self, lines: &GridName) -> Option<Placed> {
        let (one, other) = lines.name.split_once('/')?;
        let one = self.grid_line(one, lines);
        let other = self.grid_line(other, lines);
        match (one?, other?) {
            ((0, x), (1, y)) | ((1, y), (0, x)) => Some([x, y]),
            _ => {
                self.lacks(
                    format!("`{}`: both lines stand along one axis", lines.name),
                    Lack::NoAnswer,
                    &lines.origin,
                    "a place is named by two lines that cross",
                );
                None
            }
        }
    }

    /// A grid line of the plant: the axis that it stands along, and where.
    fn grid_line(&mut self, name: &str, lines: &GridName) -> Option<(usize, Coordinate)> {
        let plant = self.case.plant().map(|(_, plant)| plant);
        let mut found = plant.into_iter().flat_map(|plant| named(plant, name));
        let what = format!("grid line {name}");
        let lack = match (found.next(), found.next()) {
            (Some((given, line)), None) => return self.line_at(&what, given, line),
            (Some((given, _)), Some(_)) => {
                let mend = "give one of them another name";
                self.lacks(
                    format!("{what}: it is declared twice"),
                    Lack::NoAnswer,
                    &given.origin,
                    mend,
                );
                return None;
            }
            (None, _) => plant.and_then(|plant| {
                let unread = plant.grid.lines.iter().filter_map(|line| match line {
                    Datum::Known(_) => None,
                    Datum::Lacking(lacking) => Some((lacking.lack, lacking.origin.clone())),
                });
                unread.into_iter().next()
            }),
        };
        let (lack, origin) = lack.unwrap_or((Lack::NotFound, lines.origin.clone()));
        let mend = plant.map_or_else(String::new, |plant| mend_of_grid(plant, name));
        self.lacks(what, lack, &origin, mend);
        None
    }

    fn line_at(
        &mut self,
        what: &str,
        given: &Given<GridLines>,
        line: &GridLine,
    ) -> Option<(usize, Coordinate)> {
        let axis = given.value.axis;
        let closed = self.closed(what, &line.at, &given.pedigree, &given.origin);
        let (at, value) = match (closed.lo, closed.hi, closed.nominal) {
            (Some(lo), Some(hi), _) => {
                let exact = Coordinate::exact((lo + hi) / 2.0);
                let zero = Length::from_si(0.0);
                let value = InputValue::Band {
                    lo: Some(Amount::of(lo)),
                    hi: Some(Amount::of(hi)),
                };
                (exact.plus(zero, (hi - lo) / 2.0, &line.origin), value)
            }
            (None, None, Some(at)) => (Coordinate::exact(at), InputValue::Exact(Amount::of(at))),
            _ => {
                self.lacks(
                    format!("{what}: where it stands at the least and at the most"),
                    Lack::OneSided,
                    &given.origin,
                    "give its coordinate, as `6.10 m` or `6.10 m +/- 5 mm`",
                );
                return None;
            }
        };
        let pedigree = given.pedigree.words.clone();
        self.got(what, value, vec![line.origin.clone()], pedigree);
        Some((axis, at))
    }
}

fn named<'p>(
    plant: &'p Plant,
    name: &str,
) -> impl Iterator<Item = (&'p Given<GridLines>, &'p GridLine)> {
    let known = plant.grid.lines.iter().filter_map(Datum::known);
    known.flat_map(move |given| {
        let lines = given.value.lines.iter();
        lines
            .filter(move |line| *line.name == *name)
            .map(move |line| (given, line))
    })
}

/// The grid line that was meant, or all that there are.
pub(crate) fn mend_of_grid(plant: &Plant, name: &str) -> String {
    let known = plant.grid.lines.iter().filter_map(Datum::known);
    let names: Vec<&str> = known
        .flat_map(|given| given.value.lines.iter().map(|line| &*line.name))
        .collect();
    match nearest(name, names.iter().copied()).filter(|near| near.len() > 1) {
        Some(near) => format!("did you mean `{near}`?"),
        None if names.is_empty() => {
            "declare the grid in the plant: `grid A .. C at x 0, 6 m, 12 m`".to_owned()
        }
        None => format!("the grid lines of the plant are {}", names.join(", ")),
    }
}

/// "(7.30 m, -0.30 m), within 5 mm along x".
fn said(place: &Placed) -> String {
    let known = AXES.into_iter().zip(place).filter_map(|(axis, at)| {
        let within = Printer::default().metric(Amount::of(at.within()), Round::Up);
        (at.within().si() > 0.0).then(|| format!(", within {within} along {axis}"))
    });
    std::iter::once(in_metres(middle(place)))
        .chain(known)
        .collect()
}

/// "(41.00 m, 5.40 m)".
pub(crate) fn in_metres([x, y]: [Length; 2]) -> String {
    format!("({:.2} m, {:.2} m)", x.si(), y.si())
}

impl PlanPlace {
    /// As it is written, with its coordinates in metres.
    pub fn written(&self) -> String {
        let offset = in_metres(self.offset.map(|(at, _)| at));
        let none = self.offset.iter().all(|(at, _)| at.si() == 0.0);
        let name = match &self.from {
            CountsFrom::Frame => return offset,
            CountsFrom::Grid(lines) => &lines.name,
            CountsFrom::Named(name) => &name.name,
        };
        if none {
            name.to_string()
        } else {
            format!("{name} + {offset}")
        }
    }
}
