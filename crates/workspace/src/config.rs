//! The root file: what it may say, and every way in which it can be wrong. Never a silent default.

use crate::settled::{self, Loud, RawFactor, RawLimit, RawLoud, Text};
use plumbhook_model::{BASES, RULE_SETS, Settings, declare::nearest, rule_set};
use plumbhook_sheet::Stage;
use plumbhook_syntax::{Node, items};
use plumbhook_units::{Kind, Quantity};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;
use toml::Spanned;

/// The version of the language that this version reads.
pub const LANGUAGE: i64 = 1;

/// A root file to begin with, for whoever has none.
pub const FIRST_LINES: &str = "language = 1\nyard = [\"yard\"]\nplants = [\"plants\"]\n";

/// What a root file says.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Config {
    /// Folders of yard files, as written, with their place.
    pub(crate) yard: Vec<(String, Range<usize>)>,
    /// Folders of plant files.
    pub(crate) plants: Vec<(String, Range<usize>)>,
    /// What it settles for every case.
    pub(crate) settings: Settings,
    /// How loud it makes rules.
    pub(crate) louds: Vec<Loud>,
}

/// What is wrong in a root file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ConfigFault {
    /// What is wrong, with what was read.
    pub(crate) say: String,
    /// What would mend it; empty where nothing is known.
    pub(crate) mend: String,
    /// Bytes of the text.
    pub(crate) at: Range<usize>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    language: Option<Spanned<i64>>,
    #[serde(default)]
    yard: Vec<Spanned<String>>,
    #[serde(default)]
    plants: Vec<Spanned<String>>,
    #[serde(default, rename = "rule-sets")]
    rule_sets: BTreeMap<Spanned<String>, Spanned<i64>>,
    #[serde(default)]
    allowance: RawAllowance,
    #[serde(default)]
    stage: RawStage,
    #[serde(default)]
    factor: RawFactor,
    #[serde(default)]
    limit: RawLimit,
    #[serde(default)]
    severity: BTreeMap<Spanned<String>, RawLoud>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
struct RawAllowance {
    #[serde(default)]
    mass: BTreeMap<Spanned<String>, Spanned<String>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
struct RawStage {
    least: Option<Spanned<String>>,
}

impl Config {
    /// Reads the text of a root file; its places have the name `shown`.
    ///
    /// # Errors
    /// Everything that is wrong in it; then nothing of it counts.
    pub(crate) fn read(shown: &Arc<str>, text: &str) -> Result<Self, Vec<ConfigFault>> {
        let raw: Raw = toml::from_str(text).map_err(|error| vec![unreadable(&error)])?;
        let text = &Text { shown, text };
        let mut faults = Vec::new();
        language(raw.language.as_ref(), &mut faults);
        let pinned = raw.rule_sets.iter();
        faults.extend(pinned.filter_map(|(word, edition)| edition_fault(word, edition)));
        let settings = Settings {
            mass_allowance: raw
                .allowance
                .mass
                .iter()
                .filter_map(|(basis, share)| kept(allowance(basis, share), &mut faults))
                .collect(),
            stage: raw
                .stage
                .least
                .as_ref()
                .and_then(|word| kept(least_stage(word), &mut faults)),
            dynamic: raw
                .factor
                .dynamic
                .as_ref()
                .and_then(|raw| kept(settled::dynamic(text, raw), &mut faults)),
            tilt: raw
                .limit
                .tilt
                .as_ref()
                .and_then(|raw| kept(settled::tilt(text, raw), &mut faults)),
        };
        let louds = settled::louds(text, &raw.severity, &mut faults);
        let folders = |list: Vec<Spanned<String>>| {
            list.into_iter()
                .map(|folder| (folder.get_ref().clone(), folder.span()))
                .collect()
        };
        if faults.is_empty() {
            Ok(Self {
                yard: folders(raw.yard),
                plants: folders(raw.plants),
                settings,
                louds,
            })
        } else {
            faults.sort_by_key(|fault| fault.at.start);
            Err(faults)
        }
    }
}

/// What toml says of a text that it cannot read; of a key that there is not, the one that was meant.
fn unreadable(error: &toml::de::Error) -> ConfigFault {
    let say = error.message().trim().replace('\n', "; ");
    let unknown = say.starts_with("unknown field");
    let mut quoted = say.split('`').skip(1).step_by(2);
    let word = quoted.next().filter(|_| unknown);
    let mend = word
        .and_then(|word| nearest(word, quoted))
        .map_or_else(String::new, |near| format!("did you mean `{near}`?"));
    ConfigFault {
        say,
        mend,
        at: error.span().unwrap_or(0..0),
    }
}

fn kept<T>(read: Result<T, ConfigFault>, faults: &mut Vec<ConfigFault>) -> Option<T> {
    read.map_err(|fault| faults.push(fault)).ok()
}

fn language(given: Option<&Spanned<i64>>, faults: &mut Vec<ConfigFault>) {
    let (say, at) = match given {
        Some(number) if *number.get_ref() == LANGUAGE => return,
        Some(number) => (
            format!("language {} is not read by this version", number.get_ref()),
            number.span(),
        ),
        None => (
            "it does not say which version of the language its files are written in".to_owned(),
            0..0,
        ),
    };
    faults.push(ConfigFault {
        say,
        mend: format!("write `language = {LANGUAGE}`"),
        at,
    });
}

/// A rule set that the root file pins to an edition which this version does not have.
fn edition_fault(word: &Spanned<String>, edition: &Spanned<i64>) -> Option<ConfigFault> {
    let words = || RULE_SETS.iter().map(|set| set.word);
    let Some(set) = rule_set(word.get_ref()) else {
        let near = nearest(word.get_ref(), words());
        return Some(ConfigFault {
            say: format!("`{}` is no rule set of this version", word.get_ref()),
            mend: near.map_or_else(
                || {
                    format!(
                        "the rule sets are {}",
                        words().collect::<Vec<_>>().join(", ")
                    )
                },
                |near| format!("did you mean `{near}`?"),
            ),
            at: word.span(),
        });
    };
    (*edition.get_ref() != i64::from(set.edition)).then(|| ConfigFault {
        say: format!(
            "edition {} of the rule set `{}` is not in this version",
            edition.get_ref(),
            set.word
        ),
        mend: format!(
            "this version has edition {}; read what changed, then write `{} = {}`",
            set.edition, set.word, set.edition
        ),
        at: edition.span(),
    })
}

fn allowance(
    basis: &Spanned<String>,
    share: &Spanned<String>,
) -> Result<(String, f64), ConfigFault> {
    let word = basis.get_ref();
    let bases = || BASES.iter().map(|(basis, _)| *basis);
    if !bases().any(|known| known == word) {
        let near = nearest(word, bases());
        return Err(ConfigFault {
            say: format!("`{word}` is no basis of a value"),
            mend: near.map_or_else(
                || format!("the bases are {}", bases().collect::<Vec<_>>().join(", ")),
                |near| format!("did you mean `{near}`?"),
            ),
            at: basis.span(),
        });
    }
    let read = items(share.get_ref());
    let value = match read.as_slice() {
        [item] => match &item.node {
            Node::Quantity { value, unit, .. } => Quantity::new(*value, unit).amount(Kind::Ratio),
            _ => None,
        },
        _ => None,
    };
    match value {
        Some(amount) if (0.0..1.0).contains(&amount.si) => Ok((word.clone(), amount.si)),
        _ => Err(ConfigFault {
            say: format!(
                "`{}` is no share of a mass from 0 % to below 100 %",
                share.get_ref()
            ),
            mend: "write it with its unit, as \"3 %\"".into(),
            at: share.span(),
        }),
    }
}

fn least_stage(word: &Spanned<String>) -> Result<Stage, ConfigFault> {
    let words = || Stage::ALL.iter().map(|(_, word)| *word);
    let found = Stage::ALL
        .iter()
        .find(|(_, known)| known == word.get_ref())
        .map(|(stage, _)| *stage);
    found.ok_or_else(|| ConfigFault {
        say: format!("`{}` is no stage", word.get_ref()),
        mend: format!("the stages are {}", words().collect::<Vec<_>>().join(", ")),
        at: word.span(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use plumbhook_units::Measured;

    fn read(text: &str) -> Result<Config, Vec<ConfigFault>> {
        Config::read(&"plumbhook.toml".into(), text)
    }

    fn wrong(text: &str) -> Vec<(String, String)> {
        let faults = read(text).expect_err("it must be refused");
        let place = |fault: &ConfigFault| text.get(fault.at.clone()).unwrap().to_owned();
        faults
            .iter()
            .map(|fault| (place(fault), format!("{} ({})", fault.say, fault.mend)))
            .collect()
    }

    fn wrong_at(text: &str, place: &str, say: &str) {
        let faults = wrong(text);
        assert!(
            faults
                .iter()
                .any(|(at, said)| at == place && said.contains(say)),
            "{faults:?}"
        );
    }

    #[test]
    fn a_root_file_says_folders_allowances_and_the_least_stage() {
        let text = "language = 1\nyard = [\"gear\", \"../shared\"]\nplants = [\"p\"]\n\
                    [allowance.mass]\nweighed = \"3 %\"\n[stage]\nleast = \"bid\"\n";
        let config = read(text).unwrap();
        assert_eq!(config.yard.len(), 2);
        assert_eq!(
            config.settings.mass_allowance,
            [("weighed".to_owned(), 0.03)]
        );
        assert_eq!(config.settings.stage, Some(Stage::Bid));
    }

    #[test]
    fn a_pinned_edition_of_a_rule_set_has_to_be_the_one_there_is() {
        assert!(read("language = 1\n[rule-sets]\nus = 2\nen = 2\n").is_ok());
        let other = "language = 1\n[rule-sets]\nus = 7\n";
        wrong_at(
            other,
            "7",
            "edition 7 of the rule set `us` is not in this version",
        );
        wrong_at(
            "language = 1\n[rule-sets]\nusa = 1\n",
            "usa",
            "did you mean `us`?",
        );
    }

    #[test]
    fn the_language_has_to_be_said_and_known() {
        wrong_at("yard = []\n", "", "language = 1");
        wrong_at("language = 2\n", "2", "language 2 is not read");
        wrong_at("language = \"1\"\n", "\"1\"", "invalid type");
    }

    #[test]
    fn an_unknown_key_is_an_error_at_its_place() {
        wrong_at(
            "language = 1\nyards = []\n",
            "yards",
            "did you mean `yard`?",
        );
        wrong_at(
            "language = 1\n[stage]\nmost = \"bid\"\n",
            "most",
            "unknown field",
        );
        wrong_at("language = 1\nyard = [\n", "", "");
    }

    #[test]
    fn an_allowance_has_a_known_basis_and_a_share_with_its_unit() {
        let with = |line: &str| format!("language = 1\n[allowance.mass]\n{line}\n");
        wrong_at(
            &with("wieghed = \"3 %\""),
            "wieghed",
            "did you mean `weighed`?",
        );
        for share in ["3", "3 t", "-3 %", "100 %", "3 % 4", "unknown", ""] {
            let line = format!("weighed = \"{share}\"");
            wrong_at(&with(&line), &format!("\"{share}\""), "no share of a mass");
        }
    }

    #[test]
    fn every_fault_is_told_at_once() {
        let text = "language = 3\n[allowance.mass]\nguess = \"3 %\"\n[stage]\nleast = \"never\"\n";
        assert_eq!(wrong(text).len(), 3);
    }

    #[test]
    fn a_factor_and_a_limit_say_why_and_where_they_stand() {
        let text = "language = 1\n[factor]\ndynamic = { is = \"1.15\", because = \"practice note 4\" }\n\
                    [limit]\ntilt = { is = \"2 deg\", because = \"house rule\" }\n";
        let settings = read(text).unwrap().settings;
        let dynamic = settings.dynamic.unwrap();
        assert_eq!(
            (dynamic.value, &*dynamic.because),
            (1.15, "practice note 4")
        );
        assert_eq!((dynamic.origin.line, dynamic.origin.start), (2, 17));
        assert!((settings.tilt.unwrap().value.si() - 2.0_f64.to_radians()).abs() < 1e-12);
    }

    #[test]
    fn a_factor_below_one_or_without_a_reason_is_refused() {
        let with = |line: &str| format!("language = 1\n[factor]\ndynamic = {line}\n");
        for is in ["0.9", "nan", "1.1 t", "", "1.1 1.2"] {
            let line = format!("{{ is = \"{is}\", because = \"so\" }}");
            wrong_at(&with(&line), &format!("\"{is}\""), "is no dynamic factor");
        }
        wrong_at(&with("{ is = \"1.1\" }"), "\"1.1\"", "has no reason");
        wrong_at(
            &with("{ is = \"1.1\", becuase = \"so\" }"),
            "becuase",
            "did you mean `because`?",
        );
        let tilt = "language = 1\n[limit]\ntilt = { is = \"3\", because = \"so\" }\n";
        wrong_at(tilt, "\"3\"", "is no limit of the tilt");
    }

    #[test]
    fn lowering_a_rule_needs_a_reason_and_nothing_is_silenced() {
        let with = |line: &str| format!("language = 1\n[severity]\n{line}\n");
        let lowered = with("tilt = { to = \"warning\", because = \"hung by hand\" }");
        let louds = read(&lowered).unwrap().louds;
        assert_eq!(
            (louds[0].rule, louds[0].to),
            ("tilt", plumbhook_sheet::Severity::Warning)
        );
        wrong_at(
            &with("tilt = { to = \"warning\" }"),
            "\"warning\"",
            "has no reason",
        );
        wrong_at(
            &with("tilt = { to = \"quiet\", because = \"x\" }"),
            "\"quiet\"",
            "nothing is silenced",
        );
        wrong_at(
            &with("titl = { to = \"error\" }"),
            "titl",
            "did you mean `tilt`?",
        );
        wrong_at(
            &with("no-stage = { to = \"error\" }"),
            "no-stage",
            "is about the text",
        );
        assert!(read(&with("tilt = { to = \"error\" }")).is_ok());
    }
}
