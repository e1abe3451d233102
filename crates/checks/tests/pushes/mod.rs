//! For each input that a rule names, changes of the clean lift that push it the way that hurts.

use plumbhook_checks::example::Lift;
use plumbhook_model::ask::Hurts;

type Push = (&'static str, &'static str);

const WIDER_MASS: Push = ("14.0 t +/- 5 %", "14.0 t +/- 9 %");
const HEAVIER: Push = ("14.0 t +/- 5 %", "15.5 t +/- 5 %");
const LESS_EXACT: Push = ("accuracy   15 mm", "accuracy   40 mm");

const CG: &[Push] = &[
    ("x 0 +/- 40 mm", "x 0 +/- 70 mm"),
    ("y 0 +/- 40 mm", "y 0 +/- 55 mm"),
    ("z 0.50 m +/- 40 mm", "z 0.50 m +/- 150 mm"),
];
const LENGTHS: &[Push] = &[
    ("long       5.00 m +/- 15 mm", "long       5.00 m +/- 25 mm"),
    ("115 mm +/- 2 mm", "115 mm +/- 6 mm"),
];
const RATINGS: &[Push] = &[
    ("vertical 10.0 t", "vertical 9.2 t"),
    ("rated      8 t ", "rated      7.5 t "),
    ("rated      12 t ", "rated      11 t "),
    ("rated      25 t ", "rated      24 t "),
    ("rated      30 t ", "rated      29 t "),
];
const PIECES: &[Push] = &[
    ("mass       27 kg", "mass       60 kg"),
    ("mass       6.4 kg", "mass       9 kg"),
    ("mass       22 kg", "mass       45 kg"),
];
const UP: &[Push] = &[(
    "(8.0 m, 5.0 m)  | above slab 1.80 m",
    "(8.0 m, 5.0 m)  | above slab 2.10 m",
)];

/// Every change that pushes an input.
pub(crate) fn of(lift: &Lift, input: &str, hurts: Hurts) -> &'static [Push] {
    let own = lift.pushes.iter().find(|(of, _)| *of == input);
    own.map_or_else(|| of_hall(input, hurts), |(_, pushes)| pushes)
}

fn of_hall(input: &str, hurts: Hurts) -> &'static [Push] {
    match (input, hurts) {
        ("mass of the load", Hurts::High) => &[HEAVIER, WIDER_MASS],
        ("mass of the load", _) => &[WIDER_MASS],
        ("centre of gravity", _) => CG,
        ("length of each piece", _) => LENGTHS,
        ("edges of the load", _) => &[("edge padded", "edge sharp")],
        ("stiffness of each sling", _) => &[("9 kN/mm +/- 20 %", "9 kN/mm +/- 35 %")],
        ("mass of each piece", _) => PIECES,
        ("dynamic factor", _) => &[("dynamic    1.10", "dynamic    1.25")],
        ("rated capacity", _) => RATINGS,
        ("mass of the hook block", _) => &[("block      600 kg", "block      900 kg")],
        ("limit of the pull", _) => &[("limit      20 t ", "limit      18 t ")],
        ("rule sets", _) => &[("rules      us", "rules      us, en")],
        ("what the verification of the lug covers", _) => &[("covers 8 t", "covers 7 t")],
        ("flattest pull of the rating", _) => &[("at least 45 deg", "at least 60 deg")],
        ("side pull of the rating", _) => &[("at most 5 deg", "at most 3 deg")],
        ("pin of the shackle", _) => &[("pin        35 mm", "pin        41 mm")],
        ("hole of the lug", _) => &[("hole       40 mm", "hole       34 mm")],
        ("thickness of the lug", _) => &[("thick      40 mm", "thick      52 mm")],
        ("jaw of the shackle", _) => &[("jaw        51 mm", "jaw        39 mm")],
        ("tilt limit", _) => &[("tilt       at most 3 deg", "tilt       at most 2.5 deg")],
        ("limit out of plumb", _) => &[("at most 120 mm", "at most 90 mm")],
        ("length of the ring", _) => &[("340 mm +/- 5 mm", "340 mm +/- 25 mm")],
        ("level of the floor", _) => &[LESS_EXACT],
        ("height at the station", _) => UP,
        ("highest level of the hook", _) => &[("up-to EL 59.20 m", "up-to EL 58.90 m"), LESS_EXACT],
        ("lowest level of the hook", _) => {
            &[("down-to EL 51.0 m", "down-to EL 56.0 m"), LESS_EXACT]
        }
        ("place of the station", _) => &[
            ("(18.0 m, 5.0 m) | on", "(18.0 m, 5.4 m) | on"),
            ("(18.0 m, 5.0 m) | on", "(18.0 m, 5.0 m) +/- 90 mm | on"),
        ],
        ("heading of the load", _) => &[("heading    0 deg", "heading    90 deg")],
        ("reach of the hook", _) => &[("y 1.5 m .. 8.5 m", "y 1.7 m .. 8.2 m"), LESS_EXACT],
        ("size of the pads", _) => &[("size 500 mm x 500 mm", "size 490 mm x 480 mm")],
        ("place and size of the pads", _) => &[
            ("size 500 mm x 500 mm", "size 700 mm x 600 mm"),
            ("at         (18.0 m, 5.0 m)", "at         (14.0 m, 5.0 m)"),
            (
                "at         (18.0 m, 5.0 m)",
                "at         (18.0 m, 5.0 m) +/- 1.5 m",
            ),
        ],
        ("mass of the stand", _) => &[("mass       350 kg", "mass       500 kg")],
        ("pressure under the worst pad", _) => &[("14.0 t +/- 5 %", "14.5 t +/- 5 %")],
        ("what the floor allows under a pad", _) => &[("pad 400 kPa", "pad 390 kPa")],
        ("what the verification covers", _) => &[("covers pad 380 kPa", "covers pad 370 kPa")],
        ("holes and cavities of the floor", _) => &[("to (12.0 m, 6.0 m)", "to (16.0 m, 6.0 m)")],
        ("outline of the floor", _) => &[("(24 m, 0) (24 m, 10 m)", "(20 m, 0) (20 m, 10 m)")],
        _ => &[],
    }
}
