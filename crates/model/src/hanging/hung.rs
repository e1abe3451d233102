//! What hangs by the hooks, and whether everything hangs from something.

use super::assembly::{Assembly, Reading};
use super::things::ThingKind;
use crate::entries::Rigging;
use crate::scope::Declared;
use plumbhook_sheet::Lack;
use std::sync::Arc;

impl Assembly {
    fn is_carried(&self, thing: usize) -> bool {
        self.legs.iter().any(|leg| leg.lower.thing == thing)
    }

    /// Rings of a rigging that no leg carries.
    fn tops(&self, rigging: usize) -> Vec<usize> {
        let things = self.things.iter().enumerate();
        let rings = things.filter(|(number, thing)| {
            thing.kind == ThingKind::Ring && thing.rigging == rigging && !self.is_carried(*number)
        });
        rings.map(|(number, _)| number).collect()
    }
}

impl<'c> Reading<'_, 'c> {
    /// Finds what hangs by the hooks: of each rigging the one ring that no leg carries. Everything else has to hang by
    /// legs.
    pub(super) fn hang(&mut self, riggings: &[(&'c Arc<Declared>, &'c Rigging)]) {
        for (number, (declared, rigging)) in riggings.iter().enumerate() {
            self.hang_by_hook(number, declared, rigging);
        }
        for thing in 1..self.it.things.len() {
            self.ask_what_carries(thing);
        }
    }

    fn hang_by_hook(&mut self, number: usize, declared: &Declared, rigging: &'c Rigging) {
        let tops = self.it.tops(number);
        let hung = rigging.hung.known().map(|given| &given.value.ring);
        let top = match (hung, &tops[..]) {
            (Some(hung), _) => tops.iter().copied().find(|top| {
                let thing = self.it.things.get(*top);
                thing.is_some_and(|thing| thing.name == hung.name)
            }),
            // Where it is not known what hangs by the hook, only one ring may.
            (None, [only]) => Some(*only),
            (None, _) => None,
        };
        if let Some(thing) = top.and_then(|top| self.it.things.get_mut(top)) {
            thing.hook = Some(number);
        }
        if let (None, Some(hung), false) = (top, hung, tops.is_empty()) {
            self.it.all = false;
            self.ask.lacks(
                format!("legs of {} that gather in {}", declared.name(), hung.name),
                Lack::NotFound,
                &hung.origin,
                "name the same ring in `hung` and behind `to` in `legs`",
            );
        }
    }

    fn ask_what_carries(&mut self, thing: usize) {
        let carried = self.it.is_carried(thing);
        let Some(found) = self.it.things.get(thing) else {
            return;
        };
        if carried || found.hook.is_some() {
            return;
        }
        let by = match found.kind {
            ThingKind::Beam => format!("{}.tops", found.name),
            ThingKind::Load | ThingKind::Ring => found.name.to_string(),
        };
        self.it.all = false;
        self.ask.lacks(
            format!("what {} hangs from", found.name),
            Lack::Absent,
            &found.origin,
            format!("add legs from it upwards: `legs {by} to ring-1, through …`"),
        );
    }
}
