//! What a sling is rated at: by its tag, by a published table where the yard says so, in a choker, in a basket.

mod said;

use plumbhook_sheet::{Aspect, InputValue, Stage, Step, Verdict};
use said::{near, of};

const KIND: &str = "kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical";
const TAG: &str = "rated      vertical 10.0 t          from tag quote \"V 10.0 t\"";
const CHAIN_16: &str = "kind       chain, grade 80, diameter 16 mm  from measured";

/// One pound-force in newtons, exact by the 1959 pound and standard gravity (NIST SP 811, Appendix B).
const LBF: f64 = 4.448_221_615_260_5;

fn sling(changes: &[(&'static str, &str)]) -> Aspect {
    let changes: Vec<_> = changes
        .iter()
        .map(|(from, to)| (*from, (*to).to_owned()))
        .collect();
    of("sling-rating", "rope-32-long-5", &changes)
}

fn by_table(kind: &str) -> Aspect {
    sling(&[(KIND, kind), (TAG, "rated-by   table")])
}

/// What it is rated at, in pounds.
fn pounds(aspect: &Aspect) -> Option<f64> {
    aspect.sheet.capacity.map(|capacity| capacity.si / LBF)
}

fn is_missing(aspect: &Aspect, what: &str) -> bool {
    match &aspect.verdict {
        Verdict::CannotTell(missing) => missing.iter().any(|missing| missing.what.contains(what)),
        _ => false,
    }
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
fn a_rule_set_without_a_table_rates_nothing() {
    for rules in ["en", "us, en"] {
        let rules = format!("rules      {rules}");
        let aspect = sling(&[
            (KIND, CHAIN_16),
            (TAG, "rated-by   table"),
            ("rules      us", &rules),
        ]);
        let found = is_missing(
            &aspect,
            "a table of slings of the rule set `en`: none is kept here",
        );
        assert!(found, "{}", aspect.headline);
    }
    let nobody = sling(&[
        (
            KIND,
            "kind       chain, grade 80, diameter 10 mm  from measured",
        ),
        (TAG, "rated-by   table"),
        ("rules      us", ""),
    ]);
    assert!(
        matches!(nobody.verdict, Verdict::CannotTell(_)),
        "{}",
        nobody.headline
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
