//! A lift in two tiers: a tank under a spreader under a hook. Invented.

use super::Lift;

/// A tank, two legs plumb from a spreader, two legs from it to the hook of a bridge crane.
pub static SPREADER: Lift = Lift {
    say: "a tank carried under a spreader by the bridge crane of a hall",
    files: &[
        ("yard.pick", YARD),
        ("hall.plant.pick", PLANT),
        ("tank.pick", JOB),
    ],
    pushes: &[
        (
            "mass of the load",
            &[
                ("9.0 t +/- 5 % ", "9.0 t +/- 7 % "),
                ("9.0 t +/- 5 % ", "9.4 t +/- 5 % "),
            ],
        ),
        (
            "centre of gravity",
            &[
                ("x 0 +/- 40 mm", "x 0 +/- 70 mm"),
                (
                    "y 0 +/- 20 mm, z 0.70 m +/- 40 mm",
                    "y 0 +/- 35 mm, z 0.70 m +/- 90 mm",
                ),
            ],
        ),
        (
            "length of each piece",
            &[
                ("long       4.00 m +/- 15 mm", "long       4.00 m +/- 20 mm"),
                ("long       3.00 m +/- 15 mm", "long       3.00 m +/- 20 mm"),
            ],
        ),
        (
            "stiffness of each sling",
            &[
                ("11 kN/mm +/- 20 %", "11 kN/mm +/- 35 %"),
                ("9 kN/mm +/- 20 %", "9 kN/mm +/- 35 %"),
            ],
        ),
        (
            "mass of each piece",
            &[
                (
                    "mass       22 kg +/- 5 %\n  stiffness",
                    "mass       40 kg +/- 5 %\n  stiffness",
                ),
                ("mass       11 kg", "mass       30 kg"),
                ("mass       6.4 kg", "mass       9 kg"),
            ],
        ),
        (
            "mass of the beam",
            &[(
                "mass         600 kg +/- 5 %",
                "mass         600 kg +/- 15 %",
            )],
        ),
        (
            "rated capacity",
            &[("rated        12 t ", "rated        11 t ")],
        ),
        (
            "rated span",
            &[(
                "rated-span   3.9 m .. 4.1 m",
                "rated-span   4.01 m .. 4.1 m",
            )],
        ),
        (
            "rated angle",
            &[(
                "rated-angle  at least 55 deg",
                "rated-angle  at least 63 deg",
            )],
        ),
    ],
};

const YARD: &str = r#"# Invented.
yard "Our yard"

sling rope-32-long-4
  kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical
  long       4.00 m +/- 15 mm
  rated      vertical 10.0 t          from tag quote "V 10.0 t"
  mass       22 kg +/- 5 %
  stiffness  11 kN/mm +/- 20 %

sling rope-26-long-3
  kind       wire-rope, class 6x36, core iwrc, diameter 26 mm, splice mechanical
  long       3.00 m +/- 15 mm
  rated      vertical 7.0 t           from tag quote "V 7.0 t"
  mass       11 kg +/- 5 %
  stiffness  9 kN/mm +/- 20 %

shackle bow-12
  kind       bow, screw pin, alloy
  rated      12 t                     from tag quote "WLL 12T" read-as metric because "maker's sheet 2021"
  inside     115 mm +/- 2 mm
  mass       6.4 kg +/- 5 %

ring ring-2
  rated      25 t                     from tag quote "WLL 25 t"
  inside     340 mm +/- 5 mm
  mass       22 kg +/- 5 %

beam bar-4
  kind         spreader
  mass         600 kg +/- 5 %
  cg           x 0 +/- 20 mm, y 0 +/- 5 mm, z 0 +/- 10 mm
  ends         L (-2.00 m, 0, -0.15 m), R (2.00 m, 0, -0.15 m)
  tops         TL (-2.00 m, 0, 0.15 m), TR (2.00 m, 0, 0.15 m)
  rated        12 t                   from nameplate quote "WLL 12 t, 4 m, 55 deg"
  rated-span   3.9 m .. 4.1 m         from nameplate
  rated-angle  at least 55 deg        from nameplate
"#;

const PLANT: &str = r#"# Invented.
plant pump-hall "Pump hall"
  frame      origin column A/1, x toward C, y toward 3, z up
  datum      EL "project, 1962"

source walk-2 measured 2026-08-11 "Walk with laser and tape"
  accuracy   15 mm

floor slab
  outline    (0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)
  top        EL 50.00 m               from walk-2
  allows     pad 400 kPa              from measured
  voids      listed

overhead-crane bridge
  rated      30 t                     from nameplate "30 t"
  block      600 kg +/- 5 %
  block-in-rating yes
  hook main  bears-up-to EL 62.20 m, bears-down-to EL 51.0 m, reaches x 2.0 m .. 22.0 m, y 1.5 m .. 8.5 m  from walk-2
"#;

const JOB: &str = r#"# Invented.
job tank "Tank across the hall"
  plant      pump-hall
  rules      us
  revision   A 2026-10-01 stage bid "first issue"

load tank "Tank, empty and dry"
  frame      origin underside in the middle, x along hall as-installed, z up as-installed
  mass       9.0 t +/- 5 %            from drawing
  cg         x 0 +/- 40 mm, y 0 +/- 20 mm, z 0.70 m +/- 40 mm   from drawing
  shape      box, x -2.5 m .. 2.5 m, y -0.8 m .. 0.8 m, z 0 .. 1.6 m
  points     A (-2.00 m, 0, 1.60 m), B (2.00 m, 0, 1.60 m)
  inside     nothing
  held-by    nothing

rigging under-bar
  legs       A B to bar-4.ends, through bow-12, rope-26-long-3, bow-12
  legs       bar-4.tops to ring-2, through bow-12, rope-32-long-4, bow-12
  hung       ring-2 by bridge.main

move M1 "Across the hall"
  carries    tank
  by         bridge with under-bar
  dynamic    1.10                     from practice-note
  tilt       at most 3 deg
  heading    0 deg
  stations
    | at              | underside         |
    | (8.0 m, 5.0 m)  | above slab 1.20 m |
    | (18.0 m, 5.0 m) | above slab 1.20 m |
"#;
