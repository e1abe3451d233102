//! A plate with straight edges.

use super::polynomial::Polynomial;
use super::solid::{Moments, positive};
use super::why::Fault;
use crate::Interval;
use crate::plan::Polygon;
use plumbhook_units::{Length, Measured};

fn none() -> Polynomial {
    Polynomial::default()
}

/// By the corners in order (sums over the edges, with `c = x1 y2 - x2 y1`); each corner is free within its box.
pub(super) fn prism(
    corners: &[[Interval<Length>; 2]],
    thick: Interval<Length>,
) -> Result<Moments, Fault> {
    let mut over = positive(&[("the thickness", thick)])?;
    let mid = |side: Interval<Length>| (side.lo + side.hi) / 2.0;
    let outline: Vec<_> = corners.iter().map(|corner| corner.map(mid)).collect();
    Polygon::new(&outline).map_err(Fault::Outline)?;
    let shoelace: f64 = outline
        .iter()
        .zip(outline.iter().cycle().skip(1))
        .map(|([a, b], [c, d])| a.si() * d.si() - c.si() * b.si())
        .sum();
    let sense = shoelace.signum();
    let ends = |axis: usize| {
        let sides = corners.iter().map(move |corner| corner[axis].ends());
        sides.fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), (a, b)| {
            (lo.min(a), hi.max(b))
        })
    };
    let reach = [ends(0), ends(1)];
    let core = |axis: usize| {
        let sides = corners.iter().map(move |corner| corner[axis].ends());
        sides.fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), (a, b)| {
            (lo.min(b), hi.max(a))
        })
    };
    let across = |thick: Length| (-thick.si() / 2.0, thick.si() / 2.0);
    // Counted from the lowest corner, so that no dimension is below zero.
    let from = reach.map(|(lo, _)| lo);
    for corner in corners {
        for (axis, side) in corner.iter().enumerate() {
            over.push((side.lo.si() - from[axis], side.hi.si() - from[axis]));
        }
    }
    let plane = in_plane(corners.len(), sense);
    let [area, sx, sy, ixx, iyy, ixy] = plane;
    // From the origin of the corners instead of the lowest one.
    let shifted = |first: &Polynomial, by: f64| {
        let mut out = first.clone();
        out.add(&area, by);
        out
    };
    let second = |of: &Polynomial, one: (&Polynomial, f64), other: (&Polynomial, f64)| {
        let mut out = of.clone();
        out.add(one.0, other.1);
        out.add(other.0, one.1);
        out.add(&area, one.1 * other.1);
        out
    };
    let (x, y) = ((&sx, from[0]), (&sy, from[1]));
    Ok(Moments {
        first: [shifted(&sx, from[0]), shifted(&sy, from[1]), none()],
        second: [
            second(&ixx, x, x),
            second(&iyy, y, y),
            area.times(&Polynomial::term(1.0 / 12.0, &[(0, 2)])),
            second(&ixy, x, y),
        ],
        reach: [reach[0], reach[1], across(thick.hi)],
        core: [core(0), core(1), across(thick.lo)],
        factor: thick.ends(),
        over,
        volume: area,
        second_is_known: true,
    })
}

/// Area, first moments along x and y, second moments xx, yy, xy of a polygon whose corner `i` has the dimensions
/// `1 + 2 i` and `2 + 2 i`.
fn in_plane(corners: usize, sense: f64) -> [Polynomial; 6] {
    let mut sums = [none(), none(), none(), none(), none(), none()];
    for corner in 0..corners {
        let next = (corner + 1) % corners;
        let at = |corner: usize, axis: usize| Polynomial::dimension(1 + 2 * corner + axis);
        let (x1, y1, x2, y2) = (at(corner, 0), at(corner, 1), at(next, 0), at(next, 1));
        let mut cross = x1.times(&y2);
        cross.add(&x2.times(&y1), -1.0);
        let cross = cross.scaled(sense);
        let both = |a: &Polynomial, b: &Polynomial| a.clone().plus(b);
        let squares =
            |a: &Polynomial, b: &Polynomial| a.times(a).plus(&a.times(b)).plus(&b.times(b));
        let mixed = x1
            .times(&y2)
            .plus(&x2.times(&y1))
            .plus(&x1.times(&y1).scaled(2.0))
            .plus(&x2.times(&y2).scaled(2.0));
        let parts = [
            (cross.clone(), 1.0 / 2.0),
            (both(&x1, &x2).times(&cross), 1.0 / 6.0),
            (both(&y1, &y2).times(&cross), 1.0 / 6.0),
            (squares(&x1, &x2).times(&cross), 1.0 / 12.0),
            (squares(&y1, &y2).times(&cross), 1.0 / 12.0),
            (mixed.times(&cross), 1.0 / 24.0),
        ];
        for (sum, (part, by)) in sums.iter_mut().zip(&parts) {
            sum.add(part, *by);
        }
    }
    sums
}
