//! A key whose lines are told apart by a name.

use crate::datum::{read_line, said_by};
use crate::declare::{Field, Key, Link, Repeat, Said, Shape};
use crate::{Datum, Lacking, Reading, Value, notices};
use plumbhook_sheet::{EntryRef, Lack, Notice, Origin, Related};
use plumbhook_syntax::Statement;

/// Every member of a key that is told apart by the name after it.
#[derive(Clone, Debug)]
pub struct Members<T> {
    /// Its declaration.
    pub key: &'static Key,
    /// Name and value of each line, in order.
    pub members: Vec<(Box<str>, Datum<T>)>,
    /// Where the entry starts: where a member would stand.
    pub home: Origin,
}

impl<T> Members<T> {
    /// The member of that name.
    pub fn get(&self, name: &str) -> Option<&Datum<T>> {
        self.members
            .iter()
            .find(|(member, _)| &**member == name)
            .map(|(_, datum)| datum)
    }
}

impl<T: Value> Field for Members<T> {
    const SHAPE: Shape = T::SHAPE;
    const ROWS: bool = T::ROWS;
    const REPEAT: Repeat = Repeat::Members;

    fn absent(key: &'static Key, entry: &EntryRef) -> Self {
        Self {
            key,
            members: vec![],
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
        let name: Box<str> = line
            .items
            .first()
            .map_or("", |item| item.raw(line.text))
            .into();
        let mut datum = read_line(key, line, 1, entry, notices);
        if let Some((_, twin)) = self.members.iter_mut().find(|(other, _)| *other == name) {
            let first = twin.origin().clone();
            notices.push(Notice {
                code: &notices::SAID_TWICE,
                say: format!("`{} {name}` stands twice; neither counts", key.word),
                origin: datum.origin().clone(),
                related: vec![Related {
                    origin: first.clone(),
                    say: "first given here".into(),
                }],
                mend: "give one of them another name, or take it out".into(),
            });
            *twin = Datum::Lacking(Lacking::new(Lack::Broken, first));
            datum = Datum::Lacking(Lacking::new(Lack::Broken, datum.origin().clone()));
        }
        self.members.reserve_exact(1);
        self.members.push((name, datum));
    }

    fn said(&self) -> Said {
        said_by(self.members.iter().map(|(_, datum)| datum))
    }

    fn take_over(&mut self, from: &Self, like: &Origin) {
        let others = from.members.iter();
        let others: Vec<_> = others
            .filter(|(name, _)| self.get(name).is_none())
            .map(|(name, datum)| (name.clone(), datum.taken_over(like)))
            .collect();
        self.members.extend(others);
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for (_, datum) in &self.members {
            if let Datum::Known(given) = datum {
                given.value.links(out);
                given.pedigree.links(out);
            }
        }
    }
}
