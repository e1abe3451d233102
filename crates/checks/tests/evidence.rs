//! What is known and how well: claims and what adopts them, quotations, weighings.

mod said;

use plumbhook_sheet::{Aspect, InputValue, Lack, Stage, Verdict};
use said::{lacks, near, of};

const MASS: &str = "mass       14.0 t +/- 5 %           from drawing";
const G: f64 = 9.806_65;

fn mass(lines: &str) -> [(&'static str, String); 1] {
    [(MASS, lines.to_owned())]
}

#[test]
fn a_claim_of_at_most_bounds_only_its_side_and_unites_with_another() {
    let both = of(
        "mass-known",
        "cover",
        &mass("mass       14.0 t +/- 5 %  from drawing\n  mass       at most 16 t  from stated"),
    );
    assert_eq!(both.verdict, Verdict::Within, "{}", both.headline);
    assert!(both.headline.contains("13.3 .. 16"), "{}", both.headline);
}

#[test]
fn an_adopted_claim_drops_the_others_and_the_sheet_says_who_and_why() {
    let adopted = of(
        "mass-known",
        "cover",
        &mass(
            "mass       14.0 t +/- 5 %  from drawing\n  mass       at most 20 t  from stated\n  adopt      mass from drawing by role \"lead engineer\" on 2026-10-02 because \"the owner guessed\"",
        ),
    );
    assert_eq!(adopted.verdict, Verdict::Within, "{}", adopted.headline);
    assert!(
        adopted.headline.contains("13.3 .. 14.7 t"),
        "{}",
        adopted.headline
    );
    let dropped = adopted
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "mass of cover, dropped: stated");
    assert!(
        adopted.headline.ends_with("from drawing"),
        "{}",
        adopted.headline
    );
    let Some(InputValue::Words(words)) = dropped.map(|input| &input.value) else {
        panic!("{:?}", adopted.sheet.inputs);
    };
    assert_eq!(
        words,
        "drawing adopted by lead engineer on 2026-10-02: the owner guessed"
    );
}

#[test]
fn no_adoption_drops_a_weighing() {
    let adopted = of(
        "mass-known",
        "cover",
        &mass(
            "mass       14.0 t +/- 5 %  from drawing\n  mass       18.0 t +/- 1 %  from weighed on 2026-09-30 with \"load cell\"\n  adopt      mass from drawing by role \"lead engineer\" because \"we like it better\"",
        ),
    );
    assert!(adopted.headline.contains("18.18 t"), "{}", adopted.headline);
}

#[test]
fn an_adoption_without_a_reason_adopts_nothing() {
    for adopt in [
        "adopt mass from drawing by role \"lead engineer\"",
        "adopt mass from drawing because \"so\"",
        "adopt mass from manual by role \"lead engineer\" because \"no claim comes from it\"",
        "adopt mass unknown",
    ] {
        let lines = format!(
            "mass       14.0 t +/- 5 %  from drawing\n  mass       at most 20 t  from stated\n  {adopt}"
        );
        let said = of("mass-known", "cover", &mass(&lines));
        assert!(
            said.headline.contains("13.3 .. 20.0 t"),
            "{adopt}: {}",
            said.headline
        );
    }
}

#[test]
fn a_broken_claim_is_not_dropped() {
    let lines = "mass       14.0 t +/- 5 %  from drawing\n  mass       2O t  from stated\n  adopt      mass from drawing by role \"lead engineer\" because \"so\"";
    let said = of("mass-known", "cover", &mass(lines));
    assert_eq!(lacks(&said)[0].1, Lack::Broken);
}

#[test]
fn a_quotation_without_a_value_lists_its_readings_in_both_orders() {
    // A short ton is 907.18474 kg, a long ton 1016.0469088 kg: NIST Handbook 44, Appendix C, "Units of Mass".
    for line in [
        "mass       unknown, quote \"62 tons\"  from stated",
        "mass       unknown  from stated quote \"62 tons\"",
        "mass       from stated quote \"62 tons\"",
    ] {
        let said = of("mass-known", "cover", &mass(line));
        let what = "mass of cover".to_owned();
        assert_eq!(
            lacks(&said)[0],
            (what, Lack::Unknown, Stage::FirstLook),
            "{line}"
        );
        let mend = said.mends.join("; ");
        for reading in [
            "56,245 kg (short)",
            "62,000 kg (metric)",
            "62,995 kg (long)",
        ] {
            assert!(mend.contains(reading), "{line}: {mend}");
        }
    }
}

#[test]
fn a_quotation_beside_a_claim_keeps_the_mass_unknown_until_it_is_adopted_away() {
    let two = "mass       14.0 t +/- 5 %  from drawing\n  mass       unknown, quote \"15 tons\"  from stated";
    let open = of("mass-known", "cover", &mass(two));
    assert_eq!(lacks(&open)[0].1, Lack::Unknown);
    let adopt = format!(
        "{two}\n  adopt      mass from drawing by role \"lead engineer\" because \"the mail rounds\""
    );
    let settled = of("mass-known", "cover", &mass(&adopt));
    assert_eq!(settled.verdict, Verdict::Within, "{}", settled.headline);
}

#[test]
fn a_quotation_is_read_once_its_line_says_how() {
    let rated = |line: &'static str| {
        of(
            "shackle-rating",
            "bow-12",
            &[(
                "rated      12 t                     from tag quote \"WLL 12T\" read-as metric because \"maker's sheet 2021\"",
                line.to_owned(),
            )],
        )
    };
    let capacity = |aspect: &Aspect| aspect.sheet.capacity.map(|capacity| capacity.si / G);
    let metric = rated("rated  from tag quote \"WLL 12T\" read-as metric because \"sheet\"");
    near(capacity(&metric), 12_000.0, 1e-6);
    assert_eq!(metric.verdict, Verdict::Within, "{}", metric.headline);
    // Twelve short tons: 12 x 907.18474 kg.
    let short = rated("rated  from tag quote \"WLL 12T\" read-as short because \"sheet\"");
    near(capacity(&short), 10_886.216_88, 1e-6);
    // A typed `unknown` stays unknown, a quotation of two numbers or of none gives no value.
    for line in [
        "rated  unknown  from tag quote \"WLL 12T\" read-as metric because \"sheet\"",
        "rated  from tag quote \"12 or 15 T\" read-as metric because \"sheet\"",
        "rated  from tag quote \"twelve tons\" read-as metric because \"sheet\"",
        "rated  from tag quote \"12 m\" read-as metric because \"sheet\"",
        "rated  from tag quote \"WLL 12T\"",
        "rated  from tag quote \"WLL 12T\" read-as metric",
        "rated  from tag quote \"WLL 12T\" read-as imperial because \"sheet\"",
    ] {
        let said = rated(line);
        assert!(
            matches!(said.verdict, Verdict::CannotTell(_)),
            "{line}: {}",
            said.headline
        );
    }
}

#[test]
fn a_weighing_says_its_day_and_its_instrument_by_the_time_the_job_is_issued() {
    let bare = of(
        "mass-known",
        "cover",
        &mass("mass       14.0 t +/- 5 %  from weighed"),
    );
    let found = lacks(&bare);
    assert_eq!(found[0].2, Stage::Issue, "{found:?}");
    let full = "mass       14.0 t +/- 5 %  from weighed on 2026-09-30 with \"load cell 3\"";
    assert_eq!(
        of("mass-known", "cover", &mass(full)).verdict,
        Verdict::Within
    );
}

#[test]
fn an_accuracy_that_nobody_knows_is_missing_and_no_smaller_one_is_taken() {
    let job = "rigging chains-of-three";
    for accuracy in ["unknown", "3 t", "3 % ?"] {
        let source = format!("source d-31 drawing 2019\n  mass-accuracy {accuracy}\n\n{job}");
        let files = plumbhook_checks::example::files(&[
            (MASS, "mass       14.0 t   from d-31"),
            (job, &source),
        ]);
        let settings = plumbhook_model::Settings {
            mass_allowance: vec![("drawing".into(), 0.01)],
            ..Default::default()
        };
        let found = lacks(&of_settings(
            "mass-known",
            &files.unwrap_or_else(|why| panic!("{why}")),
            settings,
        ));
        assert!(
            found
                .iter()
                .any(|(what, ..)| what == "accuracy of mass of cover"),
            "{accuracy}: {found:?}"
        );
    }
}

/// What a rule says first of a case with these settings.
fn of_settings(
    code: &str,
    files: &[(&'static str, String)],
    settings: plumbhook_model::Settings,
) -> Aspect {
    let scope = plumbhook_checks::example::scope_of(files);
    let entries = || scope.layers.iter().flat_map(|layer| layer.entries());
    let first = |word: &str| entries().find(|entry| &*entry.key.word == word).cloned();
    let (Some(job), Some(movement)) = (first("job"), first("move")) else {
        panic!("no job with a move");
    };
    let shared = plumbhook_model::Shared::new(&scope, settings);
    let case = plumbhook_model::Case::build(&scope, &shared, &job, &movement).0;
    let rule = plumbhook_checks::rule(code).unwrap_or_else(|| panic!("no rule {code}"));
    (rule.check)(&case).remove(0)
}

#[test]
fn a_claim_of_which_nobody_knows_whether_it_was_weighed_is_not_dropped() {
    let drop = |from: &str, more: &str| {
        let lines = format!(
            "mass       14.0 t +/- 5 %  from drawing\n  mass       18.0 t +/- 1 %  from {from}\n  adopt      mass from drawing by role \"lead engineer\" because \"so\""
        );
        let change = [
            mass(&lines)[0].clone(),
            (
                "rigging chains-of-three",
                format!("{more}rigging chains-of-three"),
            ),
        ];
        let said = of("mass-known", "cover", &change);
        let mut inputs = said.sheet.inputs.iter();
        inputs.any(|input| input.what == format!("mass of cover, dropped: {from}"))
    };
    for (from, more) in [
        ("slip-4", ""),
        ("slip-4", "source slip-4\n\n"),
        (
            "slip-4",
            "source slip-4 weighed 2026\n\nsource slip-4 drawing 2019\n\n",
        ),
        ("slip-4", "source slip-4 weighed 2026\n\n"),
    ] {
        assert!(!drop(from, more), "{more}");
    }
    assert!(drop("slip-4", "source slip-4 drawing 2019\n\n"));
}
