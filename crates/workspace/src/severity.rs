//! From verdicts to what is shown: how loud, folded under which cause, in which order.

use crate::settled::Loud;
use plumbhook_sheet::{Finding, Lack, Missing, Severity, Stage, Verdict};
use std::cmp::Ordering;

/// Rules that are about one datum itself, with how the words for it begin: where their check waits for it, the
/// others fold under theirs.
const ABOUT_A_DATUM: &[(&str, &str)] = &[
    ("mass-known", "mass of "),
    ("cg-known", "centre of gravity of "),
    ("support-verified", "what "),
    ("support-verified", "a verification of "),
];

/// How loud a verdict of a rule is at a stage.
///
/// *Over* is an error at every stage, whatever the root file says. *Cannot tell* is one as soon as anything that is
/// missing is demanded by now; the root file may make it a warning, or an error where it is not yet due.
pub(crate) fn severity(verdict: &Verdict, stage: Stage, louds: &[Loud], rule: &str) -> Severity {
    let own = of_verdict(verdict, stage);
    let loud = louds.iter().find(|loud| loud.rule == rule);
    match (verdict, own, loud.map(|loud| loud.to)) {
        (Verdict::CannotTell(_), Severity::Error, Some(Severity::Warning)) => Severity::Warning,
        (Verdict::CannotTell(_), Severity::NotYetDue, Some(Severity::Error)) => Severity::Error,
        _ => own,
    }
}

fn of_verdict(verdict: &Verdict, stage: Stage) -> Severity {
    match verdict {
        Verdict::Over => Severity::Error,
        Verdict::CannotTell(missing) => {
            let later = !missing.is_empty() && missing.iter().all(|missing| missing.due > stage);
            if later {
                Severity::NotYetDue
            } else {
                Severity::Error
            }
        }
        Verdict::Within | Verdict::DoesNotApply(_) => Severity::Quiet,
    }
}

/// The findings of one case, folded under what they wait for and in the order in which they are shown.
pub(crate) fn arranged(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = Vec::with_capacity(findings.len());
    // What the tenth check of a case waits for is seldom the tenth datum: a list is fast enough.
    let mut causes: Vec<(usize, Severity)> = Vec::new();
    for finding in findings {
        let same_cause = causes.iter().copied().find(|(at, severity)| {
            *severity == finding.severity
                && kept
                    .get(*at)
                    .is_some_and(|leader| wait_for_the_same(leader, &finding))
        });
        if let Some(leader) = same_cause.and_then(|(at, _)| kept.get_mut(at)) {
            fold(leader, finding);
            continue;
        }
        if first_missing(&finding).is_some() {
            causes.push((kept.len(), finding.severity));
        }
        kept.push(finding);
    }
    kept.sort_by(worst_first);
    kept
}

fn first_missing(finding: &Finding) -> Option<&Missing> {
    match &finding.aspect.verdict {
        Verdict::CannotTell(missing) => missing.first(),
        _ => None,
    }
}

/// Whether two findings wait for one datum. A side of a value is one with the whole band of it, which the rule about
/// that datum asks for: its mend answers both.
fn wait_for_the_same(one: &Finding, other: &Finding) -> bool {
    let (Some(a), Some(b)) = (first_missing(one), first_missing(other)) else {
        return false;
    };
    let one_sided = a.lack == Lack::OneSided && b.lack == Lack::OneSided;
    a.origin == b.origin && (a.what == b.what || one_sided && (about(one) || about(other)))
}

/// Whether a finding is one of the rule that is about the datum it waits for.
fn about(finding: &Finding) -> bool {
    first_missing(finding).is_some_and(|missing| {
        ABOUT_A_DATUM
            .iter()
            .any(|(rule, datum)| *rule == finding.identity.rule && missing.what.starts_with(datum))
    })
}

fn fold(leader: &mut Finding, mut other: Finding) {
    if about(&other) && !about(leader) {
        std::mem::swap(leader, &mut other);
        leader.blocks = std::mem::take(&mut other.blocks);
        leader.blocks.insert(0, other.identity);
    } else {
        leader.blocks.push(other.identity);
    }
}

fn worst_first(a: &Finding, b: &Finding) -> Ordering {
    let rank = |finding: &Finding| match (&finding.aspect.verdict, finding.severity) {
        (Verdict::Over, _) => 0,
        (Verdict::CannotTell(_), Severity::NotYetDue) => 2,
        (Verdict::CannotTell(_), _) => 1,
        (Verdict::Within | Verdict::DoesNotApply(_), _) => 3,
    };
    // An over without a number is as bad as any.
    let share = |finding: &Finding| finding.aspect.sheet.utilisation.unwrap_or(f64::INFINITY);
    rank(a).cmp(&rank(b)).then_with(|| match a.aspect.verdict {
        Verdict::Over => share(b).total_cmp(&share(a)),
        _ => Ordering::Equal,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use plumbhook_sheet::{Aspect, EntryKey, Identity, Origin, Sheet};
    use std::sync::Arc;

    fn missing(what: &str, due: Stage) -> Missing {
        let entry = Arc::new(EntryKey {
            file: "a.pick".into(),
            word: "load".into(),
            name: "cover".into(),
            nth: 0,
        });
        Missing {
            what: what.into(),
            lack: Lack::Absent,
            key: None,
            origin: Origin::header(&entry),
            mend: String::new(),
            due,
        }
    }

    fn finding(rule: &'static str, verdict: Verdict, utilisation: Option<f64>) -> Finding {
        Finding {
            severity: of_verdict(&verdict, Stage::Bid),
            identity: Identity {
                rule,
                subject: "cover".into(),
                case: "j/M1".into(),
                option: None,
            },
            aspect: Arc::new(Aspect {
                subject: "cover".into(),
                verdict,
                headline: String::new(),
                primary: missing("", Stage::Bid).origin,
                related: vec![],
                sums: vec![],
                mends: vec![],
                sheet: Arc::new(Sheet {
                    utilisation,
                    ..Sheet::default()
                }),
            }),
            blocks: vec![],
            asked: None,
        }
    }

    fn lacks(rule: &'static str, what: &str, due: Stage) -> Finding {
        finding(rule, Verdict::CannotTell(vec![missing(what, due)]), None)
    }

    fn rules(findings: &[Finding]) -> Vec<(&'static str, Vec<&'static str>)> {
        let blocks = |finding: &Finding| finding.blocks.iter().map(|id| id.rule).collect();
        findings
            .iter()
            .map(|finding| (finding.identity.rule, blocks(finding)))
            .collect()
    }

    #[test]
    fn over_is_an_error_at_every_stage() {
        for (stage, _) in Stage::ALL {
            assert_eq!(of_verdict(&Verdict::Over, *stage), Severity::Error);
        }
    }

    #[test]
    fn a_root_file_lowers_what_cannot_be_told_and_never_an_over() {
        let loud = |to| Loud {
            rule: "tilt",
            to,
            because: "x".into(),
            origin: missing("", Stage::Bid).origin,
        };
        let lower = [loud(Severity::Warning)];
        let cannot = |due| Verdict::CannotTell(vec![missing("mass", due)]);
        let now = |verdict: &Verdict, rule| severity(verdict, Stage::Bid, &lower, rule);
        assert_eq!(now(&cannot(Stage::Bid), "tilt"), Severity::Warning);
        assert_eq!(now(&cannot(Stage::Bid), "hook-reach"), Severity::Error);
        assert_eq!(now(&cannot(Stage::Issue), "tilt"), Severity::NotYetDue);
        assert_eq!(now(&Verdict::Over, "tilt"), Severity::Error);
        let raise = [loud(Severity::Error)];
        let raised = severity(&cannot(Stage::Issue), Stage::Bid, &raise, "tilt");
        assert_eq!(raised, Severity::Error);
    }

    #[test]
    fn only_what_is_all_due_later_is_not_yet_due() {
        let now = missing("mass", Stage::Bid);
        let later = missing("mass", Stage::Issue);
        let at_bid = |missing| of_verdict(&Verdict::CannotTell(missing), Stage::Bid);
        assert_eq!(at_bid(vec![later.clone()]), Severity::NotYetDue);
        assert_eq!(at_bid(vec![later.clone(), now]), Severity::Error);
        assert_eq!(at_bid(vec![]), Severity::Error);
        let at_issue = of_verdict(&Verdict::CannotTell(vec![later]), Stage::Issue);
        assert_eq!(at_issue, Severity::Error);
    }

    #[test]
    fn checks_that_wait_for_one_datum_fold_under_the_rule_about_it() {
        let folded = arranged(vec![
            lacks("sling-rating", "mass of cover", Stage::Bid),
            lacks("hook-capacity", "cg", Stage::Bid),
            lacks("shackle-rating", "mass of cover", Stage::Bid),
            lacks("support-verified", "mass of cover", Stage::Bid),
            lacks("mass-known", "mass of cover", Stage::Bid),
        ]);
        assert_eq!(
            rules(&folded),
            [
                (
                    "mass-known",
                    vec!["sling-rating", "shackle-rating", "support-verified"]
                ),
                ("hook-capacity", vec![])
            ]
        );
    }

    #[test]
    fn a_check_that_wants_one_side_folds_under_the_rule_that_wants_both() {
        let one_sided = |rule, what: &str| {
            let side = Missing {
                lack: Lack::OneSided,
                ..missing(what, Stage::Bid)
            };
            finding(rule, Verdict::CannotTell(vec![side]), None)
        };
        let folded = arranged(vec![
            one_sided("mass-known", "mass of cover: how exact it is"),
            one_sided("tilt", "mass of cover: how low it may be"),
        ]);
        assert_eq!(rules(&folded), [("mass-known", vec!["tilt"])]);
        let apart = arranged(vec![
            one_sided("leg-angle", "length of leg A: how high it may be"),
            one_sided("tilt", "length of leg A: how low it may be"),
        ]);
        assert_eq!(rules(&apart), [("leg-angle", vec![]), ("tilt", vec![])]);
    }

    #[test]
    fn what_is_due_is_never_folded_under_what_is_not() {
        let folded = arranged(vec![
            lacks("sling-rating", "tag", Stage::Issue),
            lacks("shackle-rating", "tag", Stage::Bid),
        ]);
        assert_eq!(
            rules(&folded),
            [("shackle-rating", vec![]), ("sling-rating", vec![])]
        );
    }

    #[test]
    fn an_over_is_never_folded_and_the_worst_stands_first() {
        let folded = arranged(vec![
            finding("a", Verdict::Within, Some(0.5)),
            lacks("b", "mass", Stage::Bid),
            finding("c", Verdict::Over, Some(1.1)),
            finding("d", Verdict::Over, Some(1.3)),
            lacks("e", "mass", Stage::Bid),
        ]);
        let order: Vec<_> = folded.iter().map(|finding| finding.identity.rule).collect();
        assert_eq!(order, ["d", "c", "b", "a"]);
    }
}
