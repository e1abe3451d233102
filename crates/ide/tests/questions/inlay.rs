//! Results at the ends of lines: each is compared with the sheet of the finding that it comes from.

use crate::lift::Lift;
use plumbhook_ide::inlays;
use plumbhook_sheet::Finding;
use plumbhook_units::Printer;

fn at(lift: &Lift, marked: &str) -> Option<String> {
    let (path, line, _) = lift.at(marked);
    let found = inlays(&lift.snapshot, &lift.checked, &path, &(line..=line));
    found.into_iter().next().map(|it| it.text)
}

fn finding<'l>(lift: &'l Lift, rule: &str, subject: &str) -> &'l Finding {
    let mut all = lift.checked.cases.iter().flat_map(|case| &case.findings);
    all.find(|it| it.identity.rule == rule && it.aspect.subject == subject)
        .unwrap()
}

#[test]
fn a_mass_shows_the_band_that_was_used() {
    // 14.0 t +/- 5 % is 13.3 to 14.7 t by hand; in pounds by the exact 0.45359237 kg (units/src/table.rs).
    let shown = at(&Lift::new(&[]), "  mass  ^     14.0 t").unwrap();
    assert!(
        shown.starts_with("13.3 .. 14.7 t, 29,321 .. 32,408 lb"),
        "{shown}"
    );
}

#[test]
fn legs_show_the_worst_of_each_rule_with_its_share() {
    let lift = Lift::new(&[]);
    let shown = at(&lift, "  legs ^ ").unwrap();
    let share = finding(&lift, "sling-rating", "rope-32-long-5")
        .aspect
        .sheet
        .utilisation
        .unwrap();
    assert!(
        shown.contains(&format!("of 10 t ({})", Printer::utilisation(share))),
        "{shown}"
    );
    assert!(
        shown.contains("leg-angle") && shown.contains("deg, at least 30.0 deg"),
        "{shown}"
    );
}

#[test]
fn what_is_over_stands_first_and_says_so() {
    let lift = Lift::new(&[("rated      vertical 10.0 t ", "rated      vertical 4.0 t ")]);
    let shown = at(&lift, "  legs ^ ").unwrap();
    assert!(shown.starts_with("over: sling-rating "), "{shown}");
    assert!(shown.contains(" of 4 t ("), "{shown}");
}

#[test]
fn what_cannot_be_told_shows_no_number_and_is_never_left_out() {
    let lift = Lift::new(&[(
        "  mass       14.0 t +/- 5 %           from drawing",
        "  mass       unknown",
    )]);
    let shown = at(&lift, "  mass  ^     unknown").unwrap();
    assert!(shown.contains("cannot tell: mass-known"), "{shown}");
    assert_eq!(at(&lift, "  by  ^       bridge"), None);
    let tally = at(&lift, "move^ M1").unwrap();
    assert!(tally.contains("cannot tell"), "{tally}");
}

#[test]
fn the_yard_and_the_plant_show_what_the_job_does_to_them() {
    let lift = Lift::new(&[]);
    let pads = at(&lift, "  pads ^ ").unwrap();
    assert!(
        pads.contains("floor-bearing") && pads.contains(" of 380 kPa ("),
        "{pads}"
    );
    let rated = at(&lift, "rated    ^  vertical 10.0 t").unwrap();
    assert!(rated.contains("sling-rating"), "{rated}");
    // In the job a line of the load is not told what its legs do.
    assert_eq!(at(&lift, "  points ^ "), None);
}

#[test]
fn a_move_shows_how_its_checks_ended() {
    let lift = Lift::new(&[]);
    let tally = plumbhook_workspace::Tally::of(&lift.checked.cases[0].findings);
    let shown = at(&lift, "move^ M1").unwrap();
    assert!(
        shown.starts_with(&format!("{} within", tally.within)),
        "{shown}"
    );
}

#[test]
fn only_the_lines_asked_for_are_answered() {
    let lift = Lift::new(&[]);
    let (path, line, _) = lift.at("  legs ^ ");
    assert_eq!(
        inlays(&lift.snapshot, &lift.checked, &path, &(line..=line)).len(),
        1
    );
    let all = inlays(&lift.snapshot, &lift.checked, &path, &(0..=u32::MAX));
    assert!(all.len() > 4 && all.is_sorted_by_key(|it| it.line));
}

#[test]
fn a_move_counts_its_checks_in_all_options() {
    let row = "    | (18.0 m, 5.0 m) | on stool          |\n";
    let options = "option A \"Short legs\"\n\noption B \"Long legs\"\n\nrigging chains-of-three\n  in         option B\n  legs       A B C to ring-2, through bow-12, rope-32-long-9, bow-12\n  hung       ring-2 by bridge.main\n\nsling rope-32-long-9\n  long       9.00 m +/- 15 mm\n  rated      vertical 10.0 t          from tag quote \"V 10.0 t\"\n  mass       40 kg +/- 5 %\n  stiffness  5 kN/mm +/- 20 %\n";
    let lift = Lift::new(&[
        (row, &format!("{row}\n{options}")),
        (
            "rope-32-long-5, bow-12\n",
            "rope-32-long-5, bow-12\n  in         option A\n",
        ),
    ]);
    // The hook is over with the long legs of the second option alone.
    let all = lift.checked.tally();
    assert!(all.over > 0 && lift.checked.cases.len() == 2, "{all:?}");
    let said = at(&lift, "move^ M1").unwrap();
    assert!(said.contains(&format!("{} over", all.over)), "{said}");
    assert!(said.contains(&format!("{} within", all.within)), "{said}");
}
