//! A clean lift of a load that was counted up from its parts and weighed. Invented.

use super::Lift;

const JOB: &str = r#"# Invented.
job rotor-out "Exciter rotor out of its frame"
  rules      us
  revision   A 2026-10-01 stage bid "first issue"

load rotor "Exciter rotor"
  frame      origin middle of core on shaft axis, x along shaft as-installed, z up as-installed
  mass       6.50 t +/- 2 %           from count-1
  mass       expected                 from cells-1
  cg         expected                 from count-1
  cg         x expected, y expected   from cells-1
  inside     nothing                  from measured

takeoff count-1 "Rotor by its sections"
  density    steel 7850 kg/m3 +/- 1 %     from drawing
  density    sheet 7700 kg/m3 +/- 1.5 %   from estimate
  part       shaft round outside 300 mm +/- 1 mm, long 3.00 m +/- 3 mm, at (0.20 m, 0, 0) +/- 3 mm, along +x, of steel  from drawing
  part       core tube outside 1.00 m +/- 2 mm, inside 302 mm +/- 1 mm, long 800 mm +/- 5 mm, at (0, 0, 0) +/- 5 mm, along +x, of sheet  from drawing
  part       coil-1 lump mass 230 kg +/- 5 %, at (0.50 m, 0, 0) +/- 30 mm   from estimate
  part       coil-2 lump mass 230 kg +/- 5 %, at (-0.50 m, 0, 0) +/- 30 mm  from estimate
  hole       vent-1 in core round outside 60 mm +/- 1 mm, long 800 mm +/- 5 mm, at (0, 0, 0.40 m) +/- 5 mm, along +x   from drawing
  hole       vent-2 in core round outside 60 mm +/- 1 mm, long 800 mm +/- 5 mm, at (0, 0, -0.40 m) +/- 5 mm, along +x  from drawing
  left-out   0 .. 1 %

weighing cells-1 "Rotor on four cells"
  instrument cells of our own, by role "weighing lead" on 2026-09-03
  cells
    | cell | at                         | reading | again   |
    | C1   | (1.20 m, 0.40 m, -0.60 m) +/- 5 mm  | 1.682 t | 1.702 t |
    | C2   | (-1.20 m, 0.40 m, -0.60 m) +/- 5 mm | 1.566 t | 1.548 t |
    | C3   | (-1.20 m, -0.40 m, -0.60 m) +/- 5 mm | 1.571 t | 1.590 t |
    | C4   | (1.20 m, -0.40 m, -0.60 m) +/- 5 mm | 1.694 t | 1.675 t |
  accuracy   reading 0.5 %, each 5 kg
  range      at most 5 t

move M1 "Out of the frame"
  carries    rotor
"#;

/// An exciter rotor, counted up from its parts and weighed on four cells.
pub static ROTOR: Lift = Lift {
    say: "an exciter rotor, counted up from its parts and weighed on four cells",
    files: &[("rotor.pick", JOB)],
    pushes: &[
        (
            "mass of the load",
            &[
                ("6.50 t +/- 2 %", "6.95 t +/- 2 %"),
                ("6.50 t +/- 2 %", "6.10 t +/- 2 %"),
            ],
        ),
        (
            "parts of the take-off",
            &[("long 3.00 m +/- 3 mm", "long 3.60 m +/- 3 mm")],
        ),
        (
            "reading of each cell",
            &[("1.682 t | 1.702 t", "1.882 t | 1.872 t")],
        ),
        ("accuracy of the cells", &[("reading 0.5 %", "reading 1 %")]),
        (
            "range of the cells",
            &[("range      at most 5 t", "range      at most 2 t")],
        ),
    ],
};
