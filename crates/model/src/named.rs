//! Named values: `let wall = 600 mm`, and what the names of one file stand for.
//!
//! A name is seen by the entries of its own file and by no other. Earlier or later makes no difference.

use crate::entries::Let;
use crate::reading::{Around, Reading};
use crate::{Datum, Declared, Pedigree, notices};
use plumbhook_sheet::{Lack, Notice, Origin, Related};
use plumbhook_syntax::{Entry, Item, Node, read_entry};
use plumbhook_units::{Known, Term};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::sync::Arc;

/// The word that names a value.
pub const LET: &str = "let";

/// What a name stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The name.
    pub name: Box<str>,
    /// Its value, or why there is none.
    pub term: Result<Term, Lack>,
    /// How it is known.
    pub pedigree: Pedigree,
    /// Where it is given; where it has none, what lacks.
    pub origin: Origin,
}

impl Named {
    /// Whether it is a plain number that says nothing of how it is known.
    pub(crate) fn is_number(&self) -> bool {
        let number = self
            .term
            .as_ref()
            .is_ok_and(|term| matches!(term.known, Known::Exact(_)));
        number && self.pedigree.words.is_empty()
    }
}

/// A `let` of a file: how many of its name stand before it, and its text.
#[derive(Clone, Copy, Debug)]
pub struct LetText<'t> {
    /// 0 for the first of its name.
    pub nth: u32,
    /// The block.
    pub text: &'t str,
}

/// Reads every `let` of a file: what the names stand for, and the entries in the order given.
pub fn read_named(file: &Arc<str>, lets: &[LetText<'_>]) -> (Around, Vec<Declared>) {
    let entries: Vec<Entry<'_>> = lets.iter().map(|one| read_entry(one.text)).collect();
    let names: Vec<&str> = entries.iter().map(name_of).collect();
    let mut seen = BTreeSet::new();
    let twice: BTreeSet<&str> = names
        .iter()
        .filter(|name| !name.is_empty() && !seen.insert(**name))
        .copied()
        .collect();
    let needs = needs(&entries, &names);
    let (order, round) = in_order(&needs);
    let mut around = Around::default();
    let mut read: Vec<Option<Declared>> = lets.iter().map(|_| None).collect();
    let declared = |at: usize, around: &Around| {
        let one = lets.get(at)?;
        let mut entry = Declared::read_in(file, one.nth, one.text, around);
        entry.notices.extend(without_value(&entry));
        Some(entry)
    };
    for at in &order {
        let Some(entry) = declared(*at, &around) else {
            continue;
        };
        let name = entry.name();
        let named = if twice.contains(name) {
            lacking(&entry)
        } else {
            named(&entry)
        };
        Arc::make_mut(&mut around.named).insert(name.into(), Arc::new(named));
        put(&mut read, *at, entry);
    }
    // Those that need themselves, and those that need them: none has a value, whichever is read first.
    for _ in 0..2 {
        for at in &round {
            if let Some(entry) = declared(*at, &around) {
                let named = Arc::new(lacking(&entry));
                Arc::make_mut(&mut around.named).insert(entry.name().into(), named);
                put(&mut read, *at, entry);
            }
        }
    }
    let mut read: Vec<Declared> = read.into_iter().flatten().collect();
    tell_twice(&mut read, &twice);
    tell_round(&mut read, &round, &needs);
    (around, read)
}

fn put(read: &mut [Option<Declared>], at: usize, entry: Declared) {
    if let Some(slot) = read.get_mut(at) {
        *slot = Some(entry);
    }
}

fn name_of<'a>(entry: &Entry<'a>) -> &'a str {
    crate::declare::header_name(&entry.header)
}

/// Nothing stands behind the name.
fn without_value(entry: &Declared) -> Option<Notice> {
    let absent = entry
        .of::<Let>()
        .is_some_and(|body| body.header.is_absent());
    absent.then(|| Notice {
        say: "this `let` gives no value".into(),
        mend: "as `let wall = 600 mm`".into(),
        ..notice_at_name(entry, &notices::NOT_READ)
    })
}

fn named(entry: &Declared) -> Named {
    let Some(body) = entry.of::<Let>() else {
        return lacking(entry);
    };
    let (term, pedigree) = match &body.header.datum {
        Datum::Known(given) => (Ok(given.value.0), (*given.pedigree).clone()),
        Datum::Lacking(lacking) => (Err(lacking.lack), Pedigree::default()),
    };
    Named {
        name: entry.name().into(),
        term,
        pedigree,
        origin: body.header.datum.origin().clone(),
    }
}

fn lacking(entry: &Declared) -> Named {
    Named {
        name: entry.name().into(),
        term: Err(Lack::Broken),
        pedigree: Pedigree::default(),
        origin: Origin::header(&entry.key),
    }
}

/// Which others each needs: every other name in it, and itself where it stands in it.
fn needs(entries: &[Entry<'_>], names: &[&str]) -> Vec<Vec<usize>> {
    let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, name) in names
        .iter()
        .enumerate()
        .filter(|(_, name)| !name.is_empty())
    {
        by_name.entry(name).or_default().push(at);
    }
    let needs = entries.iter().map(|entry| {
        let mut words = Vec::new();
        collect(entry.header.items.get(1..).unwrap_or_default(), &mut words);
        let mut found: Vec<usize> = words
            .into_iter()
            .filter_map(|word| by_name.get(word))
            .flatten()
            .copied()
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    });
    needs.collect()
}

fn collect<'a>(items: &[Item<'a>], out: &mut Vec<&'a str>) {
    for item in items {
        match &item.node {
            Node::Word(word) => out.push(word),
            Node::Point(items) | Node::Sizes(items) => collect(items, out),
            Node::Tolerance { of: a, by: b }
            | Node::Range { lo: a, hi: b }
            | Node::Operation {
                left: a, right: b, ..
            } => {
                collect(std::slice::from_ref(a), out);
                collect(std::slice::from_ref(b), out);
            }
            _ => {}
        }
    }
}

/// An order in which each stands behind what it needs; then those for which there is none.
fn in_order(needs: &[Vec<usize>]) -> (Vec<usize>, Vec<usize>) {
    let mut open: Vec<usize> = needs.iter().map(Vec::len).collect();
    let mut needed_by: Vec<Vec<usize>> = needs.iter().map(|_| vec![]).collect();
    for (at, all) in needs.iter().enumerate() {
        for need in all {
            if let Some(list) = needed_by.get_mut(*need) {
                list.push(at);
            }
        }
    }
    let ready = open.iter().enumerate().filter(|(_, open)| **open == 0);
    let mut queue: VecDeque<usize> = ready.map(|(at, _)| at).collect();
    let mut order = Vec::with_capacity(needs.len());
    while let Some(at) = queue.pop_front() {
        order.push(at);
        for next in needed_by.get(at).into_iter().flatten() {
            if let Some(left) = open.get_mut(*next) {
                *left -= 1;
                if *left == 0 {
                    queue.push_back(*next);
                }
            }
        }
    }
    let round = (0..needs.len()).filter(|at| open.get(*at).is_some_and(|open| *open > 0));
    let round = round.collect();
    (order, round)
}

fn notice_at_name(entry: &Declared, code: &'static plumbhook_sheet::NoticeCode) -> Notice {
    Notice {
        code,
        say: String::new(),
        origin: Origin::header(&entry.key),
        related: vec![],
        mend: String::new(),
    }
}

fn tell_twice(read: &mut [Declared], twice: &BTreeSet<&str>) {
    let headers: Vec<(Box<str>, Origin)> = read
        .iter()
        .filter(|entry| twice.contains(entry.name()))
        .map(|entry| (entry.name().into(), Origin::header(&entry.key)))
        .collect();
    for entry in read.iter_mut().filter(|entry| twice.contains(entry.name())) {
        let own = Origin::header(&entry.key);
        let others = headers
            .iter()
            .filter(|(name, origin)| **name == *entry.name() && *origin != own);
        let related = others.take(5).map(|(name, origin)| Related {
            origin: origin.clone(),
            say: format!("`{name}` is given here too"),
        });
        let notice = Notice {
            say: format!(
                "`{}` is given more than once, so it has no value",
                entry.name()
            ),
            related: related.collect(),
            mend: "keep the line that is right, or give one of them another name".into(),
            ..notice_at_name(entry, &notices::NAME_TWICE)
        };
        entry.notices.push(notice);
    }
}

/// Says of each that needs itself by which way it does.
fn tell_round(read: &mut [Declared], round: &[usize], needs: &[Vec<usize>]) {
    let names: Vec<Box<str>> = read.iter().map(|entry| entry.name().into()).collect();
    let name = |at: usize| names.get(at).map_or("", |name| &**name);
    for at in round {
        let Some(way) = way_back(*at, needs) else {
            continue;
        };
        let steps: Vec<_> = way.iter().map(|at| format!("`{}`", name(*at))).collect();
        let Some(entry) = read.get_mut(*at) else {
            continue;
        };
        let notice = Notice {
            say: format!(
                "`{}` needs {}: a name that needs itself has no value",
                name(*at),
                steps.join(", which needs ")
            ),
            mend: "write one of them as a number".into(),
            ..notice_at_name(entry, &notices::NAME_ROUND)
        };
        entry.notices.push(notice);
    }
}

/// The shortest way from one to itself; the last step is itself.
fn way_back(from: usize, needs: &[Vec<usize>]) -> Option<Vec<usize>> {
    let mut came: BTreeMap<usize, usize> = BTreeMap::new();
    let mut queue = VecDeque::from([from]);
    while let Some(at) = queue.pop_front() {
        for next in needs.get(at)? {
            if *next == from {
                let mut way = vec![from];
                let mut back = at;
                while back != from {
                    way.push(back);
                    back = *came.get(&back)?;
                }
                way.reverse();
                return Some(way);
            }
            if let std::collections::btree_map::Entry::Vacant(slot) = came.entry(*next) {
                slot.insert(at);
                queue.push_back(*next);
            }
        }
    }
    None
}

impl Declared {
    /// Whether it names a value.
    pub fn is_let(&self) -> bool {
        &*self.key.word == LET
    }
}

/// Notes that the present line takes its value from `named`.
pub(crate) fn note_use(entry: &Reading<'_>, named: &Arc<Named>) {
    entry.note(|made| {
        if !made.named.iter().any(|before| Arc::ptr_eq(before, named)) {
            made.named.push(Arc::clone(named));
        }
    });
}
