//! The clean lifts that the examples of the rules start from. Invented.
//!
//! A family that needs another kind of lift than the hall's adds a file beside this one and names it in its rules.

mod laydown;
mod rotor;
mod spreader;

pub use laydown::LAYDOWN;
pub use rotor::ROTOR;
pub use spreader::SPREADER;

use plumbhook_model::{Case, Declared, Layer, Scope, Settings, Shared};
use std::sync::Arc;

/// The yard, the plant and the job, each with the name of its file.
pub const FILES: [(&str, &str); 3] = [
    ("yard.pick", YARD),
    ("hall.plant.pick", PLANT),
    ("cover.pick", JOB),
];

/// The root file.
pub const ROOT: &str = "language = 1\nyard = [\".\"]\nplants = [\".\"]\n";

const YARD: &str = r#"# Invented.
yard "Our yard"

sling rope-32-long-5
  kind       wire-rope, class 6x36, core iwrc, diameter 32 mm, splice mechanical
  long       5.00 m +/- 15 mm
  rated      vertical 10.0 t          from tag quote "V 10.0 t"
  mass       27 kg +/- 5 %
  stiffness  9 kN/mm +/- 20 %

shackle bow-12
  kind       bow, screw pin, alloy
  rated      12 t                     from tag quote "WLL 12T" read-as metric because "maker's sheet 2021"
  inside     115 mm +/- 2 mm
  mass       6.4 kg +/- 5 %

ring ring-2
  rated      25 t                     from tag quote "WLL 25 t"
  inside     340 mm +/- 5 mm
  mass       22 kg +/- 5 %
"#;

const PLANT: &str = r#"# Invented.
plant pump-hall "Pump hall"
  frame      origin column A/1, x toward C, y toward 3, z up
  datum      EL "project, 1962"

source walk-2 measured 2026-08-11 "Walk with laser and tape"
  accuracy   15 mm

floor slab
  outline    (0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)
  top        EL 50.00 m               from walk-2
  allows     pad 400 kPa              from measured
  voids      listed
  hole       sump (10.0 m, 4.0 m) to (12.0 m, 6.0 m)
  cavity     duct (2.0 m, 0.5 m) to (4.0 m, 9.5 m)
  verified   by role "owner's engineer" on 2026-09-01, covers pad 380 kPa

overhead-crane bridge
  rated      30 t                     from nameplate "30 t"
  block      600 kg +/- 5 %
  block-in-rating yes
  hook main  bears-up-to EL 59.20 m, bears-down-to EL 51.0 m, reaches x 2.0 m .. 22.0 m, y 1.5 m .. 8.5 m  from walk-2

stand stool
  on         slab
  at         (18.0 m, 5.0 m)
  heading    +x
  high       400 mm
  mass       350 kg +/- 10 %
  pads       P1 .. P4 rectangle x 1.20 m, y 1.20 m, first +x+y, anticlockwise, size 500 mm x 500 mm
"#;

const JOB: &str = r#"# Invented.
job cover "Pump cover to the stool"
  plant      pump-hall
  rules      us
  revision   A 2026-10-01 stage bid "first issue"

load cover "Pump cover, cast steel"
  frame      origin underside on shaft axis, x along hall as-installed, z up as-installed
  mass       14.0 t +/- 5 %           from drawing
  cg         x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm   from drawing
  held-by    nothing                  from walk-2
  inside     nothing                  from walk-2
  shape      disc, outside 2.40 m, z 0 .. 1.10 m
  points     A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise
  lug        eye-20 at A B C

rigging chains-of-three
  legs       A B C to ring-2, through bow-12, rope-32-long-5, bow-12
  hung       ring-2 by bridge.main

move M1 "From the pump to the stool"
  carries    cover
  by         bridge with chains-of-three
  dynamic    1.10                     from practice-note
  tilt       at most 3 deg
  out-of-plumb at most 120 mm
  heading    0 deg
  stations
    | at              | underside         |
    | (8.0 m, 5.0 m)  | EL 51.20 m        |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
    | (18.0 m, 5.0 m) | on stool          |

lug eye-20
  kind       plate with cheeks, welded to the cover all round
  rated      8 t                      from drawing
  rated-angle at least 45 deg from horizontal
  plane      radial
  rated-side at most 5 deg
  verified   by role "structural engineer" on 2026-09-01, covers 8 t
"#;

/// A clean lift: nothing over, nothing unknown. Invented.
#[derive(Debug)]
pub struct Lift {
    /// What it is.
    pub say: &'static str,
    /// Its files, each with its name: yard and plant first, the job last.
    pub files: &'static [(&'static str, &'static str)],
    /// For inputs that its rules name, changes of the text that push each the way that hurts.
    pub pushes: &'static [(&'static str, &'static [(&'static str, &'static str)])],
}

/// A cover from its pump to a stool, by the bridge crane of a hall.
pub static HALL: Lift = Lift {
    say: "a pump cover carried by the bridge crane of a hall",
    files: &FILES,
    pushes: &[],
};

impl Lift {
    /// Its files with some of their text replaced, as `(name, text)`.
    ///
    /// # Errors
    /// Says which text stands in none of them, or more than once.
    pub fn files(&self, change: &[(&str, &str)]) -> Result<Vec<(&'static str, String)>, String> {
        let mut files: Vec<(&'static str, String)> = self
            .files
            .iter()
            .map(|(name, text)| (*name, (*text).to_owned()))
            .collect();
        for (from, to) in change {
            let found: usize = files
                .iter()
                .map(|(_, text)| text.matches(from).count())
                .sum();
            if found != 1 {
                return Err(format!("`{from}` stands {found} times in {}", self.say));
            }
            for (_, text) in &mut files {
                *text = text.replace(from, to);
            }
        }
        Ok(files)
    }
}

/// The files of the hall's lift with some of their text replaced.
///
/// # Errors
/// As [`Lift::files`].
pub fn files(change: &[(&str, &str)]) -> Result<Vec<(&'static str, String)>, String> {
    HALL.files(change)
}

/// Some files, all seen together, the last of them first.
pub fn scope_of(files: &[(&'static str, String)]) -> Scope {
    let layers = files
        .iter()
        .rev()
        .map(|(name, text)| Arc::new(Layer::new(read(name, text))));
    Scope::new(layers.collect())
}

/// The one case of some files, all seen together.
///
/// # Errors
/// Says if they hold no job with a move.
pub fn case_of(files: &[(&'static str, String)]) -> Result<Case, String> {
    let scope = scope_of(files);
    let job = first(&scope, "job").ok_or("no job")?;
    let movement = first(&scope, "move").ok_or("no move")?;
    let shared = Shared::new(&scope, Settings::default());
    Ok(Case::build(&scope, &shared, &job, &movement).0)
}

fn first(scope: &Scope, word: &str) -> Option<Arc<Declared>> {
    let mut entries = scope.layers.iter().flat_map(|layer| layer.entries());
    entries
        .find(|entry| &*entry.key.word == word)
        .map(Arc::clone)
}

fn read(name: &str, text: &str) -> Vec<Arc<Declared>> {
    let document = plumbhook_syntax::Document::new(text);
    let file: Arc<str> = name.into();
    (0..document.blocks().len())
        .map(|index| Arc::new(Declared::read(&file, 0, document.block_text(index))))
        .collect()
}
