//! How long a four-leg rig with bands on everything takes: mass, three axes of the centre of gravity, four lengths,
//! four stiffnesses; all that can govern. Prints medians; fails on no time.

use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, End, Hook, Interval, Rotation, hang, worst,
};
use plumbhook_units::{Length, Measured};
use std::time::{Duration, Instant};

fn band<T: Measured>(middle: f64, width: f64) -> Interval<T> {
    Interval {
        lo: T::from_si(middle - width),
        hi: T::from_si(middle + width),
    }
}

/// Legs to the first corners of a rectangle, a little uneven; an invented load of 30 t.
fn rig(corners: &[(f64, f64)], stiff: bool) -> BandedRig {
    BandedRig {
        bodies: vec![BandedBody {
            mass: band(30_000.0, 1_500.0),
            cg: [band(0.08, 0.06), band(-0.05, 0.06), band(0.7, 0.06)],
            attitude: Rotation::AS_INSTALLED,
        }],
        hooks: vec![Hook {
            position: [0.0; 3].map(Length::from_si),
        }],
        legs: corners
            .iter()
            .map(|(x, y)| {
                let length = f64::sqrt(x * x + y * y + 9.0);
                BandedLeg {
                    upper: End::Hook(0),
                    lower: End::Point {
                        body: 0,
                        at: [*x, *y, 1.6].map(Length::from_si),
                    },
                    length: band(length, 0.01),
                    stiffness: stiff.then(|| band(1.5e7, 3.0e6)),
                }
            })
            .collect(),
    }
}

/// The same load hung plumb from a spreader of four ends, which hangs by four legs.
pub fn two_tiers(corners: &[(f64, f64)], stiff: bool) -> BandedRig {
    let mut rig = rig(corners, stiff);
    rig.bodies.push(BandedBody {
        mass: band(2_000.0, 60.0),
        cg: [band(0.0, 0.03), band(0.0, 0.03), band(-0.1, 0.03)],
        attitude: Rotation::AS_INSTALLED,
    });
    let on = |body, x: f64, y: f64, z| End::Point {
        body,
        at: [x, y, z].map(Length::from_si),
    };
    rig.legs = corners
        .iter()
        .flat_map(|(x, y)| {
            let leg = |upper, lower, length| BandedLeg {
                upper,
                lower,
                length: band(length, 0.01),
                stiffness: stiff.then(|| band(1.5e7, 3.0e6)),
            };
            let above = f64::sqrt(x * x + y * y + 9.0);
            [
                leg(End::Hook(0), on(1, *x, *y, 0.15), above),
                leg(on(1, *x, *y, -0.15), on(0, *x, *y, 1.6), 2.5),
            ]
        })
        .collect();
    rig
}

fn median(mut run: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..51)
        .map(|_| {
            let clock = Instant::now();
            run();
            clock.elapsed()
        })
        .collect();
    times.sort();
    times.get(25).copied().unwrap_or_default()
}

fn main() {
    let corners = [(1.6, 1.2), (-1.5, 1.25), (-1.55, -1.2), (1.5, -1.3)];
    let (stiff, rigid) = (rig(&corners, true), rig(&corners, false));
    let three = [(1.6, 0.1), (-0.9, 1.2), (-0.8, -1.2)];
    let (three, three_stiff) = (rig(&three, false), rig(&three, true));
    let middle = stiff.middle();
    println!(
        "one pose                       {:?}",
        median(|| drop(std::hint::black_box(hang(&middle))))
    );
    println!(
        "worst, elastic and sharings    {:?}",
        median(|| drop(std::hint::black_box(worst(&stiff))))
    );
    println!(
        "worst, sharings only           {:?}",
        median(|| drop(std::hint::black_box(worst(&rigid))))
    );
    println!(
        "worst, three legs              {:?}",
        median(|| drop(std::hint::black_box(worst(&three))))
    );
    println!(
        "worst, three stiff legs        {:?}",
        median(|| drop(std::hint::black_box(worst(&three_stiff))))
    );
    for (what, stiff) in [("elastic and sharings", true), ("sharings only", false)] {
        let tiers = two_tiers(&corners, stiff);
        println!(
            "worst, two tiers, {what:<20} {:?}",
            median(|| drop(std::hint::black_box(worst(&tiers))))
        );
        match worst(&tiers) {
            Ok(found) => println!(
                "poses solved                   {} elastic, {} in sharings",
                found.elastic.map_or(0, |e| e.poses),
                found.sharing.poses
            ),
            Err(why) => println!("{why}"),
        }
    }
    if let Ok(found) = worst(&stiff) {
        let elastic = found.elastic.map_or(0, |e| e.poses);
        println!(
            "poses solved                   {elastic} elastic, {} in sharings",
            found.sharing.poses
        );
    }
}
