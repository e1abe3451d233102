//! The clean lift of the rules' examples, changed and checked, for the faces to show.

use plumbhook_checks::{RULES, example};
use plumbhook_model::Declared;
use plumbhook_report::places::{Places, Spot};
use plumbhook_sheet::{Finding, Identity, Notice, NoticeCode, Origin, Severity, Verdict};
use plumbhook_syntax::Document;
use plumbhook_workspace::{CaseOutcome, Checked};
use std::sync::Arc;

pub(crate) struct Lift {
    pub(crate) checked: Checked,
    texts: Vec<(Arc<str>, Document)>,
}

impl Lift {
    /// Every rule on the clean lift with some text replaced, as one case.
    pub(crate) fn changed(change: &[(&str, &str)]) -> Self {
        let files = example::files(change).unwrap();
        let case = example::case_of(&files).unwrap();
        let mut findings = Vec::new();
        for rule in RULES {
            for aspect in (rule.check)(&case) {
                findings.push(Finding {
                    identity: Identity {
                        rule: rule.code,
                        subject: aspect.subject.clone(),
                        case: "cover/M1".into(),
                        option: None,
                    },
                    severity: match aspect.verdict {
                        Verdict::Over | Verdict::CannotTell(_) => Severity::Error,
                        Verdict::Within | Verdict::DoesNotApply(_) => Severity::Quiet,
                    },
                    aspect: Arc::new(aspect),
                    blocks: Vec::new(),
                });
            }
        }
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        let outcome = CaseOutcome {
            case: "cover/M1".into(),
            file: "cover.pick".into(),
            findings: fold(findings),
        };
        Self {
            checked: Checked {
                cases: vec![outcome],
                notices: Vec::new(),
                jobs: 1,
            },
            texts: files
                .iter()
                .map(|(name, text)| (Arc::from(*name), Document::new(text)))
                .collect(),
        }
    }

    /// The same with a notice at some text of a file.
    pub(crate) fn with_notice(mut self, code: &'static NoticeCode, at: &str, mend: &str) -> Self {
        let origin = self.origin(at);
        self.checked.notices.push(Notice {
            code,
            say: format!("`{at}` cannot be read as a mass"),
            origin,
            related: Vec::new(),
            mend: mend.into(),
        });
        self
    }

    fn origin(&self, at: &str) -> Origin {
        let (name, document) = self
            .texts
            .iter()
            .find(|(_, document)| document.text().contains(at))
            .unwrap();
        let byte = u32::try_from(document.text().find(at).unwrap()).unwrap();
        let line = document.line_of(byte);
        let block = document.block_of(line).unwrap();
        let read = Declared::read(name, 0, document.block_text(block));
        let start = byte - document.line_start(line).unwrap();
        Origin::at(
            &read.key,
            line - document.blocks()[block].first_line,
            start,
            start + u32::try_from(at.len()).unwrap(),
            plumbhook_sheet::Part::Value,
        )
    }
}

/// What lacks the same datum stands under the first that lacks it.
fn fold(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = Vec::new();
    for finding in findings {
        let cause = kept.iter_mut().find(|known| {
            matches!(known.aspect.verdict, Verdict::CannotTell(_))
                && matches!(finding.aspect.verdict, Verdict::CannotTell(_))
                && known.aspect.primary == finding.aspect.primary
        });
        match cause {
            Some(known) => known.blocks.push(finding.identity),
            None => kept.push(finding),
        }
    }
    kept
}

impl Places for Lift {
    fn locate(&self, origin: &Origin) -> Option<Spot> {
        let key = &origin.entry;
        let (name, document) = self.texts.iter().find(|(name, _)| *name == key.file)?;
        let block = document.blocks().iter().enumerate().find(|(index, _)| {
            let read = Declared::read(name, 0, document.block_text(*index));
            (&read.key.word, &read.key.name) == (&key.word, &key.name)
        })?;
        Some(Spot {
            shown: name.clone(),
            line: block.1.first_line + origin.line,
            start: origin.start,
            end: origin.end,
        })
    }

    fn document(&self, shown: &str) -> Option<&Document> {
        let mut texts = self.texts.iter();
        texts
            .find(|(name, _)| &**name == shown)
            .map(|(_, document)| document)
    }
}
