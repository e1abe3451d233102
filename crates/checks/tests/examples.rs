//! Every rule shows its four outcomes, and says what its example says.

use plumbhook_checks::{Example, Outcome, RULES, Rule, example};
use plumbhook_sheet::Aspect;

const OUTCOMES: [&str; 4] = ["over", "within", "cannot tell", "does not apply"];

/// No rule is without these two: one that cannot pass or cannot lack anything checks nothing.
const NEEDED: [&str; 2] = ["within", "cannot tell"];

fn shown(rule: &Rule, example: &Example) -> Aspect {
    let files = rule
        .lift
        .files(example.change)
        .unwrap_or_else(|why| panic!("{}: {why}", rule.code));
    let case = example::case_of(&files).unwrap_or_else(|why| panic!("{}: {why}", rule.code));
    let mut aspects = (rule.check)(&case);
    let subjects: Vec<_> = aspects
        .iter()
        .map(|aspect| aspect.subject.clone())
        .collect();
    aspects.retain(|aspect| example.subject.is_empty() || aspect.subject == example.subject);
    assert!(
        !aspects.is_empty(),
        "{}: \"{}\" is about `{}`, the rule speaks of {subjects:?}",
        rule.code,
        example.say,
        example.subject
    );
    aspects.remove(0)
}

#[test]
fn every_rule_shows_its_four_outcomes() {
    let mut wrong = Vec::new();
    for rule in RULES {
        for (outcome, word) in rule.examples.iter().zip(OUTCOMES) {
            let example = match outcome {
                Outcome::Shown(example) => example,
                Outcome::Never(because) => {
                    assert!(
                        !because.is_empty() && !NEEDED.contains(&word),
                        "{}",
                        rule.code
                    );
                    continue;
                }
            };
            let aspect = shown(rule, example);
            if aspect.verdict.word() != word {
                wrong.push(format!(
                    "{} \"{}\": wanted {word}, got {}: {} {:?}",
                    rule.code,
                    example.say,
                    aspect.verdict.word(),
                    aspect.headline,
                    aspect.verdict
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_clean_lift_reads_without_a_notice() {
    for (name, text) in RULES.iter().flat_map(|rule| rule.lift.files) {
        let document = plumbhook_syntax::Document::new(text);
        for index in 0..document.blocks().len() {
            let read =
                plumbhook_model::Declared::read(&(*name).into(), 0, document.block_text(index));
            let said: Vec<_> = read
                .notices
                .iter()
                .map(|notice| (&notice.say, &notice.mend))
                .collect();
            assert!(said.is_empty(), "{name} {:?}: {said:?}", read.key);
        }
    }
}
