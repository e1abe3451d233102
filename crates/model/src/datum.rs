//! A datum is known, or it says why not and where. There is no default.

use crate::declare::{Field, Key, Link, Repeat, Said, Shape};
use crate::quoted::{self, Inline};
use crate::reading::Made;
use crate::{Cursor, Fail, Pedigree, Reading, notices};
use plumbhook_sheet::{EntryRef, Lack, Notice, Origin, Part, Related, Via};
use plumbhook_syntax::Statement;
use plumbhook_units::Kind;
use std::sync::Arc;

/// A type that can be read from the items of a line.
pub trait Value: Clone + Sized + 'static {
    /// What it looks like.
    const SHAPE: Shape;
    /// Whether rows below the line belong to it.
    const ROWS: bool = false;
    /// Reads it; whatever is left over afterwards makes the datum unknown.
    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail>;
    /// Every name in it that leads elsewhere.
    fn links<'a>(&'a self, _out: &mut Vec<Link<'a>>) {}
}

/// A value that was given.
#[derive(Clone, Debug)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub origin: Origin,
    /// How it is known; one for all values of which nothing is said.
    pub pedigree: Arc<Pedigree>,
}

/// A value that was not given, or could not be read.
#[derive(Clone, Debug)]
pub struct Lacking {
    /// Why.
    pub lack: Lack,
    /// Where it stands, or where it would.
    pub origin: Origin,
    /// What its line says of how it would be known: the source of a value that is typed `unknown`, the words quoted.
    pub pedigree: Option<Box<Pedigree>>,
}

impl Lacking {
    /// Without a line that says more of it.
    pub fn new(lack: Lack, origin: Origin) -> Self {
        Self {
            lack,
            origin,
            pedigree: None,
        }
    }
}

/// Known, or why not.
#[derive(Clone, Debug)]
pub enum Datum<T> {
    /// It is known.
    Known(Given<T>),
    /// It is not.
    Lacking(Lacking),
}

impl<T> Datum<T> {
    /// The value, if it is known.
    pub fn known(&self) -> Option<&Given<T>> {
        match self {
            Self::Known(given) => Some(given),
            Self::Lacking(_) => None,
        }
    }

    /// Where it stands, or where it would.
    pub fn origin(&self) -> &Origin {
        match self {
            Self::Known(given) => &given.origin,
            Self::Lacking(lacking) => &lacking.origin,
        }
    }
}

impl<T: Clone> Datum<T> {
    /// As it stands in another entry, taken over by `like`.
    pub(crate) fn taken_over(&self, like: &Origin) -> Self {
        let mut it = self.clone();
        let origin = match &mut it {
            Self::Known(given) => &mut given.origin,
            Self::Lacking(lacking) => &mut lacking.origin,
        };
        *origin = origin.clone().via(Via::Like(Box::new(like.clone())));
        it
    }
}

/// The bytes of a line's value: from its first item to its last.
fn value_place(line: &Statement<'_>) -> (u32, u32) {
    match (line.items.first(), line.items.last()) {
        (Some(first), Some(last)) => (first.place.start, last.place.end),
        _ => (line.key.place.start, line.key.place.end),
    }
}

/// A line as it was read: its value, or why there is none, with what it says of how that is known.
type Read<T> = (Result<T, Fail>, Pedigree);

/// Reads value and pedigree of a line. A quotation gives the value where the line says how it is read and types none.
fn value_and_pedigree<T: Value>(
    line: &Statement<'_>,
    skip: usize,
    entry: &Reading<'_>,
    notices: &mut Vec<Notice>,
) -> Result<Read<T>, Fail> {
    let mut pedigree = Pedigree::read(line.provenance.as_ref(), line, entry)?;
    let numeric = T::SHAPE.kind.is_some();
    let inline = if numeric {
        Inline::cut(line, entry)?
    } else {
        None
    };
    if inline.is_none() && pedigree.quote.is_none() {
        if let (Some(_), Some(from)) = (&pedigree.read_as, &line.provenance) {
            return Err(Cursor::new(line, skip, entry).broken_at(
                from.place,
                "`read-as` says how a quotation is read, and none stands here",
                "add `quote \"…\"` in front of `read-as`, or take `read-as` out",
            ));
        }
        return Ok((read_items(line, skip, entry), pedigree));
    }
    let mut bare = line.clone();
    if let Some(inline) = inline {
        bare.items.clone_from(&inline.items);
        inline.into(&mut pedigree);
    }
    let value = bare.items.get(skip..).unwrap_or_default();
    // A typed `unknown` is an answer of its own, whatever is quoted beside it.
    let gives_none = value
        .iter()
        .all(|item| item.word().is_some_and(|word| word != "unknown"));
    let weighs = matches!(T::SHAPE.kind, Some(Kind::Mass | Kind::Rating | Kind::Force));
    match &pedigree.read_as {
        None if value.is_empty() => return Ok((Err(Fail::Unknown), pedigree)),
        Some(_) if weighs && gives_none => {
            let from = line.provenance.as_ref().map(|from| from.place);
            let place = from.unwrap_or(line.key.place);
            let Some(item) = quoted::value(&pedigree, place) else {
                return Err(Cursor::new(line, skip, entry).broken_at(
                    place,
                    "the quotation holds no single number that the tool could read so",
                    "write the value in front of `from`",
                ));
            };
            bare.items.push(item);
        }
        _ => notices.extend(quoted::contradiction(&bare, &pedigree, entry)),
    }
    Ok((read_items(&bare, skip, entry), pedigree))
}

fn read_items<T: Value>(line: &Statement<'_>, skip: usize, entry: &Reading<'_>) -> Result<T, Fail> {
    let mut cursor = Cursor::new(line, skip, entry);
    T::read(&mut cursor).and_then(|value| cursor.finish().map(|()| value))
}

pub(crate) fn read_line<T: Value>(
    key: &'static Key,
    line: &Statement<'_>,
    skip: usize,
    entry: &Reading<'_>,
    notices: &mut Vec<Notice>,
) -> Datum<T> {
    let (start, end) = value_place(line);
    let origin = Origin::at(entry, line.line, start, end, Part::Value);
    drop(entry.made());
    let read = value_and_pedigree(line, skip, entry, notices);
    let made = entry.made();
    let fail = match read {
        Ok((Ok(value), pedigree)) => match with_pedigree_of_names(line, pedigree, &made) {
            Ok(pedigree) => {
                let ways = made.calculations.into_iter();
                let ways = ways.map(|way| Via::Expression(Box::new(way)));
                let origin = ways.fold(origin, Origin::via);
                return Datum::Known(Given {
                    value,
                    origin,
                    pedigree: pedigree.shared(),
                });
            }
            Err(fail) => fail,
        },
        Ok((Err(Fail::Unknown), pedigree)) => {
            return Datum::Lacking(Lacking {
                lack: Lack::Unknown,
                origin,
                pedigree: (!pedigree.words.is_empty() || pedigree.quote.is_some())
                    .then(|| Box::new(pedigree)),
            });
        }
        Ok((Err(fail), _)) | Err(fail) => fail,
    };
    match fail {
        // What lacks is told where the name is given, once.
        Fail::Lacks(lacks) => Datum::Lacking(Lacking::new(lacks.0, lacks.1)),
        Fail::Broken(broken) => {
            notices.push(broken.notice(key, entry));
            Datum::Lacking(Lacking::new(Lack::Broken, origin))
        }
        Fail::Unknown => Datum::Lacking(Lacking::new(Lack::Unknown, origin)),
    }
}

/// How a value is known that named values are part of. Where one of them says it, the line does not say it again: a
/// sum is not better known than its parts. It is known as they are where nothing else is in it.
fn with_pedigree_of_names(
    line: &Statement<'_>,
    own: Pedigree,
    made: &Made,
) -> Result<Pedigree, Fail> {
    let mut said = made
        .named
        .iter()
        .filter(|named| !named.pedigree.words.is_empty());
    let Some(first) = said.next() else {
        return Ok(own);
    };
    if let Some(from) = &line.provenance {
        let say = format!("`{}` says itself how it is known", first.name);
        let mend = "take `from` out here, or at the `let`";
        return Err(Fail::broken(line.line, from.place, say, mend));
    }
    let alike = |named: &Pedigree| Pedigree {
        source: None,
        ..named.clone()
    };
    let same = made
        .named
        .iter()
        .all(|named| named.is_number() || alike(&named.pedigree) == alike(&first.pedigree));
    Ok(if same && !made.typed {
        first.pedigree.clone()
    } else {
        own
    })
}

/// How far lines of one key answer it together.
pub(crate) fn said_by<'a, T: 'a>(lines: impl IntoIterator<Item = &'a Datum<T>>) -> Said {
    lines
        .into_iter()
        .fold(Said::Nothing, |said, line| match (said, line) {
            (Said::Something, _) | (_, Datum::Known(_)) => Said::Something,
            (_, Datum::Lacking(_)) => Said::NoAnswer,
        })
}

/// The value of a key that may stand once.
#[derive(Clone, Debug)]
pub struct Once<T> {
    /// Its declaration.
    pub key: &'static Key,
    /// What stands there.
    pub datum: Datum<T>,
    seen: bool,
}

impl<T> Once<T> {
    /// The value, if it is known.
    pub fn known(&self) -> Option<&Given<T>> {
        self.datum.known()
    }

    /// Whether no line gives the key.
    pub fn is_absent(&self) -> bool {
        !self.seen
    }

    /// Whether nobody says it: no line gives the key, or its line says `unknown`.
    pub fn is_not_said(&self) -> bool {
        match &self.datum {
            Datum::Known(_) => false,
            Datum::Lacking(lacking) => matches!(lacking.lack, Lack::Absent | Lack::Unknown),
        }
    }

    /// The same key with another datum, that of a line elsewhere.
    pub(crate) fn given_by(&self, datum: Datum<T>) -> Self {
        Self {
            key: self.key,
            datum,
            seen: true,
        }
    }
}

impl<T: Value> Field for Once<T> {
    const SHAPE: Shape = T::SHAPE;
    const ROWS: bool = T::ROWS;
    const REPEAT: Repeat = Repeat::Once;

    fn absent(key: &'static Key, entry: &EntryRef) -> Self {
        Self {
            key,
            datum: Datum::Lacking(Lacking::new(Lack::Absent, Origin::header(entry))),
            seen: false,
        }
    }

    fn take(
        &mut self,
        key: &'static Key,
        line: &Statement<'_>,
        entry: &Reading<'_>,
        notices: &mut Vec<Notice>,
    ) {
        let read = read_line(key, line, 0, entry, notices);
        if !self.seen {
            self.seen = true;
            self.datum = read;
            return;
        }
        let first = self.datum.origin().clone();
        notices.push(Notice {
            code: &notices::SAID_TWICE,
            say: format!(
                "`{}` may stand once in an entry; with two of them neither counts",
                key.word
            ),
            origin: Origin::at(
                entry,
                line.line,
                line.key.place.start,
                line.key.place.end,
                Part::Key,
            ),
            related: vec![Related {
                origin: first.clone(),
                say: "first given here".into(),
            }],
            mend: "keep the line that is right and take the other out".into(),
        });
        self.datum = Datum::Lacking(Lacking::new(Lack::Broken, first));
    }

    fn said(&self) -> Said {
        match &self.datum {
            _ if !self.seen => Said::Nothing,
            Datum::Known(_) => Said::Something,
            Datum::Lacking(_) => Said::NoAnswer,
        }
    }

    fn take_over(&mut self, from: &Self, like: &Origin) {
        if !self.seen && from.seen {
            self.datum = from.datum.taken_over(like);
            self.seen = true;
        }
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        if let Datum::Known(given) = &self.datum {
            given.value.links(out);
            given.pedigree.links(out);
        }
    }
}

/// Every line of a key that may stand several times, in order.
#[derive(Clone, Debug)]
pub struct Several<T, const UNITED: bool> {
    /// Its declaration.
    pub key: &'static Key,
    /// Each line, in order.
    pub lines: Vec<Datum<T>>,
    /// Where the entry starts: where a line would stand.
    pub home: Origin,
}

/// Claims of one value: the worst side of each counts.
pub type Claims<T> = Several<T, true>;

/// Lines that each stand for themselves and need no name.
pub type Lines<T> = Several<T, false>;

impl<T: Value, const UNITED: bool> Field for Several<T, UNITED> {
    const SHAPE: Shape = T::SHAPE;
    const ROWS: bool = T::ROWS;
    const REPEAT: Repeat = if UNITED {
        Repeat::Claims
    } else {
        Repeat::Members
    };

    fn absent(key: &'static Key, entry: &EntryRef) -> Self {
        Self {
            key,
            lines: vec![],
            home: Origin::header(entry),
        }
    }

    fn take(
        &mut self,
        key: &'static Key,
        line: &Statement<'_>,
        entry: &Reading<'_>,
        notices: &mut Vec<Notice>,
    ) {
        // Most keys stand once, and every entry of a text is kept.
        self.lines.reserve_exact(1);
        self.lines.push(read_line(key, line, 0, entry, notices));
    }

    fn said(&self) -> Said {
        said_by(&self.lines)
    }

    fn take_over(&mut self, from: &Self, like: &Origin) {
        if self.lines.is_empty() {
            let lines = from.lines.iter();
            self.lines.extend(lines.map(|line| line.taken_over(like)));
        }
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for given in self.lines.iter().filter_map(Datum::known) {
            given.value.links(out);
            given.pedigree.links(out);
        }
    }
}
