#![allow(missing_docs, clippy::all, clippy::pedantic)]
#[path = "../benches/hanging.rs"]
mod bench;
fn main() {
    let corners = [(1.6, 1.2), (-1.5, 1.25), (-1.55, -1.2), (1.5, -1.3)];
    for stiff in [true, false] {
        let rig = bench::two_tiers(&corners, stiff);
        let t = std::time::Instant::now();
        let w = plumbhook_mechanics::hanging::worst(&rig);
        println!("{:?}", t.elapsed());
        match w {
            Err(e) => println!("{e}"),
            Ok(w) => {
                for x in w.elastic.iter().chain([&w.sharing]) {
                    println!("poses {}", x.poses);
                    for l in &x.legs { println!("  {:?} {:?} {:?}", l.max_tension.value, l.min_tension.value, l.min_horizontal_angle.as_ref().map(|a| a.value)); }
                    println!("  tilt {:?} rise {:?} {:?}", x.max_tilt.value, x.min_rise.value, x.max_rise.value);
                    for o in &x.others { println!("  other tilt {:?} below {:?} {:?} above {:?} {:?} ", o.max_tilt.as_ref().map(|t| t.value), o.below.0.value, o.below.1.value, o.above.0.value, o.above.1.value); }
                    for o in &x.hooks { println!("  hook {:?} {:?}", o.0.value, o.1.value); }
                }
            }
        }
    }
}
