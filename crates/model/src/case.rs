//! A case: all that the rules of one move may see. Closed, owned, with its solutions.

use crate::ask::KeptInputs;
use crate::declare::Role;
use crate::entries::{HungFrom, Job, Load, Move, OverheadCrane, Plant, Rigging};
use crate::estimate::Estimate;
use crate::follows::{Followed, followed};
use crate::hanging::Hanging;
use crate::meeting::links_of_the_end;
use crate::mentions::head_of;
use crate::reach::{Lookups, Reach, by_name, note, several};
use crate::rule_set::{RULE_SETS, RuleSet, rule_set};
use crate::scope::{Declared, Scope, Through, same_entries};
use crate::standing::SetDowns;
use crate::values::{NameOf, Target};
use plumbhook_sheet::{EntryRef, Origin, Stage};
use plumbhook_units::{Angle, Printer};
use rustc_hash::FxHashMap;
use std::sync::{Arc, OnceLock};

/// What the root file settles for every case under it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings {
    /// Allowance on a mass without a tolerance, by basis of the closed list, as a share.
    pub mass_allowance: Vec<(String, f64)>,
    /// The stage that it raises every job to.
    pub stage: Option<Stage>,
    /// Dynamic factor of every move that gives none.
    pub dynamic: Option<Settled<f64>>,
    /// How far a load may hang out of level in every move that does not say it.
    pub tilt: Option<Settled<Angle>>,
}

/// A number that the root file gives where a job gives none.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled<T> {
    /// The number.
    pub value: T,
    /// Why it is that.
    pub because: String,
    /// Where the root file says so.
    pub origin: Origin,
}

/// Everything a case was built from; while all of it is unchanged, so is the case.
#[derive(Debug)]
pub struct Needs {
    names: Lookups,
    surfaces: Vec<Arc<Declared>>,
    attached: Vec<Arc<Declared>>,
    job: Arc<Declared>,
    movement: Arc<Declared>,
    settings: Settings,
}

impl Needs {
    /// Whether a case built now would be built from the very same entries.
    pub fn hold(
        &self,
        scope: &Scope,
        shared: &Shared,
        job: &Arc<Declared>,
        movement: &Arc<Declared>,
    ) -> bool {
        Arc::ptr_eq(&self.job, job)
            && Arc::ptr_eq(&self.movement, movement)
            && self.settings == shared.settings
            && same_entries(&self.surfaces, &shared.surfaces)
            && same_entries(&self.attached, shared.attached_to(movement.name()))
            && self
                .names
                .iter()
                .all(|(name, found)| scope.still_finds(name, found))
    }
}

/// What every case of one job shares; made once a job.
#[derive(Debug)]
pub struct Shared {
    /// The plant itself, its floors and grounds.
    pub surfaces: Vec<Arc<Declared>>,
    /// What the root file settles.
    pub settings: Settings,
    inputs: Arc<KeptInputs>,
    attached: FxHashMap<Box<str>, Vec<Arc<Declared>>>,
}

impl Shared {
    /// From a scope.
    pub fn new(scope: &Scope, settings: Settings) -> Self {
        let mut attached: FxHashMap<Box<str>, Vec<Arc<Declared>>> = FxHashMap::default();
        for entry in scope
            .layers
            .first()
            .map_or(&[][..], |layer| layer.entries())
        {
            let Some(body) = &entry.body else { continue };
            if !stands_in_its_move(scope, entry) {
                continue;
            }
            for link in body.links().iter().filter(|link| link.role == Role::Move) {
                attached
                    .entry(link.head().into())
                    .or_default()
                    .push(Arc::clone(entry));
            }
        }
        Self {
            surfaces: scope
                .plants()
                .map(Arc::clone)
                .chain(scope.of_role(Role::Surface))
                .collect(),
            settings,
            inputs: Arc::default(),
            attached,
        }
    }

    /// Entries of the job that name this move.
    fn attached_to(&self, movement: &str) -> &[Arc<Declared>] {
        self.attached.get(movement).map_or(&[], Vec::as_slice)
    }
}

/// Whether an entry that names a move is a thing of that move, which its case sees. A move that follows another is
/// none, and a question asks: it changes no number.
fn stands_in_its_move(scope: &Scope, entry: &Declared) -> bool {
    scope.sees(entry) && !entry.is(Role::Move) && !entry.is(Role::Question)
}

/// All that the rules of one move may see.
#[derive(Debug)]
pub struct Case {
    /// `job/move`.
    pub name: String,
    /// The job.
    pub job: Arc<Declared>,
    /// The move, with what it takes from the end of the one that it follows.
    pub movement: Arc<Declared>,
    /// The option, where the job has several.
    pub option: Option<Box<str>>,
    /// The rule sets that govern.
    pub rules: Vec<&'static RuleSet>,
    /// How far the job has come.
    pub stage: Stage,
    /// How numbers are printed.
    pub printer: Printer,
    /// What the root file settles.
    pub settings: Settings,
    pub(crate) inputs: Arc<KeptInputs>,
    reached: FxHashMap<Box<str>, Arc<Declared>>,
    /// Names that several entries have, with these: such a name leads to none of them.
    several: Vec<(Box<str>, Vec<EntryRef>)>,
    order: Vec<Arc<Declared>>,
    own_move: Arc<Declared>,
    before: Option<Arc<Declared>>,
    hanging: OnceLock<Hanging>,
    set_downs: OnceLock<SetDowns>,
    estimates: OnceLock<Vec<(Box<str>, Estimate)>>,
}

impl Case {
    /// Builds the case of a move in the option that `scope` sees: everything that its names lead to, and theirs, and
    /// the plant's floors.
    pub fn build(
        scope: &Scope,
        shared: &Shared,
        job: &Arc<Declared>,
        movement: &Arc<Declared>,
    ) -> (Self, Needs) {
        let surfaces = shared.surfaces.clone();
        let attached = shared.attached_to(movement.name()).to_vec();
        let mut names = Lookups::new();
        let Followed {
            movement: as_seen,
            before,
        } = followed(scope, movement, |name, found| {
            note(&mut names, name, found);
        });
        let mut reach = Reach::new(scope, names);
        for entry in std::iter::once(&as_seen).chain(&surfaces).chain(&attached) {
            reach.push(entry);
        }
        for link in links_of_the_end(before.as_deref()) {
            reach.follow(&link);
        }
        reach.all();
        let Reach { order, names, .. } = reach;
        let job_body = job.of::<Job>();
        let rules = rules_of(job_body);
        let case = Self {
            name: format!("{}/{}", job.name(), movement.name()),
            stage: stage_of(job_body).max(shared.settings.stage.unwrap_or_default()),
            printer: Printer {
                us_beside: rules.iter().any(|set| set.us_beside),
            },
            rules,
            settings: shared.settings.clone(),
            inputs: Arc::clone(&shared.inputs),
            reached: by_name(&order, &names),
            several: several(&names),
            order,
            job: Arc::clone(job),
            movement: as_seen,
            own_move: Arc::clone(movement),
            option: match &scope.through {
                Through::One(option) => option.clone(),
                Through::All => None,
            },
            before,
            hanging: OnceLock::new(),
            set_downs: OnceLock::new(),
            estimates: OnceLock::new(),
        };
        let needs = Needs {
            names,
            surfaces,
            attached,
            job: Arc::clone(job),
            movement: Arc::clone(movement),
            settings: shared.settings.clone(),
        };
        (case, needs)
    }

    /// Everything of one kind that the case sees, in the order of reaching it.
    pub fn all<T: 'static>(&self) -> impl Iterator<Item = (&Arc<Declared>, &T)> {
        self.order
            .iter()
            .filter_map(|entry| entry.of::<T>().map(|body| (entry, body)))
    }

    /// What a name leads to, if it has the role that its slot wants.
    pub fn entry<T: Target>(&self, name: &NameOf<T>) -> Option<&Arc<Declared>> {
        self.reached
            .get(name.head())
            .filter(|entry| entry.is(T::ROLE))
    }

    /// What a name leads to, as one kind of entry.
    pub fn find<K: 'static, T: Target>(&self, name: &NameOf<T>) -> Option<(&Arc<Declared>, &K)> {
        let entry = self.entry(name)?;
        entry.of::<K>().map(|body| (entry, body))
    }

    /// The plant that the job stands in; `None` where it sees none, or several.
    pub fn plant(&self) -> Option<(&Arc<Declared>, &Plant)> {
        let mut all = self.all::<Plant>();
        let first = all.next();
        first.filter(|_| all.next().is_none())
    }

    /// The entries that have a name, where they are several.
    pub(crate) fn several(&self, name: &str) -> Option<&[EntryRef]> {
        let mut several = self.several.iter();
        several
            .find(|(of, _)| **of == *head_of(name))
            .map(|(_, all)| &**all)
    }

    /// A declared source, by name.
    pub fn source(&self, name: &str) -> Option<&crate::entries::Source> {
        self.reached.get(name)?.of()
    }

    /// Whatever has that name, if the case sees it.
    pub(crate) fn named(&self, name: &str) -> Option<&Declared> {
        self.reached.get(name).map(|entry| &**entry)
    }

    /// What the take-off or weighing of that name comes to: computed once, when first asked for.
    pub fn estimate(&self, name: &str) -> Option<&Estimate> {
        let all = self.estimates.get_or_init(|| Estimate::all(self));
        let found = all.iter().find(|(of, _)| **of == *name);
        found.map(|(_, estimate)| estimate)
    }

    /// What the move says itself.
    pub fn own_move(&self) -> Option<&Move> {
        self.own_move.of()
    }

    /// The move that it follows, with what that takes from its own.
    pub fn before(&self) -> Option<&Declared> {
        self.before.as_deref()
    }

    /// The move's data, with what it takes from the end of the one that it follows.
    pub fn moves(&self) -> Option<&Move> {
        self.movement.of()
    }

    /// The load that the move carries.
    pub fn load(&self) -> Option<(&Arc<Declared>, &Load)> {
        self.find(&self.moves()?.carries.known()?.value.load)
    }

    /// What the load hangs from, as far as the move says.
    pub fn hung_from(&self) -> Option<&HungFrom> {
        self.all_hung_from().first()
    }

    /// Everything that the load hangs from, as far as the move says.
    pub fn all_hung_from(&self) -> &[HungFrom] {
        let by = self.moves().and_then(|moves| moves.by.known());
        by.map_or(&[], |by| &by.value.0)
    }

    /// Whether the move says that the load hangs from nothing.
    pub fn only_stands(&self) -> bool {
        self.moves()
            .and_then(|moves| moves.by.known())
            .is_some_and(|by| by.value.0.is_empty())
    }

    /// The rigging that the move hangs it by.
    pub fn rigging(&self) -> Option<(&Arc<Declared>, &Rigging)> {
        self.find(&self.hung_from()?.rigging)
    }

    /// The overhead crane that the move is done by.
    pub fn crane(&self) -> Option<(&Arc<Declared>, &OverheadCrane)> {
        self.find(&self.hung_from()?.machine)
    }

    /// What the load is set down on: solved once, when first asked for.
    pub fn set_downs(&self) -> &SetDowns {
        self.set_downs.get_or_init(|| SetDowns::solve(self))
    }

    /// Where the move says what it carries, or would.
    pub fn hanging_home(&self) -> Origin {
        self.moves().map_or_else(
            || Origin::header(&self.movement.key),
            |moves| moves.carries.datum.origin().clone(),
        )
    }

    /// How the load hangs: solved once, when first asked for.
    pub fn hanging(&self) -> &Hanging {
        self.hanging.get_or_init(|| Hanging::solve(self))
    }
}

/// The rule sets of a job; all of them where it names none that is known, so that the strictest governs.
fn rules_of(job: Option<&Job>) -> Vec<&'static RuleSet> {
    let named: Vec<_> = job
        .and_then(|job| job.rules.known())
        .map(|rules| {
            rules
                .value
                .0
                .iter()
                .filter_map(|word| rule_set(word))
                .collect()
        })
        .unwrap_or_default();
    if named.is_empty() {
        RULE_SETS.iter().collect()
    } else {
        named
    }
}

/// The stage of the last revision; without one, all is demanded that an issued job needs.
pub fn stage_of(job: Option<&Job>) -> Stage {
    job.and_then(|job| job.revision.members.last())
        .and_then(|(_, revision)| revision.known())
        .map_or(Stage::Issue, |revision| revision.value.stage)
}
