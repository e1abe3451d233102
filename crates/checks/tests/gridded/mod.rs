//! The clean lift with its places named by the grid of its plant.

/// A text of the clean lift and what stands in its place.
pub(crate) type Change = (&'static str, &'static str);

/// The datum of the clean lift's plant.
pub(crate) const DATUM: &str = "  datum      EL \"project, 1962\"\n";
const GRID: Change = (
    DATUM,
    "  datum      EL \"project, 1962\"\n  grid       A .. C at x 0, 12 m, 24 m\n  grid       1 .. 3 at y 0, 5 m, 10 m\n",
);

/// The clean lift with its places named by the grid.
pub(crate) const GRIDDED: [Change; 7] = [
    GRID,
    ("(0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)", "A/1 C/1 C/3 A/3"),
    ("at         (18.0 m, 5.0 m)", "at         B/2 + (6 m, 0)"),
    (
        "(8.0 m, 5.0 m)  | EL 51.20 m",
        "A/2 + (8 m, 0) | EL 51.20 m",
    ),
    ("(8.0 m, 5.0 m)  | above", "2/A + (8 m, 0) | above"),
    ("(18.0 m, 5.0 m) | above", "B/2 + (6.0 m, 0) | above"),
    ("(18.0 m, 5.0 m) | on", "stool | on"),
];
