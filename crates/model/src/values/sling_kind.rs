//! What kind a sling is of, as far as a published table asks.

use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Length, Measured};

/// `chain, grade 80, diameter 10 mm`; `wire-rope, class 6x36, core iwrc, diameter 38 mm, splice mechanical`.
#[derive(Clone, Debug, PartialEq)]
pub struct SlingKind {
    /// The word before the first comma: `chain`.
    pub of: Box<str>,
    /// Its grade.
    pub grade: Option<Box<str>>,
    /// Diameter of the rope, or of the bar that the links are made of.
    pub diameter: Option<Length>,
    /// Whatever else is said, as written: `class 6x36`.
    pub marks: Vec<Box<str>>,
}

impl SlingKind {
    /// In words, for a sheet.
    pub fn words(&self, printer: plumbhook_units::Printer) -> String {
        let grade = self.grade.iter().map(|grade| format!("grade {grade}"));
        let diameter = self.diameter.iter().map(|diameter| {
            let amount = plumbhook_units::Amount::of(*diameter);
            format!(
                "diameter {}",
                printer.metric(amount, plumbhook_units::Round::Nearest)
            )
        });
        let marks = self.marks.iter().map(ToString::to_string);
        let all: Vec<String> = std::iter::once(self.of.to_string())
            .chain(grade)
            .chain(diameter)
            .chain(marks)
            .collect();
        all.join(", ")
    }
}

impl Value for SlingKind {
    const SHAPE: Shape = Shape {
        say: "what it is made of, and what a table asks of it: `chain, grade 80, diameter 10 mm` or `wire-rope, class 6x36, core iwrc, diameter 38 mm, splice mechanical`",
        kind: Some(Kind::Length),
        words: &[
            "chain",
            "fibre-rope",
            "wire-rope",
            "webbing",
            "round",
            "grade",
            "diameter",
            "unknown",
        ],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let of = written(line, true)?;
        let mut it = Self {
            of,
            grade: None,
            diameter: None,
            marks: vec![],
        };
        while line.comma() {
            if it.diameter.is_none() && line.word("diameter") {
                it.diameter = Some(diameter(line)?);
            } else if it.grade.is_none() && line.word("grade") {
                it.grade = Some(written(line, false)?);
            } else {
                it.marks.push(written(line, false)?);
            }
        }
        Ok(it)
    }
}

/// One number: a table has rows, no bands.
fn diameter(line: &mut Cursor<'_, '_>) -> Result<Length, Fail> {
    let place = line.here();
    let banded = Banded::<Length>::read_part(line)?;
    let say = "a diameter is one size above zero here, as its table has it";
    match banded.nominal.filter(|_| banded.is_plain()) {
        Some(size) if size.si() > 0.0 => Ok(size),
        _ => Err(line.broken_at(place, say, "as `diameter 10 mm` or `diameter 3/8 in`")),
    }
}

/// The items up to the next comma, as written; in the first of them, or without a label before it, a size is nobody's.
fn written(line: &mut Cursor<'_, '_>, first: bool) -> Result<Box<str>, Fail> {
    let mut words: Vec<&str> = Vec::new();
    while let Some(item) = line.peek() {
        match &item.node {
            Node::Comma => break,
            Node::Word("unknown") => return Err(Fail::Unknown),
            Node::Bad(fault) => return Err(line.broken(fault.say().into_owned(), "")),
            Node::Quantity { .. } if first || words.is_empty() => {
                let size = item.raw(line.text);
                let say = format!("`{size}` does not say what it is the size of");
                let mend = format!("say it behind a comma: `, diameter {size}`");
                return Err(line.broken(say, &mend));
            }
            _ => words.push(item.raw(line.text)),
        }
        line.take();
    }
    if words.is_empty() {
        return Err(line.broken("words are missing here", ""));
    }
    Ok(words.join(" ").into())
}
