//! Asking for ratings.

use super::Ask;
use crate::values::Rated;
use crate::{Claims, Datum, Given, Lacking, Pedigree};
use plumbhook_sheet::{InputValue, Lack, Origin, Stage};
use plumbhook_units::{Amount, RatedForce};

impl Ask<'_> {
    /// The lowest of the ratings that count. One without evidence, or only estimated or stated, can convict
    /// and not acquit.
    pub fn rating(
        &mut self,
        what: &str,
        claims: &Claims<Rated>,
        counts: impl Fn(&Rated) -> bool,
    ) -> Option<RatedForce> {
        let mut lowest: Option<(RatedForce, &Given<Rated>)> = None;
        for line in &claims.lines {
            match line {
                Datum::Known(given) if counts(&given.value) => {
                    if lowest.is_none_or(|(value, _)| given.value.capacity < value) {
                        lowest = Some((given.value.capacity, given));
                    }
                }
                Datum::Known(_) => {}
                Datum::Lacking(lacking) => self.lacking(what, claims.key, lacking),
            }
        }
        let Some((capacity, given)) = lowest else {
            if claims.lines.iter().all(|line| line.known().is_some()) {
                self.lacking(
                    what,
                    claims.key,
                    &Lacking::new(Lack::Absent, claims.home.clone()),
                );
            }
            return None;
        };
        self.got(
            what,
            InputValue::Exact(Amount::of(capacity)),
            vec![given.origin.clone()],
            given.pedigree.words.clone(),
        );
        self.verified(what, &given.pedigree, &given.origin);
        Some(capacity)
    }

    /// Notes a capacity that is not verified: only estimated or stated, or without evidence.
    pub fn verified(&mut self, what: &str, pedigree: &Pedigree, origin: &Origin) {
        self.sourced(pedigree);
        self.evidence(what, pedigree, origin);
        let due = self.due;
        if matches!(pedigree.basis, Some("estimate" | "stated")) {
            self.lacks(
                format!(
                    "{what} (only {})",
                    if pedigree.basis == Some("stated") {
                        "stated"
                    } else {
                        "estimated"
                    }
                ),
                Lack::Unverified,
                origin,
                "read it from the tag or the nameplate",
            );
        } else if pedigree.words.is_empty() {
            self.due = due.max(Stage::Issue);
            self.lacks(
                format!("{what}: where it comes from"),
                Lack::Unverified,
                origin,
                "add `from tag` or `from nameplate` with what stands there",
            );
            self.due = due;
        }
    }
}
