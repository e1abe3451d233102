//! `adopt mass from d-31 by role "…" on 2026-11-04 because "…"`: which claim counts, by whom and why.

use crate::declare::{Key, Link, Repeat, Role, Said, Shape};
use crate::pedigree::text;
use crate::{Cursor, Datum, Fail, Field, Given, Lacking, Pedigree, Reading, notices};
use plumbhook_sheet::{EntryRef, Lack, Notice, Origin, Part, Related};
use plumbhook_syntax::{Item, Node, Statement};

/// One adoption.
#[derive(Clone, Debug)]
pub struct Adoption {
    /// The key whose claims it chooses among.
    pub key: Box<str>,
    /// The source or basis of the claim that counts.
    pub from: Box<str>,
    /// Where that is named.
    pub from_origin: Origin,
    /// Whether it is of the closed list of bases, and leads to no source.
    pub is_basis: bool,
    /// The role that decided.
    pub role: String,
    /// The day, ISO; empty where none is given.
    pub day: String,
    /// Why.
    pub because: String,
}

/// Every adoption of an entry. A line that could not be read adopts nothing.
#[derive(Clone, Debug)]
pub struct Adoptions {
    /// Each, in order.
    pub lines: Vec<Given<Adoption>>,
}

impl Adoptions {
    /// That of one key; none where several choose, for then none of them decides.
    pub fn of<'a>(&'a self, key: &'a str) -> impl Iterator<Item = &'a Given<Adoption>> {
        let all = move || {
            let lines = self.lines.iter();
            lines.filter(move |line| &*line.value.key == key)
        };
        let several = all().nth(1).is_some();
        all().filter(move |_| !several)
    }

    /// What is told of a second adoption of a key.
    fn second(&self, key: &str, origin: &Origin) -> Option<Notice> {
        let first = self.lines.iter().find(|line| &*line.value.key == key)?;
        Some(Notice {
            code: &notices::SAID_TWICE,
            say: format!("a claim of `{key}` is adopted twice; with two of them neither counts"),
            origin: origin.clone(),
            related: vec![Related {
                origin: first.origin.clone(),
                say: format!("adopted from `{}` here", first.value.from),
            }],
            mend: "keep the one that is right".into(),
        })
    }
}

impl Field for Adoptions {
    const SHAPE: Shape = Shape {
        say: "the key, the source that counts, who decided and why: `mass from d-31 by role \"lead engineer\" on 2026-11-04 because \"…\"`",
        kind: None,
        words: &["mass", "cg", "from", "by role", "on", "because"],
        role: Some(Role::Source),
    };
    const REPEAT: Repeat = Repeat::Members;

    fn absent(_: &'static Key, _: &EntryRef) -> Self {
        Self { lines: vec![] }
    }

    fn take(
        &mut self,
        key: &'static Key,
        line: &Statement<'_>,
        entry: &Reading<'_>,
        notices: &mut Vec<Notice>,
    ) {
        match read(line, entry) {
            Ok(value) => {
                let place = line.key.place;
                let origin = Origin::at(entry, line.line, place.start, place.end, Part::Key);
                notices.extend(self.second(&value.key, &origin));
                self.lines.push(Given {
                    value,
                    origin,
                    pedigree: Pedigree::default().shared(),
                });
            }
            Err(Fail::Broken(broken)) => notices.push(broken.notice(key, entry)),
            Err(Fail::Unknown | Fail::Lacks(_)) => {
                let cursor = Cursor::new(line, 0, entry);
                if let Fail::Broken(broken) =
                    cursor.broken("nobody has decided yet, so nothing is adopted", "")
                {
                    notices.push(broken.notice(key, entry));
                }
            }
        }
    }

    fn said(&self) -> Said {
        if self.lines.is_empty() {
            Said::Nothing
        } else {
            Said::Something
        }
    }

    /// Never: what was decided of another entry's claims decides nothing here.
    fn take_over(&mut self, _: &Self, _: &Origin) {}

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for adoption in self.lines.iter().map(|line| &line.value) {
            if !adoption.is_basis {
                out.push(Link {
                    name: &adoption.from,
                    role: Role::Source,
                    origin: &adoption.from_origin,
                });
            }
        }
    }
}

fn read(line: &Statement<'_>, entry: &Reading<'_>) -> Result<Adoption, Fail> {
    let mut cursor = Cursor::new(line, 0, entry);
    let (key, place) = cursor.name("the key whose claim is adopted")?;
    if !matches!(key, "mass" | "cg") {
        return Err(cursor.broken_at(
            place,
            format!("`{key}` takes no claims, so none of them can be adopted"),
            "the keys with claims here are `mass` and `cg`",
        ));
    }
    cursor.finish()?;
    let Some(provenance) = &line.provenance else {
        return Err(cursor.broken("the source that counts is missing", "write `from d-31`"));
    };
    let statement = Statement {
        items: provenance.items.clone(),
        provenance: None,
        rows: vec![],
        key: Item {
            place: provenance.place,
            node: Node::Word("from"),
        },
        ..line.clone()
    };
    let mut cursor = Cursor::new(&statement, 0, entry);
    let (from, place) = cursor.name("a source or a basis")?;
    let from_origin = cursor.origin(place, Part::Source);
    let role = if cursor.word("by") && cursor.word("role") {
        text(&mut cursor)
    } else {
        None
    };
    let Some(role) = role else {
        return Err(cursor.broken(
            "an adoption says who decided",
            "add `by role \"lead engineer\"` behind the source",
        ));
    };
    let day = if cursor.word("on") {
        cursor.day("as `on 2026-11-04`")?
    } else {
        String::new()
    };
    let because = cursor.word("because").then(|| text(&mut cursor)).flatten();
    let Some(because) = because else {
        return Err(cursor.broken("an adoption says why", "add `because \"…\"`"));
    };
    cursor.finish()?;
    Ok(Adoption {
        key: key.into(),
        is_basis: crate::BASES.iter().any(|(basis, _)| *basis == from),
        from: from.into(),
        from_origin,
        role,
        day,
        because,
    })
}

/// How one claim is known, whether or not its value is.
pub fn pedigree_of<T>(line: &Datum<T>) -> Option<&Pedigree> {
    match line {
        Datum::Known(given) => Some(&given.pedigree),
        Datum::Lacking(lacking) => lacking.pedigree.as_deref(),
    }
}

/// The claims that adoptions drop, by their place in the list, each with the adoption that drops it.
///
/// Where no claim comes from what is adopted, nothing is dropped. A claim that `is_weighing` stays whatever is
/// adopted, and so does a line that could not be read: nobody knows what it says.
pub fn dropped<'a, T>(
    lines: &[Datum<T>],
    adoptions: impl Iterator<Item = &'a Given<Adoption>>,
    is_weighing: impl Fn(&Pedigree) -> bool,
) -> Vec<(usize, &'a Given<Adoption>)> {
    let adoptions: Vec<_> = adoptions
        .filter(|adoption| lines.iter().any(|line| comes_from(line, &adoption.value)))
        .collect();
    let Some(first) = adoptions.first() else {
        return vec![];
    };
    let stays = |line: &Datum<T>| {
        adoptions
            .iter()
            .any(|adoption| comes_from(line, &adoption.value))
            || pedigree_of(line).is_some_and(&is_weighing)
            || matches!(
                line,
                Datum::Lacking(Lacking {
                    lack: Lack::Broken,
                    ..
                })
            )
    };
    let gone = lines.iter().enumerate().filter(|(_, line)| !stays(line));
    gone.map(|(index, _)| (index, *first)).collect()
}

/// Whether a claim comes from what is adopted.
pub fn comes_from<T>(line: &Datum<T>, adoption: &Adoption) -> bool {
    pedigree_of(line).is_some_and(|pedigree| {
        let source = pedigree.source.as_ref().map(|(name, _)| &**name);
        source.or(pedigree.basis) == Some(&*adoption.from)
    })
}
