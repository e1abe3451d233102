//! Where the tag of a sling claims more than the published table of its kind: one of the two is wrong, and the tag counts.

use crate::case::Case;
use crate::entries::Sling;
use crate::notices;
use crate::values::Rated;
use crate::{Datum, Given};
use plumbhook_mechanics::sling::{Cell, SlingTable};
use plumbhook_sheet::{Notice, Related};
use plumbhook_units::{Amount, Measured, Round};

/// How much more a tag may say than a table for nothing but rounding. Common practice, no source: tables are printed to 100 lb
/// and tags to a tenth of a tonne.
const ROUNDED: f64 = 0.02;

/// Every tag of a sling of the case that rates it higher than a table of a governing rule set.
pub fn tags_above_tables(case: &Case) -> Vec<Notice> {
    let slings = case.all::<Sling>();
    slings
        .flat_map(|(_, sling)| {
            let lines = sling.rated.lines.iter().filter_map(Datum::known);
            lines.filter_map(|tag| above(case, sling, tag))
        })
        .collect()
}

fn above(case: &Case, sling: &Sling, tag: &Given<Rated>) -> Option<Notice> {
    let kind = sling.kind.known()?;
    let of = &kind.value;
    let (diameter, hitch) = (of.diameter?, tag.value.hitch?);
    let asked = (&*of.of, of.grade.as_deref(), &of.marks[..]);
    let cells = case
        .rules
        .iter()
        .filter_map(|set| SlingTable::rated((set.sling_tables)(), asked, diameter, hitch).ok());
    // A basket is printed for both of its parts, a cell is one of them.
    let parts = if hitch == crate::values::Hitch::Basket {
        2.0
    } else {
        1.0
    };
    let least: Cell = cells.min_by(|a, b| a.rated.si().total_cmp(&b.rated.si()))?;
    let table = least.rated.si() * parts;
    if tag.value.capacity.si() <= table * (1.0 + ROUNDED) {
        return None;
    }
    let say = |rated| {
        case.printer.metric(
            Amount::new(plumbhook_units::Kind::Rating, rated),
            Round::Nearest,
        )
    };
    let (says, prints) = (say(tag.value.capacity.si()), say(table));
    Some(Notice {
        code: &notices::TAG_ABOVE_TABLE,
        say: format!(
            "the tag rates it {says} ({}), the table of its kind {prints}: {}, row {}",
            hitch.word(),
            least.basis.say(),
            least.row
        ),
        origin: tag.origin.clone(),
        related: vec![Related {
            origin: kind.origin.clone(),
            say: format!("its kind, which the table rates {prints}"),
        }],
        mend: "the tag counts: read it and the grade mark again, and mend the one that is wrong"
            .into(),
    })
}
