//! What a job says of itself and its plan: revisions, holds, questions.

use crate::source::SourceFile;
use plumbhook_model::declare::nearest;
use plumbhook_model::entries::{Job, Load, Move, Question, Revision};
use plumbhook_model::values::DatumPath;
use plumbhook_model::{Declared, Found, Given, Said, Scope, notices};
use plumbhook_sheet::{Notice, Related};

/// Everything that is wrong with that in a job file.
pub(crate) fn notices_of(file: &SourceFile, scope: &Scope) -> Vec<Notice> {
    let mut all = Vec::new();
    if let Some(job) = file.opener.as_ref().and_then(|job| job.of::<Job>()) {
        all.extend(revisions(job));
    }
    for entry in file.entries() {
        if let Some(load) = entry.of::<Load>() {
            all.extend(free_at(file, load));
        }
        if let Some(question) = entry.of::<Question>() {
            all.extend(closes(scope, entry, question));
        }
    }
    all
}

fn revisions(job: &Job) -> Vec<Notice> {
    let members = job.revision.members.iter();
    let known: Vec<(&str, &Given<Revision>)> = members
        .filter_map(|(letter, revision)| Some((&**letter, revision.known()?)))
        .collect();
    let mut found = Vec::new();
    // One alone is told apart from no other.
    let several = if known.len() > 1 { &known[..] } else { &[] };
    for (letter, revision) in several {
        let lacks = match (
            revision.value.day.is_empty(),
            revision.value.reason.is_empty(),
        ) {
            (true, true) => "no day and no reason",
            (true, false) => "no day",
            (false, true) => "no reason",
            (false, false) => continue,
        };
        found.push(Notice {
            code: &notices::REVISION_NOT_DATED,
            say: format!("revision {letter} says {lacks}"),
            origin: revision.origin.clone(),
            related: vec![],
            mend: "write it as `revision C 2026-10-12 stage bid \"hatch measured\"`".into(),
        });
    }
    let dated: Vec<_> = known
        .iter()
        .filter(|(_, revision)| !revision.value.day.is_empty())
        .collect();
    for pair in dated.windows(2) {
        let [(above, older), (letter, newer)] = pair else {
            continue;
        };
        // Days are ISO, so they stand in the order of their letters.
        if newer.value.day < older.value.day {
            found.push(Notice {
                code: &notices::REVISIONS_BACKWARDS,
                say: format!(
                    "revision {letter} of {} is older than revision {above} of {} above it, and counts as the \
                     present",
                    newer.value.day, older.value.day
                ),
                origin: newer.origin.clone(),
                related: vec![Related {
                    origin: older.origin.clone(),
                    say: format!("revision {above}"),
                }],
                mend: "put the revisions in the order of their days, or mend the day".into(),
            });
        }
    }
    found
}

/// A hold at which a load is proved free, and that no move of the file has.
fn free_at(file: &SourceFile, load: &Load) -> Option<Notice> {
    let held = load.held_by.known()?;
    let hold = held.value.free_at.as_ref()?;
    let moves = file.entries().iter().filter_map(|entry| entry.of::<Move>());
    let names: Vec<Box<str>> = moves.flat_map(Move::hold_names).collect();
    if names.contains(hold) {
        return None;
    }
    let near = nearest(hold, names.iter().map(|name| &**name));
    Some(Notice {
        code: &notices::HOLD_NOT_FOUND,
        say: format!("no move has a hold `{hold}`, so nowhere is the load proved free"),
        origin: held.origin.clone(),
        related: vec![],
        mend: near.map_or_else(
            || {
                format!(
                    "add a line `hold {hold} …` to the move that breaks it free, or name it in the `hold` cell of \
                     a station"
                )
            },
            |near| format!("did you mean `{near}`?"),
        ),
    })
}

fn closes(scope: &Scope, entry: &Declared, question: &Question) -> Vec<Notice> {
    let mut found = Vec::new();
    for path in question.closes.lines.iter().filter_map(|line| line.known()) {
        let path = &path.value;
        match said(scope, path) {
            Leads::To(Said::Something) | Leads::ToSeveral => {}
            Leads::To(Said::Nothing | Said::NoAnswer) => {
                if let Some(answer) = question.answer.known() {
                    found.push(Notice {
                        code: &notices::ANSWER_NOT_WRITTEN,
                        say: format!(
                            "{} is answered, but {}.{} is still not given",
                            entry.name(),
                            path.entry,
                            path.key
                        ),
                        origin: answer.origin.clone(),
                        related: vec![Related {
                            origin: path.origin.clone(),
                            say: "what it closes".into(),
                        }],
                        mend: format!(
                            "write the answer as a line `{} …` of `{}`, with where it comes from",
                            path.key, path.entry
                        ),
                    });
                }
            }
            Leads::Nowhere(say, mend) => found.push(Notice {
                code: &notices::CLOSES_NOTHING,
                say,
                origin: path.origin.clone(),
                related: vec![],
                mend,
            }),
        }
    }
    found
}

enum Leads {
    To(Said),
    /// To one in each of several options.
    ToSeveral,
    Nowhere(String, String),
}

fn said(scope: &Scope, path: &DatumPath) -> Leads {
    let mean = |near: Option<&str>| {
        near.map_or_else(String::new, |near| format!("did you mean `{near}`?"))
    };
    let declared = match scope.find(&path.entry) {
        Found::One(declared) => declared,
        Found::Several(_) => return Leads::ToSeveral,
        Found::Nowhere => {
            let entries = scope.layers.iter().flat_map(|layer| layer.entries());
            let near = nearest(&path.entry, entries.map(|entry| entry.name()));
            let say = format!("`{}` names nothing that this job sees", path.entry);
            return Leads::Nowhere(say, mean(near));
        }
    };
    if let Some(said) = declared.body.as_ref().and_then(|body| body.said(&path.key)) {
        return Leads::To(said);
    }
    let keys = declared.block.map_or(&[][..], |block| block.keys);
    let near = nearest(&path.key, keys.iter().map(|key| key.word));
    let say = format!("`{}` has no key `{}`", declared.key.word, path.key);
    Leads::Nowhere(say, mean(near))
}
