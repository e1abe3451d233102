//! Shapes in plan: floors, voids, pads, and what of one lies on another.
//!
//! Places are in one frame, at most 1,000 km from its origin. Two places within 1e-9 m are one place: edges nearer
//! than that touch, and an overlap thinner than that is none.

use crate::plane::{
    Edge, FARTHEST, Point, TOUCH, add, between_edges, distance, distance_to_edge, edges, hull,
    in_line, keep_left, left_of, perimeter, signed_area, turned, usable,
};
use core::fmt;
use plumbhook_units::{Area, Heading, Length, Measured};

/// A closed outline without crossings; it may have notches, and no holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Polygon {
    /// Anticlockwise, m, no two neighbours in one place.
    shape: Vec<Point>,
}

/// Why corners make no polygon. Corners and edges count from zero here and from one in the words; an edge has the
/// number of the corner that it starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PolygonFault {
    /// Fewer than three places.
    FewerThanThree {
        /// How many different ones there are.
        given: usize,
    },
    /// All corners lie in one line, or a side is not above zero.
    NoArea,
    /// Two edges cross or touch.
    EdgesCross {
        /// One.
        first: usize,
        /// The other.
        second: usize,
    },
    /// A corner is not a number, or lies more than 1,000 km from the origin.
    NotFinite {
        /// The corner.
        corner: usize,
    },
}

impl fmt::Display for PolygonFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FewerThanThree { given } => write!(
                f,
                "an outline needs three different corners, and there are {given}"
            ),
            Self::NoArea => f.write_str(
                "the outline encloses no area: its corners lie in one line or a side is not above zero",
            ),
            Self::EdgesCross { first, second } => write!(
                f,
                "the edges that start from corners {} and {} cross or touch; give the corners in the order \
                 in which one walks around",
                first + 1,
                second + 1
            ),
            Self::NotFinite { corner } => write!(
                f,
                "corner {} is not a place within {:.0} km of the origin",
                corner + 1,
                FARTHEST / 1e3
            ),
        }
    }
}

impl core::error::Error for PolygonFault {}

impl Polygon {
    /// From the corners in order, in either sense; the first may be repeated at the end.
    ///
    /// # Errors
    /// [`PolygonFault`]: fewer than three different corners, no area, edges that cross or touch each other, or a
    /// corner that is no place.
    pub fn new(corners: &[[Length; 2]]) -> Result<Self, PolygonFault> {
        let mut named: Vec<(usize, Point)> = Vec::with_capacity(corners.len());
        for (corner, place) in corners.iter().enumerate() {
            let place = place.map(Length::si);
            if !usable(place) {
                return Err(PolygonFault::NotFinite { corner });
            }
            if named
                .last()
                .is_none_or(|(_, last)| distance(*last, place) > TOUCH)
            {
                named.push((corner, place));
            }
        }
        while let [(_, first), .., (_, last)] = named[..]
            && distance(first, last) <= TOUCH
        {
            named.pop();
        }
        let mut shape: Vec<Point> = named.iter().map(|(_, place)| *place).collect();
        if shape.len() < 3 {
            return Err(PolygonFault::FewerThanThree { given: shape.len() });
        }
        if in_line(&shape) {
            return Err(PolygonFault::NoArea);
        }
        no_edges_cross(&named)?;
        let area = signed_area(&shape);
        if area.abs() <= TOUCH * perimeter(&shape) / 2.0 {
            return Err(PolygonFault::NoArea);
        }
        if area < 0.0 {
            shape.reverse();
        }
        Ok(Self { shape })
    }

    /// Its corners, anticlockwise.
    pub fn corners(&self) -> impl Iterator<Item = [Length; 2]> + '_ {
        self.shape.iter().map(|place| place.map(Length::from_si))
    }

    /// Its area, above zero.
    pub fn area(&self) -> Area {
        Area::from_si(signed_area(&self.shape))
    }

    /// Whether a place lies inside; on an edge counts as inside. A place that is not finite lies nowhere.
    pub fn contains(&self, place: [Length; 2]) -> bool {
        self.holds(place.map(Length::si))
    }

    fn holds(&self, place: Point) -> bool {
        if edges(&self.shape).any(|edge| distance_to_edge(edge, place) <= TOUCH) {
            return true;
        }
        // Inside, a ray along +x leaves the outline an odd number of times.
        let [_, y] = place;
        let crossed = edges(&self.shape).filter(|edge| {
            let [[_, ay], [_, by]] = *edge;
            (ay > y) != (by > y) && (left_of(*edge, place) > 0.0) == (by > ay)
        });
        crossed.count() % 2 == 1
    }

    /// The area that both cover; zero where they only touch. Either may have notches.
    pub fn common_area(&self, other: &Self) -> Area {
        let thinnest = TOUCH * perimeter(&self.shape).min(perimeter(&other.shape));
        // The other as triangles with sign around its first corner: together they count each place inside it once
        // and each place outside it not at all, notches or none.
        let [hub, rest @ ..] = &other.shape[..] else {
            return Area::from_si(0.0);
        };
        let common: f64 = rest
            .windows(2)
            .map(|pair| match *pair {
                [a, b] => self.common_with_triangle([*hub, a, b]),
                _ => 0.0,
            })
            .sum();
        let most = signed_area(&self.shape).min(signed_area(&other.shape));
        Area::from_si(if common <= thinnest {
            0.0
        } else {
            common.min(most)
        })
    }

    /// Negative for a triangle that turns clockwise.
    fn common_with_triangle(&self, triangle: [Point; 3]) -> f64 {
        let [a, b, c] = triangle;
        let turns = signed_area(&triangle);
        if turns == 0.0 {
            return 0.0;
        }
        let around: [Edge; 3] = if turns > 0.0 {
            [[a, b], [b, c], [c, a]]
        } else {
            [[a, c], [c, b], [b, a]]
        };
        let inside = around.iter().fold(self.shape.clone(), |kept, edge| {
            keep_left(&kept, *edge, 0.0)
        });
        signed_area(&inside) * turns.signum()
    }

    /// Whether all of `other` lies on this one; they may share edges.
    pub fn covers(&self, other: &Self) -> bool {
        let off = other.area() - self.common_area(other);
        off.si() <= TOUCH * perimeter(&other.shape)
    }

    /// The smallest outline without notches that holds this one wherever it is shifted, by up to `by` either way along
    /// x and along y. Sides of `by` that are below zero count as zero.
    ///
    /// # Errors
    /// [`PolygonFault::NotFinite`] where a corner would come to lie more than 1,000 km from the origin.
    pub fn grown(&self, by: [Length; 2]) -> Result<Self, PolygonFault> {
        let [dx, dy] = by.map(|by| by.si().max(0.0));
        let shifts = [[-dx, -dy], [dx, -dy], [dx, dy], [-dx, dy]];
        let corners = self.shape.iter();
        let shifted: Vec<Point> = corners
            .flat_map(|corner| shifts.map(|shift| add(*corner, shift)))
            .collect();
        if let Some(corner) = shifted.iter().position(|place| !usable(*place)) {
            return Err(PolygonFault::NotFinite { corner: corner / 4 });
        }
        let around: Vec<_> = hull(&shifted)
            .into_iter()
            .map(|place| place.map(Length::from_si))
            .collect();
        Self::new(&around)
    }

    /// From the nearest place of one to the nearest of the other; zero where they touch or overlap.
    pub fn distance_to(&self, other: &Self) -> Length {
        let one_inside = |outer: &Self, inner: &Self| {
            inner.shape.first().is_some_and(|place| outer.holds(*place))
        };
        if one_inside(self, other) || one_inside(other, self) {
            return Length::from_si(0.0);
        }
        let nearest = edges(&self.shape)
            .flat_map(|one| edges(&other.shape).map(move |two| between_edges(one, two)))
            .fold(f64::INFINITY, f64::min);
        Length::from_si(if nearest <= TOUCH { 0.0 } else { nearest })
    }
}

/// The edges by their names; neighbours may share their corner and nothing else.
fn no_edges_cross(named: &[(usize, Point)]) -> Result<(), PolygonFault> {
    let ends = named.iter().cycle().skip(1);
    let around: Vec<(usize, Edge)> = named
        .iter()
        .zip(ends)
        .map(|((name, a), (_, b))| (*name, [*a, *b]))
        .collect();
    let last = around.len().saturating_sub(1);
    for (i, (first, one)) in around.iter().enumerate() {
        for (j, (second, other)) in around.iter().enumerate().skip(i + 1) {
            let folded = |[a, b]: Edge, [_, c]: Edge| {
                distance_to_edge([a, b], c) <= TOUCH || distance_to_edge([b, c], a) <= TOUCH
            };
            let cross = if j == i + 1 {
                folded(*one, *other)
            } else if i == 0 && j == last {
                folded(*other, *one)
            } else {
                between_edges(*one, *other) <= TOUCH
            };
            if cross {
                return Err(PolygonFault::EdgesCross {
                    first: *first,
                    second: *second,
                });
            }
        }
    }
    Ok(())
}

/// A rectangle around `centre` with `size` along and across `heading`; the heading counts anticlockwise from +x.
///
/// # Errors
/// [`PolygonFault::NoArea`] where a side is not above zero, [`PolygonFault::NotFinite`].
pub fn rectangle(
    centre: [Length; 2],
    size: [Length; 2],
    heading: Heading,
) -> Result<Polygon, PolygonFault> {
    let [along, across] = size.map(Length::si);
    if along <= 0.0 || across <= 0.0 {
        return Err(PolygonFault::NoArea);
    }
    let corner = |x: f64, y: f64| {
        let arm = turned([x * along / 2.0, y * across / 2.0], heading.si());
        add(centre.map(Length::si), arm).map(Length::from_si)
    };
    Polygon::new(&[
        corner(-1.0, -1.0),
        corner(1.0, -1.0),
        corner(1.0, 1.0),
        corner(-1.0, 1.0),
    ])
}
