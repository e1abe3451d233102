//! The terminal at 100 columns, read by a person before each snapshot was accepted.

use crate::lift::Lift;
use plumbhook_report::human::{Screen, render};

const PLAIN: Screen = Screen {
    width: 100,
    colour: false,
};

#[test]
fn a_sling_too_weak_is_said_with_its_sum() {
    let lift = Lift::changed(&[("rated      vertical 10.0 t", "rated      vertical 5.0 t")]);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn an_unknown_centre_of_gravity_is_one_message_with_what_it_blocks() {
    let lift = Lift::changed(&[("cg         x 0 +/- 40 mm", "cg         x unknown")]);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}

#[test]
fn a_clean_lift_is_two_lines() {
    let lift = Lift::changed(&[]);
    insta::assert_snapshot!(render(&lift.checked, &lift.snapshot, PLAIN));
}
