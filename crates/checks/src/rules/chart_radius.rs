//! The radii that a mobile crane works at: from the centre of slewing to the hook, station by station and on the way
//! between them.

use super::hook_place::{Offset, Side};
use plumbhook_model::Placed;
use plumbhook_units::Measured;

/// A range of radii in metres, and where it is worked at.
#[derive(Clone, Debug)]
pub(super) struct Radii {
    /// "station 2", "on the way from station 2 to station 3".
    pub(super) at: String,
    /// The station that it ends in, from 0.
    pub(super) station: usize,
    /// The shortest that may be.
    pub(super) low: f64,
    /// The longest that may be.
    pub(super) high: f64,
    /// The shortest and the longest that are proved to be reached inside the bands; `None` where no stretch is.
    pub(super) reached: Option<(f64, f64)>,
}

/// A box in plan, in metres: low and high along x and y, counted from the centre of slewing.
pub(super) type Seen = [(f64, f64); 2];

/// Where the load's origin may be, and where the hook may be at the outside.
#[derive(Clone, Copy, PartialEq)]
struct Stands {
    origin: Seen,
    hook: Seen,
}

/// The radii at each station, and on the straight way between two. The hook stands aside from the load's origin by
/// `offset` at the outside, and somewhere along each of `sides` for sure.
pub(super) fn radii(
    stations: &[Option<Placed>],
    centre: &Placed,
    offset: [Offset; 2],
    sides: &[Side],
) -> Option<Vec<Radii>> {
    let seen = seen_at(stations, centre, offset)?;
    let mut all = Vec::new();
    for (station, at) in seen.iter().enumerate() {
        let before = station
            .checked_sub(1)
            .and_then(|before| Some((station, seen.get(before)?)));
        if let Some((number, before)) = before.filter(|(_, before)| *before != at) {
            let way = format!("on the way from station {number} to station {}", number + 1);
            all.push(between(way, station, (before, at), sides));
        }
        let here = format!("at station {}", station + 1);
        all.push(between(here, station, (at, at), sides));
    }
    Some(all)
}

fn between(at: String, station: usize, (from, to): (&Stands, &Stands), sides: &[Side]) -> Radii {
    let low = long(nearest(from.hook, to.hook));
    let high = farthest(from.hook).max(farthest(to.hook));
    let near = sides.iter().map(|side| side.near(from.origin, to.origin));
    let far = sides.iter().map(|side| side.far(from.origin, to.origin));
    let (near, far) = (
        near.fold(f64::INFINITY, f64::min).max(low),
        far.fold(0.0, f64::max).min(high),
    );
    Radii {
        at,
        station,
        low,
        high,
        reached: (near <= far).then_some((near, far)),
    }
}

/// Where the hook may be at each station.
pub(super) fn boxes(
    stations: &[Option<Placed>],
    centre: &Placed,
    offset: [Offset; 2],
) -> Option<Vec<Seen>> {
    let all = seen_at(stations, centre, offset)?;
    Some(all.into_iter().map(|stands| stands.hook).collect())
}

fn seen_at(
    stations: &[Option<Placed>],
    centre: &Placed,
    offset: [Offset; 2],
) -> Option<Vec<Stands>> {
    let stations = stations.iter();
    stations
        .map(|station| seen(station.as_ref()?, centre, offset))
        .collect()
}

/// Where the load and the hook may be, from the centre of slewing.
fn seen(station: &Placed, centre: &Placed, offset: [Offset; 2]) -> Option<Stands> {
    let along = |axis: usize| {
        let (low, high) = station.get(axis)?.seen_from(centre.get(axis)?);
        let by = offset.get(axis)?.worst;
        let (low, high) = (low.si(), high.si());
        Some(((low, high), (low + by.0, high + by.1)))
    };
    let (x, y) = (along(0)?, along(1)?);
    Some(Stands {
        origin: [x.0, y.0],
        hook: [x.1, y.1],
    })
}

impl Side {
    /// A radius that the hook is proved to come within on the way: with the origin where that is least of the middle of
    /// the side, the hook stands no further off than its farther end.
    fn near(&self, from: Seen, to: Seen) -> f64 {
        let [x, y] = self.middle;
        let shifted = |[a, b]: Seen| [(a.0 + x, a.1 + x), (b.0 + y, b.1 + y)];
        let at = nearest(shifted(from), shifted(to));
        self.ends(at).map(long).into_iter().fold(0.0, f64::max) + self.within
    }

    /// A radius that the hook is proved to come to at one end of the way: some point of the side, as near as it may be,
    /// with the origin in that corner of its box where this is farthest.
    fn far(&self, from: Seen, to: Seen) -> f64 {
        let corners = |[x, y]: Seen| [[x.0, y.0], [x.0, y.1], [x.1, y.0], [x.1, y.1]];
        let all = [from, to].map(corners);
        let radii = all.as_flattened().iter().map(|[x, y]| {
            let [a, b] = self.ends([x + self.middle[0], y + self.middle[1]]);
            long(onto(a, b)) - self.within
        });
        radii.fold(0.0, f64::max)
    }

    fn ends(&self, [x, y]: [f64; 2]) -> [[f64; 2]; 2] {
        let [along, across] = self.half;
        [[x - along, y - across], [x + along, y + across]]
    }
}

fn long([x, y]: [f64; 2]) -> f64 {
    x.hypot(y)
}

fn farthest([x, y]: Seen) -> f64 {
    let far = |(low, high): (f64, f64)| low.abs().max(high.abs());
    far(x).hypot(far(y))
}

/// The point nearest to the centre that a straight way from somewhere in one box to somewhere in the other passes.
///
/// After a share t of the way it is somewhere in the box of which each side lies at that share between the two; the
/// nearest point of that box moves straight between the shares at which one of its sides passes the centre.
fn nearest(from: Seen, to: Seen) -> [f64; 2] {
    let mut turns = vec![0.0, 1.0];
    for (a, b) in from.into_iter().zip(to) {
        for (a, b) in [(a.0, b.0), (a.1, b.1)] {
            if (a < 0.0) != (b < 0.0) {
                turns.push((a / (a - b)).clamp(0.0, 1.0));
            }
        }
    }
    turns.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let side = |a: f64, b: f64| a + share * (b - a);
        let along = |a: (f64, f64), b: (f64, f64)| {
            let (low, high) = (side(a.0, b.0), side(a.1, b.1));
            0.0_f64.max(low).min(high)
        };
        [along(from[0], to[0]), along(from[1], to[1])]
    };
    let straight = turns.windows(2).filter_map(|pair| match pair {
        [a, b] => Some(onto(at(*a), at(*b))),
        _ => None,
    });
    straight
        .min_by(|a, b| long(*a).total_cmp(&long(*b)))
        .unwrap_or(at(0.0))
}

/// The point of a straight line from `a` to `b` that is nearest to the centre.
fn onto(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    let way = [b[0] - a[0], b[1] - a[1]];
    let squared = way[0] * way[0] + way[1] * way[1];
    let share = if squared > 0.0 {
        (-(a[0] * way[0] + a[1] * way[1]) / squared).clamp(0.0, 1.0)
    } else {
        0.0
    };
    [a[0] + share * way[0], a[1] + share * way[1]]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(value: f64, wanted: f64) {
        assert!((value - wanted).abs() < 1e-12, "{value}, wanted {wanted}");
    }

    #[test]
    fn the_way_past_the_crane_comes_nearer_than_both_its_ends() {
        // Two places 8 m to the sides and 6 m ahead: 10 m away, the way between passes at 6 m.
        let at = |x: f64| [(x, x), (6.0, 6.0)];
        near(farthest(at(8.0)), 10.0);
        near(long(nearest(at(-8.0), at(8.0))), 6.0);
    }

    #[test]
    fn a_box_is_nearest_at_its_side_and_farthest_at_its_corner() {
        let around = [(3.0, 5.0), (-1.0, 1.0)];
        near(long(nearest(around, around)), 3.0);
        near(farthest(around), 26.0_f64.sqrt());
        let in_it = [(-1.0, 1.0), (-2.0, 1.0)];
        near(long(nearest(in_it, in_it)), 0.0);
    }

    #[test]
    fn the_way_between_two_boxes_is_as_near_as_their_nearest_points_allow() {
        // Geometry: 1 m up or down at either end, 6 m ahead: 5 m at the nearest, not 6 m less half a diagonal.
        let at = |x: f64| [(x - 2.0, x + 2.0), (5.0, 7.0)];
        near(long(nearest(at(-8.0), at(8.0))), 5.0);
        // From a point on the x axis to one on the y axis the line passes at 1 / sqrt 2.
        let (a, b) = ([(1.0, 1.0), (0.0, 0.0)], [(0.0, 0.0), (1.0, 1.0)]);
        near(long(nearest(a, b)), 0.5_f64.sqrt());
    }

    #[test]
    fn a_side_is_reached_somewhere_along_it_and_proves_no_more() {
        // The side x = 3, y from -1 to 1 about a known origin: 3 m for sure at the far end, sqrt 10 at the near end.
        let side = Side {
            middle: [3.0, 0.0],
            half: [0.0, 1.0],
            within: 0.0,
        };
        let origin = [(0.0, 0.0), (0.0, 0.0)];
        near(side.far(origin, origin), 3.0);
        near(side.near(origin, origin), 10.0_f64.sqrt());
        // An origin that may lie 2 m further off adds that.
        near(side.far([(0.0, 2.0), (0.0, 0.0)], origin), 5.0);
    }
}
