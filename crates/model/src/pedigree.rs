//! How a value is known: what stands after `from`.

use crate::declare::{Link, Role};
use crate::quoted::ReadAs;
use crate::{Cursor, Fail, Reading};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Node, Provenance, Statement};
use std::sync::{Arc, LazyLock};

/// The closed list of bases; anything else after `from` is the name of a declared source.
/// Each with its help, strongest first.
pub const BASES: &[(&str, &str)] = &[
    ("weighed", "weighed, with an instrument"),
    ("measured", "measured on the piece or on site"),
    ("test", "proved by a test"),
    ("tag", "read from the tag on the piece"),
    ("nameplate", "read from the maker's plate"),
    ("drawing", "read from a drawing"),
    ("manual", "read from the maker's manual"),
    ("calculated", "calculated"),
    ("practice-note", "from a note of the house's own practice"),
    ("cell", "read from a load cell or set at it"),
    ("stated", "said by someone"),
    ("estimate", "estimated"),
];

/// How a value is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pedigree {
    /// The words after `from`, as written; empty where nothing is said.
    pub words: String,
    /// The declared source and where it is named.
    pub source: Option<(Box<str>, Origin)>,
    /// The basis of the closed list.
    pub basis: Option<&'static str>,
    /// What the evidence says, word for word; never interpreted.
    pub quote: Option<String>,
    /// Which reading of the evidence was taken, and why.
    pub read_as: Option<(ReadAs, String)>,
    /// The day it was found, ISO, where the line says it.
    pub on: Option<String>,
    /// The instrument, in words.
    pub instrument: Option<String>,
}

/// Nothing is said of how a value is known.
static SILENT: LazyLock<Arc<Pedigree>> = LazyLock::new(Arc::default);

impl Pedigree {
    /// To be kept with a value: most values say nothing, and share that.
    pub(crate) fn shared(self) -> Arc<Self> {
        if self == Self::default() {
            Arc::clone(&SILENT)
        } else {
            Arc::new(self)
        }
    }

    /// Reads what stands after `from`.
    pub fn read(
        provenance: Option<&Provenance<'_>>,
        line: &Statement<'_>,
        entry: &Reading<'_>,
    ) -> Result<Self, Fail> {
        let Some(provenance) = provenance else {
            return Ok(Self::default());
        };
        let statement = Statement {
            items: provenance.items.clone(),
            provenance: None,
            rows: vec![],
            key: plumbhook_syntax::Item {
                place: provenance.place,
                node: Node::Word("from"),
            },
            ..line.clone()
        };
        let mut cursor = Cursor::new(&statement, 0, entry);
        let (name, place) = cursor.name("a source or a basis")?;
        let mut it = Self {
            words: line
                .text
                .get(place.start as usize..provenance.place.end as usize)
                .unwrap_or_default()
                .trim()
                .to_owned(),
            ..Self::default()
        };
        match BASES.iter().find(|(basis, _)| *basis == name) {
            Some((basis, _)) => it.basis = Some(basis),
            None => it.source = Some((name.into(), cursor.origin(place, Part::Source))),
        }
        if cursor.word("on") {
            it.on = Some(cursor.day("as `on 2026-08-11`")?);
        }
        if cursor.word("with") {
            it.instrument = text(&mut cursor);
            if it.instrument.is_none() {
                return Err(cursor.broken(
                    "the instrument, in quotes, is missing here",
                    "as `with \"load cell 3\"`",
                ));
            }
        }
        let quoting = cursor.word("quote");
        it.quote = text(&mut cursor);
        if quoting && it.quote.is_none() {
            return Err(cursor.broken("what is quoted is missing here", "as `quote \"62 tons\"`"));
        }
        it.read_as = ReadAs::read(&mut cursor)?;
        cursor.finish()?;
        Ok(it)
    }

    /// The name of the source, if one is named.
    pub fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        if let Some((name, origin)) = &self.source {
            out.push(Link {
                name,
                role: Role::Source,
                origin,
            });
        }
    }
}

/// Takes a quoted text, if one stands there.
pub(crate) fn text(cursor: &mut Cursor<'_, '_>) -> Option<String> {
    match cursor.peek().map(|item| &item.node) {
        Some(Node::Text(quoted)) => {
            let quoted = (*quoted).to_owned();
            cursor.take();
            Some(quoted)
        }
        _ => None,
    }
}
