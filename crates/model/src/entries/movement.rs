//! `move`: a change of the state of a load.

use crate::declare::{Link, Role};
use crate::values::{Exact, Limit, LoadName, MachineName, RiggingName, Stations};
use crate::{Cursor, Fail, Once, Shape, Value, block};
use plumbhook_units::Angle;

block! {
    /// A change of the state of a load: what it carries, by what, through which stations.
    "move" => Move [Move] {
        /// The load.
        carries: Once<LoadName>,
        /// The machine and the rigging: `hall-crane with three-leg`.
        by: Once<ByMachine>,
        /// Factor on what hangs, for rigging, lifting points and supports.
        dynamic: Once<Exact<f64>>,
        /// How far the load may hang out of level: `at most 3 deg`.
        tilt: Once<Limit<Angle>>,
        /// Angle of the load's x axis from the plant's, anticlockwise seen from above.
        heading: Once<Exact<Angle>>,
        /// Where it goes: rows of place in plan and height.
        stations: Once<Stations>,
    }
}

/// `hall-crane with three-leg`.
#[derive(Clone, Debug)]
pub struct ByMachine {
    /// The machine.
    pub machine: MachineName,
    /// The rigging.
    pub rigging: RiggingName,
}

impl Value for ByMachine {
    const SHAPE: Shape = Shape {
        say: "the machine and the rigging, as `hall-crane with three-leg`",
        kind: None,
        words: &["with"],
        role: Some(Role::Machine),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let machine = MachineName::read_part(line)?;
        if !line.word("with") {
            return Err(line.broken(
                "the rigging is missing here",
                "as `hall-crane with three-leg`",
            ));
        }
        let rigging = RiggingName::read_part(line)?;
        Ok(Self { machine, rigging })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.machine.link());
        out.push(self.rigging.link());
    }
}
