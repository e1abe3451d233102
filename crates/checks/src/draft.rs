//! A check in the making: what it asked, did and compares, until it becomes an aspect.

use plumbhook_model::ask::Asked;
use plumbhook_sheet::{
    Aspect, Basis, Book, Corner, Figure, Lack, Missing, Origin, Reach, Related, Sheet, Stage, Step,
    Verdict, judge,
};
use plumbhook_units::{Amount, Printer, Round};
use std::sync::Arc;

/// A check in the making.
#[derive(Debug)]
pub struct Draft {
    /// What is checked.
    pub subject: String,
    /// The datum to change.
    pub primary: Origin,
    /// What was asked for and is missing.
    pub asked: Asked,
    /// The steps.
    pub book: Book,
    /// The corner that governs.
    pub corner: Vec<Corner>,
    /// The station or state that governs.
    pub state: String,
    /// The publications it follows.
    pub basis: Vec<Basis>,
    /// Other places.
    pub related: Vec<Related>,
    /// What would mend it.
    pub mends: Vec<String>,
    /// Sums worth a line, before the last formula.
    pub sums: Vec<String>,
    /// What it looks like.
    pub figure: Option<Arc<Figure>>,
    /// How numbers are printed.
    pub printer: Printer,
}

/// What acts against what may act.
#[derive(Clone, Copy, Debug, Default)]
pub struct Compared {
    /// The demand that the known bounds prove.
    pub proved: Option<Amount>,
    /// The demand at the worst point; `None` unless every hurting side is known.
    pub worst: Option<Amount>,
    /// The capacity.
    pub capacity: Option<Amount>,
}

impl Draft {
    /// Of one subject.
    pub fn new(
        subject: impl Into<String>,
        primary: Origin,
        asked: Asked,
        printer: Printer,
    ) -> Self {
        Self {
            subject: subject.into(),
            primary,
            asked,
            book: Book::default(),
            corner: vec![],
            state: String::new(),
            basis: vec![],
            related: vec![],
            mends: vec![],
            sums: vec![],
            figure: None,
            printer,
        }
    }

    /// Another place, with what it contributes.
    pub fn relate(&mut self, origin: &Origin, say: impl Into<String>) {
        let related = Related {
            origin: origin.clone(),
            say: say.into(),
        };
        if *origin != self.primary && !self.related.contains(&related) {
            self.related.push(related);
        }
    }

    /// Every related place that the corner names.
    pub fn relate_corner(&mut self) {
        for corner in self.corner.clone().into_iter().take(3) {
            if let Some(origin) = &corner.origin {
                self.relate(
                    origin,
                    format!("{} at the worst", corner.text(self.printer)),
                );
            }
        }
    }

    /// Demand against capacity; `fact` makes the headline out of the printed demand and capacity:
    /// "carries 14.5 t of 14.1 t (103 %)" is put behind `what`.
    pub fn against(mut self, what: &str, carries: &str, compared: Compared) -> Aspect {
        let share = |demand: Amount| compared.capacity.map(|capacity| demand.si / capacity.si);
        let reach = Reach {
            proved: compared.proved.and_then(share),
            worst: compared.worst.and_then(share),
        };
        let verdict = self.judge(reach);
        let shown = compared.worst.or(compared.proved);
        let headline = match (&verdict, shown, compared.capacity) {
            (Verdict::CannotTell(missing), _, _) => cannot_tell(what, missing),
            (_, Some(demand), Some(capacity)) => format!(
                "{what} {carries} {} of {} ({})",
                self.printer.amount(demand, Round::Up),
                self.printer.amount(capacity, Round::Down),
                Printer::utilisation(demand.si / capacity.si)
            ),
            _ => what.to_owned(),
        };
        self.related.truncate(6);
        self.finish(verdict, headline, shown, compared.capacity)
    }

    /// The outcome of a reach, with all that is missing.
    pub fn judge(&self, reach: Reach) -> Verdict {
        judge(reach, self.asked.missing.clone(), || Missing {
            what: format!("an answer for {}", self.subject),
            lack: Lack::NoAnswer,
            origin: self.primary.clone(),
            mend: "complete what the calculation needs".into(),
            due: Stage::FirstLook,
        })
    }

    /// As an aspect with a verdict and a headline of its own.
    pub fn finish(
        self,
        verdict: Verdict,
        headline: String,
        demand: Option<Amount>,
        capacity: Option<Amount>,
    ) -> Aspect {
        // A sum of what is known alone would read as the whole.
        let sums = match &verdict {
            Verdict::CannotTell(_) | Verdict::DoesNotApply(_) => vec![],
            Verdict::Over | Verdict::Within => {
                let last = self.book.0.iter().rev().find_map(|step| match step {
                    Step::Worked(worked) => Some(format!(
                        "{} = {}",
                        worked.formula.out,
                        worked.text(self.printer)
                    )),
                    Step::Sum { .. } | Step::Method(_) => None,
                });
                self.sums.into_iter().chain(last).collect()
            }
        };
        let utilisation = demand
            .zip(capacity)
            .map(|(demand, capacity)| demand.si / capacity.si);
        let primary = match &verdict {
            // One missing datum is one message, at the datum.
            Verdict::CannotTell(missing) => missing
                .first()
                .map_or(self.primary, |missing| missing.origin.clone()),
            _ => self.primary,
        };
        let mends = match &verdict {
            Verdict::CannotTell(missing) => {
                let mut mends: Vec<String> = Vec::new();
                for mend in missing.iter().map(|missing| &missing.mend) {
                    if !mend.is_empty() && !mends.contains(mend) {
                        mends.push(mend.clone());
                    }
                }
                mends.truncate(3);
                mends
            }
            Verdict::Over => self.mends,
            Verdict::Within | Verdict::DoesNotApply(_) => vec![],
        };
        Aspect {
            subject: self.subject,
            verdict,
            headline,
            primary,
            related: self.related,
            sums,
            mends,
            sheet: Arc::new(Sheet {
                inputs: self.asked.inputs,
                steps: self.book.0,
                demand,
                capacity,
                utilisation: utilisation.filter(|share| share.is_finite()),
                corner: self.corner,
                state: self.state,
                basis: self.basis,
                figure: self.figure,
            }),
        }
    }

    /// Says that the rule has no subject here, and that this is known.
    pub fn does_not_apply(self, because: &str) -> Aspect {
        let headline = format!("{}: {because}", self.subject);
        self.finish(
            Verdict::DoesNotApply(because.to_owned()),
            headline,
            None,
            None,
        )
    }
}

/// The headline of a *cannot tell*: what is missing first, and for what.
pub(crate) fn cannot_tell(what: &str, missing: &[Missing]) -> String {
    let say = |missing: &Missing| match missing.lack {
        Lack::Absent => format!("{} is not given", missing.what),
        Lack::Unknown => format!("{} is unknown", missing.what),
        Lack::Broken => format!("{} could not be read", missing.what),
        Lack::OneSided => format!("{} is not stated", missing.what),
        Lack::Unverified => format!("{} is not verified", missing.what),
        Lack::NotFound => format!("{} is declared nowhere", missing.what),
        Lack::OutOfRange => format!("{} is outside what the source covers", missing.what),
        Lack::NoAnswer => missing.what.clone(),
    };
    match missing {
        [] => format!("{what}: cannot tell"),
        [one] => format!("{}, so nobody can tell: {what}", say(one)),
        [first, rest @ ..] => format!(
            "{} (and {} more), so nobody can tell: {what}",
            say(first),
            rest.len()
        ),
    }
}
