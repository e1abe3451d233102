//! What is said where a load hangs from several hooks, as small texts: a tank by one machine at each end. Invented. That
//! of several hooks none carries the whole is statics.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

#[path = "said/by_two.rs"]
mod by_two;

use by_two::BY_TWO;
use plumbhook_checks::{example, rule};
use plumbhook_sheet::{Aspect, Verdict};

/// What a rule says, where the text of the two machines is changed further.
fn says(code: &str, change: &[(&str, &str)]) -> Vec<Aspect> {
    let mut files = example::SPREADER.files(BY_TWO).unwrap();
    for (from, to) in change {
        assert!(files.iter().any(|(_, text)| text.contains(from)), "{from}");
        for (_, text) in &mut files {
            *text = text.replace(from, to);
        }
    }
    (rule(code).unwrap().check)(&example::case_of(&files).unwrap())
}

fn of<'a>(all: &'a [Aspect], subject: &str) -> &'a Aspect {
    let subjects: Vec<_> = all.iter().map(|aspect| &aspect.subject).collect();
    let one = all.iter().find(|aspect| aspect.subject == subject);
    one.unwrap_or_else(|| panic!("it speaks of {subjects:?}"))
}

fn cannot_tell(aspect: &Aspect, what: &str) {
    let Verdict::CannotTell(missing) = &aspect.verdict else {
        panic!("{}: {}", aspect.verdict.word(), aspect.headline);
    };
    let lacks = missing.iter().any(|missing| missing.what.contains(what));
    assert!(lacks, "{missing:#?}");
}

const HELD: (&str, &str) = ("held-by    nothing", "held-by    bolts 24");
const LIMIT: (&str, &str) = (
    "  hooks-level at most",
    "  limit      12 t                     from cell\n  hooks-level at most",
);

#[test]
fn of_several_hooks_nobody_knows_which_the_limit_of_the_pull_is_of() {
    for (code, subject) in [
        ("hook-capacity", "second"),
        ("ring-rating", "ring-2 of tail"),
        ("sling-rating", "rope-32-long-4"),
        ("breaking-free", "tank"),
    ] {
        let all = says(code, &[HELD, LIMIT]);
        cannot_tell(of(&all, subject), "which of several hooks the limit");
    }
}

#[test]
fn a_window_for_one_of_several_hooks_is_not_held_against_the_whole() {
    let lines = "  hold       H1 at 50 mm cell 4 t .. 6 t\n  stop       cell above 6 t\n";
    let more = [("  hooks-level at", &*format!("{lines}  hooks-level at"))];
    let all = says("hold-window", &more);
    let what = "what the cell reads at the hook of each of several machines";
    cannot_tell(of(&all, "hold H1"), what);
    cannot_tell(of(&all, "stop of cell"), what);
}

#[test]
fn two_stops_of_a_kind_have_a_name_each() {
    let lines = "  stop       any leg above 6 t\n  stop       cell above 12 t\n  stop       any leg above 7 t\n";
    let more = [("  hooks-level at", &*format!("{lines}  hooks-level at"))];
    let all = says("hold-window", &more);
    let names: Vec<_> = all.iter().map(|aspect| &*aspect.subject).collect();
    assert_eq!(
        names,
        ["stop 1 of any leg", "stop of cell", "stop 3 of any leg"]
    );
}

#[test]
fn a_block_that_may_not_count_does_not_convict_one_of_several_machines() {
    // Each carries 4.9 t: with 0.3 t of block that is over the 5 t of the second, without it is not.
    let unsaid = [(
        "  rated      5 t                      from nameplate \"5 t\"\n  block      300 kg +/- 5 %\n  block-in-rating yes\n",
        "  rated      5 t                      from nameplate \"5 t\"\n  block      300 kg +/- 5 %\n",
    )];
    let all = says("hook-capacity", &unsaid);
    cannot_tell(of(&all, "second"), "allows for its hook block");
    let counted = [(
        "block      300 kg +/- 5 %\n  block-in-rating yes",
        "block      300 kg +/- 5 %\n  block-in-rating no",
    )];
    let all = says("hook-capacity", &counted);
    let second = of(&all, "second");
    assert_eq!(second.verdict, Verdict::Over, "{}", second.headline);
}

#[test]
fn a_top_of_the_same_name_in_two_riggings_is_two_legs() {
    // The centre of gravity is 0.5 m toward the tail of 4 m: 9.45 t (2 + 0.54) / 4 = 6.0 t hang there at the least, times
    // 1.10 more than 6 t; 3.5 t and what hangs below at the head.
    let two_bars = [
        (
            "legs       A to ring-2, through bow-12, rope-32-long-4, bow-12",
            "legs       A B to bar-4.ends, through rope-26-long-3\n  legs       bar-4.T to ring-2, through rope-32-long-4",
        ),
        (
            "legs       B to ring-2, through bow-12, rope-32-long-4, bow-12",
            "legs       C D to bar-4.ends, through rope-26-long-3\n  legs       bar-4.T to ring-2, through rope-32-long-4",
        ),
        ("kind         spreader", "kind         lifting-beam"),
        (
            "L (-2.00 m, 0, -0.15 m), R (2.00 m, 0, -0.15 m)",
            "L (0, -0.70 m, -0.15 m), R (0, 0.70 m, -0.15 m)",
        ),
        (
            "TL (-2.00 m, 0, 0.15 m), TR (2.00 m, 0, 0.15 m)",
            "T (0, 0, 0.15 m)",
        ),
        (
            "A (-2.00 m, 0, 1.60 m), B (2.00 m, 0, 1.60 m)",
            "A (-2.00 m, -0.70 m, 1.60 m), B (-2.00 m, 0.70 m, 1.60 m), C (2.00 m, -0.70 m, 1.60 m), D (2.00 m, 0.70 m, 1.60 m)",
        ),
        ("cg         x 0 +/-", "cg         x 0.50 m +/-"),
        ("rated      vertical 10.0 t", "rated      vertical 6.0 t"),
    ];
    let all = says("sling-rating", &two_bars);
    let rope = of(&all, "rope-32-long-4");
    assert_eq!(rope.verdict, Verdict::Over, "{}", rope.headline);
    assert!(
        rope.headline.contains("in leg bar-4.T of tail"),
        "{}",
        rope.headline
    );
}

#[test]
fn what_two_hooks_pull_at_one_lifting_point_together_is_not_told() {
    let lugs = [
        ("legs       B to ring-2", "legs       A B to ring-2"),
        (
            "  held-by    nothing\n",
            "  held-by    nothing\n  lug        eye-20 at A B\n\nlug eye-20\n  rated      20 t from drawing\n",
        ),
    ];
    let all = says("lifting-point", &lugs);
    let what = "the pull of several legs at A together";
    cannot_tell(of(&all, "eye-20"), what);
}

#[test]
fn a_mobile_crane_among_the_machines_does_not_speak_for_the_others() {
    let (_, second) = BY_TWO[2];
    let (second, _) = second.split_once("\n\n").unwrap();
    let mobile = [
        (second, "set-up second\n  at         (30.0 m, 5.0 m)"),
        (
            "by         bridge with head, second with tail",
            "by         second with tail, bridge with head",
        ),
    ];
    let all = says("hook-reach", &mobile);
    assert_eq!(of(&all, "hook of second").verdict.word(), "does not apply");
    // Its hook stands 2 m before the tank, well inside the reach from 2 m to 22 m; the other is none of its business.
    assert_ne!(of(&all, "bridge.main").verdict.word(), "does not apply");
}

#[test]
fn each_of_several_hooks_reaches_for_its_own_end() {
    // Geometry: the points are 2 m before and behind the middle of the tank and the hooks stand above them, so from
    // 8 m and 18 m they go from 6 m to 16 m and from 10 m to 20 m; both reach from 2 m to 22 m.
    let verdicts = |change: &[(&str, &str)]| {
        let all = says("hook-reach", change);
        ["bridge.main", "second.main"].map(|hook| {
            let aspect = of(&all, hook);
            (aspect.verdict.word(), aspect.headline.clone())
        })
    };
    let [(head, said), (tail, _)] = verdicts(&[]);
    assert_eq!([head, tail], ["within"; 2], "{said}");
    let [(head, _), (tail, said)] = verdicts(&[("| (18.0 m, 5.0 m) |", "| (20.5 m, 5.0 m) |")]);
    assert_eq!([head, tail], ["within", "over"], "{said}");
    assert!(
        said.contains("at station 2 the hook would have to be at x 22.5"),
        "{said}"
    );
    let [(head, said), (tail, _)] = verdicts(&[("| (8.0 m, 5.0 m)  |", "| (3.5 m, 5.0 m)  |")]);
    assert_eq!([head, tail], ["over", "within"], "{said}");
    assert!(
        said.contains("at station 1 the hook would have to be at x 1.4"),
        "{said}"
    );
    // Turned end for end, the other hook stands out.
    let turned = [
        ("| (18.0 m, 5.0 m) |", "| (20.5 m, 5.0 m) |"),
        ("heading    0 deg", "heading    180 deg"),
    ];
    let [(head, said), (tail, _)] = verdicts(&turned);
    assert_eq!([head, tail], ["over", "within"], "{said}");
}
