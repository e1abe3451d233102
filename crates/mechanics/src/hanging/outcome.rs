//! What a pose says, as a row of numbers with their slopes in each input that has a band.

use super::numbers::{M3, OneHook, V3, across, angle_between, direction, least_turn};
use super::pose::CgHeight;
use nalgebra::{SMatrix, SVector};

/// An input that can have a band.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Param {
    Weight,
    Cg(usize),
    Length(usize),
    Stiffness(usize),
}

/// A number that a pose says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Said {
    /// Tension of a leg, N.
    Tension(usize),
    /// Angle of a pulling leg from the horizontal, rad; not a number for a slack leg.
    Angle(usize),
    /// Turn from the attitude as declared, rad.
    Tilt,
    /// Height of the hook above the body's origin, m.
    Rise,
    /// Lean: how far plumb up points along a level direction of the attitude as declared, none.
    Lean(usize),
    /// The body's origin sideways from the hook, m, in the axes of the attitude as declared.
    Aside(usize),
}

impl Said {
    /// Where it stands in the row.
    pub(crate) fn place(self, legs: usize) -> usize {
        match self {
            Said::Tension(i) => i,
            Said::Angle(i) => legs + i,
            Said::Tilt => 2 * legs,
            Said::Rise => 2 * legs + 1,
            Said::Aside(axis) => 2 * legs + 2 + axis,
            Said::Lean(axis) => 2 * legs + 4 + axis,
        }
    }

    /// Length of the row.
    pub(crate) fn count(legs: usize) -> usize {
        2 * legs + 6
    }
}

/// How the answer moves with one input: the hook and the tensions, per unit of the input.
pub(crate) struct Lead {
    pub(crate) hook: V3,
    pub(crate) tension: Vec<f64>,
}

/// A pose inside the bands, with its row and its slopes.
#[derive(Clone, Debug)]
pub(crate) struct Point {
    /// Value of each input that has a band.
    pub(crate) at: Vec<f64>,
    /// The hook in the body's frame, m.
    pub(crate) hook: V3,
    /// The row, by [`Said::place`].
    pub(crate) values: Vec<f64>,
    /// Slopes, one row of inputs for each value.
    pub(crate) slopes: Vec<f64>,
    /// How the hook moves with each input.
    pub(crate) lead: Vec<V3>,
    /// The centre of gravity against the points that pull.
    pub(crate) cg_height: CgHeight,
}

impl Point {
    /// Slopes of one value in all inputs.
    pub(crate) fn slopes_of(&self, place: usize) -> &[f64] {
        let width = self.at.len();
        self.slopes
            .get(place * width..(place + 1) * width)
            .unwrap_or(&[])
    }
}

/// Two directions across plumb up, along the declared attitude's x and y, in the body's frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Level {
    pub(crate) x: V3,
    pub(crate) y: V3,
}

fn aside(rig: &OneHook, level: &Level, hook: &V3, cg: &V3) -> Option<[f64; 2]> {
    let (_, v) = direction(cg, hook)?;
    let origin = -(least_turn(&v, &rig.up)? * hook);
    Some([origin.dot(&level.x), origin.dot(&level.y)])
}

/// The row of a pose with its slopes; none where the hook falls on the centre of gravity or on a point.
pub(crate) fn read(
    rig: &OneHook,
    level: &Level,
    hook: V3,
    tension: &[f64],
    at: &[f64],
    params: &[Param],
    leads: &[Lead],
) -> Option<Point> {
    let legs = rig.legs();
    let (rho, v) = rig.plumb(&hook)?;
    let width = params.len();
    let mut values = vec![0.0; Said::count(legs)];
    let mut slopes = vec![0.0; Said::count(legs) * width];
    let turn = across(&v) / rho;
    let plumb_lead: Vec<V3> = params
        .iter()
        .zip(leads)
        .map(|(p, lead)| turn * (lead.hook - cg_lead(*p)))
        .collect();
    let mut put = |said: Said, value: f64, slope: &mut dyn FnMut(usize) -> f64| {
        let place = said.place(legs);
        if let Some(slot) = values.get_mut(place) {
            *slot = value;
        }
        if let Some(row) = slopes.get_mut(place * width..(place + 1) * width) {
            for (j, slot) in row.iter_mut().enumerate() {
                *slot = slope(j);
            }
        }
    };
    let hook_lead = |j: usize| leads.get(j).map_or_else(V3::zeros, |l| l.hook);
    let plumb = |j: usize| plumb_lead.get(j).copied().unwrap_or_else(V3::zeros);
    for (i, (point, pull)) in rig.points.iter().zip(tension).enumerate() {
        put(Said::Tension(i), *pull, &mut |j| {
            leads
                .get(j)
                .and_then(|l| l.tension.get(i))
                .copied()
                .unwrap_or(0.0)
        });
        let (distance, u) = direction(point, &hook)?;
        if *pull > 0.0 {
            let sine = u.dot(&v).clamp(-1.0, 1.0);
            let rate = 1.0 / (1.0 - sine * sine).max(1e-12).sqrt();
            put(Said::Angle(i), sine.asin(), &mut |j| {
                rate * (v.dot(&(across(&u) * hook_lead(j))) / distance + u.dot(&plumb(j)))
            });
        } else {
            put(Said::Angle(i), f64::NAN, &mut |_| 0.0);
        }
    }
    let tilt = angle_between(&v, &rig.up);
    let rate = -1.0 / tilt.sin().max(1e-9);
    put(Said::Tilt, tilt, &mut |j| rate * rig.up.dot(&plumb(j)));
    put(Said::Rise, hook.dot(&v), &mut |j| {
        hook_lead(j).dot(&v) + hook.dot(&plumb(j))
    });
    for (axis, direction) in [level.x, level.y].into_iter().enumerate() {
        put(Said::Lean(axis), direction.dot(&v), &mut |j| {
            direction.dot(&plumb(j))
        });
    }
    let [x, y] = aside(rig, level, &hook, &rig.cg)?;
    let step = 1e-6 * rig.scale();
    for (axis, value) in [x, y].into_iter().enumerate() {
        put(Said::Aside(axis), value, &mut |j| {
            let (Some(p), Some(l)) = (params.get(j), leads.get(j)) else {
                return 0.0;
            };
            let move_cg = cg_lead(*p);
            let size = l.hook.norm().max(move_cg.norm());
            if size == 0.0 {
                return 0.0;
            }
            let small = step / size;
            let near = |sign: f64| {
                let shift = sign * small;
                aside(
                    rig,
                    level,
                    &(hook + l.hook * shift),
                    &(rig.cg + move_cg * shift),
                )
                .and_then(|a| a.get(axis).copied())
                .unwrap_or(value)
            };
            (near(1.0) - near(-1.0)) / (2.0 * small)
        });
    }
    Some(Point {
        at: at.to_vec(),
        hook,
        values,
        slopes,
        lead: leads.iter().map(|l| l.hook).collect(),
        cg_height: cg_height(rig, &v, tension),
    })
}

/// The centre of gravity against the points of the legs that pull, along plumb up `v`.
pub(crate) fn cg_height(rig: &OneHook, v: &V3, tension: &[f64]) -> CgHeight {
    let pulling = rig.points.iter().zip(tension).filter(|(_, t)| **t > 0.0);
    let (above, all) = pulling.fold((0, 0), |(above, all), (point, _)| {
        let over = (rig.cg - point).dot(v) > 0.0;
        (above + usize::from(over), all + 1)
    });
    match above {
        0 => CgHeight::BelowAll,
        n if n == all => CgHeight::AboveAll,
        _ => CgHeight::AboveSome,
    }
}

fn cg_lead(param: Param) -> V3 {
    match param {
        Param::Cg(0) => V3::x(),
        Param::Cg(1) => V3::y(),
        Param::Cg(_) => V3::z(),
        _ => V3::zeros(),
    }
}

/// Slopes of an elastic pose by the implicit function theorem: `H dh = -(dg/dp) dp`.
pub(crate) fn elastic_leads(
    rig: &OneHook,
    curvature: &M3,
    hook: &V3,
    params: &[Param],
) -> Option<Vec<Lead>> {
    let give = curvature.try_inverse()?;
    let (rho, v) = rig.plumb(hook)?;
    let legs: Vec<(f64, f64, V3)> = rig
        .each_leg()
        .zip(&rig.stiffness)
        .map(|((_, p, length), k)| {
            let (distance, u) = direction(p, hook)?;
            let stretch = distance - length;
            Some((if stretch > 0.0 { *k } else { 0.0 }, stretch.max(0.0), u))
        })
        .collect::<Option<_>>()?;
    let leads = params.iter().map(|param| {
        let shift = match *param {
            Param::Weight => give * v,
            Param::Cg(_) => -(give * (across(&v) * cg_lead(*param))) * (rig.weight / rho),
            Param::Length(i) => legs
                .get(i)
                .map_or_else(V3::zeros, |(k, _, u)| give * u * *k),
            Param::Stiffness(i) => legs
                .get(i)
                .map_or_else(V3::zeros, |(_, s, u)| -(give * u) * *s),
        };
        let tension = legs
            .iter()
            .enumerate()
            .map(|(i, (k, s, u))| {
                let own = match *param {
                    Param::Length(j) if j == i => -k,
                    Param::Stiffness(j) if j == i => *s,
                    _ => 0.0,
                };
                k * u.dot(&shift) + own
            })
            .collect();
        Lead {
            hook: shift,
            tension,
        }
    });
    Some(leads.collect())
}

/// Slopes of a pose on the chosen inextensible legs, from `[H U; U' 0] [dh; dT] = [-(dg/dp); dL]`.
pub(crate) fn rigid_leads(
    rig: &OneHook,
    hook: &V3,
    chosen: &[usize],
    tension: &[f64],
    params: &[Param],
) -> Option<Vec<Lead>> {
    let (rho, v) = rig.plumb(hook)?;
    let mut matrix = SMatrix::<f64, 6, 6>::zeros();
    let mut curvature = across(&v) * (-rig.weight / rho);
    // Forces are counted in weights and lengths in metres, so that the matrix is well scaled.
    for slot in 0..3 {
        let row = 3 + slot;
        let Some(leg) = chosen.get(slot) else {
            *matrix.get_mut((row, row))? = 1.0;
            continue;
        };
        let (distance, u) = direction(rig.points.get(*leg)?, hook)?;
        curvature += across(&u) * (tension.get(*leg)? / distance);
        for axis in 0..3 {
            let value = *u.get(axis)?;
            *matrix.get_mut((axis, row))? = value;
            *matrix.get_mut((row, axis))? = value;
        }
    }
    matrix
        .fixed_view_mut::<3, 3>(0, 0)
        .copy_from(&(curvature / rig.weight));
    let factors = matrix.lu();
    let legs = rig.legs();
    params
        .iter()
        .map(|param| {
            let mut right = SVector::<f64, 6>::zeros();
            match *param {
                Param::Weight => right.fixed_rows_mut::<3>(0).copy_from(&(v / rig.weight)),
                Param::Cg(_) => right
                    .fixed_rows_mut::<3>(0)
                    .copy_from(&(-(across(&v) * cg_lead(*param)) / rho)),
                Param::Length(i) => {
                    if let Some(slot) = chosen.iter().position(|c| *c == i) {
                        *right.get_mut(3 + slot)? = 1.0;
                    }
                }
                Param::Stiffness(_) => {}
            }
            let answer = factors.solve(&right)?;
            let mut pulls = vec![0.0; legs];
            for (slot, leg) in chosen.iter().enumerate() {
                *pulls.get_mut(*leg)? = answer.get(3 + slot)? * rig.weight;
            }
            Some(Lead {
                hook: answer.fixed_rows::<3>(0).into_owned(),
                tension: pulls,
            })
        })
        .collect()
}
