//! The radii that a mobile crane works at: from the centre of slewing to the hook, station by station and on the way
//! between them.

use super::hook_place::Offset;
use plumbhook_model::Placed;
use plumbhook_units::Measured;

/// A range of radii in metres, and where it is worked at.
#[derive(Clone, Debug)]
pub(super) struct Radii {
    /// "station 2", "on the way from station 2 to station 3".
    pub(super) at: String,
    /// The station that it ends in, from 0.
    pub(super) station: usize,
    /// The shortest.
    pub(super) low: f64,
    /// The longest.
    pub(super) high: f64,
}

/// A box in plan, in metres: low and high along x and y, counted from the centre of slewing.
pub(super) type Seen = [(f64, f64); 2];

/// The radii at each station, and on the straight way between two.
pub(super) fn radii(
    stations: &[Option<Placed>],
    centre: &Placed,
    offset: [Offset; 2],
) -> Option<Vec<Radii>> {
    let seen = boxes(stations, centre, offset)?;
    let mut all = Vec::new();
    for (station, at) in seen.iter().enumerate() {
        let before = station
            .checked_sub(1)
            .and_then(|before| Some((station, seen.get(before)?)));
        if let Some((number, before)) = before.filter(|(_, before)| *before != at) {
            all.push(Radii {
                at: format!("on the way from station {number} to station {}", number + 1),
                station,
                low: nearest_on_the_way(*before, *at),
                high: farthest(*before).max(farthest(*at)),
            });
        }
        all.push(Radii {
            at: format!("at station {}", station + 1),
            station,
            low: nearest(*at),
            high: farthest(*at),
        });
    }
    Some(all)
}

/// Where the hook may be at each station.
pub(super) fn boxes(
    stations: &[Option<Placed>],
    centre: &Placed,
    offset: [Offset; 2],
) -> Option<Vec<Seen>> {
    let stations = stations.iter();
    stations
        .map(|station| seen(station.as_ref()?, centre, offset))
        .collect()
}

/// Where the hook may be, from the centre of slewing.
fn seen(station: &Placed, centre: &Placed, offset: [Offset; 2]) -> Option<Seen> {
    let along = |axis: usize| {
        let (low, high) = station.get(axis)?.seen_from(centre.get(axis)?);
        let by = offset.get(axis)?.worst;
        Some((low.si() + by.0, high.si() + by.1))
    };
    Some([along(0)?, along(1)?])
}

fn farthest([x, y]: Seen) -> f64 {
    let far = |(low, high): (f64, f64)| low.abs().max(high.abs());
    far(x).hypot(far(y))
}

fn nearest([x, y]: Seen) -> f64 {
    let near = |(low, high): (f64, f64)| low.max(-high).max(0.0);
    near(x).hypot(near(y))
}

/// No nearer than the straight line between the middles, less half of the larger box.
fn nearest_on_the_way(from: Seen, to: Seen) -> f64 {
    let middle = |[x, y]: Seen| [f64::midpoint(x.0, x.1), f64::midpoint(y.0, y.1)];
    let half = |[x, y]: Seen| ((x.1 - x.0) / 2.0).hypot((y.1 - y.0) / 2.0);
    let (a, b) = (middle(from), middle(to));
    let way = [b[0] - a[0], b[1] - a[1]];
    let long = way[0] * way[0] + way[1] * way[1];
    let share = if long > 0.0 {
        (-(a[0] * way[0] + a[1] * way[1]) / long).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let foot = (a[0] + share * way[0]).hypot(a[1] + share * way[1]);
    (foot - half(from).max(half(to))).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_past_the_crane_comes_nearer_than_both_its_ends() {
        // Two places 8 m to the sides and 6 m ahead: 10 m away, the way between passes at 6 m.
        let at = |x: f64| [(x, x), (6.0, 6.0)];
        assert!((farthest(at(8.0)) - 10.0).abs() < 1e-12);
        assert!((nearest_on_the_way(at(-8.0), at(8.0)) - 6.0).abs() < 1e-12);
    }

    #[test]
    fn a_box_is_nearest_at_its_side_and_farthest_at_its_corner() {
        let around = [(3.0, 5.0), (-1.0, 1.0)];
        assert!((nearest(around) - 3.0).abs() < 1e-12);
        assert!((farthest(around) - 26.0_f64.sqrt()).abs() < 1e-12);
        assert!(nearest([(-1.0, 1.0), (-2.0, 1.0)]).abs() < 1e-12);
    }
}
