//! What a sling is rated at: by its tag, by a published table where the yard says so, in a choker, in a basket.

mod said;
#[path = "said/sling.rs"]
mod sling_of;

use plumbhook_checks::example;
use plumbhook_model::tags_above_tables;
use plumbhook_sheet::{Aspect, InputValue, Stage, Step, Verdict};
use said::near;
use sling_of::*;

const CHAIN_16: &str = "kind       chain, grade 80, diameter 16 mm  from measured";

fn by_table(kind: &str) -> Aspect {
    sling(&[(KIND, kind), (TAG, "rated-by   table")])
}

fn methods(aspect: &Aspect) -> Vec<&str> {
    let steps = aspect.sheet.steps.iter();
    steps
        .filter_map(|step| match step {
            Step::Method(method) => Some(&*method.say),
            _ => None,
        })
        .collect()
}

// OSHA, Guidance on Safe Sling Use, Table 1: chain of grade 80, 5/8 in (16 mm), one leg 18,100 lb; 3/8 in (10 mm) 7,100 lb.
#[test]
fn a_chain_without_a_tag_is_rated_by_the_row_of_its_size_and_grade() {
    let within = by_table(CHAIN_16);
    assert_eq!(within.verdict, Verdict::Within, "{}", within.headline);
    near(pounds(&within), 18_100.0, 1e-6);
    let row = "OSHA, Guidance on Safe Sling Use, Table 1: row 5/8 in (16 mm), vertical";
    assert!(methods(&within).contains(&row), "{:?}", methods(&within));
    assert!(
        within
            .sheet
            .inputs
            .iter()
            .any(|input| input.pedigree == row)
    );
    assert!(
        within
            .sheet
            .basis
            .iter()
            .any(|basis| basis.section == "Table 1")
    );

    let in_inches = by_table("kind       chain, diameter 5/8 in, grade 80  from tag");
    near(pounds(&in_inches), 18_100.0, 1e-6);

    let over = by_table("kind       chain, grade 80, diameter 10 mm  from measured");
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
    near(pounds(&over), 7_100.0, 1e-6);
}

#[test]
fn a_table_says_nothing_between_its_rows_or_of_another_grade_or_kind() {
    for (kind, what, mend) in [
        (
            "kind       chain, grade 80, diameter 12 mm  from measured",
            "the table of chain of grade 80 has none of 12 mm",
            "the rows next to it are 3/8 in (10 mm) and 1/2 in (13 mm)",
        ),
        (
            "kind       chain, grade 43, diameter 16 mm  from measured",
            "of chain of grade 43 none is kept",
            "there are tables of grade 80 and 100",
        ),
        (
            "kind       chain, diameter 16 mm  from measured",
            "of chain without a grade none is kept",
            "there are tables of grade 80 and 100",
        ),
        (
            "kind       chain, grade 80  from measured",
            "diameter of rope-32-long-5",
            "say `, diameter …` in this line",
        ),
        (
            "kind       chain, grade 80, diameter 16 mm, shortened  from measured",
            "it says shortened",
            "the table knows chain of grade 80 and nothing else",
        ),
        (
            KIND,
            "of wire-rope none is kept",
            "tables are kept of chain",
        ),
        (
            "kind       unknown",
            "kind of rope-32-long-5",
            "in place of `unknown`",
        ),
        ("", "kind of rope-32-long-5", "add a line `kind …`"),
        (
            "kind       chain 16 mm, grade 80  from measured",
            "kind of rope-32-long-5",
            "mend the line `kind`",
        ),
    ] {
        let Verdict::CannotTell(missing) = by_table(kind).verdict else {
            panic!("{kind}");
        };
        let found = missing
            .iter()
            .any(|missing| missing.what.contains(what) && missing.mend.contains(mend));
        assert!(found, "{kind}: {missing:?}");
    }
}

#[test]
fn the_table_counts_only_where_the_yard_says_so_and_the_tag_gives_nothing() {
    // A tag lower than the table is not forgotten: it counts, and without its line nothing does.
    let tagged = sling(&[
        (KIND, CHAIN_16),
        (
            TAG,
            "rated      vertical 5.0 t  from tag\n  rated-by   table",
        ),
    ]);
    assert_eq!(tagged.verdict, Verdict::Over, "{}", tagged.headline);
    for tag in [
        "",
        "rated      unknown\n  rated-by   table",
        "rated      vertical ten  from tag\n  rated-by   table",
        "rated-by   tag",
        "rated-by   unknown",
    ] {
        let aspect = sling(&[(KIND, CHAIN_16), (TAG, tag)]);
        assert!(
            matches!(aspect.verdict, Verdict::CannotTell(_)),
            "{tag}: {}",
            aspect.headline
        );
    }
}

#[test]
fn a_kind_that_nobody_looked_at_does_not_acquit() {
    let aspect = by_table("kind       chain, grade 80, diameter 16 mm");
    let Verdict::CannotTell(missing) = &aspect.verdict else {
        panic!("{}", aspect.headline)
    };
    assert!(
        missing.iter().all(|missing| missing.due == Stage::Issue),
        "{missing:?}"
    );
    let said = by_table("kind       chain, grade 80, diameter 16 mm  from stated");
    assert!(
        matches!(said.verdict, Verdict::CannotTell(_)),
        "{}",
        said.headline
    );
    // It convicts all the same.
    let over = by_table("kind       chain, grade 80, diameter 10 mm");
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
}

#[test]
fn every_governing_rule_set_needs_a_table_of_its_own() {
    for rules in ["rules      en", "rules      us, en"] {
        let aspect = sling(&[
            (KIND, CHAIN_16),
            (TAG, "rated-by   table"),
            ("rules      us", rules),
        ]);
        let what = "of chain of grade 80 none is kept (rule set `en`)";
        assert!(is_missing(&aspect, what), "{}", aspect.headline);
    }
    let small = "kind       chain, grade 80, diameter 10 mm  from measured";
    let nobody = sling(&[
        (KIND, small),
        (TAG, "rated-by   table"),
        ("rules      us", ""),
    ]);
    assert!(
        is_missing(&nobody, "which published rule sets govern"),
        "{}",
        nobody.headline
    );
}

// EN 818-4 (as reproduced in a hardware catalogue), WLL table grade 8, p.148: chain of 16 mm, one leg 8 t. Second-hand.
#[test]
fn a_european_chain_of_grade_8_is_rated_under_the_european_rule_set() {
    let kind = "kind       chain, grade 8, diameter 16 mm  from measured";
    let aspect = sling(&[
        (KIND, kind),
        (TAG, "rated-by   table"),
        ("rules      us", "rules      en"),
    ]);
    near(
        aspect.sheet.capacity.map(|capacity| capacity.si / 9.806_65),
        8_000.0,
        1e-6,
    );
    assert!(is_missing(
        &by_table(kind),
        "of chain of grade 8 none is kept (rule set `us`)"
    ));
}

// OSHA, Guidance on Safe Sling Use, Tables 1 and 2: the flattest column is 30 deg from horizontal.
#[test]
fn a_table_rates_no_leg_flatter_than_its_last_column() {
    let flat = ("ring radius 0.95 m", "ring radius 4.70 m");
    let kind = "kind       chain, grade 80, diameter 32 mm  from measured";
    let aspect = sling(&[(KIND, kind), (TAG, "rated-by   table"), flat]);
    assert!(
        is_missing(&aspect, "a rating of rope-32-long-5 for a leg as flat as"),
        "{}",
        aspect.headline
    );
}

// OSHA, Guidance on Safe Sling Use, Table 1: chain of grade 80, 5/8 in (16 mm), one leg 18,100 lb, that is 8.2 t.
#[test]
fn a_tag_that_says_more_than_the_table_is_a_notice_and_counts() {
    let notices = |kind: &str, tag: &str| {
        let files = example::files(&[(KIND, kind), (TAG, tag)]).unwrap();
        tags_above_tables(&example::case_of(&files).unwrap())
    };
    let found = notices(CHAIN_16, "rated      vertical 10.0 t  from tag");
    let [notice] = &found[..] else {
        panic!("{found:?}")
    };
    assert_eq!(notice.code.code, "tag-above-table");
    assert!(
        notice.say.contains("the tag rates it 10 t")
            && notice.say.contains("8.21 t")
            && notice.say.contains("row 5/8 in (16 mm)"),
        "{}",
        notice.say
    );
    assert_eq!(notices(CHAIN_16, "rated      vertical 8.2 t  from tag"), []);
    assert_eq!(notices(KIND, TAG), [], "there is no table of wire rope");
    let tagged = sling(&[(KIND, CHAIN_16)]);
    near(
        tagged.sheet.capacity.map(|capacity| capacity.si / 9.806_65),
        10_000.0,
        1e-6,
    );
}

#[test]
fn what_is_said_of_the_kind_stands_on_the_sheet() {
    let aspect = by_table(CHAIN_16);
    let kind = aspect
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "kind of rope-32-long-5");
    let words = InputValue::Words("chain, grade 80, diameter 16 mm".into());
    assert_eq!(kind.map(|input| &input.value), Some(&words));
}
