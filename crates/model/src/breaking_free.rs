//! Whether the load is held when the move begins, and what then bounds the pull on it.

use crate::ask::{Ask, words};
use crate::entries::{Load, Move};
use crate::scope::Declared;
use plumbhook_sheet::{InputValue, Lack, Origin, Stage};
use plumbhook_units::{Amount, RatedForce};

/// Whether something holds the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holding {
    /// It is free, and the text says so.
    Free,
    /// Something holds it until it is proved free.
    Held,
    /// The text says nothing of it, or it is asked and not answered, or answered twice: it may be held.
    Unknown,
}

/// What holds the load and at which pull the limit device stops.
///
/// While a load is held nothing but that device bounds the force on the hook, whatever the load weighs.
#[derive(Clone, Copy, Debug)]
pub struct Pull {
    /// Whether it is held.
    pub holding: Holding,
    /// The pull at which the device stops; `None` where the load is free or nobody says it.
    pub limit: Option<RatedForce>,
}

impl Pull {
    /// The pull that may act while the load is held, if it is.
    pub fn while_held(&self) -> Option<RatedForce> {
        self.limit.filter(|_| self.holding != Holding::Free)
    }
}

impl<'c> Ask<'c> {
    /// Asks whether the load is held, and where it is or may be for the limit of the pull. Noting that it is free is
    /// left to the rule that is about it.
    pub fn pull(&mut self) -> Pull {
        let case = self.case;
        let unknown = Pull {
            holding: Holding::Unknown,
            limit: None,
        };
        let (Some(moves), Some((declared, load))) = (case.moves(), case.load()) else {
            return unknown;
        };
        let holding = self.holding(moves, declared, load);
        let limit = match holding {
            Holding::Free => None,
            Holding::Held | Holding::Unknown if case.all_hung_from().len() > 1 => {
                self.limit_of_one_hook(moves);
                None
            }
            Holding::Held | Holding::Unknown => self.limit_of_pull(moves, declared.name()),
        };
        Pull { holding, limit }
    }

    fn holding(&mut self, moves: &'c Move, declared: &Declared, load: &'c Load) -> Holding {
        let name = declared.name();
        let what = format!("what holds {name}");
        if let (Some(held), Some(_)) = (moves.held.known(), moves.free.known()) {
            self.lacks(
                format!("whether {name} is held: the move says `held` and `free`"),
                Lack::NoAnswer,
                &held.origin,
                "take one of the two lines out",
            );
            return Holding::Unknown;
        }
        for (key, datum) in [(moves.held.key, &moves.held), (moves.free.key, &moves.free)] {
            if let Some(given) = datum.known() {
                if key.word == "free" {
                    return Holding::Free;
                }
                self.used(&format!("{name} at the start"), key.word, &given.origin);
                return Holding::Held;
            }
            if !datum.is_absent() {
                self.lacks(
                    format!("whether {name} is held"),
                    Lack::Unknown,
                    datum.datum.origin(),
                    format!(
                        "ask \"is {name} free before the move begins?\" and write `free` or `held`"
                    ),
                );
                return Holding::Unknown;
            }
        }
        if load.held_by.is_absent() {
            self.lacks(
                what,
                Lack::Absent,
                load.held_by.datum.origin(),
                "add `held-by nothing`, or what holds it: `held-by bolts 24, seal`; or say `free` in the move",
            );
            return Holding::Unknown;
        }
        let free = load.held_by.known().filter(|by| by.value.by.is_empty());
        if let Some(free) = free {
            return if self.sourced(&free.pedigree) {
                Holding::Free
            } else {
                Holding::Unknown
            };
        }
        match self.value(&what, &load.held_by, |by| words(&by.words())) {
            Some(_) => Holding::Held,
            None => Holding::Unknown,
        }
    }

    /// A limit bounds the pull of the hook that its device hangs at: what the others pull it does not say.
    fn limit_of_one_hook(&mut self, moves: &'c Move) {
        let home = Origin::header(&self.case.movement.key);
        let origin = if moves.limit.is_absent() {
            &home
        } else {
            moves.limit.datum.origin()
        };
        self.lacks(
            "which of several hooks the limit of the pull is of: it is not calculated yet",
            Lack::NoAnswer,
            origin,
            "say `free` once the load is, or check the pull by hand for each machine",
        );
    }

    fn limit_of_pull(&mut self, moves: &'c Move, name: &str) -> Option<RatedForce> {
        let what = format!("limit of the pull while {name} is held");
        if moves.limit.is_absent() {
            self.lacks(
                what,
                Lack::Absent,
                &Origin::header(&self.case.movement.key),
                "add `limit 40 t from cell`: the pull at which the limit device stops; or say `free` once it is",
            );
            return None;
        }
        let given = self.value(&what, &moves.limit, |limit| {
            InputValue::Exact(Amount::of(limit.0))
        })?;
        self.evidence(&what, &given.pedigree, &given.origin);
        if given.pedigree.words.is_empty() {
            let due = std::mem::replace(&mut self.due, Stage::Issue);
            self.lacks(
                format!("{what}: which device it is set at"),
                Lack::Unverified,
                &given.origin,
                "end the line with `from cell`, or the name of a source",
            );
            self.due = due;
        }
        Some(given.value.0)
    }
}
