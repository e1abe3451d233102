//! What a value rests on: its source, and what its evidence says.

use super::Ask;
use crate::declare::Role;
use crate::{Pedigree, quoted};
use plumbhook_sheet::{Lack, Origin};

impl Ask<'_> {
    /// Notes a value whose source leads nowhere: nobody knows how it is known, so it can convict and not acquit.
    /// Gives back whether its source is found, or none is named.
    pub fn sourced(&mut self, pedigree: &Pedigree) -> bool {
        let Some((name, origin)) = &pedigree.source else {
            return true;
        };
        let found = self.case.named(name);
        if found.is_some_and(|entry| entry.is(Role::Source)) {
            return true;
        }
        self.name_leads_nowhere(
            "source",
            (name, origin),
            "declare it with `source`, name one that is declared, or say how it is known: `from tag`, `from drawing`",
        );
        false
    }

    /// Notes a weight whose evidence may be read in more than one way: until the line says how it is read, the typed
    /// number is one reading of several, so it can convict and not acquit.
    pub fn evidence(&mut self, what: &str, pedigree: &Pedigree, origin: &Origin) {
        let Some(quote) = pedigree.quote.as_deref() else {
            return;
        };
        if pedigree.read_as.is_some() || !quoted::has_several_readings(quote) {
            return;
        }
        let readings = quoted::readings(quote).map(|readings| format!("it may be {readings}: "));
        self.lacks(
            format!("{what}: how \"{quote}\" is read"),
            Lack::Unknown,
            origin,
            format!(
                "{}add `read-as metric|short|long because \"…\"` behind the quotation",
                readings.unwrap_or_default()
            ),
        );
    }
}
