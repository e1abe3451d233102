//! One file: its names, and for a job every case; what is unchanged is kept.

use crate::Cancel;
use crate::asked::Questions;
use crate::cancel::Cancelled;
use crate::case::{Ran, Setting};
use crate::fence::fenced;
use crate::kept_names::NameNotices;
use crate::memo::{FileOutcome, KeptCase, KeptCases, Whole};
use crate::names;
use crate::snapshot::State;
use crate::source::{FileKind, SourceFile};
use crate::view::RootView;
use plumbhook_model::{Declared, OptionOf, Role, Scope, Settings, Shared, notices};
use plumbhook_sheet::{Notice, Origin};
use rayon::prelude::*;
use std::sync::Arc;

/// What the cases of one option see.
struct Seen {
    option: Option<Box<str>>,
    scope: Scope,
    shared: Shared,
}

impl Seen {
    /// One for each option of the job; one alone where it has none.
    fn all(scope: &Scope, settings: &Settings) -> Vec<Self> {
        let options = scope.options().iter().cloned().map(Some);
        let mut options: Vec<Option<Box<str>>> = options.collect();
        if options.is_empty() {
            options.push(None);
        }
        let seen = options.into_iter().map(|option| {
            let scope = scope.of_option(option.as_deref());
            let shared = Shared::new(&scope, settings.clone());
            Self {
                option,
                scope,
                shared,
            }
        });
        seen.collect()
    }

    /// Whether a move is checked in it. One whose option cannot be read is checked in each.
    fn checks(&self, movement: &Declared) -> bool {
        match movement.option() {
            OptionOf::Each | OptionOf::NotKnown => true,
            OptionOf::One(option) => self.option.as_deref() == Some(option),
        }
    }
}

/// A case as checked: kept from before, or run now.
struct Done {
    ran: Ran,
    kept: Option<Arc<KeptCase>>,
}

impl State {
    /// Everything that is said of one file that a root file gives a view to.
    pub(crate) fn check_file(
        &self,
        file: &Arc<SourceFile>,
        view: &Arc<RootView>,
        cancel: &Cancel,
    ) -> Result<Arc<FileOutcome>, Cancelled> {
        cancel.check()?;
        let before = self.memo.whole(&file.path);
        let kept = before
            .as_ref()
            .filter(|kept| Arc::ptr_eq(&kept.file, file) && Arc::ptr_eq(&kept.view, view))
            .map(|kept| Arc::clone(&kept.outcome));
        if let Some(kept) = kept.as_ref().filter(|_| !self.recheck) {
            return Ok(Arc::clone(kept));
        }
        let scope = view.scope(file);
        let mut notices = file.notices.clone();
        let names = fenced(|| self.names(file, view, &scope, before.as_deref()));
        match &names {
            Ok(names) => notices.extend(names.all().cloned()),
            Err(why) => notices.push(bug(file, why)),
        }
        let (cases, keep, bugs) = self.cases(file, view, &scope, cancel)?;
        let failed = !bugs.is_empty();
        notices.extend(bugs);
        let outcome = Arc::new(FileOutcome { cases, notices });
        if let Some(kept) = kept {
            assert_eq!(kept, outcome, "a kept result of {} was wrong", file.shown);
        }
        if let Some(names) = names.ok().filter(|_| !failed) {
            let whole = Whole {
                file: Arc::clone(file),
                view: Arc::clone(view),
                outcome: Arc::clone(&outcome),
                names,
            };
            self.memo.keep_whole(whole, keep);
        }
        Ok(outcome)
    }

    fn names(
        &self,
        file: &SourceFile,
        view: &Arc<RootView>,
        scope: &Scope,
        before: Option<&Whole>,
    ) -> NameNotices {
        let names = names::notices_of(file, view, scope, before);
        if self.recheck {
            let fresh = names::notices_of(file, view, scope, None);
            assert_eq!(names, fresh, "kept notices of {} were wrong", file.shown);
        }
        names
    }

    #[allow(clippy::type_complexity, reason = "three lists, taken apart at once")]
    fn cases(
        &self,
        file: &Arc<SourceFile>,
        view: &RootView,
        scope: &Scope,
        cancel: &Cancel,
    ) -> Result<(Vec<Arc<crate::CaseOutcome>>, KeptCases, Vec<Notice>), Cancelled> {
        let (Some(job), Some(FileKind::Job)) = (&file.opener, file.kind) else {
            return Ok((vec![], KeptCases::default(), vec![]));
        };
        let seen = Seen::all(scope, &view.settings);
        let before = self.memo.cases(&file.path);
        let moves = file.entries().iter().filter(|entry| entry.is(Role::Move));
        let cases: Vec<_> = moves
            .flat_map(|movement| {
                let seen = seen.iter().filter(|seen| seen.checks(movement));
                seen.map(move |seen| (movement, seen))
            })
            .collect();
        let done: Vec<Result<Done, Cancelled>> = cases
            .into_par_iter()
            .map(|(movement, seen)| {
                let setting = Setting {
                    rules: &self.rules,
                    scope: &seen.scope,
                    shared: &seen.shared,
                    job,
                    louds: &view.louds,
                    option: seen.option.as_deref(),
                };
                self.case(&setting, movement, &before, cancel)
            })
            .collect();
        let mut cases = Vec::with_capacity(done.len());
        let mut keep = KeptCases::default();
        let mut bugs = Vec::new();
        let mut cancelled = false;
        for done in done {
            let Ok(Done { ran, kept }) = done else {
                cancelled = true;
                continue;
            };
            if let Some(kept) = kept {
                keep.insert(kept.of.clone(), kept);
            }
            bugs.extend(ran.bugs);
            cases.push(ran.outcome);
        }
        if cancelled {
            self.memo.keep_complete(file, keep);
            return Err(Cancelled);
        }
        // Questions are no part of a case: what is kept of one does not wait for them.
        let mut questions = Questions::of(self, file);
        let cases = cases.iter().map(|case| questions.beside(case)).collect();
        Ok((cases, keep, bugs))
    }

    fn case(
        &self,
        setting: &Setting<'_>,
        movement: &Arc<Declared>,
        before: &KeptCases,
        cancel: &Cancel,
    ) -> Result<Done, Cancelled> {
        let of = (Arc::clone(&movement.key), setting.option.map(Into::into));
        let kept = before.get(&of).filter(|kept| {
            kept.louds == *setting.louds
                && kept
                    .needs
                    .hold(setting.scope, setting.shared, setting.job, movement)
        });
        if let Some(kept) = kept {
            if self.recheck {
                let again = setting.run(movement, cancel)?;
                assert_eq!(
                    kept.outcome, again.outcome,
                    "a kept case was wrong; nobody may trust what it said"
                );
            }
            return Ok(Done {
                ran: Ran {
                    outcome: Arc::clone(&kept.outcome),
                    needs: None,
                    bugs: vec![],
                },
                kept: Some(Arc::clone(kept)),
            });
        }
        let mut ran = setting.run(movement, cancel)?;
        let kept = ran.needs.take().map(|needs| {
            Arc::new(KeptCase {
                of,
                louds: Arc::clone(setting.louds),
                needs,
                outcome: Arc::clone(&ran.outcome),
            })
        });
        Ok(Done { ran, kept })
    }
}

fn bug(file: &SourceFile, why: &str) -> Notice {
    let origin = file.opener.as_ref().map_or_else(
        || crate::source::place_in_file(&file.shown, 0, 0, 0),
        |opener| Origin::header(&opener.key),
    );
    Notice {
        code: &notices::OUR_BUG,
        say: format!("looking up the names of this file failed inside the tool: {why}"),
        origin,
        related: vec![],
        mend: "tell us, with this file; names in it were not looked at".into(),
    }
}
