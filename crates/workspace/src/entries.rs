//! The entries of one file. One is read again where its own lines changed, or what they look up beside themselves.

use crate::beside::Found;
use crate::fence::fenced;
use crate::source::SourceFile;
use plumbhook_model::astray::is_astray;
use plumbhook_model::declare::header_name;
use plumbhook_model::{Around, Declared, LET, LetText, LookedUp, Mentions, notices, read_named};
use plumbhook_sheet::{EntryKey, Notice, Origin};
use plumbhook_syntax::{BlockId, Document, read_entry};
use rustc_hash::FxHashMap;
use std::sync::Arc;

/// The values that have a name in a file, and from which blocks they were read.
#[derive(Clone, Debug, Default)]
pub(crate) struct NamedValues {
    around: Arc<Around>,
    read_from: Vec<(BlockId, u32)>,
}

/// A block, and how many of its word and name stand before it.
struct Counted<'t> {
    id: BlockId,
    nth: u32,
    is_let: bool,
    text: &'t str,
    /// What stands behind it and starts no entry.
    behind: String,
}

/// Every entry of a document, in order; those of `before` that would be read the same are taken over.
pub(crate) fn entries(
    shown: &Arc<str>,
    document: &Document,
    beside: &[Found],
    before: Option<&SourceFile>,
) -> (Vec<Arc<Declared>>, NamedValues) {
    let kept: FxHashMap<BlockId, &Arc<Declared>> = before
        .into_iter()
        .flat_map(|before| before.document.blocks().iter().zip(before.entries()))
        .map(|(block, entry)| (block.id, entry))
        .collect();
    let blocks = counted(document, &kept);
    let lets: Vec<&Counted<'_>> = blocks.iter().filter(|block| block.is_let).collect();
    let read_from = lets.iter().map(|block| (block.id, block.nth)).collect();
    let same = before.filter(|before| before.named.read_from == read_from);
    let (mut around, read) = match same {
        Some(before) => (Arc::clone(&before.named.around), vec![]),
        None => named(shown, &lets),
    };
    let had = before.is_some_and(|before| !before.beside.is_empty());
    if had || !beside.is_empty() {
        let texts = beside
            .iter()
            .map(|found| (found.name.clone(), found.beside.clone()));
        around = Arc::new(around.beside(Arc::new(texts.collect())));
    }
    let mut read = read.into_iter();
    let entries = blocks.iter().map(|block| {
        let old = kept.get(&block.id).copied();
        let holds = |old: &&Arc<Declared>| {
            old.key.nth == block.nth
                && *old.behind == *block.behind
                && (if block.is_let {
                    same.is_some()
                } else {
                    old.looked_up.holds(&around)
                })
        };
        if let Some(old) = old.filter(holds) {
            return Arc::clone(old);
        }
        let named = if block.is_let { read.next() } else { None };
        let read = || declared(shown, block, &around);
        Arc::new(named.unwrap_or_else(read))
    });
    let entries = entries.collect();
    (entries, NamedValues { around, read_from })
}

fn counted<'t>(
    document: &'t Document,
    kept: &FxHashMap<BlockId, &'t Arc<Declared>>,
) -> Vec<Counted<'t>> {
    let mut seen: FxHashMap<(&str, &str), u32> = FxHashMap::default();
    let blocks = document.blocks().iter().enumerate();
    let mut counted: Vec<Counted<'t>> = Vec::with_capacity(document.blocks().len());
    let mut owner: Option<(usize, &str)> = None;
    for (index, block) in blocks {
        let text = document.block_text(index);
        let old = kept.get(&block.id).copied();
        let head = old.map_or_else(|| head(text), |old| (&*old.key.word, &*old.key.name));
        let next = seen.entry(head).or_default();
        let nth = *next;
        *next += 1;
        // Lines that start no entry may be lines of the last one that does.
        let known = old.is_some_and(|old| old.block.is_some());
        match owner {
            Some((at, word)) if !known && is_astray(text, head.0, word) => {
                if let Some(owner) = counted.get_mut(at) {
                    owner.behind.push_str(text);
                }
            }
            _ => owner = Some((index, head.0)),
        }
        counted.push(Counted {
            id: block.id,
            nth,
            is_let: head.0 == LET,
            text,
            behind: String::new(),
        });
    }
    counted
}

/// Reads what has a name. Where that panics nothing has one, and each `let` is read alone and says what is wrong.
fn named(shown: &Arc<str>, lets: &[&Counted<'_>]) -> (Arc<Around>, Vec<Declared>) {
    if lets.is_empty() {
        return Default::default();
    }
    let texts: Vec<_> = lets
        .iter()
        .map(|block| LetText {
            nth: block.nth,
            text: block.text,
        })
        .collect();
    let (around, read) = fenced(|| read_named(shown, &texts)).unwrap_or_default();
    (Arc::new(around), read)
}

/// Word and name of an entry, from its first line alone.
fn head(block: &str) -> (&str, &str) {
    let first = block.split(['\n', '\r']).next().unwrap_or_default();
    let header = read_entry(first).header;
    let name = header
        .items
        .first()
        .filter(|_| !header_name(&header).is_empty())
        .map_or("", |item| item.raw(first));
    (header.key.raw(first), name)
}

/// Reads an entry. Where that panics, the entry is unknown and says so.
fn declared(shown: &Arc<str>, block: &Counted<'_>, around: &Around) -> Declared {
    let (nth, text, behind) = (block.nth, block.text, &*block.behind);
    fenced(|| Declared::read_before(shown, nth, text, behind, around)).unwrap_or_else(|why| {
        let (word, name) = head(text);
        let key = Arc::new(EntryKey {
            file: Arc::clone(shown),
            word: word.into(),
            name: name.into(),
            nth,
        });
        Declared {
            notices: vec![Notice {
                code: &notices::OUR_BUG,
                say: format!("reading `{}` failed inside the tool: {why}", key.word),
                origin: Origin::header(&key),
                related: vec![],
                mend: "tell us, with this entry; what it says counts for nothing here".into(),
            }],
            key,
            block: None,
            title: "".into(),
            body: None,
            behind: behind.into(),
            looked_up: LookedUp::default(),
            mentions: Mentions::default(),
        }
    })
}
