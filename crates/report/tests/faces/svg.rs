//! The drawing of a hanging load; each snapshot was looked at as a picture before it was accepted.

use plumbhook_checks::example;
use plumbhook_report::svg::draw;
use plumbhook_sheet::{Figure, Mark, Role};

/// Letters that markup uses are only letters (XML 1.0, section 2.4).
#[test]
fn letters_of_markup_are_only_letters() {
    let figure = Figure {
        title: "a < b & \"c\"".into(),
        marks: vec![Mark::Point {
            at: [0.0; 3],
            role: Role::LiftingPoint,
            label: "</text><script>".into(),
        }],
    };
    let drawn = draw(&figure);
    assert!(drawn.contains("a &lt; b &amp; \"c\""), "{drawn}");
    assert!(!drawn.contains("<script"), "{drawn}");
}

#[test]
fn a_place_that_is_no_number_is_left_out() {
    let mark = |x| Mark::Point {
        at: [x, 0.0, 0.0],
        role: Role::LiftingPoint,
        label: "A".into(),
    };
    for marks in [
        vec![],
        vec![mark(f64::NAN)],
        vec![mark(f64::INFINITY), mark(1.0)],
    ] {
        let drawn = draw(&Figure {
            title: "odd".into(),
            marks,
        });
        assert!(
            !drawn.contains("NaN") && !drawn.contains("inf\""),
            "{drawn}"
        );
    }
}

#[test]
fn three_legs_are_drawn_with_their_tensions() {
    let case = example::case_of(&example::files(&[]).unwrap()).unwrap();
    let figure = case.hanging().figure("cover M1: how it hangs").unwrap();
    insta::assert_snapshot!(draw(&figure));
}
