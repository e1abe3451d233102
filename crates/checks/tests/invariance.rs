//! The answer does not change with the units, with the order of statements, entries and files, or with
//! the frame that places are given in.
//!
//! The lift is written by a small writer, so that one and the same lift can be written in many ways.

use plumbhook_checks::{RULES, example};
use std::collections::BTreeMap;

/// How the lift is written: a plant frame shifted and turned, a load frame shifted and turned, units.
#[derive(Clone, Copy)]
struct Writing {
    /// Shift of the plant's origin along x, y and z.
    plant: [f64; 3],
    /// Quarter turns of the plant's frame.
    plant_turns: u32,
    /// Shift of the load's origin along x, y and z.
    load: [f64; 3],
    /// Quarter turns of the load's frame.
    load_turns: u32,
    us: bool,
    /// Whether places are written from the crossing of two grid lines.
    by_grid: bool,
    /// Whether levels are written above another datum than the plant's own.
    by_datum: bool,
}

const PLAIN: Writing = Writing {
    plant: [0.0; 3],
    plant_turns: 0,
    load: [0.0; 3],
    load_turns: 0,
    us: false,
    by_grid: false,
    by_datum: false,
};

/// A length with enough digits that the unit is all that changes.
fn length(us: bool, metres: f64) -> String {
    if us {
        format!("{:.9} ft", metres / 0.3048)
    } else {
        format!("{metres:.9} m")
    }
}

fn mass(us: bool, kg: f64) -> String {
    if us {
        format!("{:.9} lb", kg / 0.453_592_37)
    } else {
        format!("{kg:.9} kg")
    }
}

fn turn([x, y]: [f64; 2], quarters: u32) -> [f64; 2] {
    (0..quarters % 4).fold([x, y], |[x, y], _| [-y, x])
}

impl Writing {
    fn at(&self, place: [f64; 2]) -> String {
        let [x, y] = turn(place, self.plant_turns);
        let from = if self.by_grid {
            self.crossing()
        } else {
            [0.0, 0.0]
        };
        let at = format!(
            "({}, {})",
            length(self.us, x + self.plant[0] - from[0]),
            length(self.us, y + self.plant[1] - from[1])
        );
        if self.by_grid {
            format!("C/3 + {at}")
        } else {
            at
        }
    }

    fn level(&self, z: f64) -> String {
        let z = z + self.plant[2];
        if self.by_datum {
            format!("MSL {}", length(self.us, z - 3.2))
        } else {
            format!("EL {}", length(self.us, z))
        }
    }

    /// Where two grid lines cross, in the frame that is written.
    fn crossing(&self) -> [f64; 2] {
        let [x, y] = turn([6.1, 3.8], self.plant_turns);
        [x + self.plant[0], y + self.plant[1]]
    }

    /// The lines of the plant that its places and levels rest on.
    fn datum_and_grid(&self) -> String {
        let [x, y] = self.crossing().map(|at| length(self.us, at));
        format!(
            "  datum EL \"E\"\n  datum MSL at EL {} +/- 0 mm\n  grid C at x {x}\n  grid 3 at y {y}\n",
            length(self.us, 3.2)
        )
    }

    fn along(&self, low: f64, high: f64) -> String {
        format!("{} .. {}", length(self.us, low), length(self.us, high))
    }

    /// A rectangle of the plant by two corners, as sorted ranges along x and y.
    fn ranges(&self, a: [f64; 2], b: [f64; 2]) -> [String; 2] {
        let (a, b) = (turn(a, self.plant_turns), turn(b, self.plant_turns));
        [0, 1].map(|i| {
            self.along(
                a[i].min(b[i]) + self.plant[i],
                a[i].max(b[i]) + self.plant[i],
            )
        })
    }

    /// A place in the load's own frame.
    fn point(&self, [x, y, z]: [f64; 3]) -> String {
        let [x, y] = turn([x, y], self.load_turns);
        let [dx, dy, dz] = self.load;
        format!(
            "({}, {}, {})",
            length(self.us, x + dx),
            length(self.us, y + dy),
            length(self.us, z + dz)
        )
    }

    /// The centre of gravity with a box of different sides, which turns with the frame.
    fn cg(&self, place: [f64; 3], sides: [f64; 3]) -> String {
        let [x, y] = turn([place[0], place[1]], self.load_turns);
        let [sx, sy] = if self.load_turns.is_multiple_of(2) {
            [sides[0], sides[1]]
        } else {
            [sides[1], sides[0]]
        };
        let axis = |value: f64, side: f64| {
            format!("{} +/- {}", length(self.us, value), length(self.us, side))
        };
        format!(
            "x {}, y {}, z {}",
            axis(x + self.load[0], sx),
            axis(y + self.load[1], sy),
            axis(place[2] + self.load[2], sides[2])
        )
    }

    /// Where the load's origin is when its unshifted origin is at `place`.
    fn load_at(&self, place: [f64; 2]) -> String {
        // The frame's origin moves by minus the shift, seen in the load's turned axes, then in the plant's.
        let shift = turn([self.load[0], self.load[1]], (4 - self.load_turns % 4) % 4);
        self.at([place[0] - shift[0], place[1] - shift[1]])
    }

    fn heading(&self) -> String {
        let quarters = (self.plant_turns + 4 - self.load_turns % 4) % 4;
        format!("{} deg", 90 * quarters)
    }

    fn files(&self) -> Vec<(&'static str, String)> {
        let us = self.us;
        let l = |metres| length(us, metres);
        let m = |kg| mass(us, kg);
        let yard = format!(
            "yard \"Y\"\n\nsling rope\n  long {} +/- {}\n  rated vertical {} from tag\n  mass {} +/- 5 %\n  stiffness 9 kN/mm +/- 20 %\n\
             \nshackle bow\n  rated {} from tag\n  inside {} +/- {}\n  mass {} +/- 5 %\n\
             \nring link\n  rated {} from tag\n  inside {} +/- {}\n  mass {} +/- 5 %\n",
            l(5.0),
            l(0.015),
            m(8_000.0),
            m(27.0),
            m(9_000.0),
            l(0.115),
            l(0.002),
            m(6.4),
            m(25_000.0),
            l(0.34),
            l(0.005),
            m(22.0),
        );
        let [reach_x, reach_y] = self.ranges([2.0, 1.5], [22.0, 8.5]);
        let corners: Vec<_> = [[0.0, 0.0], [24.0, 0.0], [24.0, 10.0], [0.0, 10.0]]
            .map(|c| self.at(c))
            .to_vec();
        let plant = format!(
            "plant hall \"H\"\n  frame origin column A/1, z up\n{}\nsource walk measured\n  accuracy {}\n\nfloor slab\n  outline {}\n  top {} +/- {}\n  allows pad 400 kPa from measured\n  voids listed\n\
             \x20 hole sump {} to {}\n  verified by role \"engineer\" on 2026-09-01, covers pad 380 kPa\n\
             \noverhead-crane bridge\n  rated {} from nameplate\n  block {} +/- 5 %\n  block-in-rating no\n\
             \x20 hook main bears-up-to {} +/- {}, bears-down-to {} +/- {}, reaches x {reach_x}, y {reach_y} from walk\n\
             \nstand stool\n  on slab\n  at {}\n  heading {} deg\n  high {}\n  mass {} +/- 10 %\n\
             \x20 pads P1 .. P4 rectangle x {}, y {}, first +x+y, anticlockwise, size {} x {}\n",
            self.datum_and_grid(),
            l(0.015),
            corners.join(" "),
            self.level(50.0),
            l(0.015),
            self.at([10.0, 4.0]),
            self.at([12.0, 6.0]),
            m(30_000.0),
            m(600.0),
            self.level(59.2),
            l(0.015),
            self.level(51.0),
            l(0.015),
            self.at([18.0, 5.0]),
            90 * self.plant_turns,
            l(0.4),
            m(350.0),
            l(1.4),
            l(1.0),
            l(0.5),
            l(0.6),
        );
        let job = format!(
            "job lift \"L\"\n  plant hall\n  rules en\n  revision A 2026-10-01 stage bid\n\
             \nload cover \"C\"\n  frame origin underside, z up as-installed\n  mass {} +/- 5 % from weighed on 2026-08-11 with \"cell\"\n  held-by nothing\n  inside nothing\n  cg {} from drawing\n  shape box, {}\n  points A {}, B {}, C {}\n  lug eye at A B C\n\
             \nlug eye\n  rated {} from drawing\n  rated-angle at least 45 deg from horizontal\n  plane all-round\n  verified by role \"engineer\" on 2026-09-01, covers {}\n\
             \nrigging three\n  legs A B C to link, through bow, rope, bow\n  hung link by bridge.main\n\
             \nmove M1 \"M\"\n  carries cover\n  by bridge with three\n  dynamic 1.10\n  tilt at most 4 deg\n  out-of-plumb at most {}\n  heading {}\n\
             \x20 stations\n    | at | underside |\n    | {} | {} |\n    | {} | on stool |\n",
            m(14_000.0),
            self.cg([0.05, -0.02, 0.5], [0.04, 0.07, 0.03]),
            self.shape(),
            self.point([0.95, 0.1, 1.0]),
            self.point([-0.5, 0.8, 1.0]),
            self.point([-0.5, -0.85, 1.0]),
            m(9_000.0),
            m(8_500.0),
            l(0.2),
            self.heading(),
            self.load_at([8.0, 5.0]),
            self.level(51.2),
            self.load_at([18.02, 5.03]),
        );
        vec![
            ("yard.pick", yard),
            ("hall.pick", plant),
            ("lift.pick", job),
        ]
    }

    fn shape(&self) -> String {
        let (a, b) = (
            turn([-1.2, -1.1], self.load_turns),
            turn([1.2, 1.1], self.load_turns),
        );
        let range =
            |i: usize| self.along(a[i].min(b[i]) + self.load[i], a[i].max(b[i]) + self.load[i]);
        format!(
            "x {}, y {}, z {}",
            range(0),
            range(1),
            self.along(self.load[2], 1.1 + self.load[2])
        )
    }
}

/// What every rule says of every subject: the outcome, and demand and capacity in SI.
fn answers(files: &[(&'static str, String)]) -> BTreeMap<(String, String), (String, Option<f64>)> {
    let case = example::case_of(files).unwrap_or_else(|why| panic!("{why}"));
    let mut said = BTreeMap::new();
    for rule in RULES {
        for aspect in (rule.check)(&case) {
            let key = (rule.code.to_owned(), aspect.subject.clone());
            let verdict = format!(
                "{} {}",
                aspect.verdict.word(),
                match &aspect.verdict {
                    plumbhook_sheet::Verdict::CannotTell(missing) =>
                        format!("{:?}", missing.iter().map(|m| &m.what).collect::<Vec<_>>()),
                    _ => String::new(),
                }
            );
            said.insert(key, (verdict, aspect.sheet.utilisation));
        }
    }
    said
}

fn same(what: &str, writing: Writing) {
    let plain = answers(&PLAIN.files());
    let other = answers(&writing.files());
    assert_eq!(
        plain.keys().collect::<Vec<_>>(),
        other.keys().collect::<Vec<_>>(),
        "{what}"
    );
    for (key, (verdict, share)) in &plain {
        let (other_verdict, other_share) = &other[key];
        assert_eq!(verdict, other_verdict, "{what}: {key:?}");
        match (share, other_share) {
            (Some(a), Some(b)) => assert!(
                (a - b).abs() < 2e-6 * a.abs().max(1.0),
                "{what}: {key:?} {a} {b}"
            ),
            (a, b) => assert_eq!(a, b, "{what}: {key:?}"),
        }
    }
}

#[test]
fn the_lift_of_these_tests_decides_something() {
    let said = answers(&PLAIN.files());
    let words: Vec<_> = said
        .values()
        .map(|(verdict, _)| verdict.split(' ').next().unwrap())
        .collect();
    assert!(
        words.iter().filter(|word| **word == "within").count() >= 8,
        "{said:#?}"
    );
    assert!(words.iter().all(|word| *word != "cannot"), "{said:#?}");
}

#[test]
fn the_answer_is_the_same_in_other_units() {
    same("in pounds and feet", Writing { us: true, ..PLAIN });
}

#[test]
fn the_answer_is_the_same_in_a_shifted_plant() {
    same(
        "plant shifted",
        Writing {
            plant: [100.0, -40.0, 7.5],
            ..PLAIN
        },
    );
}

#[test]
fn the_answer_is_the_same_in_a_turned_plant() {
    for plant_turns in 1..4 {
        same(
            "plant turned",
            Writing {
                plant_turns,
                ..PLAIN
            },
        );
    }
}

#[test]
fn the_answer_is_the_same_in_a_shifted_and_turned_load_frame() {
    same(
        "load shifted",
        Writing {
            load: [1.5, -0.7, 0.9],
            ..PLAIN
        },
    );
    for load_turns in 1..4 {
        same(
            "load turned",
            Writing {
                load_turns,
                ..PLAIN
            },
        );
        same(
            "both",
            Writing {
                load_turns,
                load: [0.4, 0.3, -0.2],
                plant_turns: 1,
                plant: [5.0, 6.0, -7.0],
                us: true,
                ..PLAIN
            },
        );
    }
}

#[test]
fn the_answer_is_the_same_by_grid_lines_and_above_another_datum() {
    for (by_grid, by_datum) in [(true, false), (false, true), (true, true)] {
        for plant_turns in 0..4 {
            same(
                "by grid or datum",
                Writing {
                    by_grid,
                    by_datum,
                    plant_turns,
                    plant: [31.0, -12.0, 4.4],
                    load_turns: 3,
                    us: true,
                    ..PLAIN
                },
            );
        }
    }
}

#[test]
fn the_answer_does_not_depend_on_the_order_of_statements_entries_and_files() {
    let plain = answers(&PLAIN.files());
    for seed in 0..24_usize {
        let mut files: Vec<_> = PLAIN
            .files()
            .iter()
            .map(|(name, text)| (*name, shuffled(text, seed)))
            .collect();
        files.rotate_left(seed % 3);
        // The job's file comes last in `case_of`, whichever place it has: what counts is who sees what.
        assert_eq!(plain, answers(&files), "seed {seed}");
    }
}

/// Entries behind the opening one in another order, and the statements in each; rows stay with their key.
fn shuffled(text: &str, seed: usize) -> String {
    let mut entries: Vec<Vec<Vec<&str>>> = Vec::new();
    for line in text.lines().filter(|line| !line.is_empty()) {
        let Some(entry) = entries.last_mut().filter(|_| line.starts_with(' ')) else {
            entries.push(vec![vec![line]]);
            continue;
        };
        match entry.last_mut() {
            Some(statement) if line.trim_start().starts_with('|') => statement.push(line),
            _ => entry.push(vec![line]),
        }
    }
    let mut state = seed.wrapping_mul(0x9e37_79b9) | 1;
    let mut next = |bound: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % bound
    };
    for entry in &mut entries {
        for i in (2..entry.len()).rev() {
            entry.swap(i, 1 + next(i));
        }
    }
    for i in (2..entries.len()).rev() {
        entries.swap(i, 1 + next(i));
    }
    entries.concat().concat().join("\n")
}
