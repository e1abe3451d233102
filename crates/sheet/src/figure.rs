//! What a drawing shows, in the plant's frame and without a pen: points, bodies, lines, dimensions.
//!
//! The model and the rules leave figures beside the sheets; every drawing is a view of one, so a new
//! family draws itself without a change in a face.

/// A place in the plant's frame, in metres.
pub type Metres = [f64; 3];

/// What a mark stands for; a face chooses pen and colour by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// The load or a part of it.
    Load,
    /// A line of rigging that pulls.
    Leg,
    /// A line of rigging that hangs slack.
    SlackLeg,
    /// A hook or another machine part that carries.
    Machine,
    /// A centre of gravity.
    CentreOfGravity,
    /// A lifting point.
    LiftingPoint,
    /// A floor, a wall, the ground.
    Structure,
    /// A hole, a cavity, an edge.
    Void,
    /// A dimension or a note.
    Dimension,
}

/// One thing in a figure.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A named point.
    Point {
        /// Where.
        at: Metres,
        /// What.
        role: Role,
        /// Its name.
        label: String,
    },
    /// A line from here to there.
    Line {
        /// One end.
        from: Metres,
        /// The other.
        to: Metres,
        /// What.
        role: Role,
        /// What is written at it.
        label: String,
    },
    /// A body, as its corners in order.
    Body {
        /// Corners in order.
        outline: Vec<Metres>,
        /// What.
        role: Role,
        /// What is written in it.
        label: String,
    },
    /// A solid without dents, as corners in any order: each view draws its outline.
    Solid {
        /// Its corners.
        corners: Vec<Metres>,
        /// What.
        role: Role,
    },
    /// A dimension between two places.
    Span {
        /// One end.
        from: Metres,
        /// The other.
        to: Metres,
        /// The number as printed.
        label: String,
    },
}

/// Marks that belong together.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Figure {
    /// What the figure shows.
    pub title: String,
    /// Its marks, farthest first.
    pub marks: Vec<Mark>,
}

impl Figure {
    /// Every place that any mark touches.
    pub fn places(&self) -> impl Iterator<Item = Metres> + '_ {
        self.marks.iter().flat_map(|mark| match mark {
            Mark::Point { at, .. } => vec![*at],
            Mark::Line { from, to, .. } | Mark::Span { from, to, .. } => vec![*from, *to],
            Mark::Body { outline: all, .. } | Mark::Solid { corners: all, .. } => all.clone(),
        })
    }
}
