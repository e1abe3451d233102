//! `job`: opens a job file.

use crate::block;
use crate::entries::LiftClass;
use crate::values::{Chosen, NameList, PlantName, Words};
use crate::{Cursor, Fail, Members, Once, Shape, Value};
use plumbhook_sheet::Stage;
use plumbhook_syntax::Node;

block! {
    /// Opens a job file: one job, its loads, rigging and moves.
    "job" => Job [] {
        /// The plant it happens in.
        plant: Once<PlantName>,
        /// The published rule sets that govern, the stricter of several.
        rules: Once<NameList>,
        /// A revision with its date, its stage and what changed; the last one is the present.
        revision: Members<Revision>,
        /// The class that a person gives every lift of the job.
        class: Once<Chosen<LiftClass>>,
        /// Who asked for it, in words.
        client: Once<Words>,
    }
}

/// `C 2026-10-12 stage bid "hatch measured"`.
#[derive(Clone, Debug)]
pub struct Revision {
    /// The day, ISO; empty where none is given.
    pub day: String,
    /// The stage.
    pub stage: Stage,
    /// What changed.
    pub reason: String,
}

impl Value for Revision {
    const SHAPE: Shape = Shape {
        say: "its letter, day, stage and reason, as `C 2026-10-12 stage bid \"hatch measured\"`",
        kind: None,
        words: &["stage", "first-look", "bid", "issue", "as-built"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let day = match line.peek().map(|item| &item.node) {
            Some(Node::Date(day)) => {
                line.take();
                (*day).to_owned()
            }
            _ => String::new(),
        };
        if !line.word("stage") {
            return Err(line.broken("a revision says its stage", "as `stage bid`"));
        }
        let (word, place) = line.name("the stage")?;
        let Some((stage, _)) = Stage::ALL.iter().find(|(_, name)| *name == word) else {
            return Err(line.broken_at(
                place,
                format!("`{word}` is no stage"),
                "first-look, bid, issue or as-built",
            ));
        };
        let reason = match line.peek().map(|item| &item.node) {
            Some(Node::Text(reason)) => {
                line.take();
                (*reason).to_owned()
            }
            _ => String::new(),
        };
        Ok(Self {
            day,
            stage: *stage,
            reason,
        })
    }
}
