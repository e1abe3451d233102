//! What a root file settles with a reason: a factor, a limit, how loud a rule is.

use crate::config::ConfigFault;
use crate::source::place_in_file;
use plumbhook_checks::{RULES, rule};
use plumbhook_model::{Settled, declare::nearest, notices};
use plumbhook_sheet::{Origin, Severity};
use plumbhook_syntax::{Node, items};
use plumbhook_units::{Angle, Kind, Measured, Quantity};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;
use toml::Spanned;

/// A number with its reason: `{ is = "1.10", because = "practice note 4" }`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSettled {
    is: Spanned<String>,
    because: Option<Spanned<String>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawFactor {
    pub(crate) dynamic: Option<Spanned<RawSettled>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawLimit {
    pub(crate) tilt: Option<Spanned<RawSettled>>,
}

/// How loud a rule is: `{ to = "warning", because = "the owner answers next week" }`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawLoud {
    to: Spanned<String>,
    because: Option<Spanned<String>>,
}

/// How loud the root file makes what a rule cannot tell. An *over* it never touches.
#[derive(Clone, Debug, PartialEq)]
pub struct Loud {
    /// The rule.
    pub rule: &'static str,
    /// A warning lowers it, an error raises what is not yet due.
    pub to: Severity,
    /// Why; empty where it is raised without a reason.
    pub because: String,
    /// Where the root file says so.
    pub origin: Origin,
}

/// A text with the name that its places have.
pub(crate) struct Text<'t> {
    pub(crate) shown: &'t Arc<str>,
    pub(crate) text: &'t str,
}

impl Text<'_> {
    /// Bytes of the text as a place in the file.
    pub(crate) fn origin(&self, at: &Range<usize>) -> Origin {
        let narrow = |bytes: usize| u32::try_from(bytes).unwrap_or(u32::MAX);
        let before = self.text.get(..at.start).unwrap_or(self.text);
        let line = before.bytes().filter(|byte| *byte == b'\n').count();
        let start = before.len() - before.rfind('\n').map_or(0, |end| end + 1);
        let rest = self.text.get(at.start..at.end).unwrap_or_default();
        let length = rest.lines().next().map_or(0, str::len);
        place_in_file(
            self.shown,
            narrow(line),
            narrow(start),
            narrow(start + length),
        )
    }
}

fn reason(
    because: Option<&Spanned<String>>,
    of: &str,
    at: Range<usize>,
) -> Result<String, ConfigFault> {
    match because {
        Some(because) if !because.get_ref().trim().is_empty() => {
            Ok(because.get_ref().trim().to_owned())
        }
        _ => Err(ConfigFault {
            say: format!("{of} has no reason"),
            mend: "add `because = \"…\"`: it is printed wherever it counts".into(),
            at: because.map_or(at, Spanned::span),
        }),
    }
}

fn settled(
    text: &Text<'_>,
    raw: &Spanned<RawSettled>,
    what: &str,
    kind: Kind,
    fits: fn(f64) -> bool,
    wanted: &str,
) -> Result<Settled<f64>, ConfigFault> {
    let is = &raw.get_ref().is;
    let read = items(is.get_ref());
    let value = match read.as_slice() {
        [item] => match &item.node {
            Node::Quantity { value, unit, .. } => Quantity::new(*value, unit)
                .amount(kind)
                .map(|amount| amount.si),
            Node::Number { value, .. } if kind == Kind::Ratio => Some(*value),
            _ => None,
        },
        _ => None,
    };
    let Some(value) = value.filter(|value| value.is_finite() && fits(*value)) else {
        return Err(ConfigFault {
            say: format!("`{}` is no {what}", is.get_ref()),
            mend: wanted.to_owned(),
            at: is.span(),
        });
    };
    Ok(Settled {
        value,
        because: reason(raw.get_ref().because.as_ref(), what, is.span())?,
        origin: text.origin(&is.span()),
    })
}

/// The dynamic factor of every move that gives none.
pub(crate) fn dynamic(
    text: &Text<'_>,
    raw: &Spanned<RawSettled>,
) -> Result<Settled<f64>, ConfigFault> {
    let wanted = "write a factor of 1 or more, as \"1.10\"";
    settled(
        text,
        raw,
        "dynamic factor",
        Kind::Ratio,
        |factor| factor >= 1.0,
        wanted,
    )
}

/// How far a load may hang out of level where its move does not say it.
pub(crate) fn tilt(
    text: &Text<'_>,
    raw: &Spanned<RawSettled>,
) -> Result<Settled<Angle>, ConfigFault> {
    let below = |angle: f64| (0.0..std::f64::consts::FRAC_PI_2).contains(&angle);
    let wanted = "write an angle from 0 to below 90 deg, as \"3 deg\"";
    let read = settled(text, raw, "limit of the tilt", Kind::Angle, below, wanted)?;
    Ok(Settled {
        value: Angle::from_si(read.value),
        because: read.because,
        origin: read.origin,
    })
}

/// How loud each rule is, with everything that is wrong in the table.
pub(crate) fn louds(
    text: &Text<'_>,
    raw: &BTreeMap<Spanned<String>, RawLoud>,
    faults: &mut Vec<ConfigFault>,
) -> Vec<Loud> {
    let mut louds = Vec::new();
    for (code, raw) in raw {
        match loud(text, code, raw) {
            Ok(loud) => louds.push(loud),
            Err(fault) => faults.push(fault),
        }
    }
    louds
}

fn loud(text: &Text<'_>, code: &Spanned<String>, raw: &RawLoud) -> Result<Loud, ConfigFault> {
    let word = code.get_ref();
    let Some(rule) = rule(word) else {
        let is_notice = notices::ALL.iter().any(|notice| notice.code == word);
        let near = nearest(word, RULES.iter().map(|rule| rule.code));
        return Err(ConfigFault {
            say: if is_notice {
                format!("`{word}` is about the text and no check: it is mended there, not lowered")
            } else {
                format!("`{word}` is no rule of this version")
            },
            mend: near.map_or_else(String::new, |near| format!("did you mean `{near}`?")),
            at: code.span(),
        });
    };
    let to = match raw.to.get_ref().as_str() {
        "error" => Severity::Error,
        "warning" => Severity::Warning,
        other => {
            return Err(ConfigFault {
                say: format!("`{other}` is nothing that a rule can be made"),
                mend: "write \"warning\" to lower it or \"error\" to raise what is not yet due; \
                       nothing is silenced"
                    .into(),
                at: raw.to.span(),
            });
        }
    };
    let because = raw.because.as_ref();
    let because = match to {
        Severity::Warning => reason(because, &format!("lowering `{word}`"), raw.to.span())?,
        _ => because.map_or_else(String::new, |because| because.get_ref().trim().to_owned()),
    };
    Ok(Loud {
        rule: rule.code,
        to,
        because,
        origin: text.origin(&code.span()),
    })
}
