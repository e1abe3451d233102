//! Who has verified a support, when, and for what.

use super::allowable::Allowable;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;

/// `no`, `unknown`, or `by role "geotechnical engineer" on 2026-10-04, covers pad 120 kPa, over pipe-gallery`.
#[derive(Clone, Debug, PartialEq)]
pub enum Verified {
    /// Nobody has.
    No,
    /// Somebody has.
    Yes {
        /// The role, in the words of the file.
        by: String,
        /// The day, ISO.
        on: String,
        /// What it covers.
        covers: Allowable,
        /// Holes and cavities that it names.
        over: Vec<Box<str>>,
    },
}

impl Value for Verified {
    const SHAPE: Shape = Shape {
        say: "`no`, or who, when and for what: `by role \"geotechnical engineer\" on 2026-10-04, covers pad 120 kPa`",
        kind: None,
        words: &["no", "unknown", "by role", "covers pad", "over"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("no") {
            return Ok(Self::No);
        }
        let (by, on) = by_whom(line, "covers pad 120 kPa")?;
        let covers = Allowable::read_part(line)?;
        let mut over = Vec::new();
        while line.comma() {
            if !line.word("over") {
                return Err(line.broken(
                    "`over` and the name of a hole or cavity may follow here",
                    "",
                ));
            }
            over.push(line.name("the name of a hole or cavity")?.0.into());
        }
        Ok(Self::Yes {
            by,
            on,
            covers,
            over,
        })
    }
}

/// `by role "…" on 2026-10-04, covers`: by whom and when; what it covers stands behind.
pub(super) fn by_whom(line: &mut Cursor<'_, '_>, covers: &str) -> Result<(String, String), Fail> {
    if !(line.word("by") && line.word("role")) {
        return Err(line.broken(
            "a verification says by whom",
            &format!("write `by role \"…\" on 2026-10-04, {covers}`, or `no`"),
        ));
    }
    let by = taken(
        line,
        "the role, in quotes, is missing here",
        |node| match node {
            Node::Text(role) => Some((*role).to_owned()),
            _ => None,
        },
    )?;
    if !line.word("on") {
        return Err(line.broken("a verification says when", "write `on 2026-10-04`"));
    }
    let on = line.day("as `on 2026-10-04`")?;
    if !(line.comma() && line.word("covers")) {
        return Err(line.broken(
            "a verification says what it covers",
            &format!("write `, {covers}`"),
        ));
    }
    Ok((by, on))
}

fn taken(
    line: &mut Cursor<'_, '_>,
    missing: &str,
    read: impl Fn(&Node<'_>) -> Option<String>,
) -> Result<String, Fail> {
    let found = line.peek().and_then(|item| read(&item.node));
    match found {
        Some(text) => {
            line.take();
            Ok(text)
        }
        None => Err(line.broken(missing, "")),
    }
}
