//! What the tool offers for a unit that it does not know.

use plumbhook_units::{Kind, UNITS, near};

fn offered(spelling: &str, kind: Option<Kind>) -> Vec<&'static str> {
    near(spelling, kind)
        .iter()
        .map(|unit| unit.symbol)
        .collect()
}

#[test]
fn other_capitals_come_first() {
    assert_eq!(offered("KN", Some(Kind::Force)).first(), Some(&"kN"));
    assert_eq!(offered("Kg", Some(Kind::Mass)).first(), Some(&"kg"));
    assert_eq!(offered("mpa", Some(Kind::Pressure)).first(), Some(&"MPa"));
    assert_eq!(offered("KIPS", None).first(), Some(&"kip"));
    assert_eq!(offered("LBS", None).first(), Some(&"lb"));
}

#[test]
fn a_letter_wrong_is_found_and_nonsense_is_not() {
    assert_eq!(offered("tone", Some(Kind::Mass)).first(), Some(&"t"));
    assert_eq!(offered("kgg", Some(Kind::Mass)).first(), Some(&"kg"));
    assert_eq!(offered("short_tom", None).first(), Some(&"short_ton"));
    assert!(offered("furlong", None).is_empty());
    assert!(offered("", None).is_empty());
    assert!(offered("x", None).is_empty());
}

#[test]
fn an_ambiguous_word_offers_its_readings() {
    assert_eq!(
        offered("ton", Some(Kind::Mass)),
        ["short_ton", "t", "long_ton"]
    );
    assert_eq!(
        offered("ton", Some(Kind::Force)),
        ["short_tonf", "tf", "long_tonf"]
    );
    assert_eq!(offered("gal", Some(Kind::Volume)), ["us_gal", "imp_gal"]);
}

#[test]
fn a_unit_of_another_kind_offers_what_the_hand_meant() {
    assert_eq!(offered("K", Some(Kind::Force)).first(), Some(&"kip"));
    assert_eq!(offered("g", Some(Kind::Acceleration)).first(), Some(&"gn"));
    assert_eq!(offered("T/m2", Some(Kind::Pressure)).first(), Some(&"t/m2"));
}

#[test]
fn only_units_that_may_stand_there_are_offered_and_five_at_most() {
    for kind in Kind::ALL {
        for unit in UNITS {
            let found = near(unit.symbol, Some(*kind));
            assert!(found.len() <= 5);
            assert!(found.iter().all(|u| kind.accepts(u) && *u != unit));
        }
    }
}
