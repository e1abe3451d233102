//! Questions beside what cannot be told: which of it is asked already, and the question that would ask the rest.

use crate::checked::CaseOutcome;
use crate::snapshot::State;
use crate::source::SourceFile;
use plumbhook_model::Declared;
use plumbhook_model::entries::Question;
use plumbhook_sheet::{Aspect, EntryRef, Lack, Missing, Origin, Related, Verdict};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The questions of a job file, and where the lines stand that they are about.
pub(crate) struct Questions<'s> {
    state: &'s State,
    asked: Vec<Asked<'s>>,
    /// What further questions would ask for, each by the entry and the key of its datum, in the order of drafts.
    drafted: Vec<(EntryRef, String)>,
}

struct Asked<'s> {
    entry: &'s Declared,
    body: &'s Question,
}

impl<'s> Questions<'s> {
    /// Those of a job file.
    pub(crate) fn of(state: &'s State, file: &'s SourceFile) -> Self {
        let entries = file.entries().iter();
        let asked: Vec<_> = entries
            .filter_map(|entry| {
                let body = entry.of::<Question>()?;
                Some(Asked { entry, body })
            })
            .collect();
        Self {
            state,
            drafted: vec![],
            asked,
        }
    }

    /// Says beside each finding that cannot tell which question asks for what it lacks, or which one would.
    ///
    /// A datum keeps its drafted question in every case; so the cases come in their order, from the first on.
    pub(crate) fn beside(&mut self, case: &Arc<CaseOutcome>) -> Arc<CaseOutcome> {
        let waits = |verdict: &Verdict| matches!(verdict, Verdict::CannotTell(_));
        if !case
            .findings
            .iter()
            .any(|finding| waits(&finding.aspect.verdict))
        {
            return Arc::clone(case);
        }
        let mut marked = (**case).clone();
        for finding in &mut marked.findings {
            let Verdict::CannotTell(missing) = &finding.aspect.verdict else {
                continue;
            };
            let found = missing.iter().find_map(|missing| {
                let datum = self.datum(missing)?;
                Some((self.open(&datum)?, datum))
            });
            if let Some((asked, _)) = found {
                finding.asked = Some(asked.entry.name().into());
                finding.aspect = Arc::new(asked.beside(&finding.aspect));
            } else if let Some(draft) = missing
                .first()
                .and_then(|missing| self.draft(missing, &case.case))
            {
                let mut aspect = (*finding.aspect).clone();
                aspect.mends.push(draft);
                finding.aspect = Arc::new(aspect);
            }
        }
        Arc::new(marked)
    }

    /// The open question that a datum is closed by.
    fn open(&self, datum: &Datum<'_>) -> Option<&Asked<'s>> {
        self.asked
            .iter()
            .find(|asked| asked.closes(datum) && asked.body.answer.known().is_none())
    }

    /// The question that nobody asks yet, of something that is typed `unknown`.
    fn draft(&mut self, missing: &Missing, case: &str) -> Option<String> {
        if missing.lack != Lack::Unknown {
            return None;
        }
        let datum = self.datum(missing)?;
        if datum.entry.name.is_empty() || self.asked.iter().any(|asked| asked.closes(&datum)) {
            return None;
        }
        let (entry, key) = (Arc::clone(datum.entry), datum.key.to_owned());
        let wanted = (entry, key);
        let before = self.drafted.iter().position(|drafted| *drafted == wanted);
        let at = before.unwrap_or(self.drafted.len());
        let name = self.free_name(at);
        let movement = case.rsplit('/').next().unwrap_or_default();
        let draft = format!(
            "question drafted: `question {name} \"{}?\"` with `closes {}.{}` and `blocks {movement}`",
            missing.what, wanted.0.name, wanted.1
        );
        if before.is_none() {
            self.drafted.push(wanted);
        }
        Some(draft)
    }

    /// The name of the question that is drafted after so many others; those of the file are taken.
    fn free_name(&self, after: usize) -> String {
        let taken: BTreeSet<&str> = self.asked.iter().map(|asked| asked.entry.name()).collect();
        (1..)
            .map(|number| format!("Q{number}"))
            .filter(|name| !taken.contains(&**name))
            .nth(after)
            .unwrap_or_default()
    }

    /// The datum that is missing: its entry, and its key as declared or as its line says.
    fn datum<'m>(&self, missing: &'m Missing) -> Option<Datum<'m>>
    where
        's: 'm,
    {
        let key = match missing.key {
            Some(key) => key,
            None => self.key_at(&missing.origin)?,
        };
        Some(Datum {
            entry: &missing.origin.entry,
            key,
        })
    }

    /// The key of the line that an origin stands in; of a row, the one above its table.
    fn key_at(&self, origin: &Origin) -> Option<&'s str> {
        if origin.line == 0 {
            return None;
        }
        let path = self.state.layout.by_shown.get(&origin.entry.file)?;
        let file = self.state.sources.get(path)?.as_ref().ok()?;
        let line = file.line_of(origin)?;
        (0..=line)
            .rev()
            .filter_map(|line| file.document().line_text(line))
            .find(|text| !text.trim_start().starts_with('|'))?
            .split_whitespace()
            .next()
    }
}

struct Datum<'m> {
    entry: &'m EntryRef,
    key: &'m str,
}

impl Asked<'_> {
    fn closes(&self, datum: &Datum<'_>) -> bool {
        let mut paths = self
            .body
            .closes
            .lines
            .iter()
            .filter_map(|line| line.known());
        paths.any(|path| *path.value.entry == *datum.entry.name && *path.value.key == *datum.key)
    }

    /// "asked as Q1 of the owner, needed by 2026-11-02".
    fn words(&self) -> String {
        let to = self.body.to.known();
        let to = to.map_or_else(String::new, |to| format!(" of {}", to.value.0));
        let by = self.body.needed_by.known();
        let by = by.map_or_else(String::new, |day| format!(", needed by {}", day.value.0));
        format!("asked as {}{to}{by}", self.entry.name())
    }

    fn beside(&self, aspect: &Aspect) -> Aspect {
        let mut aspect = aspect.clone();
        aspect.related.push(Related {
            origin: Origin::header(&self.entry.key),
            say: self.words(),
        });
        if let Some(meanwhile) = self.body.meanwhile.known() {
            aspect.related.push(Related {
                origin: meanwhile.origin.clone(),
                say: "taken meanwhile, by no check".into(),
            });
        }
        aspect
    }
}
