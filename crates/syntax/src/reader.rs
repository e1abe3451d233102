//! The second reader: tokens to items, by position and without going back. Here: what stands between values.

use crate::binds::{can_be_side, can_calculate, is_number, reads_two_ways, takes_tolerance};
use crate::fault::Fault;
use crate::item::{Item, Node};
use crate::place::Place;
use crate::token::{Class, Token, tokens};

/// How deep brackets are read inside one another.
pub const DEEPEST_BRACKET: u8 = 16;

/// How many operators are read in one line.
pub const MOST_OPERATORS: u8 = 64;

/// The items of one line without its comment; `line` has no line ending. Cannot fail: what cannot be placed is
/// [`Node::Bad`]; whatever is neither blank nor comment lies in some item.
///
/// Knows no keys: `from` is a word here, and `mass +/- 8 %` a tolerance of a word. [`crate::read_entry`] takes key
/// and provenance off first.
pub fn items(line: &str) -> Vec<Item<'_>> {
    let mut buffer = Vec::new();
    tokens(line, &mut buffer);
    read(line, without_comment(&buffer))
}

/// The tokens before the comment, which is always last.
pub(crate) fn without_comment(tokens: &[Token]) -> &[Token] {
    match tokens.split_last() {
        Some((last, rest)) if last.class == Class::Comment => rest,
        _ => tokens,
    }
}

/// The items of some tokens of a line.
pub(crate) fn read<'a>(line: &'a str, tokens: &[Token]) -> Vec<Item<'a>> {
    let mut reader = Reader::new(line, tokens);
    let mut items = Vec::with_capacity(tokens.len().min(8));
    while reader.next < tokens.len() {
        items.push(reader.item());
    }
    items
}

/// The first token of a statement: its key, alone whatever follows.
pub(crate) fn read_key<'a>(line: &'a str, tokens: &[Token]) -> Item<'a> {
    Reader::new(line, tokens.get(..1).unwrap_or_default()).item()
}

pub(crate) struct Reader<'a, 't> {
    pub(crate) line: &'a str,
    pub(crate) tokens: &'t [Token],
    /// Index of the token that is read next.
    pub(crate) next: usize,
    /// Brackets open here.
    pub(crate) depth: u8,
    /// Whether no count can stand here, so that `1 1/2 in` is one quantity.
    pub(crate) inner: bool,
    operators: u8,
}

impl<'a, 't> Reader<'a, 't> {
    fn new(line: &'a str, tokens: &'t [Token]) -> Self {
        Self {
            line,
            tokens,
            next: 0,
            depth: 0,
            inner: false,
            operators: 0,
        }
    }

    pub(crate) fn class(&self, index: usize) -> Option<Class> {
        self.tokens.get(index).map(|token| token.class)
    }

    pub(crate) fn text(&self, index: usize) -> &'a str {
        self.tokens
            .get(index)
            .map_or("", |token| token.place().of(self.line))
    }

    /// Whether nothing stands between this token and the one after it.
    pub(crate) fn glued(&self, index: usize) -> bool {
        match (self.tokens.get(index), self.tokens.get(index + 1)) {
            (Some(a), Some(b)) => a.end == b.start,
            _ => false,
        }
    }

    /// Whether nothing stands between this token and the one before it.
    pub(crate) fn glued_left(&self, index: usize) -> bool {
        index
            .checked_sub(1)
            .is_some_and(|before| self.glued(before))
    }

    /// From the start of token `first` to the end of the last token read.
    pub(crate) fn since(&self, first: usize) -> Place {
        let at = |index: usize| self.tokens.get(index).map(|token| token.place());
        let start = at(first).unwrap_or(Place { start: 0, end: 0 });
        start.to(at(self.next.saturating_sub(1).max(first)).unwrap_or(start))
    }

    pub(crate) fn bad(&self, first: usize, fault: Fault) -> Item<'a> {
        Item {
            place: self.since(first),
            node: Node::Bad(fault),
        }
    }

    /// A value with all that belongs to it, a word, or a separator. Reads at least one token.
    pub(crate) fn item(&mut self) -> Item<'a> {
        let first = self.next;
        match (self.class(first), self.class(first + 1)) {
            (Some(Class::Comma), _) => {
                self.next += 1;
                return Item {
                    place: self.since(first),
                    node: Node::Comma,
                };
            }
            // Most of a line: a word that nothing can bind.
            (
                Some(Class::Word),
                None | Some(Class::Word | Class::Number | Class::Text | Class::Open | Class::Comma),
            ) => return self.name(),
            _ => {}
        }
        let lo = self.value();
        if self.class(self.next) != Some(Class::Range) || !can_be_side(&lo) {
            return lo;
        }
        self.range(first, lo)
    }

    fn range(&mut self, first: usize, lo: Item<'a>) -> Item<'a> {
        let mut sides = vec![lo];
        let mut missing = false;
        while self.class(self.next) == Some(Class::Range) {
            self.next += 1;
            if self.operand_follows() {
                sides.push(self.within(Self::value));
            } else {
                missing = true;
            }
        }
        let toleranced = |item: &Item| matches!(item.node, Node::Tolerance { .. });
        if sides.iter().any(toleranced) {
            return self.bad(first, Fault::ToleranceOfRange);
        }
        match <[Item; 2]>::try_from(sides) {
            Ok([lo, hi]) if !missing && can_be_side(&hi) => Item {
                place: self.since(first),
                node: Node::Range {
                    lo: Box::new(lo),
                    hi: Box::new(hi),
                },
            },
            _ => self.bad(first, Fault::RangeSide),
        }
    }

    /// A count, else what can be counted.
    fn value(&mut self) -> Item<'a> {
        let first = self.next;
        let one = self.countable();
        let Node::Number { value: count, .. } = one.node else {
            return one;
        };
        if self.text(self.next) != "of" {
            return one;
        }
        self.next += 1;
        if !self.operand_follows() {
            self.next -= 1;
            return one;
        }
        let of = Box::new(self.within(Self::countable));
        Item {
            place: self.since(first),
            node: Node::Count { count, of },
        }
    }

    /// Sizes, else one value with its tolerance.
    fn countable(&mut self) -> Item<'a> {
        let first = self.next;
        let one = self.measured();
        if is_number(&one) && self.cross_follows() {
            self.sizes(first, one)
        } else {
            one
        }
    }

    /// Whether `x` stands here and a number after it: then, and only then, it makes sizes.
    fn cross_follows(&self) -> bool {
        let cross = match self.class(self.next) {
            Some(Class::Cross) => true,
            Some(Class::Word) => self.text(self.next) == "x",
            _ => false,
        };
        cross && self.class(self.next + 1) == Some(Class::Number)
    }

    fn sizes(&mut self, first: usize, one: Item<'a>) -> Item<'a> {
        let mut sizes = vec![one];
        while self.cross_follows() {
            self.next += 1;
            sizes.push(self.within(Self::measured));
        }
        let place = self.since(first);
        let own = |item: &Item| matches!(item.node, Node::Tolerance { .. });
        let alone = sizes.iter().filter(|item| own(item)).count() == 1;
        match sizes.pop() {
            // One tolerance behind all sizes is a tolerance of each of them, as on a drawing.
            Some(Item {
                node: Node::Tolerance { of, by },
                ..
            }) if alone => {
                let place_of_sizes = place.to(of.place);
                sizes.push(*of);
                Item {
                    place,
                    node: Node::Tolerance {
                        of: Box::new(Item {
                            place: place_of_sizes,
                            node: Node::Sizes(sizes),
                        }),
                        by,
                    },
                }
            }
            last => {
                sizes.extend(last);
                Item {
                    place,
                    node: Node::Sizes(sizes),
                }
            }
        }
    }

    /// A value and the tolerance that stands behind it.
    fn measured(&mut self) -> Item<'a> {
        let first = self.next;
        let of = self.sum();
        if self.class(self.next) != Some(Class::Tolerance) || !takes_tolerance(&of) {
            return of;
        }
        self.next += 1;
        let by = match self.amount() {
            Ok(by) => by,
            Err(fault) => return self.bad(first, fault),
        };
        if reads_two_ways(&of, &by) {
            return self.bad(first, Fault::ToleranceOfCalculation);
        }
        Item {
            place: self.since(first),
            node: Node::Tolerance {
                of: Box::new(of),
                by: Box::new(by),
            },
        }
    }

    /// What stands behind `+/-`.
    fn amount(&mut self) -> Result<Item<'a>, Fault> {
        if !self.operand_follows() {
            return Err(Fault::ToleranceAmount);
        }
        let signed = matches!(self.class(self.next), Some(Class::Plus | Class::Minus));
        let by = self.within(Self::operand);
        match by.node {
            _ if signed => Err(Fault::SignedTolerance),
            Node::Word(_)
            | Node::Number { .. }
            | Node::Quantity { .. }
            | Node::Ambiguous { .. }
            | Node::Operation { .. }
            | Node::Bad(_) => Ok(by),
            _ => Err(Fault::ToleranceAmount),
        }
    }

    /// A tolerance with nothing before it, with its amount, so that the amount is never taken for a value.
    pub(crate) fn lone_tolerance(&mut self) -> Item<'a> {
        let first = self.next;
        self.next += 1;
        if self.operand_follows() {
            self.operand();
        }
        self.bad(first, Fault::LoneTolerance)
    }

    fn sum(&mut self) -> Item<'a> {
        self.chain(Self::product, &[Class::Plus, Class::Minus])
    }

    fn product(&mut self) -> Item<'a> {
        self.chain(Self::operand, &[Class::Times, Class::Over])
    }

    /// `part`, or several with one of these operators between them.
    fn chain(&mut self, part: fn(&mut Self) -> Item<'a>, operators: &[Class]) -> Item<'a> {
        let first = self.next;
        let mut left = part(self);
        while self
            .class(self.next)
            .is_some_and(|class| operators.contains(&class))
            && can_calculate(&left)
            && !self.glued(self.next)
            && !self.glued_left(self.next)
        {
            let op = match self.class(self.next) {
                Some(Class::Plus) => '+',
                Some(Class::Minus) => '-',
                Some(Class::Times) => '*',
                _ => '/',
            };
            self.next += 1;
            self.operators = self.operators.saturating_add(1);
            if !self.operand_follows() {
                return self.bad(first, Fault::LoneOperator);
            }
            let right = self.within(part);
            if self.operators > MOST_OPERATORS {
                left = self.bad(first, Fault::TooManyOperators);
                continue;
            }
            // A place and how far from there: `A/1 + (1.2 m, -0.3 m)`. What it means is for the slot to say.
            let from_place = op == '+' && matches!(right.node, Node::Point(_));
            left = if can_calculate(&right) || from_place {
                Item {
                    place: self.since(first),
                    node: Node::Operation {
                        op,
                        left: Box::new(left),
                        right: Box::new(right),
                    },
                }
            } else {
                self.bad(first, Fault::LoneOperator)
            };
        }
        left
    }

    /// Reads something where no count can stand.
    pub(crate) fn within(&mut self, read: fn(&mut Self) -> Item<'a>) -> Item<'a> {
        let outer = std::mem::replace(&mut self.inner, true);
        let item = read(self);
        self.inner = outer;
        item
    }

    /// Whether a value or word starts here.
    fn operand_follows(&self) -> bool {
        match self.class(self.next) {
            Some(Class::Word | Class::Number | Class::Open) => true,
            Some(Class::Plus | Class::Minus) => self.glued(self.next),
            _ => false,
        }
    }
}
