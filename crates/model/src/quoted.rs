//! Evidence, word for word: what a quotation may say, and what the tool reads from it once it is told how.
//!
//! Nothing here is done to a quotation unless its line says `read-as`; without it the readings are listed for a person
//! and none is taken.

use crate::notices;
use crate::pedigree::text;
use crate::{Cursor, Fail, Pedigree, Reading};
use plumbhook_sheet::{EntryRef, Notice, Origin, Part};
use plumbhook_syntax::{Item, Node, Place, Statement};
use plumbhook_units::{
    Amount, Kind, Lookup, Measured, Printer, Quantity, RatedForce, Round, Unit, unit,
};

/// How a ton in a quotation is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadAs {
    /// Tonnes.
    Metric,
    /// Short tons of 2000 lb.
    Short,
    /// Long tons of 2240 lb.
    Long,
}

impl ReadAs {
    /// Each with its word.
    pub const ALL: [(Self, &'static str); 3] = [
        (Self::Short, "short"),
        (Self::Metric, "metric"),
        (Self::Long, "long"),
    ];

    /// The word of the line.
    pub fn word(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(it, _)| *it == self)
            .map_or("metric", |(_, word)| word)
    }

    fn takes(self, symbol: &str) -> bool {
        match self {
            Self::Short => symbol.starts_with("short_"),
            Self::Long => symbol.starts_with("long_"),
            Self::Metric => !symbol.contains('_'),
        }
    }

    /// Reads `read-as metric because "…"`, if it stands there.
    pub(crate) fn read(cursor: &mut Cursor<'_, '_>) -> Result<Option<(Self, String)>, Fail> {
        if !cursor.word("read-as") {
            return Ok(None);
        }
        let (word, place) = cursor.name("how it is read")?;
        let Some((reading, _)) = Self::ALL.iter().find(|(_, name)| *name == word) else {
            return Err(cursor.broken_at(
                place,
                format!("`{word}` is no reading of a ton"),
                "`metric`, `short` or `long`",
            ));
        };
        let because = cursor.word("because").then(|| text(cursor)).flatten();
        match because {
            Some(because) => Ok(Some((*reading, because))),
            None => Err(cursor.broken(
                "a reading of evidence needs its reason",
                "add `because \"…\"`",
            )),
        }
    }
}

/// A quotation among the items of a line: `unknown, quote "62 tons"`.
pub(crate) struct Inline<'a> {
    /// The items before it.
    pub(crate) items: Vec<Item<'a>>,
    quote: String,
    read_as: Option<(ReadAs, String)>,
}

impl<'a> Inline<'a> {
    /// Cuts a quotation off the end of the items of a numeric line; `None` where there is none.
    pub(crate) fn cut(line: &Statement<'a>, entry: &Reading<'_>) -> Result<Option<Self>, Fail> {
        let at = line
            .items
            .iter()
            .position(|item| item.word() == Some("quote"));
        let Some(at) = at else { return Ok(None) };
        let mut cursor = Cursor::new(line, at + 1, entry);
        let Some(quote) = text(&mut cursor) else {
            return Err(cursor.broken("what is quoted is missing here", "as `quote \"62 tons\"`"));
        };
        let read_as = ReadAs::read(&mut cursor)?;
        cursor.finish()?;
        let mut items: Vec<_> = line.items.iter().take(at).cloned().collect();
        if items
            .last()
            .is_some_and(|item| matches!(item.node, Node::Comma))
        {
            items.pop();
        }
        Ok(Some(Self {
            items,
            quote,
            read_as,
        }))
    }

    /// Puts what is quoted with the pedigree of the line.
    pub(crate) fn into(self, pedigree: &mut Pedigree) {
        pedigree.quote.get_or_insert(self.quote);
        if pedigree.read_as.is_none() {
            pedigree.read_as = self.read_as;
        }
    }
}

/// The one number of a quotation, with what its unit may be.
struct Figure {
    value: f64,
    /// Half of the last digit that is written; zero where that is not known.
    half: f64,
    units: Vec<&'static Unit>,
    ambiguous: bool,
}

/// So many of a unit in kilograms, of a force the mass that weighs as much; `None` for a unit of anything else.
fn kilograms(unit: &'static Unit, value: f64) -> Option<f64> {
    let amount = Quantity::new(value, unit).amount(Kind::Rating)?;
    Some(RatedForce::from_si(amount.si).mass().si())
}

fn printed(kilograms: f64) -> String {
    let mass = Amount::new(Kind::Mass, kilograms);
    let printer = Printer::default();
    let in_kilograms = match unit("kg") {
        Lookup::Unit(kg) => printer.in_unit(mass, kg, Round::Nearest),
        _ => None,
    };
    in_kilograms.unwrap_or_else(|| printer.metric(mass, Round::Nearest))
}

fn figure(node: &Node<'_>) -> Option<Figure> {
    let (value, raw, units, ambiguous) = match node {
        Node::Quantity { value, unit, raw } => (*value, *raw, vec![*unit], false),
        Node::Ambiguous {
            value,
            unit: word,
            raw,
        } => {
            let readings = word.readings.iter();
            let units = readings.filter_map(|reading| match unit(reading.unit) {
                Lookup::Unit(unit) => Some(unit),
                _ => None,
            });
            (*value, *raw, units.collect(), true)
        }
        _ => return None,
    };
    let digits = raw.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'));
    let typed = digits.clone().find(|part| !part.is_empty())?;
    let decimals = typed.split_once('.').map_or(0, |(_, behind)| behind.len());
    let whole = digits.filter(|part| !part.is_empty()).count() == 1 && !raw.contains('/');
    Some(Figure {
        value,
        half: if whole {
            0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap_or(0))
        } else {
            0.0
        },
        units,
        ambiguous,
    })
}

/// The only number of a quotation; `None` where there is none, more than one, or one that weighs nothing.
fn only(quote: &str) -> Option<Figure> {
    let items = plumbhook_syntax::items(quote);
    let mut numbers = items.iter().filter(|item| {
        !matches!(
            item.node,
            Node::Word(_) | Node::Comma | Node::Mark(_) | Node::Text(_)
        )
    });
    let (one, more) = (numbers.next()?, numbers.next());
    let found = figure(&one.node).filter(|_| more.is_none())?;
    let weighs = |unit: &&'static Unit| kilograms(unit, 1.0).is_some();
    found.units.iter().all(weighs).then_some(found)
}

/// Pounds and kilograms of the tons: a quotation with one of these beside its ton says which it is.
const SIZES: [f64; 3] = [2000.0, 2240.0, 1000.0];

/// Whether the words of a quotation weigh something in a unit that may be another, and say nowhere which: neither by a
/// weight in another unit nor as in "25 TONS OF 2000 LBS".
pub(crate) fn has_several_readings(quote: &str) -> bool {
    let (mut ambiguous, mut plain) = (false, false);
    for item in plumbhook_syntax::items(quote) {
        if let Node::Number { value, .. } = item.node {
            plain |= SIZES.contains(&value);
        }
        if let Some(figure) = figure(&item.node) {
            let mut units = figure.units.iter();
            if units.any(|unit| kilograms(unit, 1.0).is_some()) {
                ambiguous |= figure.ambiguous;
                plain |= !figure.ambiguous;
            }
        }
    }
    ambiguous && !plain
}

/// The unit of the stated reading. A unit that is not ambiguous is what it is, whatever the reading.
fn unit_as(figure: &Figure, read_as: ReadAs) -> Option<&'static Unit> {
    let mut units = figure.units.iter().copied();
    if figure.ambiguous {
        units.find(|unit| read_as.takes(unit.symbol))
    } else {
        units.next()
    }
}

/// The value that a quotation gives in its stated reading, as an item at the place of the source.
pub(crate) fn value(pedigree: &Pedigree, place: Place) -> Option<Item<'static>> {
    let (read_as, _) = pedigree.read_as.as_ref()?;
    let found = only(pedigree.quote.as_deref()?)?;
    let unit = unit_as(&found, *read_as)?;
    Some(Item {
        place,
        node: Node::Quantity {
            value: found.value,
            unit,
            raw: "",
        },
    })
}

/// The readings of a quotation for a person: "56,245 kg (short), 62,000 kg (metric)"; `None` where its words hold no
/// single number that weighs something.
pub(crate) fn readings(quote: &str) -> Option<String> {
    let found = only(quote)?;
    let mut said: Vec<String> = Vec::new();
    for (read_as, word) in ReadAs::ALL {
        let Some(unit) = unit_as(&found, read_as) else {
            continue;
        };
        let Some(kilograms) = kilograms(unit, found.value) else {
            continue;
        };
        let printed = printed(kilograms);
        if found.ambiguous {
            said.push(format!("{printed} ({word})"));
        } else if said.is_empty() {
            said.push(printed);
        }
    }
    (!said.is_empty()).then(|| said.join(", "))
}

/// A notice where the number of a line is not the one that its quotation gives in the stated reading.
pub(crate) fn contradiction(
    line: &Statement<'_>,
    pedigree: &Pedigree,
    entry: &EntryRef,
) -> Option<Notice> {
    let (read_as, _) = pedigree.read_as.as_ref()?;
    let quote = pedigree.quote.as_deref()?;
    let quoted = only(quote)?;
    let as_read = unit_as(&quoted, *read_as)?;
    let (item, typed) = line.items.iter().find_map(|item| {
        let node = match &item.node {
            Node::Tolerance { of, .. } => &of.node,
            node => node,
        };
        Some((item, figure(node)?))
    })?;
    let unit = typed.units.first().filter(|_| !typed.ambiguous)?;
    let (here, there) = (
        kilograms(unit, typed.value)?,
        kilograms(as_read, quoted.value)?,
    );
    let rounding = kilograms(unit, typed.half)? + kilograms(as_read, quoted.half)?;
    ((here - there).abs() > rounding).then(|| Notice {
        code: &notices::QUOTE_DIFFERS,
        say: format!(
            "\"{quote}\" read as {} is {}, the line says {}",
            read_as.word(),
            printed(there),
            printed(here)
        ),
        origin: Origin::at(
            entry,
            line.line,
            item.place.start,
            item.place.end,
            Part::Value,
        ),
        related: vec![],
        mend: "write the number that the evidence gives, or another reading with its reason".into(),
    })
}
