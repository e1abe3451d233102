//! One view of a figure: two axes of space on a rectangle of paper.

use super::hull::hull;
use super::labels::{Frame, Labels, Placed, SIZE};
use super::pen::{FAINT, INK, PAPER, Pen, pen};
use super::{ROOM, rounded, words};
use crate::human::clean;
use plumbhook_sheet::{Figure, Mark, Metres, Role};
use svg::node::element::{Circle, Group, Line, Polygon, Rectangle, Text};

/// Which axes of space a view shows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sides {
    /// The axis that runs to the right: 0 is x, 1 is y, 2 is z.
    pub(super) right: usize,
    /// The axis that runs up.
    pub(super) up: usize,
}

/// A view on the paper.
#[derive(Debug)]
pub(super) struct View {
    name: &'static str,
    sides: Sides,
    middle: (f64, f64),
    paper: Frame,
    scale: f64,
}

type Pixels = (f64, f64);
type Reach = (f64, f64);

/// Shorter than this on the paper is a point, in pixels.
const POINT: f64 = 3.0;

impl View {
    /// `reach` is what is shown along each axis, in metres; `paper` is left, top, width, height in pixels.
    pub(super) fn new(
        name: &'static str,
        sides: Sides,
        reach: (Reach, Reach),
        paper: (f64, f64, f64, f64),
        scale: f64,
    ) -> Self {
        let middle = |(least, most): Reach| f64::midpoint(least, most);
        let (left, top, width, height) = paper;
        Self {
            name,
            sides,
            middle: (middle(reach.0), middle(reach.1)),
            paper: Frame(left, top, left + width, top + height),
            scale,
        }
    }

    fn at(&self, place: Metres) -> Option<Pixels> {
        let along = |axis: usize| {
            let metres = place.get(axis).copied();
            metres.filter(|metres| metres.is_finite())
        };
        let right = (along(self.sides.right)? - self.middle.0) * self.scale;
        let up = (along(self.sides.up)? - self.middle.1) * self.scale;
        Some((
            f64::midpoint(self.paper.0, self.paper.2) + right,
            f64::midpoint(self.paper.1, self.paper.3) - up,
        ))
    }

    /// The view with every mark, farthest first, and the labels on top.
    pub(super) fn draw(&self, figure: &Figure) -> Group {
        let Frame(left, top, right, bottom) = self.paper;
        let frame = Rectangle::new()
            .set("x", rounded(left))
            .set("y", rounded(top))
            .set("width", rounded(right - left))
            .set("height", rounded(bottom - top))
            .set("fill", "none")
            .set("stroke", FAINT)
            .set("stroke-width", 0.5);
        let mut group = Group::new().add(frame);
        let axes = ["x", "y", "z"];
        let axis = |side: usize| axes.get(side).copied().unwrap_or("");
        let name = format!(
            "{} ({} to the right, {} up)",
            self.name,
            axis(self.sides.right),
            axis(self.sides.up)
        );
        group = group.add(words(&name, left + 8.0, top + 18.0, 11.0));
        group = self.scale_bar(group);
        let mut labels = Labels::new(Frame(left + 4.0, top + 26.0, right - 4.0, bottom - 30.0));
        let mut wanted: Vec<(String, Pixels)> = Vec::new();
        for mark in &figure.marks {
            group = self.mark(mark, group, &mut labels, &mut wanted);
        }
        // Points first: their names are short and have to stand close.
        wanted.sort_by_key(|(text, _)| text.chars().count());
        for (text, anchor) in &wanted {
            let placed = labels.place(text, *anchor);
            group = label(group, text, *anchor, placed);
        }
        group
    }

    /// A length to compare with: 1, 2 or 5 times a power of ten.
    fn scale_bar(&self, group: Group) -> Group {
        let longest = ROOM / self.scale;
        let power = 10f64.powf(longest.log10().floor());
        let step = [5.0, 2.0, 1.0]
            .into_iter()
            .map(|step| step * power)
            .find(|metres| *metres <= longest)
            .unwrap_or(power);
        let (x, y) = (self.paper.0 + 10.0, self.paper.3 - 10.0);
        let end = x + step * self.scale;
        let text = if step < 1.0 {
            format!("{:.0} mm", step * 1000.0)
        } else {
            format!("{step:.0} m")
        };
        group
            .add(line((x, y), (end, y), pen(Role::Dimension)))
            .add(line((x, y - 3.0), (x, y + 3.0), pen(Role::Dimension)))
            .add(line((end, y - 3.0), (end, y + 3.0), pen(Role::Dimension)))
            .add(words(&text, end + 6.0, y + 4.0, 11.0))
    }

    fn mark(
        &self,
        mark: &Mark,
        group: Group,
        labels: &mut Labels,
        wanted: &mut Vec<(String, Pixels)>,
    ) -> Group {
        match mark {
            Mark::Point { at, role, label } => {
                let Some(at) = self.at(*at) else { return group };
                labels.avoid(Frame(at.0 - 5.0, at.1 - 5.0, at.0 + 5.0, at.1 + 5.0));
                want(wanted, label, at);
                point(group, at, *role)
            }
            Mark::Line {
                from,
                to,
                role,
                label,
            } => {
                let (Some(from), Some(to)) = (self.at(*from), self.at(*to)) else {
                    return group;
                };
                // Two thirds along, towards the end that is the line's own: lines often share the other.
                want(wanted, label, between(from, to, 0.62));
                labels.avoid_line(from, to);
                group.add(line(from, to, pen(*role)))
            }
            Mark::Body {
                outline,
                role,
                label,
            } => {
                let corners: Vec<Pixels> = outline
                    .iter()
                    .filter_map(|corner| self.at(*corner))
                    .collect();
                let count = corners.len().max(1) as f64;
                let sum = corners.iter().fold((0.0, 0.0), |sum, corner| {
                    (sum.0 + corner.0, sum.1 + corner.1)
                });
                if !corners.is_empty() {
                    want(wanted, label, (sum.0 / count, sum.1 / count));
                }
                group.add(outlined(&corners, labels, pen(*role)))
            }
            Mark::Solid { corners, role } => {
                let outline = hull(corners.iter().filter_map(|at| self.at(*at)).collect());
                group.add(outlined(&outline, labels, pen(*role)))
            }
            Mark::Span { from, to, label } => {
                let (Some(from), Some(to)) = (self.at(*from), self.at(*to)) else {
                    return group;
                };
                if (from.0 - to.0).hypot(from.1 - to.1) < POINT {
                    return group;
                }
                want(wanted, label, between(from, to, 0.5));
                labels.avoid_line(from, to);
                dimension(group, from, to)
            }
        }
    }
}

/// The same words at the same place are wanted once: points above each other share a place in plan.
fn want(wanted: &mut Vec<(String, Pixels)>, label: &str, at: Pixels) {
    let near = |other: &Pixels| (at.0 - other.0).hypot(at.1 - other.1) < POINT;
    if !label.is_empty()
        && !wanted
            .iter()
            .any(|(text, other)| text == label && near(other))
    {
        wanted.push((clean(label), at));
    }
}

fn between(from: Pixels, to: Pixels, share: f64) -> Pixels {
    (
        from.0 + (to.0 - from.0) * share,
        from.1 + (to.1 - from.1) * share,
    )
}

fn label(group: Group, text: &str, anchor: Pixels, placed: Placed) -> Group {
    let text = |fill: &'static str| {
        Text::new(text)
            .set("x", rounded(placed.at.0))
            .set("y", rounded(placed.at.1))
            .set("text-anchor", if placed.ends { "end" } else { "start" })
            .set("font-size", SIZE)
            .set("fill", fill)
    };
    let group = match placed.leader {
        Some(start) => {
            group.add(line(start, anchor, pen(Role::Dimension)).set("stroke-width", 0.6))
        }
        None => group,
    };
    // A rim of paper keeps letters readable where they stand on a line.
    let rim = text(PAPER).set("stroke", PAPER).set("stroke-width", 3);
    group.add(rim).add(text(INK))
}

fn line(from: Pixels, to: Pixels, pen: Pen) -> Line {
    let line = Line::new()
        .set("x1", rounded(from.0))
        .set("y1", rounded(from.1))
        .set("x2", rounded(to.0))
        .set("y2", rounded(to.1))
        .set("stroke", pen.stroke)
        .set("stroke-width", pen.width);
    if pen.dash.is_empty() {
        line
    } else {
        line.set("stroke-dasharray", pen.dash)
    }
}

/// A closed outline that labels keep off.
fn outlined(corners: &[Pixels], labels: &mut Labels, pen: Pen) -> Polygon {
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        labels.avoid_line(*from, *to);
    }
    polygon(corners, pen)
}

fn polygon(corners: &[Pixels], pen: Pen) -> Polygon {
    let points: Vec<String> = corners
        .iter()
        .map(|(x, y)| format!("{},{}", rounded(*x), rounded(*y)))
        .collect();
    let polygon = Polygon::new()
        .set("points", points.join(" "))
        .set("fill", pen.fill)
        .set("stroke", pen.stroke)
        .set("stroke-width", pen.width)
        .set("stroke-linejoin", "round");
    if pen.dash.is_empty() {
        polygon
    } else {
        polygon.set("stroke-dasharray", pen.dash)
    }
}

fn circle(at: Pixels, radius: f64, pen: Pen) -> Circle {
    Circle::new()
        .set("cx", rounded(at.0))
        .set("cy", rounded(at.1))
        .set("r", radius)
        .set("fill", pen.fill)
        .set("stroke", pen.stroke)
        .set("stroke-width", pen.width)
}

fn point(group: Group, at: Pixels, role: Role) -> Group {
    let pen = pen(role);
    match role {
        Role::CentreOfGravity => centre_of_gravity(group, at, pen),
        Role::Machine => group.add(
            Rectangle::new()
                .set("x", rounded(at.0 - 4.5))
                .set("y", rounded(at.1 - 4.5))
                .set("width", 9)
                .set("height", 9)
                .set("fill", pen.fill),
        ),
        _ => group.add(circle(at, 3.5, pen)),
    }
}

/// The sign of drawings: a circle with two opposite quarters filled.
fn centre_of_gravity(group: Group, (x, y): Pixels, pen: Pen) -> Group {
    let quarter = |across: f64, down: f64, sweep: u8| {
        let (x0, y0) = (rounded(x), rounded(y));
        svg::node::element::Path::new()
            .set(
                "d",
                format!(
                    "M{x0},{y0} L{},{y0} A6,6 0 0 {sweep} {x0},{} Z",
                    rounded(x + across),
                    rounded(y + down)
                ),
            )
            .set("fill", INK)
    };
    group
        .add(circle((x, y), 6.0, pen))
        .add(quarter(6.0, -6.0, 0))
        .add(quarter(-6.0, 6.0, 0))
}

/// A dimension with strokes across its ends.
fn dimension(group: Group, from: Pixels, to: Pixels) -> Group {
    let length = (to.0 - from.0).hypot(to.1 - from.1);
    let (across, down) = (
        -(to.1 - from.1) / length * 4.0,
        (to.0 - from.0) / length * 4.0,
    );
    let tick = |at: Pixels| {
        line(
            (at.0 - across, at.1 - down),
            (at.0 + across, at.1 + down),
            pen(Role::Dimension),
        )
    };
    group
        .add(line(from, to, pen(Role::Dimension)))
        .add(tick(from))
        .add(tick(to))
}
