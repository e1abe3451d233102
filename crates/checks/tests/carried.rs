//! What is carried and how: parts, contents, attitudes, held loads. Numbers beside a check are worked by hand from the text
//! of the lift.

mod said;

use plumbhook_checks::{RULES, example};
use plumbhook_sheet::{Aspect, InputValue, Lack, Stage, Verdict};
use said::{lacks, near, of};

const MASS: &str = "mass       14.0 t +/- 5 %           from drawing";
const HELD: &str = "held-by    nothing ";
const INSIDE: &str = "inside     nothing ";
const TILT: &str = "  tilt       at most 3 deg\n";
const G: f64 = 9.806_65;

/// A 14.0 t load at 5 % is 14.7 t at its heavy end.
const HEAVY: f64 = 14_700.0;

fn demand(aspect: &Aspect) -> Option<f64> {
    aspect.sheet.demand.map(|amount| amount.si)
}

#[test]
fn nobody_saying_what_is_inside_is_asked_by_issue_and_never_passes_there() {
    let said = of(
        "mass-known",
        "cover",
        &[(
            "  inside     nothing                  from walk-2\n",
            String::new(),
        )],
    );
    assert_eq!(
        lacks(&said),
        [(
            "what is inside cover".to_owned(),
            Lack::Absent,
            Stage::Issue
        )]
    );
}

#[test]
fn contents_count_line_by_line_and_widen_the_centre_of_gravity() {
    let water = [(INSIDE, "inside     water 0 .. 300 kg ".to_owned())];
    let hook = of("hook-capacity", "bridge", &water);
    let line = hook.sums.join(" ");
    assert!(
        line.contains("cover 14.7 t + water inside cover 300 kg + 6 bow-12"),
        "{line}"
    );
    // 300 kg anywhere in a disc of radius 1.20 m beside 13.3 t with its own at 40 mm: the lever.
    let wide = (13_300.0 * 0.040 + 300.0 * 1.20) / 13_600.0;
    let cg = of("cg-known", "cover", &water);
    let x = cg
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "cg x of cover with all that is on it and in it");
    let Some(InputValue::Band { lo, hi }) = x.map(|input| &input.value) else {
        panic!("{:?}", cg.sheet.inputs);
    };
    near(hi.map(|hi| hi.si), wide, 1e-9);
    near(lo.map(|lo| lo.si), -wide, 1e-9);
}

#[test]
fn contents_that_nobody_knows_leave_the_heavy_end_and_the_centre_unknown_and_convict_still() {
    let unknown = [(INSIDE, "inside     water unknown ".to_owned())];
    for (code, subject) in [
        ("mass-known", "cover"),
        ("cg-known", "cover"),
        ("hook-capacity", "bridge"),
        ("sling-rating", "rope-32-long-5"),
        ("ring-rating", "ring-2"),
    ] {
        let said = of(code, subject, &unknown);
        assert!(
            matches!(said.verdict, Verdict::CannotTell(_)),
            "{code}: {}",
            said.headline
        );
    }
    // 13.3 t at the least is over 12 t whatever is inside.
    let over = [
        unknown[0].clone(),
        ("rated      30 t ", "rated      12 t ".to_owned()),
    ];
    assert_eq!(of("hook-capacity", "bridge", &over).verdict, Verdict::Over);
}

#[test]
fn contents_in_a_load_without_a_shape_may_be_anywhere() {
    let change = [
        (INSIDE, "inside     water 0 .. 300 kg ".to_owned()),
        (
            "  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n",
            String::new(),
        ),
    ];
    let found = lacks(&of("cg-known", "cover", &change));
    assert!(
        found[0].0.contains("it may be anywhere in cover"),
        "{found:?}"
    );
}

const PART: &str = "part       lid mass 1.0 t +/- 10 %, cg x 0 +/- 20 mm, y 0 +/- 20 mm, z 1.0 m +/- 20 mm  from drawing";

#[test]
fn a_part_is_on_until_the_move_says_without() {
    let part = (MASS, format!("{MASS}\n  {PART}"));
    let on = of("hook-capacity", "bridge", std::slice::from_ref(&part));
    assert!(
        on.sums.join(" ").contains("lid of cover 1.1 t"),
        "{:?}",
        on.sums
    );
    let bare = of("hook-capacity", "bridge", &[]);
    near(
        demand(&on),
        demand(&bare).unwrap_or_default() + 1_100.0 * G,
        1e-6,
    );
    let off = [part.clone(), (TILT, format!("  without    lid\n{TILT}"))];
    let off = of("hook-capacity", "bridge", &off);
    near(demand(&off), demand(&bare).unwrap_or_default(), 1e-9);
    for line in ["without    lod", "without    unknown", "with       lod"] {
        let wrong = [part.clone(), (TILT, format!("  {line}\n{TILT}"))];
        let said = of("hook-capacity", "bridge", &wrong);
        assert!(
            matches!(said.verdict, Verdict::CannotTell(_)),
            "{line}: {}",
            said.headline
        );
    }
    let both = [
        part,
        (TILT, format!("  without    lid\n  with       lid\n{TILT}")),
    ];
    let said = of("hook-capacity", "bridge", &both);
    assert!(lacks(&said)[0].0.contains("`with` and `without`"));
}

#[test]
fn a_part_that_does_not_say_where_it_is_leaves_the_centre_unknown() {
    for part in [
        "part lid mass 1.0 t +/- 10 %",
        "part lid mass 1.0 t +/- 10 %, cg unknown",
        "part lid unknown",
    ] {
        let change = [(MASS, format!("{MASS}\n  {part}"))];
        let said = of("cg-known", "cover", &change);
        assert!(
            matches!(said.verdict, Verdict::CannotTell(_)),
            "{part}: {}",
            said.headline
        );
    }
}

/// The clean lift with a box of unequal sides and unequal tolerances, written in its frame as installed, and in one
/// whose y axis is up and whose z axis points along the plant's x.
fn two_frames(attitude: &str) -> [Vec<(&'static str, String)>; 2] {
    const CG: &str = "x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm";
    const SHAPE: &str = "disc, outside 2.40 m, z 0 .. 1.10 m";
    const POINTS: &str = "A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise";
    const CARRIES: &str = "carries    cover\n";
    const PLANE: &str = "plane      radial";
    const SIDE: &str = "rated-side at most 5 deg";
    let plain = vec![
        (
            CG,
            "x 30 mm +/- 40 mm, y -10 mm +/- 20 mm, z 0.50 m +/- 30 mm".to_owned(),
        ),
        (
            SHAPE,
            "box, x -1.20 m .. 1.30 m, y -1.10 m .. 1.00 m, z -0.10 m .. 1.10 m".to_owned(),
        ),
        (
            POINTS,
            "A (0.95 m, 0, 1.00 m), B (-0.50 m, 0.80 m, 1.00 m), C (-0.50 m, -0.85 m, 1.00 m)"
                .to_owned(),
        ),
        (PLANE, "plane      x-z".to_owned()),
        (SIDE, "rated-side at most 15 deg".to_owned()),
    ];
    let turned = vec![
        (
            CG,
            "x -10 mm +/- 20 mm, y 0.50 m +/- 30 mm, z 30 mm +/- 40 mm".to_owned(),
        ),
        (
            SHAPE,
            "box, x -1.10 m .. 1.00 m, y -0.10 m .. 1.10 m, z -1.20 m .. 1.30 m".to_owned(),
        ),
        (
            POINTS,
            format!(
                "A (0, 1.00 m, 0.95 m), B (0.80 m, 1.00 m, -0.50 m), C (-0.85 m, 1.00 m, -0.50 m)\n  attitude   on-edge {attitude}"
            ),
        ),
        (CARRIES, "carries    cover attitude on-edge\n".to_owned()),
        (PLANE, "plane      y-z".to_owned()),
        (SIDE, "rated-side at most 15 deg".to_owned()),
    ];
    [plain, turned]
}

fn answers(change: &[(&str, String)]) -> Vec<(String, String, Option<f64>)> {
    let change: Vec<(&str, &str)> = change.iter().map(|(a, b)| (*a, b.as_str())).collect();
    let files = example::files(&change).unwrap_or_else(|why| panic!("{why}"));
    let case = example::case_of(&files).unwrap_or_else(|why| panic!("{why}"));
    let mut all = Vec::new();
    for rule in RULES.iter().filter(|rule| rule.code != "cg-known") {
        for aspect in (rule.check)(&case) {
            let word = aspect.verdict.word();
            all.push((
                format!("{} {}", rule.code, aspect.subject),
                word.to_owned(),
                demand(&aspect),
            ));
        }
    }
    all
}

#[test]
fn a_load_in_an_attitude_answers_as_the_same_body_in_its_frame_as_installed() {
    // The same body described in two frames: nothing of the answer may move. Free directions and an angle from the
    // plant's +x say the same turn in other words.
    for attitude in [
        "up +y, +z toward plant +x",
        "up +y, +x toward plant +y",
        "up (0, 2, 0), (0, 0, 3) toward plant 0 deg",
        "up +y, -x toward plant 270 deg",
    ] {
        let [plain, turned] = two_frames(attitude);
        for (a, b) in answers(&plain).iter().zip(answers(&turned)) {
            assert_eq!((&a.0, &a.1), (&b.0, &b.1), "{attitude}");
            if let (Some(a), Some(b)) = (a.2, b.2) {
                assert!((a - b).abs() <= 1e-6 * a.abs(), "{attitude}: {a} {b}");
            } else {
                assert_eq!(a.2.is_some(), b.2.is_some());
            }
        }
    }
}

#[test]
fn an_attitude_that_is_no_turn_or_is_not_declared_leaves_the_pose_unknown() {
    let [_, undeclared] = two_frames("up +y, +z toward plant +x");
    let undeclared: Vec<_> = undeclared
        .into_iter()
        .map(|(from, to)| (from, to.replace("attitude on-edge\n", "attitude upside\n")))
        .collect();
    let said = of("tilt", "cover", &undeclared);
    let found = lacks(&said);
    assert_eq!(found[0].1, Lack::NotFound, "{found:?}");
    assert!(
        said.mends.join(" ").contains("its attitudes are on-edge"),
        "{:?}",
        said.mends
    );
    for attitude in [
        "up +y, +y toward plant +x",
        "up +y, (0, 1, 1) toward plant +x",
        "up +y",
        "up +y, +z toward plant +z",
        "up (0, 0, 0), +z toward plant +x",
        "unknown",
    ] {
        let [_, wrong] = two_frames(attitude);
        let said = of("tilt", "cover", &wrong);
        assert!(
            matches!(said.verdict, Verdict::CannotTell(_)),
            "{attitude}: {}",
            said.headline
        );
    }
}

#[test]
fn a_held_load_is_judged_by_its_limit_in_every_link_and_without_one_by_nothing() {
    let held = (HELD, "held-by    bolts 24, seal, free-at H1 ".to_owned());
    let links = [
        ("sling-rating", "rope-32-long-5"),
        ("shackle-rating", "bow-12"),
        ("ring-rating", "ring-2"),
        ("hook-capacity", "bridge"),
    ];
    for (code, subject) in links {
        let said = of(code, subject, std::slice::from_ref(&held));
        let found = lacks(&said);
        assert!(
            found
                .iter()
                .any(|lack| lack.0 == "limit of the pull while cover is held"),
            "{code}"
        );
    }
    let limit = |tonnes: u32| {
        let line = format!("  limit      {tonnes} t                     from cell\n{TILT}");
        [held.clone(), (TILT, line)]
    };
    // The ring and the crane take the whole pull.
    for (code, subject) in [("ring-rating", "ring-2"), ("hook-capacity", "bridge")] {
        let said = of(code, subject, &limit(24));
        near(demand(&said), 24_000.0 * G, 1e-6);
        assert_eq!(said.sheet.state, "while held", "{code}");
        assert_eq!(
            of(code, subject, &limit(31)).verdict,
            Verdict::Over,
            "{code}"
        );
    }
    // Rated 30 t, its block counted in that: 30 t are carried, the ropes, shackles and ring above a cell at the load not.
    let near_it = of("hook-capacity", "bridge", &limit(30));
    let what = "whether the limit of the pull counts";
    let found = lacks(&near_it);
    assert!(
        found.iter().any(|lack| lack.0.starts_with(what)),
        "{found:?}"
    );
    // A leg takes of the pull the share that it takes of the weight. Free, it carries 1.10 (T + 40 kg) with its sling
    // of 27 kg and two shackles of 6.4 kg, each 5 % heavy.
    let free = demand(&of("sling-rating", "rope-32-long-5", &[])).unwrap_or_default();
    let own = (27.0 + 2.0 * 6.4) * 1.05 * G;
    let tension = free / 1.10 - own;
    let share = tension / (HEAVY * G);
    let said = of("sling-rating", "rope-32-long-5", &limit(24));
    near(demand(&said), share * 24_000.0 * G, 1.0);
    // A limit below what hangs moves no demand: the load hangs in the end.
    let low = of("sling-rating", "rope-32-long-5", &limit(10));
    near(demand(&low), free, 1e-6);
}

#[test]
fn held_and_free_in_one_move_is_no_answer() {
    let both = [(TILT, format!("  held\n  free\n{TILT}"))];
    let found = lacks(&of("breaking-free", "cover", &both));
    assert!(
        found.iter().any(|lack| lack.1 == Lack::NoAnswer),
        "{found:?}"
    );
    let unknown = [(TILT, format!("  free       unknown\n{TILT}"))];
    let found = lacks(&of("hook-capacity", "bridge", &unknown));
    assert!(
        found.iter().any(|lack| lack.0 == "whether cover is held"),
        "{found:?}"
    );
    let free = [
        (HELD, "held-by    bolts 24 ".to_owned()),
        (TILT, format!("  free\n{TILT}")),
    ];
    let said = of("breaking-free", "cover", &free);
    assert!(
        matches!(said.verdict, Verdict::DoesNotApply(_)),
        "{}",
        said.headline
    );
}
