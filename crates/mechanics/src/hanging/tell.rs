//! The row of numbers that a pose of several bodies says.

use super::bodies::{At, Solid, Tie, span};
use super::numbers::{M3, V3, angle_between};
use super::outcome::{Counts, Point, Said};
use super::pose::CgHeight;
use super::several::Several;
use nalgebra::Rotation3;

impl Several {
    pub(super) fn read(&self, at: &[f64], places: Vec<At>, tension: Vec<f64>) -> Option<Point> {
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
    pub(super) fn number(&self, said: Said, places: &[At], tension: &[f64]) -> Option<f64> {
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
        let of_body = |(body, (solid, at)): (usize, (&Solid, &At))| {
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
}

/// The turn about the plumb line that takes the spin out of a body.
fn unspun(body: &At, declared: &M3) -> M3 {
    let turn = body.turn * declared.transpose();
    let sine = turn.m21 - turn.m12;
    let cosine = 1.0 + turn.trace();
    let spin = 2.0 * sine.atan2(cosine);
    Rotation3::from_axis_angle(&V3::z_axis(), -spin).into_inner()
}
