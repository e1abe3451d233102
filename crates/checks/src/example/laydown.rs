//! A motor set down in a laydown by a mobile crane. Invented.

use super::Lift;

/// A motor carried by a mobile crane in a laydown.
pub static LAYDOWN: Lift = Lift {
    say: "a motor carried by a mobile crane in a laydown",
    files: &[
        ("yard.pick", YARD),
        ("laydown.plant.pick", PLANT),
        ("motor.pick", JOB),
    ],
    pushes: &[
        (
            "mass of the load",
            &[
                ("18.0 t +/- 5 %", "19.0 t +/- 5 %"),
                ("18.0 t +/- 5 %", "18.0 t +/- 9 %"),
            ],
        ),
        (
            "mass of each piece",
            &[
                ("mass       27 kg", "mass       60 kg"),
                ("mass       22 kg", "mass       45 kg"),
            ],
        ),
        ("deductions", &[("hook-block 600 kg", "hook-block 900 kg")]),
        (
            "rating of the chart",
            &[(
                "| 40.2 t | 32.4 t | 26.1 t |",
                "| 40.2 t | 32.4 t | 24.0 t |",
            )],
        ),
        ("centre of gravity", &[("x 0 +/- 40 mm", "x 0 +/- 90 mm")]),
        (
            "length of each piece",
            &[("long       5.00 m +/- 15 mm", "long       5.00 m +/- 40 mm")],
        ),
        (
            "stiffness of each sling",
            &[("9 kN/mm +/- 20 %", "9 kN/mm +/- 35 %")],
        ),
        (
            "place of the station",
            &[("| (19.0 m, 6.0 m)  | above", "| (19.9 m, 6.0 m)  | above")],
        ),
        (
            "heading of the load",
            &[("heading    0 deg", "heading    90 deg")],
        ),
        (
            "place of the crane",
            &[("at         (10.0 m, 10.0 m)", "at         (9.0 m, 10.0 m)")],
        ),
    ],
};

const YARD: &str = r#"# Invented.
yard "Our yard"

sling rope-32-long-5
  kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical
  long       5.00 m +/- 15 mm
  rated      vertical 10.0 t          from tag quote "V 10.0 t"
  mass       27 kg +/- 5 %
  stiffness  9 kN/mm +/- 20 %

ring ring-2
  rated      25 t                     from tag quote "WLL 25 t"
  inside     340 mm +/- 5 mm
  mass       22 kg +/- 5 %

crane crawler-1
  chart      main-36 needs boom 36.2 m, counterweight 54 t, tracks out  from manual
    | radius | 8 m    | 10 m   | 12 m   | 14 m   |
    | rated  | 51.0 t | 40.2 t | 32.4 t | 26.1 t |
  chart      main-24 needs boom 24.0 m, counterweight 54 t, tracks out  from manual
    | radius | 6 m    | 8 m    | 10 m   |
    | rated  | 80.0 t | 62.0 t | 48.0 t |
  deducts    hook-block 600 kg +/- 5 %
"#;

const PLANT: &str = r#"# Invented.
plant pump-yard "Pump station, yard"
  frame      origin gate post, x toward river, y toward shed, z up
  datum      EL "project, 1962"

source walk-2 measured 2026-08-11 "Walk with laser and tape"
  accuracy   15 mm

floor laydown
  outline    (0, 0) (40 m, 0) (40 m, 30 m) (0, 30 m)
  top        EL 50.00 m               from walk-2
  allows     pad 200 kPa              from measured
  voids      none
  verified   by role "geotechnical engineer" on 2026-09-01, covers pad 200 kPa
"#;

const JOB: &str = r#"# Invented.
job motor "Motor to the trailer"
  plant      pump-yard
  rules      us
  revision   A 2026-10-01 stage bid "first issue"

load motor "Motor, complete"
  frame      origin underside at its middle, x along shaft as-installed, z up as-installed
  mass       18.0 t +/- 5 %           from drawing
  cg         x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.70 m +/- 40 mm  from drawing
  inside     nothing                  from measured
  held-by    nothing                  from measured
  shape      box, x -1.2 m .. 1.2 m, y -0.9 m .. 0.9 m, z 0 .. 1.40 m
  points     A B C ring radius 0.95 m, z 1.40 m, first +x, anticlockwise
  lug        eye-20 at A B C

lug eye-20
  rated      12 t                     from drawing
  rated-angle at least 45 deg from horizontal
  plane      all-round
  verified   by role "structural engineer" on 2026-09-01, covers 12 t

rigging ropes-of-three
  legs       A B C to ring-2, through rope-32-long-5
  hung       ring-2 by C1.main

set-up C1
  crane      crawler-1
  at         (10.0 m, 10.0 m)
  heading    +x
  on         laydown
  pads       T1 (0 m, 2.6 m), T2 (0 m, -2.6 m), size 7.0 m x 0.9 m
  presses    at most 160 kPa          from manual
  config     boom 36.2 m, counterweight 54 t, tracks out
  hook main  bears-up-to EL 80.0 m, bears-down-to EL 48.0 m  from walk-2

move M1 "From the frame to the trailer"
  carries    motor
  by         C1 with ropes-of-three
  dynamic    1.10                     from practice-note
  tilt       at most 3 deg
  out-of-plumb at most 120 mm
  heading    0 deg
  stations
    | at               | underside            |
    | (18.0 m, 12.0 m) | EL 50.30 m           |
    | (18.0 m, 12.0 m) | above laydown 1.50 m |
    | (19.0 m, 6.0 m)  | above laydown 1.50 m |
"#;
