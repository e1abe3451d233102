//! How an entry is declared: the Rust type is the declaration.
//!
//! [`block!`](crate::block) takes one struct: its doc comment is the help, a field is a key, the field's type is
//! the value's shape and how often the key may stand. Reading, unknown-key help, completion, hover
//! and the reference all come from the table it makes; there is no second list.

use crate::{Gear, Like, Reading, notices};
use plumbhook_sheet::{EntryRef, Notice, Origin, Part};
use plumbhook_syntax::{Entry, Statement};
use plumbhook_units::Kind;
use std::any::Any;

pub use crate::role::Role;

/// How often a key may stand in an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Repeat {
    /// Once: a second line is an error and makes the datum unknown.
    Once,
    /// Every line is a claim; claims are united, the worst side of each counts.
    Claims,
    /// Every line is a member of its own, told apart by the name after the key.
    Members,
}

/// What a value looks like, as data for completion, hover, messages and the reference.
#[derive(Clone, Copy, Debug)]
pub struct Shape {
    /// In words, as it would be typed: "a mass with its tolerance, as `31.5 t +/- 8 %`".
    pub say: &'static str,
    /// The kind of its numbers, where there is one.
    pub kind: Option<Kind>,
    /// Words that may stand there.
    pub words: &'static [&'static str],
    /// What a name there may refer to.
    pub role: Option<Role>,
}

impl Shape {
    /// A shape that only words describe.
    pub const fn said(say: &'static str) -> Self {
        Self {
            say,
            kind: None,
            words: &[],
            role: None,
        }
    }
}

/// One key of an entry.
#[derive(Debug)]
pub struct Key {
    /// The word; empty for what follows the name in the header.
    pub word: &'static str,
    /// One-line help.
    pub help: &'static str,
    /// What its value looks like.
    pub shape: Shape,
    /// How often it may stand.
    pub repeat: Repeat,
    /// Whether rows below the line belong to it.
    pub rows: bool,
    /// Whether it is geometry, which `like` takes over.
    pub geometry: bool,
}

/// One kind of entry.
#[derive(Debug)]
pub struct Block {
    /// The word in column 1.
    pub word: &'static str,
    /// One-line help.
    pub help: &'static str,
    /// What it can be for others.
    pub roles: &'static [Role],
    /// Its keys.
    pub keys: &'static [Key],
}

/// A name in a value that leads to another entry.
#[derive(Clone, Copy, Debug)]
pub struct Link<'a> {
    /// The name as written; a dot reaches inside.
    pub name: &'a str,
    /// What it has to be.
    pub role: Role,
    /// Where it stands.
    pub origin: &'a Origin,
}

impl<'a> Link<'a> {
    /// The part before the dot: the name of the entry.
    pub fn head(&self) -> &'a str {
        crate::mentions::head_of(self.name)
    }
}

/// What was read of an entry, whatever its kind.
pub trait Body: Any + Send + Sync {
    /// As itself, for a typed view.
    fn as_any(&self) -> &dyn Any;
    /// Every name in it that leads elsewhere.
    fn links(&self) -> Vec<Link<'_>>;
    /// As a piece of gear, if it is one.
    fn gear(&self) -> Option<&dyn Gear>;
    /// The entry whose geometry it takes over, if its header names one.
    fn like(&self) -> Option<&Like>;
    /// The line that says of which option it is a part, if it takes one.
    fn option(&self) -> Option<&crate::Once<crate::values::InOption>>;
    /// How far a key of it is answered; `None` where it has no such key.
    fn said(&self, key: &str) -> Option<Said>;
    /// Itself with the geometry of `from` where it says none of its own; `None` if that is of another kind.
    fn with_geometry_of(&self, from: &dyn Body) -> Option<std::sync::Arc<dyn Body>>;
}

/// How far a key of an entry is answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// No line gives it.
    Nothing,
    /// Lines stand there, and none of them gives a value.
    NoAnswer,
    /// A line gives a value.
    Something,
}

/// A kind of entry with its reader. A new family adds one to the list in `entries/mod.rs`.
pub struct EntryKind {
    /// The declaration.
    pub block: &'static Block,
    /// Reads the entry; it never fails: what could not be read is an unknown datum and a notice.
    pub read: fn(&Reading<'_>, &Entry<'_>, &mut Vec<Notice>) -> std::sync::Arc<dyn Body>,
}

/// A field of an entry's struct: a datum, claims or members.
pub trait Field: Sized {
    /// The value's shape.
    const SHAPE: Shape;
    /// How often the key may stand.
    const REPEAT: Repeat;
    /// Whether rows below a line belong to it.
    const ROWS: bool = false;
    /// What stands where no line gives it.
    fn absent(key: &'static Key, entry: &EntryRef) -> Self;
    /// Takes one line.
    fn take(
        &mut self,
        key: &'static Key,
        line: &Statement<'_>,
        entry: &Reading<'_>,
        notices: &mut Vec<Notice>,
    );
    /// Every name in it that leads elsewhere.
    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>);
    /// How far it is answered.
    fn said(&self) -> Said;
    /// Takes over what `from` says where this says nothing; `like` is where that is asked for.
    fn take_over(&mut self, from: &Self, like: &Origin);
}

/// The name of the entry of a header: its first item, a word (or a bare number such as a tag).
pub fn header_name<'a>(header: &Statement<'a>) -> &'a str {
    header
        .items
        .first()
        .filter(|item| {
            matches!(
                item.node,
                plumbhook_syntax::Node::Word(_) | plumbhook_syntax::Node::Number { .. }
            )
        })
        .map_or("", |item| item.raw(header.text))
}

/// The header without its name and its title: what a header key reads.
pub fn header_rest<'a>(header: &Statement<'a>) -> Statement<'a> {
    let mut rest = header.clone();
    let named = usize::from(!header_name(header).is_empty());
    rest.items.drain(..named);
    if let Some(title) = rest
        .items
        .iter()
        .position(|item| matches!(item.node, plumbhook_syntax::Node::Text(_)))
    {
        rest.items.remove(title);
    }
    rest
}

/// Says that an entry has no such key, with the nearest one that it has.
pub fn unknown_key(
    block: &Block,
    line: &Statement<'_>,
    entry: &EntryRef,
    notices: &mut Vec<Notice>,
) {
    let word = line.key.raw(line.text);
    let near = nearest(word, block.keys.iter().map(|key| key.word));
    let all: Vec<_> = block
        .keys
        .iter()
        .map(|key| key.word)
        .filter(|w| !w.is_empty())
        .collect();
    notices.push(Notice {
        code: &notices::UNKNOWN_KEY,
        say: format!(
            "`{}` has no key `{word}`; this line is not read",
            block.word
        ),
        origin: Origin::at(
            entry,
            line.line,
            line.key.place.start,
            line.key.place.end,
            Part::Key,
        ),
        related: vec![],
        mend: near.map_or_else(
            || format!("its keys are {}", all.join(", ")),
            |near| format!("did you mean `{near}`?"),
        ),
    });
}

/// Says that words after the name of a header are left over.
pub fn header_left_over(
    block: &Block,
    rest: &Statement<'_>,
    entry: &EntryRef,
    notices: &mut Vec<Notice>,
) {
    let (Some(first), Some(last)) = (rest.items.first(), rest.items.last()) else {
        return;
    };
    notices.push(Notice {
        code: &notices::LEFT_OVER,
        say: format!(
            "`{}` takes a name and a quoted title; this is left over",
            block.word
        ),
        origin: Origin::at(entry, 0, first.place.start, last.place.end, Part::Header),
        related: vec![],
        mend: String::new(),
    });
}

/// The candidate that a mistyped word most likely means.
pub fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    candidates
        .filter(|candidate| !candidate.is_empty())
        .map(|candidate| (strsim::damerau_levenshtein(word, candidate), candidate))
        .filter(|(distance, candidate)| *distance <= 1 + candidate.len().min(word.len()) / 4)
        .min()
        .map(|(_, candidate)| candidate)
}

/// One declaration: the doc comment is the help, a field is a key, its type is the shape.
///
/// `"word" => Type [roles] { field (= "key")?: FieldType, … }`. A field named `header` reads what
/// follows the name in the header line. A key marked `#[like(geometry)]` is taken over by `like`.
#[macro_export]
macro_rules! block {
    ($(#[doc = $block_help:literal])+ $word:literal => $type:ident [$($role:ident),*] {
        $( $(#[doc = $key_help:literal])+ $(#[like($geometry:ident)])? $field:ident $(= $key:literal)? : $shape:ty, )*
    }) => {
        $(#[doc = $block_help])+
        #[derive(Clone, Debug)]
        pub struct $type {
            /// The entry whose geometry it takes over.
            pub like: Option<$crate::Like>,
            $( $(#[doc = $key_help])+ pub $field: $shape, )*
        }

        impl $type {
            /// The declaration of this kind of entry.
            pub const BLOCK: &'static $crate::Block = &$crate::Block {
                word: $word,
                help: concat!($($block_help),+),
                roles: &[$($crate::Role::$role),*],
                keys: &[$( $crate::Key {
                    word: $crate::block!(@word $field $($key)?),
                    help: concat!($($key_help),+),
                    shape: <$shape as $crate::Field>::SHAPE,
                    repeat: <$shape as $crate::Field>::REPEAT,
                    rows: <$shape as $crate::Field>::ROWS,
                    geometry: $crate::block!(@geometry $($geometry)?),
                } ),*],
            };

            /// The kind, for the list of entries.
            pub const KIND: $crate::EntryKind = $crate::EntryKind {
                block: Self::BLOCK,
                read: |entry, text, notices| ::std::sync::Arc::new(Self::read(entry, text, notices)),
            };

            /// Reads an entry; what could not be read is an unknown datum and a notice.
            #[allow(unused_mut, unused_variables, clippy::needless_pass_by_value,
                    reason = "an entry without keys uses less of this")]
            pub fn read(
                entry: &$crate::Reading<'_>,
                text: &::plumbhook_syntax::Entry<'_>,
                notices: &mut Vec<::plumbhook_sheet::Notice>,
            ) -> Self {
                let mut keys = Self::BLOCK.keys.iter();
                let mut rest = $crate::declare::header_rest(&text.header);
                let like = $crate::header_like(Self::BLOCK, &mut rest, entry);
                let mut it = Self { like, $(
                    $field: match keys.next() {
                        Some(key) => <$shape as $crate::Field>::absent(key, entry),
                        // The table above and this list are made from the same fields.
                        None => unreachable!(),
                    },
                )* };
                let headed = Self::BLOCK.keys.iter().any(|key| key.word.is_empty());
                if !headed {
                    $crate::declare::header_left_over(Self::BLOCK, &rest, entry, notices);
                }
                let header = (headed && !rest.items.is_empty()).then_some(&rest);
                let mut told = Vec::new();
                for line in $crate::astray::lines_of(Self::BLOCK, header, text, entry, notices) {
                    let key = Self::BLOCK.keys.iter().find(|key| key.word == line.word);
                    let notices = if line.told { &mut told } else { &mut *notices };
                    match (line.word, key) {
                        $( ($crate::block!(@pattern $field $($key)?), Some(key)) => {
                            $crate::Field::take(&mut it.$field, key, &line.statement, entry, notices);
                        } )*
                        // A line is one of a key of the declaration.
                        _ => unreachable!(),
                    }
                }
                it
            }
        }

        impl $crate::Body for $type {
            fn as_any(&self) -> &dyn ::std::any::Any {
                self
            }
            fn links(&self) -> Vec<$crate::Link<'_>> {
                #[allow(unused_mut, reason = "an entry without keys has no links")]
                let mut out = Vec::with_capacity(8);
                $( $crate::Field::links(&self.$field, &mut out); )*
                out
            }
            fn gear(&self) -> Option<&dyn $crate::Gear> {
                $crate::block!(@gear self $($role)*)
            }
            fn like(&self) -> Option<&$crate::Like> {
                self.like.as_ref()
            }
            fn option(&self) -> Option<&$crate::Once<$crate::values::InOption>> {
                let none: Option<&$crate::Once<$crate::values::InOption>> = None;
                none $( .or($crate::block!(@option self $field)) )*
            }
            #[allow(unused_variables, reason = "an entry without keys answers none")]
            fn said(&self, key: &str) -> Option<$crate::declare::Said> {
                $( if key == $crate::block!(@word $field $($key)?) {
                    return Some($crate::Field::said(&self.$field));
                } )*
                None
            }
            fn with_geometry_of(&self, from: &dyn $crate::Body) -> Option<::std::sync::Arc<dyn $crate::Body>> {
                #[allow(unused_variables, reason = "an entry without geometry takes over nothing")]
                let (from, like) = (from.as_any().downcast_ref::<Self>()?, self.like.as_ref()?);
                #[allow(unused_mut, reason = "as above")]
                let mut it = self.clone();
                $( $crate::block!(@take_over it from like $field $($geometry)?); )*
                Some(::std::sync::Arc::new(it))
            }
        }
    };
    (@option $self:ident in_option) => { Some(&$self.in_option) };
    (@option $self:ident $other:ident) => { None };
    (@geometry geometry) => { true };
    (@geometry) => { false };
    (@take_over $it:ident $from:ident $like:ident $field:ident geometry) => {
        $crate::Field::take_over(&mut $it.$field, &$from.$field, &$like.origin)
    };
    (@take_over $it:ident $from:ident $like:ident $field:ident) => {};
    (@word header) => { "" };
    (@word $field:ident) => { stringify!($field) };
    (@word $field:ident $key:literal) => { $key };
    (@pattern header) => { "" };
    (@pattern $field:ident) => { stringify!($field) };
    (@pattern $field:ident $key:literal) => { $key };
    (@gear $self:ident Gear $($rest:ident)*) => { Some($self) };
    (@gear $self:ident $other:ident $($rest:ident)*) => { $crate::block!(@gear $self $($rest)*) };
    (@gear $self:ident) => { None };
}
