//! Everything that a user can meet has its words: codes, entries, keys.

use plumbhook_checks::{Outcome, RULES, rule};
use plumbhook_model::entries::{KINDS, OPENERS};
use plumbhook_model::{RULE_SETS, notices};
use plumbhook_sheet::{Basis, Trust};
use std::collections::BTreeSet;

fn is_said(text: &str, at_least_words: usize) -> bool {
    text.split_whitespace().count() >= at_least_words
}

fn said(what: &str, text: &str, at_least_words: usize) {
    assert!(
        is_said(text, at_least_words),
        "{what}: `{text}` is no help; say it in {at_least_words} words or more"
    );
}

fn kebab(what: &str, word: &str) {
    let plain = word
        .chars()
        .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    assert!(
        plain && !word.is_empty() && !word.starts_with('-') && !word.ends_with('-'),
        "{what}: `{word}` is not small letters with hyphens"
    );
}

fn based(what: &str, basis: &Basis) {
    assert!(!basis.publication.trim().is_empty(), "{what}: no title");
    assert!(
        !basis.section.trim().is_empty(),
        "{what}: {} without a section cannot be looked up",
        basis.publication
    );
    let said = basis.say();
    let caution = match basis.trust {
        Trust::Published | Trust::Mechanics => "",
        Trust::CommonPractice => "common practice",
        Trust::FromMemory => "from memory",
    };
    assert!(said.contains(caution), "{what}: {said}");
}

#[test]
fn every_rule_is_explained_and_has_a_basis() {
    assert!(RULES.len() >= 4);
    for rule in RULES {
        let code = rule.code;
        kebab("code of a rule", code);
        said(code, rule.summary, 5);
        said(code, rule.explanation, 20);
        assert!(
            rule.summary.ends_with('.'),
            "{code}: its summary is no sentence"
        );
        assert!(!rule.basis.is_empty(), "{code} follows no publication");
        for basis in rule.basis {
            based(code, basis);
        }
        assert!(!rule.inputs.is_empty(), "{code} asks for nothing");
        for (input, _) in rule.inputs {
            assert!(
                !input.trim().is_empty(),
                "{code} asks for something without a name"
            );
        }
        for example in &rule.examples {
            let words = match example {
                Outcome::Shown(example) => example.say,
                Outcome::Never(why) => why,
            };
            said(code, words, 3);
        }
    }
}

#[test]
fn every_notice_is_explained() {
    assert!(notices::ALL.len() >= 10);
    for notice in notices::ALL {
        kebab("code of a notice", notice.code);
        said(notice.code, notice.summary, 3);
        said(notice.code, notice.explanation, 8);
    }
}

#[test]
fn a_code_means_one_thing() {
    let mut seen = BTreeSet::new();
    let codes = RULES
        .iter()
        .map(|rule| rule.code)
        .chain(notices::ALL.iter().map(|notice| notice.code));
    for code in codes {
        assert!(seen.insert(code), "`{code}` stands for two things");
    }
    for each in RULES {
        assert_eq!(rule(each.code).map(|found| found.code), Some(each.code));
    }
}

#[test]
fn every_entry_and_key_has_its_help() {
    let mut entries = BTreeSet::new();
    let mut wordless = Vec::new();
    for kind in KINDS {
        let block = kind.block;
        kebab("word of an entry", block.word);
        assert!(
            entries.insert(block.word),
            "`{}` is declared twice",
            block.word
        );
        said(block.word, block.help, 3);
        let mut keys = BTreeSet::new();
        for key in block.keys {
            let what = format!("{} {}", block.word, key.word);
            if !key.word.is_empty() {
                kebab("key", key.word);
            }
            assert!(keys.insert(key.word), "{what} is declared twice");
            said(&what, key.shape.say, 1);
            if !is_said(key.help, 3) {
                wordless.push(format!("{what}: {}", key.help.trim()));
            }
        }
    }
    assert!(wordless.is_empty(), "help of two words: {wordless:?}");
    for opener in OPENERS {
        assert!(
            entries.contains(opener),
            "`{opener}` opens a file and is no entry"
        );
    }
}

#[test]
fn every_rule_set_is_explained_and_names_its_publications() {
    assert!(!RULE_SETS.is_empty());
    for set in RULE_SETS {
        kebab("word of a rule set", set.word);
        said(set.word, set.help, 3);
        based(set.word, &set.least_horizontal_basis);
        if let Some(basis) = &set.leg_factor_basis {
            based(set.word, basis);
        }
        assert_eq!(
            set.leg_factors.is_empty(),
            set.leg_factor_basis.is_none(),
            "{}: leg factors and their publication come together",
            set.word
        );
    }
}
