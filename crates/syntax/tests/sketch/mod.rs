//! Items as one short line of text, so that a test reads as a sentence.

use plumbhook_syntax::{Item, Node};

/// Items with `; ` between them.
pub(crate) fn sketch_all(items: &[Item]) -> String {
    let all: Vec<String> = items.iter().map(sketch).collect();
    all.join("; ")
}

/// Numbers plain, units in brackets, what could not be read as `BAD`.
pub(crate) fn sketch(item: &Item) -> String {
    match &item.node {
        Node::Word(word) => (*word).to_owned(),
        Node::Number { value, .. } => format!("#{value}"),
        Node::Quantity { value, unit, .. } => format!("{value}[{}]", unit.symbol),
        Node::Ambiguous { value, unit, .. } => format!("{value}[{}?]", unit.spellings[0]),
        Node::Slope { rise, run, .. } => format!("slope {rise}:{run}"),
        Node::Date(date) => format!("date {date}"),
        Node::Text(text) => format!("\"{text}\""),
        Node::Point(items) => format!("({})", sketch_all(items)),
        Node::Axis(axis) => format!("axis {axis}"),
        Node::Tolerance { of, by } => format!("{{{} +/- {}}}", sketch(of), sketch(by)),
        Node::Range { lo, hi } => format!("{{{} .. {}}}", sketch(lo), sketch(hi)),
        Node::Sizes(sizes) => {
            let all: Vec<String> = sizes.iter().map(sketch).collect();
            format!("{{{}}}", all.join(" x "))
        }
        Node::Count { count, of } => format!("{{{count} of {}}}", sketch(of)),
        Node::Operation { op, left, right } => {
            format!("{{{} {op} {}}}", sketch(left), sketch(right))
        }
        Node::Comma => ",".to_owned(),
        Node::Mark(mark) => format!("mark {mark}"),
        Node::Bad(_) => "BAD".to_owned(),
    }
}
