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
    /// What nobody can tell where something is missing ("how flat leg A comes"); empty where the subject says it.
    pub question: String,
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
    /// The stage of the job, where what the rule is about is due later than what it builds on: what is due by
    /// then keeps the order of asking.
    pub stage: Stage,
    /// How numbers are printed.
    pub printer: Printer,
}

/// The result as it stands on the sheet.
#[derive(Clone, Copy, Debug, Default)]
pub struct Numbers {
    /// What acts.
    pub demand: Option<Amount>,
    /// What may act.
    pub capacity: Option<Amount>,
    /// How much of what may act does act; `None` where a share would mean nothing.
    pub utilisation: Option<f64>,
}

impl Numbers {
    /// What acts on what may act at the most.
    pub fn at_most(demand: Option<Amount>, capacity: Option<Amount>) -> Self {
        Self {
            demand,
            capacity,
            utilisation: demand
                .zip(capacity)
                .and_then(|(demand, capacity)| share(demand.si, capacity.si)),
        }
    }

    /// What is there of what must be there at the least.
    pub fn at_least(demand: Option<Amount>, least: Option<Amount>) -> Self {
        Self {
            demand,
            capacity: least,
            utilisation: demand
                .zip(least)
                .and_then(|(demand, least)| share(least.si, demand.si)),
        }
    }
}

/// How much of `of` is `part`. Of nothing, anything is too much; of less than nothing there is no share.
fn share(part: f64, of: f64) -> Option<f64> {
    if of > 0.0 {
        Some(part / of)
    } else if of == 0.0 && part > 0.0 {
        Some(f64::MAX)
    } else {
        None
    }
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
            question: String::new(),
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
            stage: Stage::FirstLook,
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
            if let Some(origin) = &corner.input.origin {
                self.relate(origin, format!("{} at the worst", corner.text()));
            }
        }
    }

    /// Demand against capacity: "carries 14.5 t of 14.1 t (103 %)" is put behind `what`.
    pub fn against(self, what: &str, carries: &str, compared: Compared) -> Aspect {
        let printer = self.printer;
        let say = |demand, capacity, used: &str| {
            format!(
                "{what} {carries} {} of {}{used}",
                printer.amount(demand, Round::Up),
                printer.amount(capacity, Round::Down),
            )
        };
        self.compare(what, compared, Numbers::at_most, say)
    }

    /// What is there against the least that must be: "is 28.1 deg from horizontal at the worst, the least is
    /// 30.0 deg" is put behind `what`. `is` and `the_least` frame the two numbers.
    pub fn at_least(self, what: &str, is: [&str; 2], compared: Compared) -> Aspect {
        let printer = self.printer;
        let [is, the_least] = is;
        let say = |demand, least, _: &str| {
            format!(
                "{what} is {} {is}, {the_least} {}",
                printer.amount(demand, Round::Down),
                printer.amount(least, Round::Up),
            )
        };
        self.compare(what, compared, Numbers::at_least, say)
    }

    fn compare(
        mut self,
        what: &str,
        compared: Compared,
        numbers: fn(Option<Amount>, Option<Amount>) -> Numbers,
        say: impl Fn(Amount, Amount, &str) -> String,
    ) -> Aspect {
        let share = |demand| numbers(demand, compared.capacity).utilisation;
        let verdict = self.judge(Reach {
            proved: share(compared.proved),
            worst: share(compared.worst),
        });
        let shown = numbers(compared.worst.or(compared.proved), compared.capacity);
        let headline = match (&verdict, shown.demand, shown.capacity) {
            (Verdict::CannotTell(missing), _, _) if self.question.is_empty() => {
                cannot_tell(what, missing)
            }
            (Verdict::CannotTell(missing), _, _) => cannot_tell(&self.question, missing),
            (_, Some(demand), Some(capacity)) => {
                let used = shown
                    .utilisation
                    .filter(|share| *share < f64::MAX)
                    .map(|share| format!(" ({})", Printer::utilisation(share)));
                say(demand, capacity, &used.unwrap_or_default())
            }
            _ => what.to_owned(),
        };
        self.related.truncate(6);
        self.finish(verdict, headline, shown)
    }

    /// The outcome of a reach, with all that is missing.
    pub fn judge(&self, reach: Reach) -> Verdict {
        // What is due first is said first.
        let mut missing = self.asked.missing.clone();
        missing.sort_by_key(|missing| missing.due.max(self.stage));
        judge(reach, missing, || Missing {
            what: format!("an answer for {}", self.subject),
            lack: Lack::NoAnswer,
            key: None,
            origin: self.primary.clone(),
            mend: "complete what the calculation needs".into(),
            due: Stage::FirstLook,
        })
    }

    /// As an aspect with a verdict and a headline of its own.
    pub fn finish(self, verdict: Verdict, headline: String, numbers: Numbers) -> Aspect {
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
        let primary = match &verdict {
            // One missing datum is one message, at the datum.
            Verdict::CannotTell(missing) => missing
                .first()
                .map_or(self.primary, |missing| missing.origin.clone()),
            _ => self.primary,
        };
        let mut related = self.related;
        let likes = primary
            .likes()
            .chain(self.asked.inputs.iter().flat_map(|input| {
                let origins = input.origins.iter();
                origins.flat_map(Origin::likes)
            }));
        for like in likes {
            let related_to = |related: &Related| related.origin == *like;
            if !related.iter().any(related_to) {
                related.push(Related {
                    origin: like.clone(),
                    say: format!("geometry of {} is taken over here", like.entry.name),
                });
            }
        }
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
            related,
            sums,
            mends,
            sheet: Sheet {
                inputs: self.asked.inputs,
                steps: self.book.0,
                demand: numbers.demand,
                capacity: numbers.capacity,
                utilisation: numbers
                    .utilisation
                    .filter(|share| share.is_finite() && *share < f64::MAX),
                corner: self.corner,
                state: self.state,
                basis: self.basis,
                figure: self.figure,
            }
            .shared(),
        }
    }

    /// Says that the rule has no subject here, and that this is known.
    pub fn does_not_apply(self, because: &str) -> Aspect {
        let headline = format!("{}: {because}", self.subject);
        self.finish(
            Verdict::DoesNotApply(because.to_owned()),
            headline,
            Numbers::default(),
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
        // What is asked is the very datum.
        [one, ..] if one.what.starts_with(what) => say(one),
        [one] => format!("{}, so nobody can tell: {what}", say(one)),
        [first, rest @ ..] => format!(
            "{} (and {} more), so nobody can tell: {what}",
            say(first),
            rest.len()
        ),
    }
}
