//! Where names lead.

use crate::lift::Lift;
use plumbhook_ide::definition;

fn leads(lift: &Lift, marked: &str) -> Vec<String> {
    let (path, line, byte) = lift.at(marked);
    let places = definition(&lift.snapshot, &path, line, byte);
    places.iter().map(|place| lift.words(place)).collect()
}

#[test]
fn a_name_leads_to_where_it_is_declared_also_from_a_table_and_a_pedigree() {
    let lift = Lift::new(&[]);
    assert_eq!(
        leads(&lift, "through bow^-12, rope"),
        ["yard.pick:11:bow-12"]
    );
    assert_eq!(leads(&lift, "carries    ^cover"), ["cover.pick:7:cover"]);
    assert_eq!(
        leads(&lift, "with chains-of-three^\n"),
        ["cover.pick:17:chains-of-three"]
    );
    assert_eq!(leads(&lift, "| on st^ool"), ["hall.plant.pick:24:stool"]);
    assert_eq!(
        leads(&lift, "EL 50.00 m               from ^walk-2"),
        ["hall.plant.pick:6:walk-2"]
    );
    assert_eq!(
        leads(&lift, "plant      pump^-hall"),
        ["hall.plant.pick:2:pump-hall"]
    );
}

#[test]
fn the_part_behind_a_dot_leads_inside() {
    let lift = Lift::new(&[]);
    assert_eq!(
        leads(&lift, "ring-2 by brid^ge.main"),
        ["hall.plant.pick:18:bridge"]
    );
    assert_eq!(
        leads(&lift, "ring-2 by bridge.ma^in"),
        ["hall.plant.pick:22:main"]
    );
}

#[test]
fn a_declared_name_leads_to_itself_and_a_word_to_nothing() {
    let lift = Lift::new(&[]);
    assert_eq!(leads(&lift, "shackle bow^-12"), ["yard.pick:11:bow-12"]);
    assert_eq!(leads(&lift, "shac^kle bow-12"), Vec::<String>::new());
    assert_eq!(leads(&lift, "^# Invented.\njob"), Vec::<String>::new());
}

#[test]
fn a_name_that_is_declared_twice_leads_to_both() {
    let lift = Lift::new(&[("rigging chains", "ring bow-12\n\nrigging chains")]);
    assert_eq!(
        leads(&lift, "through bow^-12, rope"),
        ["cover.pick:17:bow-12", "yard.pick:11:bow-12"]
    );
}

#[test]
fn a_place_outside_the_text_leads_nowhere() {
    let lift = Lift::new(&[]);
    let (path, _, _) = lift.at("^job cover");
    assert_eq!(definition(&lift.snapshot, &path, 9_999, 0), []);
    assert_eq!(definition(&lift.snapshot, &path, 1, 9_999), []);
}

#[test]
fn a_name_of_two_options_leads_to_that_of_the_asking_entry() {
    let two = "option A\n\noption B\n\nload lid\n  in         option A\n\nload lid\n  in         option B\n\n\
               move M0\n  in         option B\n  carries    lid\n\nrigging chains";
    let lift = Lift::new(&[("rigging chains", two)]);
    assert_eq!(leads(&lift, "carries    li^d"), ["cover.pick:24:lid"]);
}

#[test]
fn a_named_value_leads_to_its_let() {
    let lift = Lift::new(&[
        ("load cover", "let lid = 7 t +/- 5 %\n\nload cover"),
        ("mass       14.0 t +/- 5 % ", "mass       2 * lid "),
    ]);
    assert_eq!(leads(&lift, "2 * l^id"), ["cover.pick:7:lid"]);
}
