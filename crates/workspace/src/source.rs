//! One file as read: its text, its entries, what opens it. Unchanged entries are not read again.

use crate::beside::Found;
use crate::entries::{NamedValues, entries};
use plumbhook_model::entries::OPENERS;
use plumbhook_model::{Declared, Layer, Role, notices};
use plumbhook_sheet::{EntryKey, EntryRef, Notice, Origin, Part, Related};
use plumbhook_syntax::Document;
use rustc_hash::FxHashMap;
use std::path::Path;
use std::sync::{Arc, OnceLock};

/// What opens a file, and so what all its entries belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// A job file.
    Job,
    /// A plant file.
    Plant,
    /// A yard file.
    Yard,
}

impl FileKind {
    fn of(word: &str) -> Option<Self> {
        match word {
            "job" => Some(Self::Job),
            "plant" => Some(Self::Plant),
            "yard" => Some(Self::Yard),
            _ => None,
        }
    }
}

/// One file as read. Never changes: a changed text makes a new one.
#[derive(Debug)]
pub struct SourceFile {
    /// Where it is.
    pub path: Arc<Path>,
    /// The path as the user would write it; every [`Origin`] names its file so.
    pub shown: Arc<str>,
    /// What opens it; `None` where nothing does.
    pub kind: Option<FileKind>,
    /// The entry that opens it.
    pub opener: Option<Arc<Declared>>,
    pub(crate) document: Arc<Document>,
    pub(crate) layer: Arc<Layer>,
    /// What is wrong in the file whatever it is seen with.
    pub(crate) notices: Vec<Notice>,
    /// The values that have a name in it.
    pub(crate) named: NamedValues,
    /// The texts beside it that it names.
    pub(crate) beside: Vec<Found>,
    blocks: OnceLock<FxHashMap<EntryRef, usize>>,
}

impl SourceFile {
    /// Reads a text; entries of `before` whose block is unchanged are taken over.
    pub(crate) fn read(
        path: &Arc<Path>,
        shown: &Arc<str>,
        document: Arc<Document>,
        beside: Vec<Found>,
        before: Option<&Self>,
    ) -> Self {
        let before = before.filter(|before| before.shown == *shown);
        let (entries, named) = entries(shown, &document, &beside, before);
        let mut notices = stray(shown, &document);
        let (opener, wrong) = opener(shown, &document, &entries);
        notices.extend(wrong);
        notices.extend(
            opener
                .iter()
                .flat_map(|opener| moves_outside_a_job(opener, &entries)),
        );
        for entry in &entries {
            notices.extend(entry.notices.iter().cloned());
        }
        Self {
            path: Arc::clone(path),
            shown: Arc::clone(shown),
            kind: opener
                .as_ref()
                .and_then(|entry| FileKind::of(&entry.key.word)),
            opener,
            document,
            layer: Arc::new(Layer::new(entries)),
            notices,
            named,
            beside,
            blocks: OnceLock::new(),
        }
    }

    /// Its text with lines and blocks.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// Its entries, one for each block of the document, in order.
    pub fn entries(&self) -> &[Arc<Declared>] {
        self.layer.entries()
    }

    /// Which block of the document an entry is.
    pub fn block_of(&self, entry: &EntryRef) -> Option<usize> {
        let blocks = self.blocks.get_or_init(|| {
            let keys = self.entries().iter().map(|entry| Arc::clone(&entry.key));
            keys.zip(0..).collect()
        });
        blocks.get(entry).copied()
    }

    /// The line of the file that an origin in it stands in, from 0.
    pub(crate) fn line_of(&self, origin: &Origin) -> Option<u32> {
        if origin.entry.word.is_empty() {
            return Some(origin.line);
        }
        let block = self.block_of(&origin.entry)?;
        let first = self.document.blocks().get(block)?.first_line;
        Some(first.saturating_add(origin.line))
    }
}

/// A place in a file that belongs to no entry: its lines count from the start of the file.
pub(crate) fn place_in_file(shown: &Arc<str>, line: u32, start: u32, end: u32) -> Origin {
    let nobody = Arc::new(EntryKey {
        file: Arc::clone(shown),
        word: "".into(),
        name: "".into(),
        nth: 0,
    });
    Origin::at(&nobody, line, start, end, Part::Header)
}

fn stray(shown: &Arc<str>, document: &Document) -> Vec<Notice> {
    let lines: Vec<u32> = document.stray().collect();
    let Some(first) = lines.first() else {
        return vec![];
    };
    let text = document.line_text(*first).unwrap_or_default();
    let start = text.len() - text.trim_start().len();
    let narrow = |bytes: usize| u32::try_from(bytes).unwrap_or(u32::MAX);
    vec![Notice {
        code: &notices::STRAY_LINES,
        say: match lines.len() {
            1 => "this line belongs to no entry and is not read".to_owned(),
            n => format!(
                "this line and {} more belong to no entry and are not read",
                n - 1
            ),
        },
        origin: place_in_file(shown, *first, narrow(start), narrow(text.trim_end().len())),
        related: vec![],
        mend: "start the entry in column 1, above its lines".into(),
    }]
}

/// The entry that opens the file, and what is wrong with that.
fn opener(
    shown: &Arc<str>,
    document: &Document,
    entries: &[Arc<Declared>],
) -> (Option<Arc<Declared>>, Vec<Notice>) {
    let opens = |entry: &&Arc<Declared>| OPENERS.contains(&&*entry.key.word);
    let mut openers = entries.iter().filter(opens);
    let words = "`job`, `plant` or `yard`";
    let notice = |origin, say, related, mend: &str| Notice {
        code: &notices::FILE_OPENS,
        say,
        origin,
        related,
        mend: mend.into(),
    };
    let Some(first) = openers.next() else {
        let (say, origin) = if let Some(entry) = entries.first() {
            let say = format!("no entry of this file is {words}, so nothing in it counts");
            (say, Origin::header(&entry.key))
        } else {
            let end = document.line_text(0).map_or(0, str::len);
            let end = u32::try_from(end).unwrap_or(u32::MAX);
            let say = "this file has no entry, so nothing is checked in it".to_owned();
            (say, place_in_file(shown, 0, 0, end))
        };
        let mend = "begin the file with `job NAME`, `plant NAME` or `yard`";
        return (None, vec![notice(origin, say, vec![], mend)]);
    };
    let mut wrong = Vec::new();
    if let Some(before) = entries.first().filter(|entry| !opens(entry)) {
        wrong.push(notice(
            Origin::header(&before.key),
            format!("`{}` stands before what opens the file", before.key.word),
            vec![Related {
                origin: Origin::header(&first.key),
                say: "this opens it".into(),
            }],
            "move what opens the file to its top",
        ));
    }
    for second in openers {
        wrong.push(notice(
            Origin::header(&second.key),
            format!("a file opens with exactly one of {words}; this one is one too many"),
            vec![Related {
                origin: Origin::header(&first.key),
                say: "this opens the file".into(),
            }],
            "put it and what belongs to it in a file of its own",
        ));
    }
    (Some(Arc::clone(first)), wrong)
}

/// A move that stands in no job file makes no case: nobody checks it, so that is told.
fn moves_outside_a_job(opener: &Declared, entries: &[Arc<Declared>]) -> Vec<Notice> {
    let word = &opener.key.word;
    if FileKind::of(word) == Some(FileKind::Job) {
        return vec![];
    }
    let moves = entries.iter().filter(|entry| entry.is(Role::Move));
    moves
        .map(|entry| Notice {
            code: &notices::FILE_OPENS,
            say: format!("a move in a {word} file is not checked"),
            origin: Origin::header(&entry.key),
            related: vec![Related {
                origin: Origin::header(&opener.key),
                say: "this opens the file".into(),
            }],
            mend: "put it in a job file".into(),
        })
        .collect()
}
