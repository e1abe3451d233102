//! The second reader, where a single value or word is: names, text, brackets, signs, axes.

use crate::fault::Fault;
use crate::item::{Item, Node, coordinates};
use crate::reader::{DEEPEST_BRACKET, Reader};
use crate::token::{Class, LONGEST_LINE};

impl<'a> Reader<'a, '_> {
    /// One value, word or mark. Reads at least one token.
    pub(crate) fn operand(&mut self) -> Item<'a> {
        let first = self.next;
        match self.class(first) {
            Some(Class::Word) => self.name(),
            Some(Class::Number) => self.number(),
            Some(Class::Text) => self.quoted(),
            Some(Class::Open) => self.bracket(),
            Some(Class::Plus | Class::Minus) => self.sign(),
            Some(Class::Tolerance) => self.lone_tolerance(),
            class => {
                self.next += 1;
                let node = match class {
                    Some(Class::Mark | Class::Bar) => Node::Mark(self.text(first)),
                    Some(Class::Close) => Node::Bad(Fault::StrayBracket),
                    Some(Class::Percent) => Node::Bad(Fault::LonePercent),
                    Some(Class::Cross) => Node::Bad(Fault::LoneCross),
                    Some(Class::Range) => Node::Bad(Fault::RangeSide),
                    Some(Class::Times | Class::Over) => Node::Bad(self.operator_fault(first)),
                    _ => return self.junk(first),
                };
                Item {
                    place: self.since(first),
                    node,
                }
            }
        }
    }

    pub(crate) fn name(&mut self) -> Item<'a> {
        let first = self.next;
        self.next += 1;
        let text = self.text(first);
        Item {
            place: self.since(first),
            // Inside a name only an inch mark behind a digit gets here; elsewhere the mark ends the name.
            node: if text.contains('"') {
                Node::Bad(Fault::GluedText)
            } else {
                Node::Word(text)
            },
        }
    }

    fn quoted(&mut self) -> Item<'a> {
        let first = self.next;
        self.next += 1;
        let text = self.text(first);
        let content = text
            .strip_prefix('"')
            .and_then(|rest| rest.strip_suffix('"'));
        let parts = |class| matches!(class, Class::Open | Class::Comma | Class::Bar | Class::Mark);
        let glued_before = self.glued_left(first)
            && !first
                .checked_sub(1)
                .and_then(|i| self.class(i))
                .is_some_and(parts);
        let glued_after = self.glued(first)
            && !self.class(first + 1).is_some_and(|class| {
                matches!(
                    class,
                    Class::Close | Class::Comma | Class::Bar | Class::Mark
                )
            });
        Item {
            place: self.since(first),
            node: match content {
                None => Node::Bad(Fault::UnclosedText),
                Some(_) if glued_before || glued_after => Node::Bad(Fault::GluedText),
                Some(content) => Node::Text(content),
            },
        }
    }

    /// A sign and the number or axes glued to it.
    fn sign(&mut self) -> Item<'a> {
        let first = self.next;
        let minus = self.class(first) == Some(Class::Minus);
        self.next += 1;
        if !self.glued(first) {
            return self.bad(first, self.operator_fault(first));
        }
        let before = first.checked_sub(1).filter(|_| self.glued_left(first));
        if before.and_then(|i| self.class(i)).is_some_and(ends_a_value) {
            return self.bad(first, Fault::GluedOperator { rewrite: None });
        }
        match self.class(self.next) {
            Some(Class::Number) => {
                let number = self.number();
                self.signed(first, minus, number)
            }
            Some(Class::Word) => {
                self.next += 1;
                let place = self.since(first);
                let raw = place.of(self.line);
                if is_axis(raw) {
                    Item {
                        place,
                        node: Node::Axis(raw),
                    }
                } else {
                    self.bad(first, Fault::LoneSign)
                }
            }
            _ => self.bad(first, Fault::LoneSign),
        }
    }

    fn signed(&self, first: usize, minus: bool, number: Item<'a>) -> Item<'a> {
        let place = self.since(first);
        let raw = place.of(self.line);
        let sign = |value: f64| if minus && value != 0.0 { -value } else { value };
        let node = match number.node {
            Node::Number { value, .. } => Node::Number {
                value: sign(value),
                raw,
            },
            Node::Quantity { value, unit, .. } => Node::Quantity {
                value: sign(value),
                unit,
                raw,
            },
            Node::Ambiguous { value, unit, .. } => Node::Ambiguous {
                value: sign(value),
                unit,
                raw,
            },
            Node::Slope { rise, run, .. } => Node::Slope {
                rise: sign(rise),
                run,
                raw,
            },
            Node::Bad(fault) => Node::Bad(fault.behind_sign(if minus { '-' } else { '+' })),
            _ => Node::Bad(Fault::LoneSign),
        };
        Item { place, node }
    }

    /// What is wrong with an operator that is not between two values with blanks around it.
    fn operator_fault(&self, at: usize) -> Fault {
        if self.glued(at) || self.glued_left(at) {
            Fault::GluedOperator { rewrite: None }
        } else {
            Fault::LoneOperator
        }
    }

    fn bracket(&mut self) -> Item<'a> {
        let first = self.next;
        self.next += 1;
        if self.depth >= DEEPEST_BRACKET {
            self.skip_bracket();
            return self.bad(first, Fault::TooDeep);
        }
        self.depth += 1;
        let mut items = Vec::with_capacity(5);
        while self
            .class(self.next)
            .is_some_and(|class| class != Class::Close)
        {
            items.push(self.within(Self::item));
        }
        self.depth -= 1;
        if self.class(self.next) != Some(Class::Close) {
            return self.bad(first, Fault::UnclosedBracket);
        }
        self.next += 1;
        if coordinates(&items).any(<[Item]>::is_empty) {
            return self.bad(first, Fault::EmptyBracket);
        }
        let place = self.since(first);
        match <[Item; 1]>::try_from(items) {
            Ok([only]) if is_amount(&only) => Item {
                place,
                node: only.node,
            },
            Ok([only]) => Item {
                place,
                node: Node::Point(vec![only]),
            },
            Err(items) => Item {
                place,
                node: Node::Point(items),
            },
        }
    }

    /// Goes behind the bracket that closes the one just read, or to the end.
    fn skip_bracket(&mut self) {
        let mut open = 1_usize;
        while let Some(class) = self.class(self.next) {
            self.next += 1;
            match class {
                Class::Open => open += 1,
                Class::Close => open -= 1,
                _ => {}
            }
            if open == 0 {
                return;
            }
        }
    }

    fn junk(&mut self, first: usize) -> Item<'a> {
        let text = self.text(first);
        if self.line.len() > LONGEST_LINE {
            let bytes = crate::place::narrow(self.line.len());
            return self.bad(first, Fault::LineTooLong { bytes });
        }
        if text == "." && self.glued(first) && self.class(self.next) == Some(Class::Number) {
            self.next += 1;
            self.skip_unit();
            let rewrite = format!("0{}", self.since(first).of(self.line)).into();
            return self.bad(first, Fault::BareDecimal { rewrite });
        }
        let fault = text
            .chars()
            .next()
            .map_or(Fault::NotANumber, Fault::of_character);
        self.bad(first, fault)
    }
}

fn ends_a_value(class: Class) -> bool {
    matches!(
        class,
        Class::Word | Class::Number | Class::Text | Class::Close | Class::Percent
    )
}

/// What brackets around it do not make a point.
fn is_amount(item: &Item) -> bool {
    matches!(
        item.node,
        Node::Number { .. }
            | Node::Quantity { .. }
            | Node::Ambiguous { .. }
            | Node::Operation { .. }
            | Node::Tolerance { .. }
    )
}

/// `+x`, `-y`, `+x+y`, `+x-y+z`: signs and axes in turn, no axis twice.
fn is_axis(raw: &str) -> bool {
    let mut seen = [false; 3];
    let mut rest = raw.chars();
    while let Some(sign) = rest.next() {
        let axis = match rest.next() {
            Some('x') => 0,
            Some('y') => 1,
            Some('z') => 2,
            _ => return false,
        };
        let Some(before) = seen.get_mut(axis) else {
            return false;
        };
        if !matches!(sign, '+' | '-') || std::mem::replace(before, true) {
            return false;
        }
    }
    !raw.is_empty()
}
