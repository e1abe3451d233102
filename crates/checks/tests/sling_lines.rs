//! Slings by a table, in a choker and in a basket: no line can be missing, unknown or broken and leave them within, and nothing
//! pushed the way that hurts makes them safer.

#[allow(dead_code, reason = "the tests of every rule use more of it")]
mod lines;
mod said;

use lines::lines;
use plumbhook_checks::{example, rule};
use plumbhook_sheet::{Aspect, Verdict};
use said::of;

type Change = (&'static str, &'static str);

const KIND: &str = "kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical";
const TAG: &str = "rated      vertical 10.0 t          from tag quote \"V 10.0 t\"";
const LEGS: &str = "legs       A B C to ring-2, through bow-12, rope-32-long-5, bow-12";
const POINTS: &str = "points     A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise";

/// Each with its changes of the clean lift.
const LIFTS: [&[Change]; 3] = [
    &[
        (
            KIND,
            "kind       chain, grade 80, diameter 16 mm  from measured",
        ),
        (TAG, "rated-by   table"),
    ],
    &[
        (
            LEGS,
            "legs       A B C to ring-2, through rope-32-long-5 choker reach 4.80 m +/- 20 mm choke 125 deg +/- 3 deg, bow-12",
        ),
        (TAG, "rated      choker 8.0 t  from tag"),
    ],
    &[
        (
            LEGS,
            "legs       A D to ring-2, through rope-32-long-5 basket reach 3.00 m +/- 15 mm over 900 mm +/- 20 mm fast\n  legs       B C to ring-2, through rope-32-long-5 basket reach 3.00 m +/- 15 mm over 900 mm +/- 20 mm fast",
        ),
        (
            POINTS,
            "points     A B C D rectangle x 1.40 m, y 1.40 m, z 1.00 m, first +x+y, anticlockwise",
        ),
        (
            TAG,
            "rated      basket 20.0 t  from tag\n  bends-over 800 mm  from tag",
        ),
    ],
];

fn said_of(files: &lines::Files) -> Vec<Aspect> {
    let case = example::case_of(files).unwrap_or_else(|why| panic!("{why}"));
    rule("sling-rating").map_or_else(Vec::new, |rule| (rule.check)(&case))
}

fn inputs(aspect: &Aspect) -> Vec<(String, String)> {
    let inputs = aspect.sheet.inputs.iter();
    inputs
        .map(|input| {
            (
                input.what.clone(),
                format!("{:?} {}", input.value, input.pedigree),
            )
        })
        .collect()
}

#[test]
fn no_line_that_a_hitched_sling_needs_can_be_missing_unknown_or_broken() {
    for change in LIFTS {
        let files = example::files(change).unwrap();
        let before = said_of(&files);
        assert_eq!(before[0].verdict, Verdict::Within, "{}", before[0].headline);
        let mut stopped = 0;
        for line in lines(&files) {
            for (how, text) in line.changes() {
                let after = said_of(&line.put(&files, text.as_deref()));
                let unmoved = after.len() == 1
                    && after[0].verdict == before[0].verdict
                    && inputs(&after[0]) == inputs(&before[0]);
                let untold = after
                    .iter()
                    .all(|aspect| matches!(aspect.verdict, Verdict::CannotTell(_)));
                stopped += usize::from(untold);
                // A stiffness that nobody says is judged by the worst sharing; a row or a twin less is another lift.
                let meant = (how == "taken away" && (line.has_twin || line.is_row))
                    || (how != "broken" && line.key == "stiffness");
                assert!(
                    unmoved || untold || meant,
                    "`{}` {how}: {}",
                    line.text,
                    after[0].headline
                );
            }
        }
        assert!(stopped > 20, "{stopped} changes stopped it");
    }
}

#[test]
fn what_is_pushed_the_way_that_hurts_never_makes_it_safer() {
    let pushes: [&[Change]; 3] = [
        &[
            ("diameter 16 mm", "diameter 13 mm"),
            ("grade 80", "grade 8"),
            ("grade 80, diameter 16 mm", "grade 100, diameter 10 mm"),
        ],
        &[
            ("125 deg +/- 3 deg", "125 deg +/- 8 deg"),
            ("125 deg +/- 3 deg", "70 deg +/- 3 deg"),
            ("+/- 20 mm choke", "+/- 60 mm choke"),
            ("reach 4.80 m", "reach 3.80 m"),
            ("choker 8.0 t", "choker 7.0 t"),
        ],
        &[
            ("bends-over 800 mm", "bends-over 890 mm"),
            ("basket 20.0 t", "basket 18.0 t"),
        ],
    ];
    for (lift, pushes) in LIFTS.into_iter().zip(pushes) {
        let told = |push: Option<&Change>| {
            let changes: Vec<_> = lift
                .iter()
                .map(|(from, to)| {
                    (
                        *from,
                        push.map_or((*to).to_owned(), |(a, b)| to.replace(a, b)),
                    )
                })
                .collect();
            of("sling-rating", "rope-32-long-5", &changes)
        };
        let before = told(None);
        for push in pushes {
            let after = told(Some(push));
            let nearer = after.sheet.utilisation
                >= before.sheet.utilisation.map(|share| share * (1.0 - 1e-4));
            assert!(
                after.verdict != Verdict::Within || nearer,
                "{push:?}: {}",
                after.headline
            );
            assert!(after.sheet != before.sheet, "{push:?} changes nothing");
        }
    }
}
