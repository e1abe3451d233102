//! Asking which published rule sets govern.

use super::{Ask, words};
use crate::entries::Job;
use crate::rule_set::rule_set;
use plumbhook_sheet::{Lack, Origin};

impl Ask<'_> {
    /// Whether it is known which rule sets govern. Where it is not, the case holds all of them: the strictest
    /// may acquit nobody, and none of them convicts.
    pub fn rules_known(&mut self) -> bool {
        const WHAT: &str = "which published rule sets govern";
        let case = self.case;
        let Some(job) = case.job.of::<Job>() else {
            let home = Origin::header(&case.job.key);
            self.lacks(WHAT, Lack::Absent, &home, "add a line `rules …` to the job");
            return false;
        };
        let named = self.value(WHAT, &job.rules, |names| words(&names.0.join(", ")));
        let Some(named) = named else { return false };
        let strange: Vec<_> = named
            .value
            .0
            .iter()
            .filter(|word| rule_set(word).is_none())
            .collect();
        for word in &strange {
            self.lacks(
                format!("rule set `{word}`"),
                Lack::NotFound,
                &named.origin,
                "name a rule set that this version has",
            );
        }
        strange.is_empty()
    }
}
