//! Asking what a published table rates a sling at: the row of its size, or the reason why there is none.

use super::slings::{Piece, SlingRated};
use super::{Ask, words};
use crate::values::SlingKind;
use crate::{Given, Lacking, RuleSet};
use plumbhook_mechanics::sling::{Cell, NotInTable, SlingTable};
use plumbhook_sheet::{InputValue, Lack};
use plumbhook_units::{Amount, Round};

impl<'c> Ask<'c> {
    pub(super) fn by_table(&mut self, piece: &Piece<'_, 'c>) -> Option<SlingRated> {
        let Piece { name, sling, .. } = *piece;
        let what = piece.what(piece.hitch());
        let by = self.value(&format!("what {name} is rated by"), &sling.rated_by, |by| {
            words(by.word)
        })?;
        let kind = self.kind_of(piece)?;
        if by.value.word != "table" {
            let home = sling.rated.home.clone();
            self.lacking(&what, sling.rated.key, &Lacking::new(Lack::Absent, home));
            return None;
        }
        if !self.rules_known() {
            return None;
        }
        let cell = self.least_cell(piece, kind)?;
        let mut rated = SlingRated::of(cell.rated);
        let say = format!(
            "{}: row {}, {}",
            cell.basis.say(),
            cell.row,
            piece.hitch().word()
        );
        rated.then(say.clone(), cell.rated, cell.basis);
        let origins = vec![kind.origin.clone(), by.origin.clone()];
        self.got(
            &what,
            InputValue::Exact(Amount::of(cell.rated)),
            origins,
            say,
        );
        self.verified(&format!("kind of {name}"), &kind.pedigree, &kind.origin);
        Some(rated)
    }

    /// The lowest cell of all governing rule sets; none where one of them has none.
    fn least_cell(&mut self, piece: &Piece<'_, 'c>, kind: &'c Given<SlingKind>) -> Option<Cell> {
        let mut least: Option<Cell> = None;
        for set in &self.case.rules {
            let cell = self.cell(piece, kind, set)?;
            if least.is_none_or(|least| cell.rated < least.rated) {
                least = Some(cell);
            }
        }
        least
    }

    fn cell(
        &mut self,
        piece: &Piece<'_, 'c>,
        kind: &'c Given<SlingKind>,
        set: &RuleSet,
    ) -> Option<Cell> {
        let SlingKind {
            of,
            grade,
            diameter,
            marks,
        } = &kind.value;
        let Some(diameter) = diameter else {
            self.lacks(
                format!("diameter of {}", piece.name),
                Lack::Absent,
                &kind.origin,
                "say `, diameter …` in this line",
            );
            return None;
        };
        let asked = (&**of, grade.as_deref(), &marks[..]);
        let not = match SlingTable::rated((set.sling_tables)(), asked, *diameter, piece.hitch()) {
            Ok(cell) => return Some(cell),
            Err(not) => not,
        };
        let size = self
            .case
            .printer
            .metric(Amount::of(*diameter), Round::Nearest);
        let (say, mend) = not_in_table(&not, piece, (&kind.value, &size));
        let say = format!("{say} (rule set `{}`)", set.word);
        self.lacks(say, Lack::NoAnswer, &kind.origin, mend);
        None
    }
}

fn tag_of(piece: &Piece<'_, '_>) -> String {
    let (hitch, name) = (piece.hitch().word(), piece.name);
    format!("read its tag: `rated {hitch} … from tag` in `{name}`")
}

/// Why no table rates it, and what would: the near rows.
fn not_in_table(
    not: &NotInTable,
    piece: &Piece<'_, '_>,
    (kind, size): (&SlingKind, &str),
) -> (String, String) {
    let (name, hitch) = (piece.name, piece.hitch().word());
    let graded = match &kind.grade {
        Some(grade) => format!("{} of grade {grade}", kind.of),
        None => format!("{} without a grade", kind.of),
    };
    let tag = tag_of(piece);
    match not {
        NotInTable::Kind { known } => (
            format!("a published table for {name}: of {} none is kept", kind.of),
            format!("{tag}; tables are kept of {}", known.join(", ")),
        ),
        NotInTable::Grade { known } => (
            format!("a published table for {name}: of {graded} none is kept"),
            match &known[..] {
                [] => tag,
                known => format!("{tag}; there are tables of grade {}", known.join(" and ")),
            },
        ),
        NotInTable::Marks { wanted } => (
            format!(
                "a published table for {name}: it says {}",
                kind.marks.join(", ")
            ),
            match &wanted[..] {
                [] => format!("{tag}; the table knows {graded} and nothing else"),
                wanted => format!("{tag}; the table is for {}, {}", kind.of, wanted.join(", ")),
            },
        ),
        NotInTable::Hitch => (
            format!("a published {hitch} rating for {name}: of {graded} none is kept"),
            tag,
        ),
        NotInTable::Size { below, above } => {
            let rows: Vec<_> = below.iter().chain(above).copied().collect();
            (
                format!("a row for {name}: the table of {graded} has none of {size}"),
                format!("{tag}; the rows next to it are {}", rows.join(" and ")),
            )
        }
    }
}
