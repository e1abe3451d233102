//! The worst of several aspects of one subject: stations and legs inside a check are reduced to it.

use plumbhook_sheet::{Aspect, Verdict};
use plumbhook_units::Printer;
use std::fmt::Display;

/// Whether `a` is said rather than `b`: the worse outcome, and of two alike the one nearer to its limit.
pub(super) fn is_worse(a: &Aspect, b: &Aspect) -> bool {
    let reduced = b.verdict.clone().worse(a.verdict.clone());
    if a.verdict.word() == b.verdict.word() {
        a.sheet.utilisation > b.sheet.utilisation
    } else {
        reduced.word() == a.verdict.word()
    }
}

/// The worst leg, as the one aspect of `subject`; the other legs that are over are named with their share.
pub(super) fn of_legs<N: Display>(subject: &str, each: Vec<(N, Aspect)>) -> Option<Aspect> {
    let mut legs = each.into_iter();
    let (mut leg, mut worst) = legs.next()?;
    let mut others = Vec::new();
    for (name, aspect) in legs {
        if is_worse(&aspect, &worst) {
            others.push((
                std::mem::replace(&mut leg, name),
                std::mem::replace(&mut worst, aspect),
            ));
        } else {
            others.push((name, aspect));
        }
    }
    let over: Vec<String> = others
        .iter()
        .filter(|(_, aspect)| aspect.verdict == Verdict::Over)
        .map(|(name, aspect)| match aspect.sheet.utilisation {
            Some(share) => format!("leg {name} ({})", Printer::utilisation(share)),
            None => format!("leg {name}"),
        })
        .collect();
    if !over.is_empty() {
        worst.sums.push(format!("over too: {}", over.join(", ")));
    }
    subject.clone_into(&mut worst.subject);
    Some(worst)
}
