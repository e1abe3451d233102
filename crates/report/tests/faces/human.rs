//! The terminal at 100 columns, read by a person before each snapshot was accepted.

use crate::lift::Lift;
use plumbhook_model::notices::OUR_BUG;
use plumbhook_report::human::{Screen, is_whole, render};
use plumbhook_sheet::Notice;

const PLAIN: Screen = Screen {
    width: 100,
    colour: false,
};

/// Those whose screens are kept here.
const RULES: &[&str] = &[
    "mass-known",
    "cg-known",
    "sling-rating",
    "shackle-rating",
    "ring-rating",
    "hook-capacity",
    "support-verified",
];

#[test]
fn a_sling_too_weak_is_said_with_its_sum() {
    let lift =
        Lift::changed(&[("rated      vertical 10.0 t", "rated      vertical 5.0 t")]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn an_unknown_centre_of_gravity_is_one_message_with_what_it_blocks() {
    let lift = Lift::changed(&[("cg         x 0 +/- 40 mm", "cg         x unknown")]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn a_clean_lift_is_two_lines() {
    let lift = Lift::changed(&[]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn a_line_that_cannot_be_read_comes_before_what_it_makes_unknown() {
    let lift =
        Lift::changed(&[("mass       14.0 t +/- 5 %", "mass       14,0 tonns 5 %")]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn what_the_stage_does_not_ask_for_yet_is_counted_and_listed() {
    let line = "verified   by role \"owner's engineer\" on 2026-09-01, covers pad 380 kPa";
    let lift =
        Lift::changed(&[(line, "verified   no"), ("stage bid", "stage first-look")]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

/// The clean lift, and beside it the same job under other names.
fn three_jobs(change: &[(&str, &str)]) -> Lift {
    let mut files = Lift::files(change);
    let clean = Lift::files(&[]);
    let (_, job) = clean
        .iter()
        .find(|(name, _)| *name == "cover.pick")
        .unwrap();
    for name in ["pump", "motor"] {
        let file = if name == "pump" {
            "pump.pick"
        } else {
            "motor.pick"
        };
        files.push((file, job.replace("job cover", &format!("job {name}"))));
    }
    Lift::of(&files)
}

#[test]
fn many_clean_jobs_are_one_line() {
    let lift = three_jobs(&[]).only(RULES);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn among_several_jobs_each_finding_says_which() {
    let lift = three_jobs(&[("mass       14.0 t", "mass       25.0 t")]);
    let said = render(&lift.checked, &lift.snapshot, PLAIN);
    let heads: Vec<&str> = said
        .lines()
        .filter(|line| line.starts_with("over  "))
        .collect();
    assert!(!heads.is_empty(), "{said}");
    assert!(
        heads.iter().all(|head| head.contains("  cover M1  ")),
        "{heads:#?}"
    );
    let summary: Vec<&str> = said.lines().rev().take(4).collect();
    assert!(summary[3].starts_with("cover M1: "), "{said}");
    assert!(summary[2].starts_with("2 moves more: "), "{said}");
}

#[test]
fn worst_comes_first() {
    let lift = Lift::changed(&[
        ("rated      25 t ", "rated      12 t "),
        ("rated      vertical 10.0 t", "rated      vertical 6.0 t"),
        (
            "dynamic    1.10                     from practice-note",
            "dynamic    1.10",
        ),
    ]);
    let said = render(&lift.checked, &lift.snapshot, PLAIN);
    let shares: Vec<u32> = said
        .lines()
        .filter(|line| line.contains(" of ") && line.ends_with("%)"))
        .filter_map(|line| line.rsplit_once('(')?.1.strip_suffix(" %)")?.parse().ok())
        .collect();
    assert!(
        shares.len() > 1 && shares.is_sorted_by(|a, b| a >= b),
        "{said}"
    );
}

#[test]
fn a_narrow_screen_wraps_words_and_leaves_the_text_of_the_file_alone() {
    let lift = Lift::changed(&[("rated      25 t ", "rated      15 t ")]).only(RULES);
    let narrow = Screen {
        width: 60,
        colour: false,
    };
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, narrow));
}

#[test]
fn colour_adds_nothing_but_colour() {
    let lift = Lift::changed(&[("rated      25 t ", "rated      15 t ")]);
    let coloured = Screen {
        colour: true,
        ..PLAIN
    };
    let coloured = render(&lift.checked, &lift.snapshot, coloured);
    assert!(coloured.contains("\u{1b}["));
    // A sequence of select-graphic-rendition: ESC [ numbers m (ECMA-48, 8.3.117).
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once("\u{1b}[") {
        bare.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    bare.push_str(rest);
    assert_eq!(bare, render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn what_was_not_checked_shows_its_place_and_what_mends_it() {
    let lift = Lift::of(&[
        (
            "plumbhook.toml",
            "language = 1\n[stage]\nleast = \"issued\"\n".into(),
        ),
        ("a.pick", "job a\n".into()),
        ("b.pick", "job b\n".into()),
    ]);
    insta::assert_snapshot!(format!(
        "{}{}",
        plumbhook_report::human::not_checked(&lift.checked, &lift.snapshot, PLAIN),
        render(&lift.checked, &lift.snapshot, PLAIN)
    ));
}

#[test]
fn no_face_calls_a_lift_safe_or_approved() {
    for change in [&[][..], &[("rated      25 t ", "rated      15 t ")]] {
        let lift = Lift::changed(change);
        let mut said = render(&lift.checked, &lift.snapshot, PLAIN);
        let mut json = Vec::new();
        plumbhook_report::json::write(&lift.checked, &lift.snapshot, &mut json).unwrap();
        said.push_str(&String::from_utf8(json).unwrap());
        said.push_str(&plumbhook_report::explain::list(100));
        for word in ["approved", " is safe", "all safe", "OK"] {
            assert!(!said.contains(word), "`{word}` in: {said}");
        }
    }
}

#[test]
fn a_rule_that_failed_inside_the_tool_makes_the_check_not_whole() {
    let mut lift = Lift::changed(&[]);
    assert!(is_whole(&lift.checked));
    let mass = &lift.checked.cases[0].findings[0].aspect.primary;
    lift.checked.notices.push(Notice {
        code: &OUR_BUG,
        say: "the rule tilt failed on cover/M1".into(),
        origin: mass.clone(),
        related: vec![],
        mend: String::new(),
    });
    assert!(!is_whole(&lift.checked), "the exit code is 2 then");
    let said = render(&lift.checked, &lift.snapshot, PLAIN);
    assert!(said.contains("error  our-bug"), "{said}");
    assert!(said.contains("the rule tilt failed"), "{said}");
}
