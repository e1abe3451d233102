//! What a body on pads can put on each of them.
//!
//! Sources stand beside each check. "Statics" is moments about a line, done by hand in the comment.

use plumbhook_mechanics::Interval;
use plumbhook_mechanics::standing::{
    Given, NoPressure, NoShare, PadShare, contact_pressure, worst_pad_shares,
};
use plumbhook_sheet::{Book, Silent, Step};
use plumbhook_units::{Force, Heading, Length, Mass, Measured, Printer, weight};
use proptest::prelude::*;

fn m(value: f64) -> Length {
    Length::from_si(value)
}

fn at(places: &[[f64; 2]]) -> Vec<[Length; 2]> {
    places.iter().map(|place| place.map(m)).collect()
}

fn band([lo, hi]: [f64; 2]) -> Interval<Length> {
    Interval {
        lo: m(lo),
        hi: m(hi),
    }
}

/// Box in the plant's own axes.
fn on_pads(pads: &[[f64; 2]], x: [f64; 2], y: [f64; 2]) -> Result<Vec<PadShare>, NoShare> {
    worst_pad_shares(
        &at(pads),
        [band(x), band(y)],
        Heading::from_si(0.0),
        [m(0.0); 2],
    )
}

fn shares(found: &[PadShare]) -> Vec<f64> {
    found.iter().map(|pad| pad.share.si()).collect()
}

fn assert_near(found: &[f64], wanted: &[f64], within: f64) {
    assert_eq!(found.len(), wanted.len());
    for (f, w) in found.iter().zip(wanted) {
        assert!((f - w).abs() <= within, "{found:?} for {wanted:?}");
    }
}

const SQUARE: [[f64; 2]; 4] = [[2.0, 1.0], [-2.0, 1.0], [-2.0, -1.0], [2.0, -1.0]];

#[test]
fn three_pads_share_by_statics_alone() {
    // Statics: moments about each side of the triangle; CG at 1/4 of the way up carries 1/4 on the far pad.
    let pads = [[0.0, 0.0], [4.0, 0.0], [0.0, 4.0]];
    let found = on_pads(&pads, [1.0, 1.0], [1.0, 1.0]).unwrap();
    assert_near(&shares(&found), &[0.5, 0.25, 0.25], 1e-12);
    assert!(found.iter().all(|pad| pad.on == [0, 1, 2]));
}

#[test]
fn a_centred_load_on_four_rigid_pads_can_put_half_on_each_of_them_and_never_counts_as_a_quarter() {
    // One more unknown reaction than equations, and a foot a hair short carries nothing: open-access paper on rigid
    // legs of rectangular tables (2015), quoting the 1773 problem, introduction. Statics: then the diagonal of the
    // other two runs through the centre, and each of the two carries W/2.
    let found = on_pads(&SQUARE, [0.0, 0.0], [0.0, 0.0]).unwrap();
    assert_near(&shares(&found), &[0.5; 4], 1e-9);
}

#[test]
fn off_centre_four_pads_get_more_than_the_elastic_plane_formula_gives_them() {
    // Statics, by hand, for CG (0.8, 0.2) between pads at (+-2, +-1). It lies below the diagonal of pads 1 and 3 and
    // above that of pads 2 and 4, so two sets of three hold it. Without pad 2: pad 3 alone is at x = -2, and moments
    // about x = 2 give it 1.2/4 = 0.3; moments about y = -1 give pad 1 1.2/2 = 0.6; pad 4 keeps 0.1. Without pad 3:
    // in the same way pad 2 has 1.2/4 = 0.3, pad 4 0.8/2 = 0.4, and pad 1 keeps 0.3.
    let found = on_pads(&SQUARE, [0.8, 0.8], [0.2, 0.2]).unwrap();
    assert_near(&shares(&found), &[0.6, 0.3, 0.3, 0.4], 1e-9);
    // Elastic plane: 1/4 + x xi / sum xi^2 + y yi / sum yi^2 = 0.25 + 0.1 + 0.05 = 0.40 on pad 1: 0.20 too low.
    assert!(found[0].share.si() > 0.40 + 0.19);
    assert_eq!(found[0].on, [0, 2, 3]);
}

#[test]
fn a_pad_that_the_centre_of_gravity_may_stand_over_can_get_all_of_the_weight() {
    // Statics: over the pad no other has a lever. At the corners of the band alone it gets less.
    let pads = [[3.0, 0.0], [0.0, 3.0], [-3.0, 0.0], [0.0, -3.0], [0.2, 0.1]];
    let found = on_pads(&pads, [-0.5, 0.5], [-0.5, 0.5]).unwrap();
    assert_near(&[found[4].share.si()], &[1.0], 1e-8);
    assert_near(&found[4].cg.map(Length::si), &[0.2, 0.1], 1e-8);
}

#[test]
fn the_band_turns_with_the_load() {
    // Statics: turned by 90 deg, 0.8 m ahead is 0.8 m along the plant's +y: the same as 0.8 m sideways unturned.
    let pads = at(&[[1.0, 2.0], [-1.0, 2.0], [-1.0, -2.0], [1.0, -2.0]]);
    let ahead = [band([0.6, 0.8]), band([-0.1, 0.1])];
    let quarter = Heading::from_si(core::f64::consts::FRAC_PI_2);
    let turned = worst_pad_shares(&pads, ahead, quarter, [m(0.0); 2]).unwrap();
    let sideways = [band([-0.1, 0.1]), band([0.6, 0.8])];
    let straight = worst_pad_shares(&pads, sideways, Heading::from_si(0.0), [m(0.0); 2]).unwrap();
    assert_near(&shares(&turned), &shares(&straight), 1e-9);
}

#[test]
fn pads_in_one_place_may_each_get_all_that_the_place_gets() {
    // Statics: nothing says which of the two carries.
    let three = [[0.0, 0.0], [4.0, 0.0], [0.0, 4.0]];
    let double = [[0.0, 0.0], [4.0, 0.0], [0.0, 4.0], [0.0, 4.0]];
    let one = shares(&on_pads(&three, [0.9, 1.1], [0.9, 1.1]).unwrap());
    let two = shares(&on_pads(&double, [0.9, 1.1], [0.9, 1.1]).unwrap());
    assert_near(&two, &[one[0], one[1], one[2], one[2]], 1e-9);
}

#[test]
fn what_cannot_stand_says_why_and_by_how_much() {
    let why = |pads: &[[f64; 2]], x, y| on_pads(pads, x, y).unwrap_err();
    assert_eq!(
        why(&SQUARE[..2], [0.0; 2], [0.0; 2]),
        NoShare::FewerThanThree { given: 2 }
    );
    assert_eq!(
        why(&[[0.0, 0.0], [1.0, 1.0], [3.0, 3.0]], [1.0; 2], [1.0; 2]),
        NoShare::PadsInLine
    );
    let NoShare::Tips { beyond, cg } = why(&SQUARE, [-0.1, 2.06], [0.0, 0.3]) else {
        panic!("it tips");
    };
    assert_near(&[beyond.si(), cg[0].si()], &[0.06, 2.06], 1e-12);
    assert_eq!(
        why(&SQUARE, [-0.1, 2.06], [0.0, 0.0]).to_string(),
        "the load tips: its centre of gravity may be at (2.06 m, 0 mm), 60 mm outside the line around the pads; \
         set the pads further out, or know the centre of gravity better"
    );
    assert!(matches!(
        why(
            &[[0.0, 0.0], [4.0, 0.0], [0.0, f64::NAN]],
            [1.0; 2],
            [1.0; 2]
        ),
        NoShare::NotFinite {
            given: Given::Pad(2)
        }
    ));
    assert_eq!(
        why(&SQUARE, [0.2, 0.1], [0.0; 2]).to_string(),
        "the centre of gravity along the load's x has its low side above its high side"
    );
    for unknown in [f64::NAN, f64::INFINITY, -f64::INFINITY] {
        assert!(matches!(
            why(&SQUARE, [0.0, unknown], [0.0; 2]),
            NoShare::NotFinite {
                given: Given::Cg(_)
            }
        ));
    }
}

#[test]
fn pads_a_hair_from_one_line_hold_nothing_that_is_not_between_them() {
    // Statics: 1 mm aside of the line holds a CG up to 1 mm aside.
    let hair = [[0.0, 0.0], [2.0, 0.001], [4.0, 0.0]];
    let found = on_pads(&hair, [2.0, 2.0], [0.0005, 0.0005]).unwrap();
    assert_near(&shares(&found), &[0.25, 0.5, 0.25], 1e-4);
    assert!(matches!(
        on_pads(&hair, [2.0, 2.0], [0.0005, 0.002]),
        Err(NoShare::Tips { .. })
    ));
}

#[test]
fn a_reaction_shows_the_moments_it_comes_from() {
    // 18 Mg weighs 176.5 kN (printed cut off; 176.52 with standard gravity): statics textbook solution 5-26, first
    // steps. Half of it stands on the pad.
    let load = weight(Mass::from_si(18_000.0));
    let found = on_pads(&SQUARE, [0.0, 0.0], [0.0, 0.0]).unwrap();
    let mut book = Book::default();
    let reaction = found[0].reaction(load, &mut book);
    assert_near(&[reaction.si() / 1e3], &[176.5 / 2.0], 0.1);
    let texts: Vec<String> = book
        .0
        .iter()
        .map(|step| match step {
            Step::Worked(worked) => worked.formula.text(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(
        texts,
        [
            "share = cg_from_line / pad_from_line",
            "pad_reaction = weight x share"
        ]
    );
}

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

/// Pads on both sides of the origin, a box of the centre of gravity near it, a heading.
fn standing() -> impl Strategy<Value = (Vec<[f64; 2]>, [f64; 2], [f64; 2], f64)> {
    let pad = (0..8_u32, 0.5..6.0).prop_map(|(eighth, reach): (u32, f64)| {
        let angle = f64::from(eighth) * core::f64::consts::FRAC_PI_4 + 0.05 * reach;
        [reach * angle.cos(), reach * angle.sin()]
    });
    (
        prop::collection::vec(pad, 3..9),
        (-0.4..0.4, 0.0..0.3),
        (-0.4..0.4, 0.0..0.3),
        -3.0..3.0,
    )
        .prop_map(|(pads, (x, dx), (y, dy), heading)| {
            (pads, [x - dx, x + dx], [y - dy, y + dy], heading)
        })
}

fn turned([x, y]: [f64; 2], angle: f64) -> [f64; 2] {
    let (sin, cos) = angle.sin_cos();
    [x * cos - y * sin, x * sin + y * cos]
}

fn solve(
    (pads, x, y, heading): &(Vec<[f64; 2]>, [f64; 2], [f64; 2], f64),
    turn: f64,
    shift: [f64; 2],
) -> Result<Vec<PadShare>, NoShare> {
    let moved: Vec<[f64; 2]> = pads
        .iter()
        .map(|pad| {
            let [px, py] = turned(*pad, turn);
            [px + shift[0], py + shift[1]]
        })
        .collect();
    worst_pad_shares(
        &at(&moved),
        [band(*x), band(*y)],
        Heading::from_si(heading + turn),
        shift.map(m),
    )
}

proptest! {
    #[test]
    fn what_a_share_says_stands_in_balance(case in standing()) {
        let Ok(found) = solve(&case, 0.0, [0.0; 2]) else { return Ok(()); };
        for (i, pad) in found.iter().enumerate() {
            prop_assert!(pad.on.contains(&i));
            prop_assert!((0.0..=1.0).contains(&pad.share.si()));
            prop_assert_eq!(pad.cg_from_line / pad.pad_from_line, pad.share);
            // The other two, by moments about the line through this pad and each of them.
            let place = |k: usize| case.0[pad.on[k]];
            let cg = pad.cg.map(Length::si);
            let cross = |a: [f64; 2], b: [f64; 2], c: [f64; 2]| {
                (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
            };
            let whole = cross(place(0), place(1), place(2));
            let all = [(1, 2), (2, 0), (0, 1)].map(|(j, k)| cross(cg, place(j), place(k)) / whole);
            prop_assert!((all.iter().sum::<f64>() - 1.0).abs() < 1e-9);
            // Three within a hair of one line only overstate.
            let thick = whole.abs() > 0.01;
            let own = pad.on.iter().position(|on| *on == i).unwrap();
            prop_assert!(!thick || (all[own] - pad.share.si()).abs() < 1e-9);
            prop_assert!(!thick || all.iter().all(|share| *share > -1e-9), "{all:?}");
            // The place is one of the band.
            let [lx, ly] = turned(cg, -case.3);
            prop_assert!(lx > case.1[0] - 1e-9 && lx < case.1[1] + 1e-9);
            prop_assert!(ly > case.2[0] - 1e-9 && ly < case.2[1] + 1e-9);
        }
        // Someone must carry: the worst shares together are never below the whole weight.
        prop_assert!(shares(&found).iter().sum::<f64>() >= 1.0 - 1e-9);
    }

    #[test]
    fn a_centre_of_gravity_on_a_line_between_two_pads_does_not_fall_through_it(
        size in prop::array::uniform2(0.5..9.0_f64),
        heading in -3.0..3.0_f64,
        origin in prop::array::uniform2(-1e5..1e5_f64),
    ) {
        // Statics: in the middle each of a diagonal pair can get half; in the middle of a side its two pads get half
        // each and the others nothing. Doubles put the place to either side of the line.
        let [a, b] = size;
        let pads = [[a, b], [-a, b], [-a, -b], [a, -b]].map(|corner| {
            let [x, y] = turned(corner, heading);
            [origin[0] + x, origin[1] + y]
        });
        let solved = |x: f64, y: f64| {
            worst_pad_shares(
                &at(&pads),
                [band([x, x]), band([y, y])],
                Heading::from_si(heading),
                origin.map(m),
            )
        };
        assert_near(&shares(&solved(0.0, 0.0).unwrap()), &[0.5; 4], 1e-8);
        assert_near(&shares(&solved(0.0, b).unwrap()), &[0.5, 0.5, 0.0, 0.0], 1e-8);
        assert_near(&shares(&solved(a, b).unwrap()), &[1.0, 0.0, 0.0, 0.0], 1e-8);
    }

    #[test]
    fn knowing_less_of_the_centre_of_gravity_never_lessens_a_share(case in standing(), more in 0.0..0.5_f64) {
        let (pads, x, y, heading) = case.clone();
        let wide = (pads, [x[0] - more, x[1]], [y[0], y[1] + more / 2.0], heading);
        match (solve(&case, 0.0, [0.0; 2]), solve(&wide, 0.0, [0.0; 2])) {
            (Ok(narrow), Ok(wide)) => {
                for (n, w) in narrow.iter().zip(&wide) {
                    prop_assert!(w.share.si() >= n.share.si() - 1e-9);
                }
            }
            (Err(NoShare::Tips { beyond, .. }), Err(NoShare::Tips { beyond: more, .. })) => {
                prop_assert!(more >= beyond);
            }
            (narrow, wide) => prop_assert!(wide.is_err(), "{narrow:?} became {wide:?}"),
        }
    }

    #[test]
    fn a_frame_shifted_and_turned_with_the_load_changes_nothing(
        case in standing(), turn in -3.0..3.0_f64, shift in prop::array::uniform2(-500.0..500.0_f64),
    ) {
        match (solve(&case, 0.0, [0.0; 2]), solve(&case, turn, shift)) {
            (Ok(here), Ok(there)) => {
                for (h, t) in here.iter().zip(&there) {
                    prop_assert!((h.share.si() - t.share.si()).abs() < 1e-6);
                }
            }
            (Err(NoShare::Tips { beyond: h, .. }), Err(NoShare::Tips { beyond: t, .. })) => {
                prop_assert!((h.si() - t.si()).abs() < 1e-7);
            }
            (here, there) => prop_assert_eq!(here, there),
        }
    }

    #[test]
    fn pads_named_in_another_order_get_the_same(case in standing(), by in 0..8_usize) {
        let (mut pads, x, y, heading) = case.clone();
        let by = by % pads.len();
        pads.rotate_left(by);
        pads.swap(0, 1);
        let other = solve(&(pads, x, y, heading), 0.0, [0.0; 2]);
        match (solve(&case, 0.0, [0.0; 2]), other) {
            (Ok(here), Ok(mut there)) => {
                there.swap(0, 1);
                there.rotate_right(by);
                assert_near(&shares(&there), &shares(&here), 1e-6);
            }
            (here, there) => prop_assert_eq!(here.is_err(), there.is_err()),
        }
    }

    #[test]
    fn one_pad_more_never_lessens_what_another_can_get(
        case in standing(), extra in prop::array::uniform2(-6.0..6.0_f64),
    ) {
        // The sets of three of the first list are sets of the longer list too.
        let Ok(few) = solve(&case, 0.0, [0.0; 2]) else { return Ok(()); };
        let (mut pads, x, y, heading) = case.clone();
        pads.push(extra);
        let many = solve(&(pads, x, y, heading), 0.0, [0.0; 2]).unwrap();
        for (f, m) in few.iter().zip(&many) {
            prop_assert!(m.share.si() >= f.share.si() - 1e-9);
        }
    }
}

#[derive(serde::Deserialize)]
struct File {
    cases: Vec<Case>,
}

#[derive(serde::Deserialize)]
struct Case {
    pads_m: Vec<[f64; 2]>,
    cg_m: [[f64; 2]; 2],
    heading_deg: f64,
    origin_m: [f64; 2],
    shares: Option<Vec<f64>>,
    beyond_m: Option<f64>,
}

#[test]
fn a_linear_programme_finds_the_same_shares_for_200_bodies_and_the_same_that_tip() {
    // tests/second_method/make_pads.py: scipy's linprog, no sets of three and no cutting of shapes.
    let path = format!(
        "{}/../../tests/second_method/pads.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(&path).expect("the second method's data");
    let file: File = serde_json::from_str(&text).expect("the second method's format");
    assert!(file.cases.len() >= 200);
    let (mut held, mut tips) = (0, 0);
    for case in &file.cases {
        let ours = worst_pad_shares(
            &at(&case.pads_m),
            case.cg_m.map(band),
            Heading::from_si(case.heading_deg.to_radians()),
            case.origin_m.map(m),
        );
        match (&ours, &case.shares, case.beyond_m) {
            (Ok(ours), Some(theirs), None) => {
                held += 1;
                assert_near(&shares(ours), theirs, 1e-7);
            }
            (Err(NoShare::Tips { beyond, .. }), None, Some(theirs)) => {
                tips += 1;
                assert_near(&[beyond.si()], &[theirs], 1e-6);
            }
            _ => panic!("{ours:?} for {:?} {:?}", case.shares, case.beyond_m),
        }
    }
    assert!(held >= 100 && tips >= 20, "{held} stand, {tips} tip");
}
