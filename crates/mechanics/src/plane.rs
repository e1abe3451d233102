//! Bare geometry of points in a plane, metres: the ground under [`crate::plan`] and [`crate::standing`].

/// A place, m.
pub(crate) type Point = [f64; 2];

/// From a place to the next, m.
pub(crate) type Edge = [Point; 2];

/// Places nearer to each other than this are one place, m: far below what anybody can measure, far above rounding
/// for places up to [`FARTHEST`].
pub(crate) const TOUCH: f64 = 1e-9;

/// How far from the origin of its frame a place may lie, m: beyond it rounding comes near [`TOUCH`].
pub(crate) const FARTHEST: f64 = 1e6;

pub(crate) fn usable([x, y]: Point) -> bool {
    // A comparison with a number that is none is false, so this refuses it too.
    x.abs() <= FARTHEST && y.abs() <= FARTHEST
}

pub(crate) fn add([ax, ay]: Point, [bx, by]: Point) -> Point {
    [ax + bx, ay + by]
}

pub(crate) fn sub([ax, ay]: Point, [bx, by]: Point) -> Point {
    [ax - bx, ay - by]
}

/// Turned anticlockwise by `angle`, rad.
pub(crate) fn turned([x, y]: Point, angle: f64) -> Point {
    let (sin, cos) = angle.sin_cos();
    [x * cos - y * sin, x * sin + y * cos]
}

fn cross([ax, ay]: Point, [bx, by]: Point) -> f64 {
    ax * by - ay * bx
}

fn dot([ax, ay]: Point, [bx, by]: Point) -> f64 {
    ax * bx + ay * by
}

fn norm([x, y]: Point) -> f64 {
    x.hypot(y)
}

pub(crate) fn distance(a: Point, b: Point) -> f64 {
    norm(sub(a, b))
}

/// How far `p` lies to the left of the line along `edge`; negative to its right.
pub(crate) fn left_of([a, b]: Edge, p: Point) -> f64 {
    cross(sub(b, a), sub(p, a)) / distance(a, b)
}

/// The place of `edge` that is nearest to `p`.
pub(crate) fn nearest_on([a, b]: Edge, p: Point) -> Point {
    let along = sub(b, a);
    let square = dot(along, along);
    if square == 0.0 {
        return a;
    }
    let share = (dot(sub(p, a), along) / square).clamp(0.0, 1.0);
    let [x, y] = along;
    add(a, [x * share, y * share])
}

pub(crate) fn distance_to_edge(edge: Edge, p: Point) -> f64 {
    distance(nearest_on(edge, p), p)
}

/// From one edge to the other; zero where they cross.
pub(crate) fn between_edges(one: Edge, other: Edge) -> f64 {
    let split = |edge: Edge, [a, b]: Edge| left_of(edge, a) * left_of(edge, b) < 0.0;
    if split(one, other) && split(other, one) {
        return 0.0;
    }
    let ends = |edge: Edge, [a, b]: Edge| distance_to_edge(edge, a).min(distance_to_edge(edge, b));
    ends(one, other).min(ends(other, one))
}

/// The edges around a shape, the closing one last.
pub(crate) fn edges(shape: &[Point]) -> impl Iterator<Item = Edge> + '_ {
    let ends = shape.iter().cycle().skip(1);
    shape.iter().zip(ends).map(|(a, b)| [*a, *b])
}

pub(crate) fn perimeter(shape: &[Point]) -> f64 {
    edges(shape).map(|[a, b]| distance(a, b)).sum()
}

/// Area of a shape, m2; negative where it turns clockwise.
pub(crate) fn signed_area(shape: &[Point]) -> f64 {
    // Seen from one of its own corners, so that a shape far from the origin loses no digits.
    let Some(base) = shape.first() else {
        return 0.0;
    };
    edges(shape)
        .map(|[a, b]| cross(sub(a, *base), sub(b, *base)))
        .sum::<f64>()
        / 2.0
}

/// What of a shape lies to the left of the line along `edge`, or up to `slack` to its right. A shape with notches
/// may come back with seams of no width: its area is right, its outline is not.
pub(crate) fn keep_left(shape: &[Point], edge: Edge, slack: f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for [a, b] in edges(shape) {
        let (from, to) = (left_of(edge, a) + slack, left_of(edge, b) + slack);
        if from >= 0.0 {
            kept.push(a);
        }
        if (from >= 0.0) != (to >= 0.0) {
            let share = from / (from - to);
            let [x, y] = sub(b, a);
            kept.push(add(a, [x * share, y * share]));
        }
    }
    kept
}

/// Whether all places lie within [`TOUCH`] of one line (or of one place).
pub(crate) fn in_line(places: &[Point]) -> bool {
    let Some(first) = places.first() else {
        return true;
    };
    let farthest = places
        .iter()
        .copied()
        .max_by(|a, b| distance(*first, *a).total_cmp(&distance(*first, *b)));
    let Some(last) = farthest.filter(|last| distance(*first, *last) > TOUCH) else {
        return true;
    };
    places
        .iter()
        .all(|p| left_of([*first, last], *p).abs() <= TOUCH)
}

/// The line stretched around all places, anticlockwise; the places must not be [`in_line`].
pub(crate) fn hull(places: &[Point]) -> Vec<Point> {
    let mut sorted = places.to_vec();
    sorted.sort_by(|[ax, ay], [bx, by]| ax.total_cmp(bx).then(ay.total_cmp(by)));
    sorted.dedup();
    let mut around = half_hull(sorted.iter().copied());
    around.extend(half_hull(sorted.iter().rev().copied()));
    around
}

/// One side of the hull, without its last place, which begins the other side.
fn half_hull(sorted: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut side: Vec<Point> = Vec::new();
    for p in sorted {
        while let [.., a, b] = side[..] {
            if cross(sub(b, a), sub(p, a)) > 0.0 {
                break;
            }
            side.pop();
        }
        side.push(p);
    }
    side.pop();
    side
}
