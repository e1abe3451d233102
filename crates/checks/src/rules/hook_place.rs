//! Where the hook stands in plan against the load's origin: shared by the rules for reach and radius.

use super::pose;
use plumbhook_units::{Heading, Measured};

/// How far the load's origin hangs aside from the hook, in the load's own axes: least and largest of each, in metres.
pub(super) type Aside = [(f64, f64); 2];

/// How far the origin hangs aside, in all poses that the bands allow; `None` where that is not known.
pub(super) fn aside(worst: &plumbhook_mechanics::hanging::Worst) -> Option<Aside> {
    let along = pose::aside(worst)?;
    Some(along.map(|(least, most)| (least.value.si(), most.value.si())))
}

/// How far the load's origin hangs aside from one of several hooks, which hangs plumb above the ring of its own.
pub(super) fn aside_of_ring(
    worst: &plumbhook_mechanics::hanging::Worst,
    ring: usize,
) -> Option<Aside> {
    let along = pose::beside(worst, ring)?;
    Some(along.map(|(least, most)| (-most.value.si(), -least.value.si())))
}

/// Where the hook may stand against the load's origin along an axis of the plant.
#[derive(Clone, Copy)]
pub(super) struct Offset {
    /// Least and largest that the known bounds prove to be possible.
    pub(super) proved: (f64, f64),
    /// Least and largest at the worst.
    pub(super) worst: (f64, f64),
}

/// With the load turned by its heading: the box is turned whole, so its corners are the worst. What is proved is
/// less: each side of the box is reached, by a pose that lies anywhere along that side.
pub(super) fn turned(aside: Aside, heading: Heading) -> [Offset; 2] {
    let (sin, cos) = heading.si().sin_cos();
    // The hook stands the other way: where the load hangs aside to the left, the hook is on its right.
    [offset(aside, [-cos, sin]), offset(aside, [-sin, -cos])]
}

/// A side of the box in which the hook stands against the load's origin, in metres along the axes of the plant: in some
/// pose inside the bands the hook is somewhere along it, or no further off it than `within`.
#[derive(Clone, Copy)]
pub(super) struct Side {
    pub(super) middle: [f64; 2],
    /// From its middle to an end.
    pub(super) half: [f64; 2],
    pub(super) within: f64,
}

/// The sides of the box, turned by the heading; where that is not known, only that the hook is no further off than
/// the far corner.
pub(super) fn sides(aside: Aside, heading: Option<Heading>) -> Vec<Side> {
    let Some(heading) = heading else {
        return vec![Side {
            middle: [0.0; 2],
            half: [0.0; 2],
            within: far_corner(aside),
        }];
    };
    let (sin, cos) = heading.si().sin_cos();
    let turned = |[x, y]: [f64; 2]| [sin * y - cos * x, -sin * x - cos * y];
    let [x, y] = aside;
    let middle = |(low, high): (f64, f64)| f64::midpoint(low, high);
    let half = |(low, high): (f64, f64)| (high - low) / 2.0;
    let side = |at: [f64; 2], half: [f64; 2]| Side {
        middle: turned(at),
        half: turned(half),
        within: 0.0,
    };
    vec![
        side([x.0, middle(y)], [0.0, half(y)]),
        side([x.1, middle(y)], [0.0, half(y)]),
        side([middle(x), y.0], [half(x), 0.0]),
        side([middle(x), y.1], [half(x), 0.0]),
    ]
}

fn offset(aside: Aside, factors: [f64; 2]) -> Offset {
    let scaled = |(low, high): (f64, f64), factor: f64| {
        let (a, b) = (low * factor, high * factor);
        (a.min(b), a.max(b))
    };
    let [x, y] = aside;
    let [along, across] = factors;
    let (x, y) = (scaled(x, along), scaled(y, across));
    Offset {
        worst: (x.0 + y.0, x.1 + y.1),
        proved: ((x.0 + y.1).min(x.1 + y.0), (x.1 + y.0).max(x.0 + y.1)),
    }
}

/// With the load turned any way: at the worst the far corner of the box points along the axis; what is proved is
/// only that no part of it stands further off than that corner.
pub(super) fn any_way(aside: Aside) -> [Offset; 2] {
    let far = far_corner(aside);
    [Offset {
        proved: (far, -far),
        worst: (-far, far),
    }; 2]
}

fn far_corner([x, y]: Aside) -> f64 {
    let far = |(low, high): (f64, f64)| low.abs().max(high.abs());
    far(x).hypot(far(y))
}
