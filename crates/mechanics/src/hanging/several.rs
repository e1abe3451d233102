//! How several bodies, or a body under several hooks, hang, as a function of the banded inputs.

use super::bodies::{At, Many, Tie, span};
use super::family::Way;
use super::numbers::{Fault, M3, V3, angle_between};
use super::outcome::{Counts, Param, Point, Said, Slopes};
use super::pose::CgHeight;
use super::slide::Border;
use nalgebra::{DMatrix, Rotation3};

/// Reach of a leg that must not stretch at all: rounding only.
const NO_STRETCH: f64 = 1e-9;
/// A pull of less than this share of the weight is none.
const NO_PULL: f64 = 1e-9;
/// Parts in which a way too long for one step is gone.
const PARTS: u32 = 8;
/// Step of a central difference, as a share of the rig's scale.
const SMALL: f64 = 1e-6;

/// A rig and a way to hang.
#[derive(Clone, Debug)]
pub(crate) struct Several {
    /// The definite rig at the place last asked for.
    many: Many,
    counts: Counts,
    way: Way,
    longest: Vec<f64>,
    params: Vec<Param>,
    /// The middle of all bands, and how it hangs there.
    middle: Vec<f64>,
    start: Vec<At>,
}

impl Several {
    /// `longest` is the long end of each leg, `params` the inputs that have a band, `middle` their middles, `start` the
    /// pose there.
    pub(crate) fn new(
        many: Many,
        counts: Counts,
        way: Way,
        longest: Vec<f64>,
        params: Vec<Param>,
        (middle, start): (Vec<f64>, Vec<At>),
    ) -> Self {
        Self {
            many,
            counts,
            way,
            longest,
            params,
            middle,
            start,
        }
    }

    /// Legs that run between the same two things, together.
    pub(crate) fn tiers(&self) -> Vec<Vec<usize>> {
        tiers(&self.many)
    }

    /// Puts the rig at a place in the bands.
    fn set(&mut self, at: &[f64]) {
        for (param, value) in self.params.iter().zip(at) {
            let slot = match *param {
                Param::Weight(body) => self.many.solids.get_mut(body).map(|s| &mut s.weight),
                Param::Cg(body, axis) => self
                    .many
                    .solids
                    .get_mut(body)
                    .and_then(|s| s.cg.get_mut(axis)),
                Param::Length(i) => self.many.lines.get_mut(i).map(|l| &mut l.length),
                Param::Stiffness(i) => self
                    .many
                    .lines
                    .get_mut(i)
                    .and_then(|l| l.stiffness.as_mut()),
            };
            if let Some(slot) = slot {
                *slot = *value;
            }
        }
    }

    /// Hangs the rig at a place in the bands; `near` is a pose to start from.
    ///
    /// # Errors
    /// Why it does not hang in this way there.
    pub(crate) fn evaluate(&mut self, at: &[f64], near: Option<&Point>) -> Result<Point, Fault> {
        let (places, tension) = match self.way.clone() {
            Way::Elastic => self.elastic(at, near)?,
            Way::Inextensible => self.all_that_pull(at, near)?,
            Way::Chosen { legs, stretch } => {
                let (places, tension) = self.rigid(at, near, &legs)?;
                self.all_pull(&legs, &tension)?;
                let pulls = |leg: usize| legs.contains(&leg);
                self.others_reach(&places, stretch, pulls)?;
                (places, tension)
            }
        };
        let tension = without_traces(tension, NO_PULL * self.many.weight());
        let judged = self.many.judged(places, tension, 0.0, 1)?;
        self.read(at, judged.at, judged.tension)
            .ok_or(Fault::Neutral)
    }

    fn guess(&self, at: &[f64], near: Option<&Point>) -> Vec<At> {
        let Some(near) = near else {
            return self.start.clone();
        };
        let Some(leads) = near.slopes.as_ref().and_then(|s| s.leads.as_ref()) else {
            return near.places.clone();
        };
        let change = at.iter().zip(&near.at).map(|(to, from)| to - from);
        let step = leads * nalgebra::DVector::from_iterator(leads.ncols(), change);
        self.many.moved(&near.places, &step, 1.0)
    }

    fn elastic(&mut self, at: &[f64], near: Option<&Point>) -> Result<(Vec<At>, Vec<f64>), Fault> {
        self.set(at);
        let hung = match self.many.near_elastic(self.guess(at, near)) {
            Ok(hung) => hung,
            // The short way can miss; the long way, from the attitudes as declared, decides.
            Err(_) => self.many.settle_firm()?,
        };
        Ok((hung.at, hung.tension))
    }

    /// The pose on just these legs; where that is too far from what is known, in parts from the middle.
    fn rigid(
        &mut self,
        at: &[f64],
        near: Option<&Point>,
        legs: &[usize],
    ) -> Result<(Vec<At>, Vec<f64>), Fault> {
        self.set(at);
        let pulls = near.map_or(&[][..], |near| &near.tension);
        let direct = self.many.near_rigid(self.guess(at, near), legs, pulls);
        if !matches!(direct, Err(Fault::NotConverged { .. })) {
            return direct;
        }
        let mut here = (self.start.clone(), vec![]);
        for part in 1..=PARTS {
            let share = f64::from(part) / f64::from(PARTS);
            let both = self.middle.iter().zip(at);
            let place: Vec<f64> = both.map(|(m, at)| m + (at - m) * share).collect();
            self.set(&place);
            here = self.many.near_rigid(here.0, legs, &here.1)?;
        }
        Ok(here)
    }

    /// All legs while they pull; one that would push is let go, and must then reach.
    fn all_that_pull(
        &mut self,
        at: &[f64],
        near: Option<&Point>,
    ) -> Result<(Vec<At>, Vec<f64>), Fault> {
        let mut legs: Vec<usize> = (0..self.counts.legs).collect();
        loop {
            let (places, tension) = self.rigid(at, near, &legs)?;
            let least = legs
                .iter()
                .filter_map(|leg| tension.get(*leg).map(|t| (*leg, *t)))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            match least {
                Some((leg, pull)) if pull < -NO_PULL * self.many.weight() && legs.len() > 1 => {
                    legs.retain(|other| *other != leg);
                }
                _ => {
                    self.all_pull(&legs, &tension)?;
                    self.others_reach(&places, 0.0, |leg| legs.contains(&leg))?;
                    return Ok((places, tension));
                }
            }
        }
    }

    fn all_pull(&self, legs: &[usize], tension: &[f64]) -> Result<(), Fault> {
        let none = -NO_PULL * self.many.weight();
        let pushes = |leg: &&usize| tension.get(**leg).is_none_or(|t| t.is_nan() || *t < none);
        let pushing: Vec<usize> = legs.iter().filter(pushes).copied().collect();
        if pushing.is_empty() {
            Ok(())
        } else {
            Err(Fault::Pushes { legs: pushing })
        }
    }

    fn others_reach(
        &self,
        places: &[At],
        stretch: f64,
        pulls: impl Fn(usize) -> bool,
    ) -> Result<(), Fault> {
        let mut lines = self.many.lines.iter().zip(&self.longest).enumerate();
        let chosen = matches!(self.way, Way::Chosen { .. });
        let reach = lines.all(|(leg, (line, longest))| {
            // A sharing lets a leg be as long as it may be; else it is as long as it is.
            let length = if chosen { *longest } else { line.length };
            pulls(leg)
                || span(line, places)
                    .is_some_and(|s| s.distance <= length * (1.0 + stretch + NO_STRETCH))
        });
        if reach {
            Ok(())
        } else {
            Err(Fault::CannotMeet)
        }
    }

    fn read(&self, at: &[f64], places: Vec<At>, tension: Vec<f64>) -> Option<Point> {
        let mut values = vec![f64::NAN; self.counts.count()];
        for said in self.all() {
            let value = self.number(said, &places, &tension)?;
            *values.get_mut(said.place(self.counts))? = value;
        }
        Some(Point {
            at: at.to_vec(),
            hook: V3::zeros(),
            cg_height: self.cg_height(&places, &tension),
            tension,
            places,
            values,
            slopes: None,
        })
    }

    fn all(&self) -> impl Iterator<Item = Said> + use<> {
        let Counts {
            legs,
            bodies,
            hooks,
        } = self.counts;
        let of_legs = (0..legs).flat_map(|leg| [Said::Tension(leg), Said::Angle(leg)]);
        let of_bodies =
            (0..bodies).flat_map(|b| [Said::Tilt(b), Said::Lean(b, 0), Said::Lean(b, 1)]);
        let of_others = (1..bodies).flat_map(|b| {
            [
                Said::Below(b),
                Said::Above(b),
                Said::Beside(b, 0),
                Said::Beside(b, 1),
            ]
        });
        let of_load = [Said::Rise, Said::Aside(0), Said::Aside(1)];
        of_legs
            .chain(of_bodies)
            .chain(of_others)
            .chain(of_load)
            .chain((0..hooks).map(Said::Load))
    }

    /// A number of a pose.
    fn number(&self, said: Said, places: &[At], tension: &[f64]) -> Option<f64> {
        let load = places.first()?;
        let declared = |body: usize| self.many.solids.get(body).map(|s| s.attitude);
        let first_hook = || {
            let places = self.many.lines.iter().filter_map(|line| match line.upper {
                Tie::Hook(hook, place) => Some((hook, place)),
                Tie::On(..) => None,
            });
            places.min_by_key(|(hook, _)| *hook).map(|(_, place)| place)
        };
        let plumb_pull = |wanted: &dyn Fn(&Tie) -> bool| {
            let lines = self.many.lines.iter().zip(tension);
            let pulls = lines.filter(|(line, t)| wanted(&line.upper) && **t != 0.0);
            pulls
                .map(|(line, t)| Some(span(line, places)?.u.z * t))
                .sum::<Option<f64>>()
        };
        // Plumb up as a body sees it, told in the axes of the hooks as declared.
        let lean = |body: usize| {
            let up = places.get(body)?.turn.transpose() * V3::z();
            Some(declared(body)? * up)
        };
        Some(match said {
            Said::Tension(leg) => *tension.get(leg)?,
            Said::Angle(leg) if *tension.get(leg)? > 0.0 => {
                let u = span(self.many.lines.get(leg)?, places)?.u;
                u.z.clamp(-1.0, 1.0).asin()
            }
            Said::Angle(_) => f64::NAN,
            Said::Tilt(body) => angle_between(&lean(body)?, &V3::z()),
            Said::Lean(body, axis) => *lean(body)?.get(axis)?,
            Said::Rise => first_hook()?.z - load.origin.z,
            Said::Aside(axis) => {
                let aside = load.origin - first_hook()?;
                *(unspun(load, &declared(0)?) * aside).get(axis)?
            }
            Said::Below(body) => plumb_pull(&|tie| matches!(tie, Tie::On(b, _) if *b == body))?,
            Said::Above(body) => places.get(body)?.origin.z - load.origin.z,
            Said::Beside(body, axis) => {
                let beside = places.get(body)?.origin - load.origin;
                *(unspun(load, &declared(0)?) * beside).get(axis)?
            }
            Said::Load(hook) => plumb_pull(&|tie| matches!(tie, Tie::Hook(h, _) if *h == hook))?,
        })
    }

    /// The worst height of a centre of gravity against the points that carry its body.
    fn cg_height(&self, places: &[At], tension: &[f64]) -> CgHeight {
        let of_body = |(body, (solid, at)): (usize, (&super::bodies::Solid, &At))| {
            let carrying = self.many.lines.iter().zip(tension);
            let points = carrying.filter_map(|(line, t)| match line.lower {
                Tie::On(b, point) if b == body && *t > 0.0 => Some(point),
                _ => None,
            });
            let over = |point: V3| (at.turn * (solid.cg - point)).z > 1e-9;
            let (above, all) = points.fold((0, 0), |(above, all), point| {
                (above + usize::from(over(point)), all + 1)
            });
            match above {
                0 => CgHeight::BelowAll,
                n if n == all => CgHeight::AboveAll,
                _ => CgHeight::AboveSome,
            }
        };
        let bodies = self.many.solids.iter().zip(places).enumerate();
        bodies.map(of_body).max().unwrap_or(CgHeight::BelowAll)
    }

    /// How a pose moves with the inputs, by the implicit function theorem.
    pub(crate) fn slopes(&mut self, point: &Point) -> Option<Slopes> {
        self.set(&point.at);
        let legs = match &self.way {
            Way::Elastic => return self.elastic_slopes(point),
            Way::Inextensible => super::family::pulls(point),
            Way::Chosen { legs, .. } => legs.clone(),
        };
        let many = &self.many;
        let (slope, columns, _) = many.rigid_slope(&point.places, &legs, &point.tension)?;
        let (size, count) = columns.shape();
        let mut right = DMatrix::zeros(size + count, self.params.len());
        let forces = self.forces(point)? / -many.weight();
        right.rows_mut(0, size).copy_from(&forces);
        for (j, param) in self.params.iter().enumerate() {
            if let Param::Length(leg) = param
                && let Some(row) = legs.iter().position(|l| l == leg)
            {
                *right.get_mut((size + row, j))? = 1.0;
            }
        }
        let matrix = many.rigid_matrix(slope.curvature, &columns, &point.places);
        let answer = matrix.lu().solve(&right)?;
        let mut tension = vec![0.0; self.params.len() * self.counts.legs];
        for j in 0..self.params.len() {
            for (row, leg) in legs.iter().enumerate() {
                let value = answer.get((size + row, j))? * many.weight();
                *tension.get_mut(j * self.counts.legs + leg)? = value;
            }
        }
        Some(Slopes {
            hook: vec![],
            leads: Some(answer.rows(0, size).into_owned()),
            tension,
        })
    }

    /// How the slope of the weights moves with each input.
    fn forces(&self, point: &Point) -> Option<DMatrix<f64>> {
        let many = &self.many;
        let mut forces = DMatrix::zeros(many.size(), self.params.len());
        for (j, param) in self.params.iter().enumerate() {
            let (body, force, moment) = match *param {
                Param::Weight(body) => {
                    let arm = point.places.get(body)?.turn * many.solids.get(body)?.cg;
                    (body, V3::z(), arm.cross(&V3::z()))
                }
                Param::Cg(body, axis) => {
                    let turn = point.places.get(body)?.turn;
                    let arm = turn.column(axis).into_owned() * many.solids.get(body)?.weight;
                    (body, V3::zeros(), arm.cross(&V3::z()))
                }
                Param::Length(_) | Param::Stiffness(_) => continue,
            };
            if many.solids.get(body)?.particle {
                *forces.get_mut((6 * body + 2, j))? = force.z;
                continue;
            }
            let parts = [force, moment / many.scale];
            for (k, value) in parts.iter().flat_map(V3::iter).enumerate() {
                *forces.get_mut((6 * body + k, j))? = *value;
            }
        }
        Some(forces)
    }

    fn elastic_slopes(&self, point: &Point) -> Option<Slopes> {
        let many = &self.many;
        let legs = self.counts.legs;
        let mut columns = DMatrix::zeros(many.size(), legs);
        let mut stretch = Vec::with_capacity(legs);
        for (leg, line) in many.lines.iter().enumerate() {
            let span = span(line, &point.places)?;
            many.direction_into(&mut columns, leg, &span);
            let by = span.distance - line.length;
            stretch.push((
                by.max(0.0),
                line.stiffness.filter(|_| by > 0.0).unwrap_or(0.0),
            ));
        }
        // What a unit of an input does to a leg's pull while nothing moves.
        let own = |leg: usize, param: &Param| {
            let (stretch, k) = stretch.get(leg).copied().unwrap_or_default();
            match *param {
                Param::Length(i) if i == leg => -k,
                Param::Stiffness(i) if i == leg => stretch,
                _ => 0.0,
            }
        };
        let mut right = -self.forces(point)?;
        for (j, param) in self.params.iter().enumerate() {
            if let Param::Length(leg) | Param::Stiffness(leg) = *param {
                let pull = own(leg, param);
                let column = columns.column(leg) * -pull;
                right.column_mut(j).copy_from(&column);
            }
        }
        let slope = many.slope(&point.places, &[]);
        let leads = many
            .lifted(slope.curvature, &point.places)
            .cholesky()?
            .solve(&right);
        let apart = columns.transpose() * &leads;
        let mut tension = Vec::with_capacity(legs * self.params.len());
        for (j, param) in self.params.iter().enumerate() {
            for leg in 0..legs {
                let k = stretch.get(leg)?.1;
                tension.push(k * apart.get((leg, j))? + own(leg, param));
            }
        }
        Some(Slopes {
            hook: vec![],
            leads: Some(leads),
            tension,
        })
    }

    /// Slopes of one number of a pose in all inputs: of a tension exactly, of what the places say by central differences
    /// along the exact leads.
    pub(crate) fn slopes_of(&mut self, point: &Point, said: Said) -> Option<Vec<f64>> {
        self.set(&point.at);
        let slopes = point.slopes.as_ref()?;
        let legs = self.counts.legs;
        let of_leg = |leg: usize| slopes.tension.iter().skip(leg).step_by(legs);
        match said {
            Said::Tension(leg) => return Some(of_leg(leg).copied().collect()),
            Said::Angle(leg) if point.tension.get(leg).is_none_or(|t| *t <= 0.0) => {
                return Some(vec![0.0; self.params.len()]);
            }
            _ => {}
        }
        let leads = slopes.leads.as_ref()?;
        let pulls = slopes.tension.chunks(legs);
        (leads.column_iter().zip(pulls))
            .map(|(lead, pulls)| {
                let most = lead.amax() / self.many.scale;
                let pulled = pulls.iter().fold(0.0_f64, |a, t| a.max(t.abs()));
                let size = most.max(pulled / self.many.weight());
                if size == 0.0 {
                    return Some(0.0);
                }
                let small = SMALL / size;
                let lead = lead.into_owned();
                let near = |share: f64| {
                    let places = self.many.moved(&point.places, &lead, share);
                    let both = point.tension.iter().zip(pulls);
                    let tension: Vec<f64> = both.map(|(t, more)| t + more * share).collect();
                    self.number(said, &places, &tension)
                };
                Some((near(small)? - near(-small)?) / (2.0 * small))
            })
            .collect()
    }

    /// How the distance between the ends of each leg moves with each input: a row a leg.
    fn apart(&self, point: &Point) -> Option<(Vec<f64>, DMatrix<f64>)> {
        let leads = point.slopes.as_ref()?.leads.as_ref()?;
        let mut columns = DMatrix::zeros(self.many.size(), self.counts.legs);
        let mut distance = Vec::with_capacity(self.counts.legs);
        for (leg, line) in self.many.lines.iter().enumerate() {
            let span = span(line, &point.places)?;
            self.many.direction_into(&mut columns, leg, &span);
            distance.push(span.distance);
        }
        Some((distance, columns.transpose() * leads))
    }

    /// As [`super::family::Family::stretches_along`].
    pub(crate) fn stretches_along(&mut self, point: &Point, j: usize) -> Option<Vec<(f64, f64)>> {
        self.set(&point.at);
        let (distance, apart) = self.apart(point)?;
        let param = *self.params.get(j)?;
        let lines = self.many.lines.iter().zip(distance).enumerate();
        lines
            .map(|(leg, (line, distance))| {
                let own = f64::from(u8::from(param == Param::Length(leg)));
                Some((distance - line.length, apart.get((leg, j))? - own))
            })
            .collect()
    }

    /// As [`super::family::Family::borders`].
    pub(crate) fn borders(&mut self, point: &Point) -> Option<Vec<Border>> {
        self.set(&point.at);
        let (distance, apart) = self.apart(point)?;
        let legs = self.counts.legs;
        let slopes = point.slopes.as_ref()?;
        let row = |leg: usize, follows: bool| -> Vec<f64> {
            let own = |p: &Param| f64::from(u8::from(follows && *p == Param::Length(leg)));
            let row = apart.row(leg);
            let moves = self.params.iter().zip(row.iter());
            moves.map(|(param, lead)| lead - own(param)).collect()
        };
        let lines = self.many.lines.iter().zip(distance).enumerate();
        lines
            .map(|(leg, (line, distance))| match &self.way {
                Way::Elastic => {
                    let amount = distance - line.length;
                    Some(Border {
                        amount,
                        force: amount * line.stiffness?,
                        slopes: row(leg, true),
                    })
                }
                Way::Chosen { legs: few, stretch } if !few.contains(&leg) => {
                    let amount = distance - self.longest.get(leg)? * (1.0 + stretch);
                    Some(Border {
                        amount,
                        force: amount * self.many.weight() / self.many.scale,
                        slopes: row(leg, false),
                    })
                }
                _ => {
                    let pull = *point.tension.get(leg)?;
                    let own = slopes.tension.iter().skip(leg).step_by(legs);
                    Some(Border {
                        amount: pull,
                        force: pull,
                        slopes: own.copied().collect(),
                    })
                }
            })
            .collect()
    }
}

/// Legs that run between the same two things, together.
pub(crate) fn tiers(many: &Many) -> Vec<Vec<usize>> {
    let thing = |tie: &Tie| match *tie {
        Tie::Hook(hook, _) => (true, hook),
        Tie::On(body, _) => (false, body),
    };
    let mut tiers: Vec<((_, _), Vec<usize>)> = Vec::new();
    for (leg, line) in many.lines.iter().enumerate() {
        let between = (thing(&line.upper), thing(&line.lower));
        match tiers.iter_mut().find(|(seen, _)| *seen == between) {
            Some((_, legs)) => legs.push(leg),
            None => tiers.push((between, vec![leg])),
        }
    }
    tiers.into_iter().map(|(_, legs)| legs).collect()
}

/// A pull that is rounding alone is none.
fn without_traces(tension: Vec<f64>, none: f64) -> Vec<f64> {
    let all = tension.into_iter();
    all.map(|t| if t > none { t } else { 0.0 }).collect()
}

/// The turn about the plumb line that takes the spin out of a body.
fn unspun(body: &At, declared: &M3) -> M3 {
    let turn = body.turn * declared.transpose();
    let sine = turn.m21 - turn.m12;
    let cosine = 1.0 + turn.trace();
    let spin = 2.0 * sine.atan2(cosine);
    Rotation3::from_axis_angle(&V3::z_axis(), -spin).into_inner()
}
