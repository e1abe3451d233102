//! What a body on pads can put on each of them, by statics and by a linear programme.
//!
//! Sources stand beside each check. "Statics" is moments about a line, done by hand in the comment.

#[path = "common/pads.rs"]
mod pads;

use pads::*;
use plumbhook_mechanics::standing::{Given, NoShare, PadShare, worst_pad_shares};
use plumbhook_sheet::{Book, Step};
use plumbhook_units::{Heading, Length, Mass, Measured, weight};

/// Box in the plant's own axes.
fn on_pads(pads: &[[f64; 2]], x: [f64; 2], y: [f64; 2]) -> Result<Vec<PadShare>, NoShare> {
    worst_pad_shares(
        &at(pads),
        [band(x), band(y)],
        Heading::from_si(0.0),
        [m(0.0); 2],
    )
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
