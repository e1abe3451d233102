use plumbhook_model::*;
use std::sync::Arc;
fn main() {
    let read = |p: &str| {
        let t = std::fs::read_to_string(p).unwrap();
        let d = plumbhook_syntax::Document::new(&t);
        let f: Arc<str> = p.into();
        (0..d.blocks().len())
            .map(|i| Arc::new(Declared::read(&f, 0, d.block_text(i))))
            .collect::<Vec<_>>()
    };
    let yard = Arc::new(Layer::new(read("examples/yard/own-gear.pick")));
    let plant = Arc::new(Layer::new(read("examples/plants/quernstone.plant.pick")));
    for j in ["servomotor", "unit-3-runner", "exciter"] {
        let es = read(&format!("examples/jobs/{j}.pick"));
        let layer = Arc::new(Layer::new(es.clone()));
        let scope = Scope {
            layers: vec![layer, plant.clone(), yard.clone()],
        };
        for e in es.iter().chain(plant.entries()).chain(yard.entries()) {
            for n in e.notices.iter().chain(&name_notices(&scope, e)) {
                println!("NOTICE {} {} | {}", e.key.name, n.say, n.mend);
            }
        }
        let shared = Shared::new(&scope, Settings::default());
        for m in es.iter().filter(|e| &*e.key.word == "move") {
            let t = std::time::Instant::now();
            let (c, _) = Case::build(&scope, &shared, &es[0], m);
            println!("== {}", c.name);
            for r in plumbhook_checks::RULES {
                for a in (r.check)(&c) {
                    println!("{:14} {:18} {}", a.verdict.word(), r.code, a.headline);
                    for s in &a.sums {
                        println!("        {s}");
                    }
                    for s in &a.mends {
                        println!("        -> {s}");
                    }
                    if a.verdict == plumbhook_sheet::Verdict::Over || true {
                        println!(
                            "        at {} [{}] {:?}",
                            a.sheet.corner_text(c.printer),
                            a.sheet.state,
                            a.related
                                .iter()
                                .map(|r| (
                                    r.origin.entry.name.clone(),
                                    r.origin.line,
                                    r.say.clone()
                                ))
                                .collect::<Vec<_>>()
                        );
                    }
                }
            }
            println!("{:?}", t.elapsed());
        }
    }
}
