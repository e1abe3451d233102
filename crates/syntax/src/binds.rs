//! What can stand beside what: which items take an operator, a tolerance or a range, and when that is not clear.

use crate::item::{Item, Node};

pub(crate) fn is_number(item: &Item) -> bool {
    match &item.node {
        Node::Number { .. } | Node::Quantity { .. } | Node::Ambiguous { .. } => true,
        Node::Tolerance { of, .. } => is_number(of),
        _ => false,
    }
}

pub(crate) fn can_calculate(item: &Item) -> bool {
    // A tolerance gets here only from brackets: `2 * (14.5 t +/- 100 kg)`.
    matches!(
        item.node,
        Node::Word(_)
            | Node::Number { .. }
            | Node::Quantity { .. }
            | Node::Ambiguous { .. }
            | Node::Operation { .. }
            | Node::Tolerance { .. }
            | Node::Bad(_)
    )
}

pub(crate) fn takes_tolerance(item: &Item) -> bool {
    matches!(
        item.node,
        Node::Word(_)
            | Node::Number { .. }
            | Node::Quantity { .. }
            | Node::Ambiguous { .. }
            | Node::Operation { .. }
            | Node::Slope { .. }
            | Node::Point(_)
            | Node::Bad(_)
    )
}

pub(crate) fn can_be_side(item: &Item) -> bool {
    matches!(
        item.node,
        Node::Word(_)
            | Node::Number { .. }
            | Node::Quantity { .. }
            | Node::Ambiguous { .. }
            | Node::Operation { .. }
            | Node::Slope { .. }
            | Node::Date(_)
            | Node::Tolerance { .. }
            | Node::Bad(_)
    )
}

/// Whether a tolerance behind this calculation says something else when it belongs to the last value only.
///
/// Behind `a * b` a percentage is the same either way, behind `a + b` and `a - b` an amount; the rest is not.
pub(crate) fn reads_two_ways(of: &Item, by: &Item) -> bool {
    let Node::Operation { op, left, right } = &of.node else {
        return false;
    };
    let bracketed = |item: &Item, first: &Item| item.place.start < first.place.start;
    if bracketed(of, left) {
        return false;
    }
    if matches!(&right.node, Node::Operation { left, .. } if !bracketed(right, left)) {
        return true;
    }
    match by.node {
        Node::Quantity { unit, .. } if unit.symbol == "%" => *op != '*',
        Node::Number { .. } | Node::Quantity { .. } | Node::Ambiguous { .. } => {
            !matches!(op, '+' | '-')
        }
        _ => true,
    }
}
