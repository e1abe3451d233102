//! What holds for every body on pads: balance, no gain from knowing less, no change in another frame or order.

#[path = "common/pads.rs"]
mod pads;

use pads::*;
use plumbhook_mechanics::standing::{NoShare, PadShare, worst_pad_shares};
use plumbhook_units::{Heading, Length, Measured};
use proptest::prelude::*;

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
