//! `set-up`: a mobile crane where it stands for a job, in one configuration.

use crate::values::{Configuration, CraneName, MachineHook, PlanPlace, SurfaceName};
use crate::{Members, Once, block};

block! {
    /// A mobile crane where it stands for a job, in one configuration; a move is done `by` it.
    "set-up" => SetUp [Machine] {
        /// The crane that is set up, by its name in the yard.
        crane: Once<CraneName>,
        /// The centre of slewing in plan.
        at: Once<PlanPlace>,
        /// The ground or floor that it stands on.
        on: Once<SurfaceName>,
        /// How it is set up, whole: every item that its charts name.
        config: Once<Configuration>,
        /// A hook: how high and low it bears there; how far it reaches, its chart says.
        hook: Members<MachineHook>,
    }
}
