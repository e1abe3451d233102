//! One case: built, every rule run behind its own fence, severities given, folded.

use crate::Cancel;
use crate::cancel::Cancelled;
use crate::checked::CaseOutcome;
use crate::fence::fenced;
use crate::settled::Loud;
use crate::severity::{arranged, severity};
use plumbhook_model::{
    Case, Declared, Needs, Scope, Shared, contradictions, notices, tags_above_tables,
};
use plumbhook_sheet::{Aspect, Finding, Identity, Notice, Origin};
use std::sync::Arc;

/// The code of a rule and its function: all that a run needs of it.
pub(crate) type Check = (&'static str, fn(&Case) -> Vec<Aspect>);

/// What a run of a case gave.
pub(crate) struct Ran {
    pub(crate) outcome: Arc<CaseOutcome>,
    /// What it was made from; `None` where something failed inside the tool, so that it is never kept.
    pub(crate) needs: Option<Needs>,
    /// What failed inside the tool.
    pub(crate) bugs: Vec<Notice>,
}

/// Everything that the cases of one option of a job have in common.
pub(crate) struct Setting<'a> {
    pub(crate) rules: &'a [Check],
    pub(crate) scope: &'a Scope,
    pub(crate) shared: &'a Shared,
    pub(crate) job: &'a Arc<Declared>,
    /// How loud the root file makes rules.
    pub(crate) louds: &'a Arc<[Loud]>,
    /// Whose entries the scope sees; `None` where the job has none.
    pub(crate) option: Option<&'a str>,
}

impl Setting<'_> {
    fn name(&self, movement: &Declared) -> String {
        format!("{}/{}", self.job.name(), movement.name())
    }

    /// Runs every rule on the case of a move.
    pub(crate) fn run(&self, movement: &Arc<Declared>, cancel: &Cancel) -> Result<Ran, Cancelled> {
        cancel.check()?;
        let built = fenced(|| Case::build(self.scope, self.shared, self.job, movement));
        let (case, needs) = match built {
            Ok((case, needs)) => (case, needs),
            Err(why) => {
                let say = format!("the case {} could not be built: {why}", self.name(movement));
                return Ok(Ran {
                    outcome: self.outcome(movement, None, vec![], vec![]),
                    needs: None,
                    bugs: vec![bug(movement, say)],
                });
            }
        };
        let mut findings = Vec::new();
        let mut bugs = Vec::new();
        let mut meets = fenced(|| contradictions(&case)).unwrap_or_else(|why| {
            let say = format!("comparing {} with the move before failed: {why}", case.name);
            bugs.push(bug(movement, say));
            vec![]
        });
        let tags = fenced(|| tags_above_tables(&case)).unwrap_or_else(|why| {
            let say = format!("comparing tags with tables in {} failed: {why}", case.name);
            bugs.push(bug(movement, say));
            vec![]
        });
        meets.extend(tags);
        let name: Arc<str> = case.name.as_str().into();
        for rule in self.rules {
            cancel.check()?;
            match fenced(|| findings_of(*rule, (&case, &name), self.louds)) {
                Ok(found) => findings.extend(found),
                Err(why) => bugs.push(bug(
                    movement,
                    format!("the rule {} failed on {}: {why}", rule.0, case.name),
                )),
            }
        }
        Ok(Ran {
            outcome: self.outcome(movement, Some(&case), findings, meets),
            needs: Some(needs).filter(|_| bugs.is_empty()),
            bugs,
        })
    }

    fn outcome(
        &self,
        movement: &Declared,
        case: Option<&Case>,
        findings: Vec<Finding>,
        notices: Vec<Notice>,
    ) -> Arc<CaseOutcome> {
        Arc::new(CaseOutcome {
            case: self.name(movement),
            option: self.option.map(str::to_owned),
            file: Arc::clone(&movement.key.file),
            stage: case.map(|case| case.stage).unwrap_or_default(),
            printer: case.map(|case| case.printer).unwrap_or_default(),
            findings: arranged(findings),
            notices,
        })
    }
}

fn findings_of(
    (code, check): Check,
    (case, name): (&Case, &Arc<str>),
    louds: &[Loud],
) -> Vec<Finding> {
    let option: Option<Arc<str>> = case.option.as_deref().map(Arc::from);
    let aspects = check(case).into_iter();
    aspects
        .map(|aspect| Finding {
            identity: Identity {
                rule: code,
                subject: aspect.subject.as_str().into(),
                case: Arc::clone(name),
                option: option.clone(),
            },
            severity: severity(&aspect.verdict, case.stage, louds, code),
            aspect: Arc::new(aspect.compact()),
            blocks: vec![],
            asked: None,
        })
        .collect()
}

fn bug(movement: &Declared, say: String) -> Notice {
    Notice {
        code: &notices::OUR_BUG,
        say,
        origin: Origin::header(&movement.key),
        related: vec![],
        mend: "tell us, with this job; what the rule would have said is unknown".into(),
    }
}
