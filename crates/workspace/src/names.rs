//! What is wrong with the names in a file and between the files that see each other.

use crate::kept_names::{NameNotices, Same};
use crate::memo::Whole;
use crate::source::{FileKind, SourceFile};
use crate::view::{RootView, leads_to_plant};
use crate::{claims, planned, says_both};
use plumbhook_model::entries::Job;
use plumbhook_model::{
    Declared, Found, RULE_SETS, Scope, declare::nearest, name_notices, notices, rule_set,
};
use plumbhook_sheet::{Lack, Notice, Origin, Related};
use rayon::prelude::*;
use std::sync::Arc;

/// Everything that names are wrong in, seen from one file. What was said `before` of entries for which nothing
/// changed is taken over.
pub(crate) fn notices_of(
    file: &SourceFile,
    view: &Arc<RootView>,
    scope: &Scope,
    before: Option<&Whole>,
) -> NameNotices {
    let same = before.and_then(|before| Same::find(before, file, view, scope));
    let entries = file.entries().par_iter().enumerate();
    let looked_at = entries.filter(|(nth, _)| !same.as_ref().is_some_and(|same| same.holds(*nth)));
    let found = looked_at.flat_map_iter(|(nth, entry)| {
        let mut found = names(scope, entry);
        found.extend(conflict(scope, entry));
        found.extend(claims::notices_of(scope, &view.settings, entry));
        found.extend(says_both::notices_of(entry));
        found.into_iter().map(move |notice| (nth, notice))
    });
    let mut of_entries: Vec<_> = found.collect();
    if let Some(same) = same {
        of_entries.extend(same.notices());
        of_entries.sort_by_key(|(nth, _)| *nth);
    }
    NameNotices {
        of_entries,
        of_file: of_file(file, view, scope),
    }
}

fn of_file(file: &SourceFile, view: &RootView, scope: &Scope) -> Vec<Notice> {
    let mut all = Vec::new();
    match file.kind {
        Some(FileKind::Job) => {
            if let Some(job) = &file.opener {
                all.extend(plant_of(view, job));
                all.extend(of_job(job));
                all.extend(planned::notices_of(file, scope));
            }
        }
        Some(FileKind::Plant) => all.extend(twin_plants(file, view)),
        Some(FileKind::Yard) | None => {}
    }
    all
}

/// Names that lead nowhere or to something of another kind. One that leads to several is told where it is declared.
fn names(scope: &Scope, entry: &Declared) -> Vec<Notice> {
    let links = entry.body.iter().flat_map(|body| body.links());
    let plants: Vec<_> = links
        .filter(leads_to_plant)
        .map(|link| link.origin.clone())
        .collect();
    let mut found = name_notices(scope, entry);
    found.retain(|notice| notice.code != &notices::NAME_TWICE && !plants.contains(&notice.origin));
    found
}

/// A name that is declared more than once among what a file sees, told at each of them.
fn conflict(scope: &Scope, entry: &Arc<Declared>) -> Vec<Notice> {
    let nameable = entry.block.is_some_and(|block| !block.roles.is_empty());
    if !nameable || entry.name().is_empty() {
        return vec![];
    }
    match scope.find(entry.name()) {
        // The first of them in this file speaks for all.
        Found::Several(mut all) => {
            // Two of different options never meet.
            all.retain(|one| one.option().meets(entry.option()));
            if all.len() < 2 {
                return vec![];
            }
            let first = all.iter().find(|one| one.key.file == entry.key.file);
            let speaks = first.is_some_and(|first| Arc::ptr_eq(first, entry));
            if speaks { twice(&all) } else { vec![] }
        }
        Found::Nowhere | Found::One(_) => vec![],
    }
}

fn twice(all: &[Arc<Declared>]) -> Vec<Notice> {
    let others = |here: &Arc<Declared>| {
        all.iter()
            .filter(|other| !Arc::ptr_eq(here, other))
            .map(|other| Related {
                origin: Origin::header(&other.key),
                say: format!("`{}` is declared here too", other.name()),
            })
            .take(5)
            .collect()
    };
    all.iter()
        .map(|here| Notice {
            code: &notices::NAME_TWICE,
            say: format!(
                "`{}` is declared {} times, so the name leads to none of them",
                here.name(),
                all.len()
            ),
            origin: Origin::header(&here.key),
            related: others(here),
            mend: "give one of them another name".into(),
        })
        .collect()
}

fn twin_plants(file: &SourceFile, view: &RootView) -> Vec<Notice> {
    let Some(plant) = &file.opener else {
        return vec![];
    };
    let all: Vec<_> = view
        .plants_named(plant.name())
        .iter()
        .filter_map(|file| file.opener.clone())
        .collect();
    if all.len() > 1 { twice(&all) } else { vec![] }
}

/// The plant that the job names is looked up among the files that the root file gives.
fn plant_of(view: &RootView, job: &Declared) -> Option<Notice> {
    let plant = job.of::<Job>()?.plant.known()?;
    let name = &*plant.value.name;
    let (code, say, mend) = match view.plants_named(name).len() {
        1 => return None,
        0 => {
            let near = nearest(name, view.plant_names());
            (
                &notices::NAME_NOT_FOUND,
                format!("no plant file that the root file gives opens with `plant {name}`"),
                near.map_or_else(
                    || "write one, or add its folder to `plants` in the root file".to_owned(),
                    |near| format!("did you mean `{near}`?"),
                ),
            )
        }
        several => (
            &notices::NAME_TWICE,
            format!(
                "{several} plant files open with `plant {name}`, so the name leads to none of them"
            ),
            "give one of them another name".to_owned(),
        ),
    };
    let files = view.plants_named(name).iter();
    let related = files
        .filter_map(|file| file.opener.as_ref())
        .map(|plant| Related {
            origin: Origin::header(&plant.key),
            say: "declared here".into(),
        });
    Some(Notice {
        code,
        say,
        origin: plant.origin.clone(),
        related: related.collect(),
        mend,
    })
}

/// What a job has to say of itself.
fn of_job(entry: &Declared) -> Vec<Notice> {
    let Some(job) = entry.of::<Job>() else {
        return vec![];
    };
    let mut found = Vec::new();
    // A revision that could not be read is told at its line.
    let staged = job
        .revision
        .members
        .last()
        .is_some_and(|(_, revision)| match revision {
            plumbhook_model::Datum::Known(_) => true,
            plumbhook_model::Datum::Lacking(lacking) => lacking.lack == Lack::Broken,
        });
    if !staged {
        found.push(Notice {
            code: &notices::NO_STAGE,
            say: "the job says no stage, so all is demanded that an issued job needs".into(),
            origin: Origin::header(&entry.key),
            related: vec![],
            mend: "add a line such as `revision A 2026-10-01 stage bid \"first issue\"`".into(),
        });
    }
    if let Some(rules) = job.rules.known() {
        let unknown = rules.value.0.iter().filter(|word| rule_set(word).is_none());
        found.extend(unknown.map(|word| unknown_rule_set(word, &rules.origin)));
    }
    found
}

fn unknown_rule_set(word: &str, origin: &Origin) -> Notice {
    let words = || RULE_SETS.iter().map(|set| set.word);
    let near = nearest(word, words());
    Notice {
        code: &notices::UNKNOWN_RULE_SET,
        say: format!("`{word}` is no rule set of this version; what it would ask is not checked"),
        origin: origin.clone(),
        related: vec![],
        mend: near.map_or_else(
            || {
                format!(
                    "the rule sets are {}",
                    words().collect::<Vec<_>>().join(", ")
                )
            },
            |near| format!("did you mean `{near}`?"),
        ),
    }
}
