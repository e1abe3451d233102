//! How a pose of several bodies moves with the banded inputs.

use super::bodies::span;
use super::family::{Way, pulls};
use super::numbers::V3;
use super::outcome::{Param, Point, Said, Slopes};
use super::several::Several;
use super::slide::Border;
use nalgebra::DMatrix;

/// Step of a central difference, as a share of the rig's scale.
const SMALL: f64 = 1e-6;

impl Several {
    /// How a pose moves with the inputs, by the implicit function theorem.
    pub(crate) fn slopes(&mut self, point: &Point) -> Option<Slopes> {
        self.set(&point.at);
        let legs = match &self.way {
            Way::Elastic => return self.elastic_slopes(point),
            Way::Inextensible => pulls(point),
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
