//! What a pose says, as a row of numbers with their slopes in each input that has a band.

use super::bodies::At;
use super::numbers::{M3, OneHook, V3, across, angle_between, direction, least_turn};
use super::pose::CgHeight;
use nalgebra::{DMatrix, SMatrix, SVector};

/// An input that can have a band.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Param {
    /// Weight of a body.
    Weight(usize),
    /// Centre of gravity of a body along an axis.
    Cg(usize, usize),
    Length(usize),
    Stiffness(usize),
}

/// A number that a pose says. Body 0 is the load.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Said {
    /// Tension of a leg, N.
    Tension(usize),
    /// Angle of a pulling leg from the horizontal, rad; not a number for a slack leg.
    Angle(usize),
    /// Turn of a body from the attitude as declared, rad.
    Tilt(usize),
    /// Height of the first hook above the load's origin, m.
    Rise,
    /// Lean of a body: how far plumb up points along a level direction of the attitude as declared, none.
    Lean(usize, usize),
    /// The load's origin sideways from the first hook, m, in the axes of the attitude as declared.
    Aside(usize),
    /// What hangs below a body other than the load: the plumb part of the pulls of its lower legs, N.
    Below(usize),
    /// Height of a body's origin above the load's, m.
    Above(usize),
    /// A body's origin sideways from the load's, m, in the axes of the load's attitude as declared.
    Beside(usize, usize),
    /// What hangs from a hook: the plumb part of the pulls of its legs, N.
    Load(usize),
}

/// How many legs, bodies and hooks there are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Counts {
    pub(crate) legs: usize,
    pub(crate) bodies: usize,
    pub(crate) hooks: usize,
}

/// Numbers of each body other than the load.
const OF_BODY: usize = 7;

impl Counts {
    /// Of one body under one hook.
    pub(crate) const fn one(legs: usize) -> Self {
        Self {
            legs,
            bodies: 1,
            hooks: 1,
        }
    }

    /// Length of the row. One body under one hook has no numbers of other bodies and of hooks.
    pub(crate) fn count(self) -> usize {
        let hooks = if self.several() { self.hooks } else { 0 };
        self.bodies_from(self.bodies) + hooks
    }

    /// Whether there is more than one body under one hook.
    pub(crate) const fn several(self) -> bool {
        self.bodies > 1 || self.hooks > 1
    }

    fn bodies_from(self, body: usize) -> usize {
        2 * self.legs + 6 + OF_BODY * body.saturating_sub(1)
    }
}

impl Said {
    /// Where it stands in the row.
    pub(crate) fn place(self, of: Counts) -> usize {
        let load = 2 * of.legs;
        match self {
            Said::Tension(i) => i,
            Said::Angle(i) => of.legs + i,
            Said::Tilt(0) => load,
            Said::Rise => load + 1,
            Said::Aside(axis) => load + 2 + axis,
            Said::Lean(0, axis) => load + 4 + axis,
            Said::Tilt(body) => of.bodies_from(body),
            Said::Lean(body, axis) => of.bodies_from(body) + 1 + axis,
            Said::Below(body) => of.bodies_from(body) + 3,
            Said::Above(body) => of.bodies_from(body) + 4,
            Said::Beside(body, axis) => of.bodies_from(body) + 5 + axis,
            Said::Load(hook) => of.bodies_from(of.bodies) + hook,
        }
    }

    /// Whether it can be anything but nothing while just these legs pull.
    pub(crate) fn is_of(self, legs: &[usize]) -> bool {
        match self {
            Said::Tension(leg) | Said::Angle(leg) => legs.contains(&leg),
            _ => true,
        }
    }
}

/// How the answer moves with the inputs.
#[derive(Clone, Debug, Default)]
pub(crate) struct Slopes {
    /// The hook in the body's frame, for each input; empty for several bodies.
    pub(crate) hook: Vec<V3>,
    /// The freedoms of several bodies, a column for each input.
    pub(crate) leads: Option<DMatrix<f64>>,
    /// Tensions, one row of legs for each input.
    pub(crate) tension: Vec<f64>,
}

impl Slopes {
    /// With room for this many inputs and legs: it is filled in the innermost loop.
    fn with_room(inputs: usize, legs: usize) -> Self {
        Self {
            leads: None,
            hook: Vec::with_capacity(inputs),
            tension: Vec::with_capacity(inputs * legs),
        }
    }
}

/// A pose inside the bands, with its row of numbers.
#[derive(Clone, Debug)]
pub(crate) struct Point {
    /// Value of each input that has a band.
    pub(crate) at: Vec<f64>,
    /// The hook in the body's frame, m; nothing for several bodies.
    pub(crate) hook: V3,
    /// Where several bodies are; empty for one.
    pub(crate) places: Vec<At>,
    /// Tension of each leg, N.
    pub(crate) tension: Vec<f64>,
    /// The row, by [`Said::place`].
    pub(crate) values: Vec<f64>,
    /// The centre of gravity against the points that pull.
    pub(crate) cg_height: CgHeight,
    /// Made when first asked for.
    pub(crate) slopes: Option<Slopes>,
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

/// The pose with its row of numbers; none where the hook falls on the centre of gravity or on a point.
pub(crate) fn read(
    rig: &OneHook,
    level: &Level,
    hook: V3,
    tension: Vec<f64>,
    at: &[f64],
) -> Option<Point> {
    let legs = rig.legs();
    let (_, v) = rig.plumb(&hook)?;
    let mut values = Vec::with_capacity(Counts::one(legs).count());
    values.extend_from_slice(&tension);
    for (point, pull) in rig.points.iter().zip(&tension) {
        let (_, u) = direction(point, &hook)?;
        values.push(if *pull > 0.0 {
            u.dot(&v).clamp(-1.0, 1.0).asin()
        } else {
            f64::NAN
        });
    }
    values.push(angle_between(&v, &rig.up));
    values.push(hook.dot(&v));
    values.extend(aside(rig, level, &hook, &rig.cg)?);
    values.extend([level.x.dot(&v), level.y.dot(&v)]);
    Some(Point {
        at: at.to_vec(),
        hook,
        places: Vec::new(),
        cg_height: cg_height(rig, &v, &tension),
        tension,
        values,
        slopes: None,
    })
}

/// Slopes of one number of a pose in all inputs; `rig` is the definite rig of that pose.
pub(crate) fn slopes_of(
    rig: &OneHook,
    level: &Level,
    params: &[Param],
    point: &Point,
    slopes: &Slopes,
    said: Said,
) -> Option<Vec<f64>> {
    let legs = rig.legs();
    let hook = point.hook;
    let (rho, v) = rig.plumb(&hook)?;
    let turn = across(&v) / rho;
    let leads = || params.iter().zip(&slopes.hook);
    let plumb = |param: &Param, lead: &V3| turn * (lead - cg_lead(*param));
    Some(match said {
        Said::Tension(leg) => slopes
            .tension
            .iter()
            .skip(leg)
            .step_by(legs)
            .copied()
            .collect(),
        Said::Angle(leg) => {
            let pulls = point.tension.get(leg).is_some_and(|t| *t > 0.0);
            if !pulls {
                return Some(vec![0.0; params.len()]);
            }
            let (distance, u) = direction(rig.points.get(leg)?, &hook)?;
            let sine = u.dot(&v).clamp(-1.0, 1.0);
            let rate = 1.0 / (1.0 - sine * sine).max(1e-12).sqrt();
            let aslant = across(&u) * v / distance;
            leads()
                .map(|(p, l)| rate * (aslant.dot(l) + u.dot(&plumb(p, l))))
                .collect()
        }
        Said::Tilt(_) => {
            let rate = -1.0 / angle_between(&v, &rig.up).sin().max(1e-9);
            leads()
                .map(|(p, l)| rate * rig.up.dot(&plumb(p, l)))
                .collect()
        }
        Said::Rise => leads()
            .map(|(p, l)| l.dot(&v) + hook.dot(&plumb(p, l)))
            .collect(),
        Said::Lean(_, axis) => {
            let along = if axis == 0 { level.x } else { level.y };
            leads().map(|(p, l)| along.dot(&plumb(p, l))).collect()
        }
        Said::Aside(axis) => leads()
            .map(|(p, l)| aside_slope(rig, level, &hook, l, &cg_lead(*p), axis))
            .collect(),
        Said::Below(_) | Said::Above(_) | Said::Beside(..) | Said::Load(_) => return None,
    })
}

/// By central differences: the turn about the hook has no short derivative.
fn aside_slope(
    rig: &OneHook,
    level: &Level,
    hook: &V3,
    lead: &V3,
    move_cg: &V3,
    axis: usize,
) -> f64 {
    let size = lead.norm().max(move_cg.norm());
    if size == 0.0 {
        return 0.0;
    }
    let small = 1e-6 * rig.scale() / size;
    let near = |shift: f64| {
        aside(
            rig,
            level,
            &(hook + lead * shift),
            &(rig.cg + move_cg * shift),
        )
        .and_then(|a| a.get(axis).copied())
    };
    match (near(small), near(-small)) {
        (Some(after), Some(before)) => (after - before) / (2.0 * small),
        _ => 0.0,
    }
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
        Param::Cg(_, 0) => V3::x(),
        Param::Cg(_, 1) => V3::y(),
        Param::Cg(..) => V3::z(),
        _ => V3::zeros(),
    }
}

/// Slopes of an elastic pose by the implicit function theorem: `H dh = -(dg/dp) dp`.
pub(crate) fn elastic_slopes(
    rig: &OneHook,
    curvature: &M3,
    hook: &V3,
    params: &[Param],
) -> Option<Slopes> {
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
    let mut slopes = Slopes::with_room(params.len(), legs.len());
    let turn = give * across(&v) * (rig.weight / rho);
    for param in params {
        let shift = match *param {
            Param::Weight(_) => give * v,
            Param::Cg(..) => -(turn * cg_lead(*param)),
            Param::Length(i) => legs
                .get(i)
                .map_or_else(V3::zeros, |(k, _, u)| give * u * *k),
            Param::Stiffness(i) => legs
                .get(i)
                .map_or_else(V3::zeros, |(_, s, u)| -(give * u) * *s),
        };
        slopes.hook.push(shift);
        slopes
            .tension
            .extend(legs.iter().enumerate().map(|(i, (k, s, u))| {
                let own = match *param {
                    Param::Length(j) if j == i => -k,
                    Param::Stiffness(j) if j == i => *s,
                    _ => 0.0,
                };
                k * u.dot(&shift) + own
            }));
    }
    Some(slopes)
}

/// Slopes of a pose on the chosen inextensible legs, from `[H U; U' 0] [dh; dT] = [-(dg/dp); dL]`.
pub(crate) fn rigid_slopes(
    rig: &OneHook,
    hook: &V3,
    chosen: &[usize],
    tension: &[f64],
    params: &[Param],
) -> Option<Slopes> {
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
    let mut slopes = Slopes::with_room(params.len(), legs);
    for param in params {
        let mut right = SVector::<f64, 6>::zeros();
        match *param {
            Param::Weight(_) => right.fixed_rows_mut::<3>(0).copy_from(&(v / rig.weight)),
            Param::Cg(..) => right
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
        slopes.hook.push(answer.fixed_rows::<3>(0).into_owned());
        let pull = |leg: usize| {
            let slot = chosen.iter().position(|c| *c == leg)?;
            answer.get(3 + slot).map(|t| t * rig.weight)
        };
        slopes
            .tension
            .extend((0..legs).map(|leg| pull(leg).unwrap_or(0.0)));
    }
    Some(slopes)
}
