//! The gross load on a hook, line by line: shared by the rules for rings and hooks.

use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::Beam;
use plumbhook_model::{Case, Declared, Gear, Hanging, ThingKind, weights};
use plumbhook_sheet::Step;
use plumbhook_units::{Amount, Band, Mass, Measured};

/// A sum of masses with both ends: what is proved, and the most it may be.
#[derive(Debug, Default)]
pub(super) struct Gross {
    /// Each part with the most it may be, as far as that is known.
    parts: Vec<(String, Mass)>,
    /// The least it can be by the known sides alone.
    least: f64,
    /// Whether the high side of every part is known.
    complete: bool,
    /// Whether the low side of every part is known.
    low_known: bool,
}

impl Gross {
    pub(super) fn new() -> Self {
        Self {
            complete: true,
            low_known: true,
            ..Self::default()
        }
    }

    /// Adds `count` of a part.
    pub(super) fn add(&mut self, what: impl Into<String>, band: Band<Mass>, count: usize) {
        let what = what.into();
        let count = count as f64;
        match band.lo() {
            Some(least) => self.least += least.si() * count,
            None => self.low_known = false,
        }
        match band.hi() {
            Some(most) => self.parts.push((what, most * count)),
            None => self.complete = false,
        }
    }

    /// Something of it is not known at all.
    pub(super) fn unknown(&mut self) {
        self.complete = false;
    }

    /// The most it may be; `None` unless every part is known.
    pub(super) fn most(&self) -> Option<Mass> {
        self.complete
            .then(|| Mass::from_si(self.parts.iter().map(|(_, part)| part.si()).sum()))
    }

    /// The least it may be; `None` unless both sides of every part are known.
    pub(super) fn lightest(&self) -> Option<Mass> {
        (self.low_known && self.complete).then(|| Mass::from_si(self.least))
    }

    /// What the known sides alone prove: the most of what is complete, else the least of every part.
    pub(super) fn proved(&self) -> Mass {
        self.most().unwrap_or_else(|| Mass::from_si(self.least))
    }

    /// The itemised sum for the sheet.
    pub(super) fn step(&self, say: &str) -> Step {
        Step::Sum {
            say: say.to_owned(),
            parts: self
                .parts
                .iter()
                .map(|(what, part)| (what.clone(), Amount::of(*part)))
                .collect(),
            total: Amount::of(self.proved()),
        }
    }

    /// One line: "34.02 t load + 0.12 t legs".
    pub(super) fn line(&self, printer: plumbhook_units::Printer) -> String {
        let parts: Vec<_> = self
            .parts
            .iter()
            .map(|(what, part)| {
                format!(
                    "{what} {}",
                    printer.metric(Amount::of(*part), plumbhook_units::Round::Up)
                )
            })
            .collect();
        parts.join(" + ")
    }
}

/// The load and everything of its legs, with what was asked for noted in `ask`.
pub(super) fn load_and_legs<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Gross {
    load_and_legs_on(case, ask, Hurts::High)
}

/// The same where another side hurts, or both.
pub(super) fn load_and_legs_on<'c>(case: &'c Case, ask: &mut Ask<'c>, hurts: Hurts) -> Gross {
    let mut gross = Gross::new();
    let Some((declared, load)) = case.load() else {
        gross.complete = false;
        note_missing_load(case, ask);
        return gross;
    };
    for weight in weights(ask, declared, load, hurts) {
        gross.add(weight.what, weight.mass, 1);
    }
    let hanging = case.hanging();
    if hanging.legs.is_empty() || !hanging.all_legs() {
        // Which pieces hang is not known, so neither is their mass: what is missing says why.
        gross.complete = false;
        ask.asked.include(&hanging.asked);
    }
    between(hanging, ask, &mut gross, hurts);
    let mut pieces: Vec<(&Declared, usize)> = Vec::new();
    for (piece, found) in hanging.legs.iter().flat_map(|leg| &leg.pieces) {
        if let Some(found) = found {
            match pieces
                .iter_mut()
                .find(|(seen, _)| seen.name() == found.name())
            {
                Some((_, count)) => *count += 1,
                None => pieces.push((found, 1)),
            }
        } else {
            gross.complete = false;
            let _ = ask.entry::<(), _>(&piece.gear);
        }
    }
    for (found, count) in pieces {
        if let Some(gear) = found.body.as_ref().and_then(|body| body.gear()) {
            let band = ask.band(&format!("mass of {}", found.name()), gear.mass(), hurts);
            gross.add(format!("{count} {}", found.name()), band, count);
        }
    }
    gross
}

/// The beams and rings between the load and the ring on the hook.
fn between<'c>(hanging: &'c Hanging, ask: &mut Ask<'c>, gross: &mut Gross, hurts: Hurts) {
    for thing in hanging.things.iter().filter(|t| t.hook.is_none()) {
        let body = thing.entry.as_ref().and_then(|entry| entry.body.as_ref());
        let beam = thing.entry.as_ref().and_then(|entry| entry.of::<Beam>());
        let mass = match (thing.kind, beam) {
            (ThingKind::Load, _) => continue,
            (ThingKind::Beam, Some(beam)) => Some(&beam.mass),
            _ => body.and_then(|body| body.gear()).map(Gear::mass),
        };
        match mass {
            Some(mass) => {
                let what = format!("mass of {}", thing.name);
                gross.add(&*thing.name, ask.band(&what, mass, hurts), 1);
            }
            None => gross.complete = false,
        }
    }
}

fn note_missing_load<'c>(case: &'c Case, ask: &mut Ask<'c>) {
    let Some(moves) = case.moves() else { return };
    if let Some(name) = ask.value("what the move carries", &moves.carries, |carries| {
        plumbhook_model::ask::words(&carries.words())
    }) {
        let _ = ask.entry::<plumbhook_model::entries::Load, _>(&name.value.load);
    }
}

/// The ring in which the legs gather, counted with what hangs.
pub(super) fn ring<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    gross: &mut Gross,
) -> Option<&'c Declared> {
    ring_on(case, ask, gross, Hurts::High)
}

/// The same where another side hurts, or both.
pub(super) fn ring_on<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    gross: &mut Gross,
    hurts: Hurts,
) -> Option<&'c Declared> {
    let hung = case.rigging().and_then(|(_, rigging)| {
        ask.value("what the legs gather in", &rigging.hung, |hung| {
            plumbhook_model::ask::words(&hung.ring.name)
        })
    });
    let found = hung.and_then(|hung| {
        let found = case.entry(&hung.value.ring);
        if found.is_none() {
            let _ = ask.entry::<(), _>(&hung.value.ring);
        }
        found
    });
    let mass = found.and_then(|found| {
        let gear = found.body.as_ref()?.gear()?;
        Some(ask.band(&format!("mass of {}", found.name()), gear.mass(), hurts))
    });
    if let (Some(found), Some(mass)) = (found, mass) {
        gross.add(found.name(), mass, 1);
        Some(found)
    } else {
        gross.complete = false;
        None
    }
}
