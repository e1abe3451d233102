//! What a pad presses on with.
//!
//! Sources stand beside each check.

#[path = "common/pads.rs"]
mod pads;

use pads::*;
use plumbhook_mechanics::standing::{NoPressure, contact_pressure};
use plumbhook_sheet::{Book, Silent, Step};
use plumbhook_units::{Force, Measured, Printer};

/// Mechanics of materials problem 8.18, solution text, answer: 20,000 lb on a width of 6 in at 400 psi bear on 8.33 in.
#[test]
fn a_beam_end_bears_on_the_length_that_the_timber_example_says() {
    const POUND: f64 = 4.448_221_615_260_5;
    const INCH: f64 = 0.0254;
    let psi = |length: f64| {
        let size = [m(length * INCH), m(6.0 * INCH)];
        let pressure = contact_pressure(Force::from_si(20e3 * POUND), size, &mut Silent).unwrap();
        pressure.si() / (POUND / (INCH * INCH))
    };
    // Rounded to 0.01 in.
    assert!(psi(8.335) < 400.0 && psi(8.325) > 400.0, "{}", psi(8.33));
}

#[test]
fn contact_pressure_is_force_over_the_whole_face_and_shows_its_numbers() {
    // Arithmetic: 360 kN on 1.2 m by 2.4 m is 125 kPa.
    let mut book = Book::default();
    let force = Force::from_si(360e3);
    let found = contact_pressure(force, [m(1.2), m(2.4)], &mut book).unwrap();
    assert_near(&[found.si()], &[125e3], 1e-6);
    let Step::Worked(worked) = &book.0[0] else {
        panic!("a formula");
    };
    assert!(
        worked.text(Printer::default()).ends_with("= 125 kPa"),
        "{}",
        worked.text(Printer::default())
    );
}

#[test]
fn a_pad_without_size_or_a_pull_has_no_pressure() {
    let size = |a, b| [m(a), m(b)];
    let force = Force::from_si(10e3);
    for wrong in [size(0.0, 1.0), size(-1.0, -1.0), size(1.0, f64::NAN)] {
        assert!(matches!(
            contact_pressure(force, wrong, &mut Silent),
            Err(NoPressure::NoSize { .. })
        ));
    }
    for wrong in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            contact_pressure(Force::from_si(wrong), size(1.0, 1.0), &mut Silent),
            Err(NoPressure::NoPush { .. })
        ));
    }
    assert_eq!(
        contact_pressure(force, size(0.0, 1.0), &mut Silent)
            .unwrap_err()
            .to_string(),
        "a pad of 0 mm by 1.00 m has no area to stand on; give both sides above zero"
    );
}
