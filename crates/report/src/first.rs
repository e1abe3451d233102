//! The first files of somebody who has none: every datum stands there as `unknown`, under what its declaration says
//! of it, so that a check says what is still needed.
//!
//! No number stands in them that somebody could take for one of his own: the one place is the origin of the plant's
//! frame, which is put there.

use crate::wrap::wrapped;
use plumbhook_model::entries::KINDS;
use plumbhook_model::{Block, Cursor, Key, RULE_SETS};
use plumbhook_syntax::{Document, format::format};
use std::collections::BTreeSet;

/// Columns of the comments.
const WIDTH: usize = 96;

/// How each file starts.
const HEAD: &str = "# Write what you know in place of `unknown`, and behind `from` how you know it. What nobody knows yet\n\
     # stays `unknown`: then the check says what cannot be told without it.\n\n";

const JOB: &str = r#"job NAME "What the job is"
  plant PLANT
  rules unknown
  revision A stage first-look "first call"

load load-1 "What is lifted"
  frame unknown
  mass unknown
  cg unknown
  inside unknown
  held-by unknown
  shape unknown
  points unknown

rigging rigging-1
  legs unknown
  hung unknown

move M1 "From where to where"
  carries load-1
  by unknown
  limit unknown
  dynamic unknown
  tilt unknown
  out-of-plumb unknown
  heading unknown
  stations unknown
"#;

/// Without it nobody would be asked about the floor before the way there is known.
const SET_DOWN: &str = r#"
move M2 "How it stands when the hook has let go"
  carries load-1
  free
  by none
  dynamic unknown
  heading unknown
  stations
    | at | underside |
    | (0 m, 0 m) | on stand-1 |
"#;

const PLANT: &str = r#"plant site "Where it happens"
  frame "origin where the load will stand"
  datum EL "level that the drawings count from"

floor floor-1
  outline unknown
  top unknown
  allows unknown
  voids unknown
  verified unknown

overhead-crane crane-1
  rated unknown
  block unknown
  block-in-rating unknown
  hook main bears-up-to unknown, bears-down-to unknown, reaches x unknown, y unknown

stand stand-1 "What it is set down on"
  on floor-1
  at (0 m, 0 m)
  heading unknown
  high unknown
  mass unknown
  pads unknown
"#;

const YARD: &str = r#"yard "Our own gear"

sling sling-1
  long unknown
  rated unknown
  mass unknown
  stiffness unknown

shackle shackle-1
  rated unknown
  inside unknown
  mass unknown

ring ring-1
  rated unknown
  inside unknown
  mass unknown
"#;

/// A first job of that name, at the plant of [`plant`]; it is set down on that plant's stand.
pub fn job(name: &str) -> String {
    told(&filled(&format!("{JOB}{SET_DOWN}"), name, "site"))
}

/// A first job of that name at a plant that is there already, or at one that is not said.
pub fn job_at(name: &str, plant: Option<&str>) -> String {
    told(&filled(JOB, name, plant.unwrap_or("unknown")))
}

/// A first plant.
pub fn plant() -> String {
    told(PLANT)
}

/// A first yard.
pub fn yard() -> String {
    told(YARD)
}

/// A name for a job, from the name of its file.
pub fn job_name(file: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    let name: String = file.chars().map(plain).collect();
    let name = name.trim_matches('-').to_lowercase();
    let starts = name.starts_with(|c: char| c.is_ascii_alphabetic());
    if starts && !Cursor::is_glue(&name) {
        name
    } else {
        format!("job-{name}").trim_end_matches('-').to_owned()
    }
}

fn filled(text: &str, name: &str, plant: &str) -> String {
    text.replacen("NAME", name, 1).replacen("PLANT", plant, 1)
}

/// With what the declarations say, above each entry and above each line with something unknown, once each.
fn told(text: &str) -> String {
    let mut out = HEAD.to_owned();
    let mut block = None;
    let mut said = BTreeSet::new();
    for line in text.lines() {
        let word = line.split_whitespace().next().unwrap_or("");
        if line.starts_with(|c: char| c.is_ascii_alphabetic()) {
            block = declared(word);
            if said.insert((word, "")) {
                comment(&mut out, "# ", block.map_or("", |block| block.help));
            }
        } else if line.contains("unknown")
            && let Some((block, key)) =
                block.and_then(|block| Some((block.word, key(block, word)?)))
            && said.insert((block, word))
        {
            comment(&mut out, "  # ", &says(key));
        }
        out.push_str(line);
        out.push('\n');
    }
    format(&Document::new(&out))
}

fn declared(word: &str) -> Option<&'static Block> {
    let mut blocks = KINDS.iter().map(|kind| kind.block);
    blocks.find(|block| block.word == word)
}

fn key(block: &'static Block, word: &str) -> Option<&'static Key> {
    block.keys.iter().find(|key| key.word == word)
}

/// What a key is for, and what its value looks like.
fn says(key: &Key) -> String {
    let mut says = key.help.trim().to_owned();
    if key.shape.say.contains('`') && !says.contains('`') {
        says.push_str(" Write ");
        says.push_str(key.shape.say);
        says.push('.');
    }
    if key.word == "rules" {
        let sets: Vec<&str> = RULE_SETS.iter().map(|set| set.word).collect();
        says.push_str(" There are: ");
        says.push_str(&sets.join(", "));
        says.push('.');
    }
    says
}

fn comment(out: &mut String, mark: &str, text: &str) {
    for line in wrapped(text.trim(), WIDTH, mark, mark) {
        out.push_str(&line);
        out.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_entry_and_key_of_the_first_files_is_declared() {
        let mut block = None;
        for line in [JOB, SET_DOWN, PLANT, YARD]
            .iter()
            .flat_map(|text| text.lines())
        {
            let Some(word) = line.split_whitespace().next().filter(|word| *word != "|") else {
                continue;
            };
            if line.starts_with(' ') {
                assert!(key(block.unwrap(), word).is_some(), "{line}");
            } else {
                block = Some(declared(word).unwrap());
            }
        }
    }

    #[test]
    fn a_job_is_named_after_its_file() {
        let named = ["Unit 3 rotor", "unit-3", "3rd", "from", "ü", "unknown"].map(job_name);
        assert_eq!(
            named,
            [
                "unit-3-rotor",
                "unit-3",
                "job-3rd",
                "job-from",
                "job",
                "job-unknown"
            ]
        );
    }
}
