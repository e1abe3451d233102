//! `move`: a change of the state of a load.

use crate::declare::{Link, Role};
use crate::values::{
    Banded, Carries, Choice, Chosen, Exact, Hold, InOption, Limit, MachineName, Marked, MoveName,
    NameList, RiggingName, Start, Stations, Stop,
};
use crate::{Cursor, Fail, Lines, Members, Once, Shape, Value, block};
use plumbhook_units::{Angle, Heading, Length, RatedForce};

block! {
    /// A change of the state of a load: what it carries, by what, through which stations.
    "move" => Move [Move] {
        /// The option that it belongs to; to all of them without this.
        in_option = "in": Once<InOption>,
        /// The move before it: load, attitude, parts, heading and start are those of its end where this move says none.
        follows: Once<MoveName>,
        /// The class that a person gives the lift: it may raise what the rule set's triggers say, never lower it.
        class: Once<Chosen<LiftClass>>,
        /// The load that it moves, and its attitude where that is not as installed.
        carries: Once<Carries>,
        /// Parts of the load that are off.
        without: Once<NameList>,
        /// Parts of the load that are on.
        with: Once<NameList>,
        /// The load is held at the start, whatever it says itself.
        held: Once<Marked>,
        /// The load is free from the start, whatever holds it otherwise.
        free: Once<Marked>,
        /// The pull at which the limit device stops while the load is held: `40 t from cell`.
        limit: Once<Exact<RatedForce>>,
        /// The machine and the rigging, each machine with its own: `hall-crane with three-leg`.
        by: Once<ByMachine>,
        /// How far the hooks of several machines may come out of level with each other: `at most 50 mm`.
        hooks_level = "hooks-level": Once<Limit<Length>>,
        /// How far apart in plan the hooks of two machines are kept: `4.00 m +/- 50 mm`.
        hooks_apart = "hooks-apart": Once<Banded<Length>>,
        /// How far a hook may stand aside from plumb over where the load hangs, as it comes free: `at most 100 mm`.
        out_of_plumb = "out-of-plumb": Once<Limit<Length>>,
        /// Factor on what hangs, for rigging, lifting points and supports.
        dynamic: Once<Exact<f64>>,
        /// How far the load may hang out of level: `at most 3 deg`.
        tilt: Once<Limit<Angle>>,
        /// Angle of the load's x axis from the plant's, anticlockwise seen from above.
        heading: Once<Exact<Heading>>,
        /// Where it starts, if not at the end of the move that it follows: a station before the rows.
        start: Once<Start>,
        /// What has to be seen before the move goes on, told apart by name; a station may name it in its `hold` cell.
        hold: Members<Hold>,
        /// The reading at which the move stops; repeat the line for each.
        stop: Lines<Stop>,
        /// Where it goes: rows of place in plan and height.
        stations: Once<Stations>,
    }
}

impl Move {
    /// The names of its holds: those of its lines and those that its stations name.
    pub fn hold_names(&self) -> Vec<Box<str>> {
        let lines = self.hold.members.iter().map(|(name, _)| name.clone());
        let rows = self.stations.known().map_or(&[][..], |rows| &rows.value.0);
        let here = rows
            .iter()
            .filter_map(|row| Some(row.hold.as_ref()?.name.clone()));
        lines.chain(here).collect()
    }
}

/// The classes of a lift, the highest last.
#[derive(Debug)]
pub enum LiftClass {}

impl Choice for LiftClass {
    const WORDS: &'static [&'static str] = &["ordinary", "critical"];
}

/// `hall-crane with three-leg`, several with commas between, or `none` where the load hangs from nothing and only
/// stands: then this is empty.
#[derive(Clone, Debug)]
pub struct ByMachine(pub Vec<HungFrom>);

/// What a load hangs from.
#[derive(Clone, Debug)]
pub struct HungFrom {
    /// The machine.
    pub machine: MachineName,
    /// The rigging.
    pub rigging: RiggingName,
}

impl ByMachine {
    /// For the sheet.
    pub fn words(&self) -> String {
        if self.0.is_empty() {
            return "none".to_owned();
        }
        let each = self.0.iter();
        let words: Vec<String> = each
            .map(|hung| format!("{} with {}", hung.machine.name, hung.rigging.name))
            .collect();
        words.join(", ")
    }
}

impl Value for ByMachine {
    const SHAPE: Shape = Shape {
        say: "the machine and the rigging, as `hall-crane with three-leg`; two machines with a comma between, or `none`",
        kind: None,
        words: &["with", "none"],
        role: Some(Role::Machine),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("none") {
            return Ok(Self(vec![]));
        }
        let mut all = Vec::new();
        loop {
            let machine = MachineName::read_part(line)?;
            if !line.word("with") {
                return Err(line.broken(
                    "the rigging is missing here",
                    "as `hall-crane with three-leg`",
                ));
            }
            let rigging = RiggingName::read_part(line)?;
            all.push(HungFrom { machine, rigging });
            if !line.comma() {
                return Ok(Self(all));
            }
        }
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for hung in &self.0 {
            out.push(hung.machine.link());
            out.push(hung.rigging.link());
        }
    }
}
