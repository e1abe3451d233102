//! Which pen a role is drawn with. Shapes and dashes tell roles apart, so that a copy in grey reads as well.

use plumbhook_sheet::Role;

/// Text and outlines.
pub(super) const INK: &str = "#1d2433";
/// Dimensions and frames.
pub(super) const FAINT: &str = "#6b7280";
/// The ground of the drawing.
pub(super) const PAPER: &str = "#ffffff";

/// Pen of one role.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pen {
    pub(super) stroke: &'static str,
    pub(super) width: f64,
    /// Dashes, empty for a full line.
    pub(super) dash: &'static str,
    /// What a body is filled with.
    pub(super) fill: &'static str,
}

/// The pen of a role.
pub(super) fn pen(role: Role) -> Pen {
    let (stroke, width, dash, fill) = match role {
        Role::Load => (INK, 1.5, "", "#e3e6eb"),
        Role::Leg => ("#1f4f8b", 2.0, "", "none"),
        Role::SlackLeg => ("#1f4f8b", 1.2, "6 4", "none"),
        Role::Machine => (INK, 2.0, "", INK),
        Role::CentreOfGravity => (INK, 1.2, "", PAPER),
        Role::LiftingPoint => (INK, 1.5, "", PAPER),
        Role::Structure => ("#5c4a36", 2.5, "", "#efe9e1"),
        Role::Void => ("#5c4a36", 1.2, "3 3", PAPER),
        Role::Dimension => (FAINT, 1.0, "", "none"),
    };
    Pen {
        stroke,
        width,
        dash,
        fill,
    }
}
