//! Legs whose stretch is left out: closed forms for a body hung by one, two or three chosen legs.
//!
//! Inextensible legs put the hook as far from the centre of gravity as their lengths allow. That place is
//! where the spheres around three points meet, or on the circle around the line of two points on the far
//! side from the centre of gravity, or beyond one point in line with the centre of gravity.

use super::numbers::{Fault, M3, OneHook, V3, direction};
use nalgebra::Matrix2;
use nalgebra::Vector2;

/// Pulls smaller than this share of the weight, either way, are zero.
pub(crate) const NO_PULL: f64 = 1e-12;
/// Directions whose volume is below this are in one plane.
const FLAT: f64 = 1e-7;

/// A hook place with the tension of the chosen legs in their order, N (negative where the leg would push).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Held {
    pub(crate) hook: V3,
    pub(crate) tension: [f64; 3],
}

/// The poses of the body hung by the chosen legs alone; at most two (the hook on either side of the three points).
pub(crate) fn hang_by(rig: &OneHook, chosen: &[usize]) -> Result<[Option<Held>; 2], Fault> {
    let get = |i: usize| rig.points.get(i).copied().zip(rig.length.get(i).copied());
    match *chosen {
        [a] => match get(a) {
            Some(a) => single(rig, a).map(|h| [Some(h), None]),
            None => Err(Fault::CannotMeet),
        },
        [a, b] => match (get(a), get(b)) {
            (Some(a), Some(b)) => pair(rig, a, b).map(|h| [Some(h), None]),
            _ => Err(Fault::CannotMeet),
        },
        [a, b, c] => match (get(a), get(b), get(c)) {
            (Some(a), Some(b), Some(c)) => triple(rig, [a, b, c]),
            _ => Err(Fault::CannotMeet),
        },
        _ => Err(Fault::Indeterminate),
    }
}

fn single(rig: &OneHook, (point, length): (V3, f64)) -> Result<Held, Fault> {
    let Some((_, out)) = direction(&rig.cg, &point) else {
        return Err(Fault::Neutral);
    };
    Ok(Held {
        hook: point + out * length,
        tension: [rig.weight, 0.0, 0.0],
    })
}

fn pair(rig: &OneHook, (p1, l1): (V3, f64), (p2, l2): (V3, f64)) -> Result<Held, Fault> {
    let Some((apart, e1)) = direction(&p1, &p2) else {
        return Err(Fault::Indeterminate);
    };
    let along = (l1 * l1 - l2 * l2 + apart * apart) / (2.0 * apart);
    let square = l1 * l1 - along * along;
    if square <= FLAT * FLAT * l1 * l1 {
        return Err(Fault::CannotMeet);
    }
    let to_cg = rig.cg - p1;
    let hanging = to_cg - e1 * to_cg.dot(&e1);
    let depth = hanging.norm();
    if depth <= 1e-9 * (l1 + l2) {
        return Err(Fault::Neutral);
    }
    let e2 = -hanging / depth;
    let hook = p1 + e1 * along + e2 * square.sqrt();
    let (Some((_, v)), Some((_, u1)), Some((_, u2))) = (
        rig.plumb(&hook),
        direction(&p1, &hook),
        direction(&p2, &hook),
    ) else {
        return Err(Fault::CannotMeet);
    };
    let sides = Matrix2::new(u1.dot(&e1), u2.dot(&e1), u1.dot(&e2), u2.dot(&e2));
    let load = Vector2::new(v.dot(&e1), v.dot(&e2)) * rig.weight;
    let share = sides
        .try_inverse()
        .map(|inverse| inverse * load)
        .ok_or(Fault::CannotMeet)?;
    Ok(Held {
        hook,
        tension: [share.x, share.y, 0.0],
    })
}

fn triple(rig: &OneHook, legs: [(V3, f64); 3]) -> Result<[Option<Held>; 2], Fault> {
    let [(p1, l1), (p2, l2), (p3, l3)] = legs;
    let Some((apart, ex)) = direction(&p1, &p2) else {
        return Err(Fault::Indeterminate);
    };
    let to_third = p3 - p1;
    let i = to_third.dot(&ex);
    let rest = to_third - ex * i;
    let j = rest.norm();
    if j <= FLAT * (apart + to_third.norm()) {
        return Err(Fault::Indeterminate);
    }
    let ey = rest / j;
    let ez = ex.cross(&ey);
    let x = (l1 * l1 - l2 * l2 + apart * apart) / (2.0 * apart);
    let y = (l1 * l1 - l3 * l3 + i * i + j * j) / (2.0 * j) - x * i / j;
    let square = l1 * l1 - x * x - y * y;
    if square < 0.0 {
        return Err(Fault::CannotMeet);
    }
    let height = square.sqrt();
    let mut poses = [None, None];
    for (slot, z) in poses.iter_mut().zip([height, -height]) {
        let hook = p1 + ex * x + ey * y + ez * z;
        let Some((_, v)) = rig.plumb(&hook) else {
            continue;
        };
        let unit = |p: V3, l: f64| (hook - p) / l;
        let sides = M3::from_columns(&[unit(p1, l1), unit(p2, l2), unit(p3, l3)]);
        if sides.determinant().abs() <= FLAT {
            return Err(Fault::Indeterminate);
        }
        if let Some(inverse) = sides.try_inverse() {
            let tension = inverse * v * rig.weight;
            *slot = Some(Held {
                hook,
                tension: [tension.x, tension.y, tension.z],
            });
        }
    }
    Ok(poses)
}
