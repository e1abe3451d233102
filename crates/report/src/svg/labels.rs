//! Where labels go, so that none covers another.

/// Pixels of a label's letters.
pub(super) const SIZE: f64 = 12.5;
/// Mean width of a letter as a share of its height; a little wide, so that boxes are never too small.
const LETTER: f64 = 0.6;
/// Free pixels around a label.
const AIR: f64 = 2.0;

/// A box on the drawing: left, top, right, bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame(
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
);

impl Frame {
    fn meets(self, other: Self) -> bool {
        self.0 < other.2 && other.0 < self.2 && self.1 < other.3 && other.1 < self.3
    }

    fn inside(self, other: Self) -> bool {
        self.0 >= other.0 && self.1 >= other.1 && self.2 <= other.2 && self.3 <= other.3
    }

    /// Whether a straight line passes through.
    fn crossed(self, (from, to): Segment) -> bool {
        // The part of the line, from 0 to 1, that lies between each pair of sides (Liang and Barsky, 1984).
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        let sides = [
            (to.0 - from.0, self.0 - from.0, self.2 - from.0),
            (to.1 - from.1, self.1 - from.1, self.3 - from.1),
        ];
        for (run, least, most) in sides {
            if run.abs() < 1e-9 {
                if least > 0.0 || most < 0.0 {
                    return false;
                }
                continue;
            }
            let (first, last) = (least / run, most / run);
            enter = enter.max(first.min(last));
            leave = leave.min(first.max(last));
        }
        enter <= leave
    }

    fn centre(self) -> (f64, f64) {
        (f64::midpoint(self.0, self.2), f64::midpoint(self.1, self.3))
    }
}

/// A straight line from here to there.
type Segment = ((f64, f64), (f64, f64));

/// A label that was placed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    /// The end of the base line that is nearer to the anchor: the left one, or the right one if `ends`.
    pub(super) at: (f64, f64),
    /// Whether the text ends there.
    pub(super) ends: bool,
    /// Where a thin line to the anchor starts, if the label stands off it.
    pub(super) leader: Option<(f64, f64)>,
}

/// What is taken already.
#[derive(Debug)]
pub(super) struct Labels {
    edge: Frame,
    taken: Vec<Frame>,
    lines: Vec<Segment>,
}

impl Labels {
    pub(super) fn new(edge: Frame) -> Self {
        Self {
            edge,
            taken: Vec::new(),
            lines: Vec::new(),
        }
    }

    /// Keeps labels off a mark.
    pub(super) fn avoid(&mut self, frame: Frame) {
        self.taken.push(frame);
    }

    /// Keeps labels off a line, as long as there is room.
    pub(super) fn avoid_line(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.lines.push((from, to));
    }

    /// A place for `text` as near to `anchor` as there is one: around it first, then in wider and wider rings.
    /// Where the drawing is full it stands at the anchor: crowded is better than missing.
    pub(super) fn place(&mut self, text: &str, anchor: (f64, f64)) -> Placed {
        let width = text.chars().count() as f64 * SIZE * LETTER;
        let boxed = |(x, y): (f64, f64)| Frame(x, y - SIZE, x + width, y + SIZE * 0.25);
        let free = |at: (f64, f64)| {
            let frame = boxed(at);
            frame.inside(self.edge) && !self.taken.iter().any(|taken| taken.meets(frame))
        };
        let bare = |at: (f64, f64)| !self.lines.iter().any(|line| boxed(at).crossed(*line));
        let found = candidates(anchor, width)
            .find(|(_, at)| free(*at) && bare(*at))
            .or_else(|| candidates(anchor, width).find(|(_, at)| free(*at)));
        let (ring, at) = found.unwrap_or((0, anchor));
        let frame = boxed(at);
        self.taken.push(Frame(
            frame.0 - AIR,
            frame.1 - AIR,
            frame.2 + AIR,
            frame.3 + AIR,
        ));
        // Letters are narrower than their box: set from the near side, they end where the leader starts.
        let ends = frame.2 < anchor.0;
        Placed {
            at: if ends { (frame.2, at.1) } else { at },
            ends,
            leader: (ring > 0).then(|| {
                let (x, y) = frame.centre();
                // From the side of the label that faces the anchor.
                let x = if anchor.0 < frame.0 {
                    frame.0 - AIR
                } else if anchor.0 > frame.2 {
                    frame.2 + AIR
                } else {
                    x
                };
                (x, y)
            }),
        }
    }
}

/// Left ends of base lines around an anchor, with the number of their ring.
fn candidates(anchor: (f64, f64), width: f64) -> impl Iterator<Item = (usize, (f64, f64))> {
    (0..6).flat_map(move |ring| {
        let out = 8.0 + 22.0 * ring as f64;
        let (x, y) = anchor;
        let middle = y + SIZE * 0.35;
        [
            (x + out, middle),
            (x - out - width, middle),
            (x + out * 0.7, y - out * 0.7),
            (x + out * 0.7, y + out * 0.7 + SIZE * 0.7),
            (x - out * 0.7 - width, y - out * 0.7),
            (x - out * 0.7 - width, y + out * 0.7 + SIZE * 0.7),
            (x - width / 2.0, y - out),
            (x - width / 2.0, y + out + SIZE * 0.75),
        ]
        .map(|at| (ring, at))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_labels_at_one_point_cover_none_of_each_other() {
        let mut labels = Labels::new(Frame(0.0, 0.0, 400.0, 400.0));
        for index in 0..10 {
            labels.place(&format!("leg {index} 12.3 t"), (200.0, 200.0));
        }
        for (index, one) in labels.taken.iter().enumerate() {
            assert!(one.inside(Frame(-AIR, -AIR, 400.0 + AIR, 400.0 + AIR)));
            for other in labels.taken.iter().skip(index + 1) {
                // Boxes have air around them; letters must not meet.
                let bare = Frame(one.0 + AIR, one.1 + AIR, one.2 - AIR, one.3 - AIR);
                assert!(!bare.meets(*other), "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_label_stands_beside_a_line_and_not_on_it() {
        let (from, to) = ((200.0, 0.0), (200.0, 400.0));
        let mut labels = Labels::new(Frame(0.0, 0.0, 400.0, 400.0));
        labels.avoid_line(from, to);
        labels.avoid_line((0.0, 200.0), (400.0, 200.0));
        labels.place("4.75 t", (200.0, 200.0));
        let [frame] = labels.taken[..] else { panic!() };
        assert!(!frame.crossed((from, to)), "{frame:?}");
        assert!(frame.3 < 200.0 || frame.1 > 200.0, "{frame:?}");
    }

    #[test]
    fn a_label_that_stands_off_has_a_leader() {
        let mut labels = Labels::new(Frame(0.0, 0.0, 400.0, 400.0));
        labels.avoid(Frame(130.0, 150.0, 270.0, 250.0));
        let placed = labels.place("cg", (200.0, 200.0));
        assert!(placed.leader.is_some());
    }
}
