//! `set-up`: a mobile crane where it stands for a job, in one configuration.

use crate::values::{
    Banded, Configuration, CraneName, Exact, Fact, Limit, MachineHook, Pads, PartWeighs, PlanPlace,
    SurfaceName,
};
use crate::{Members, Once, block};
use plumbhook_units::{Heading, Mass, Pressure, RatedForce};

block! {
    /// A mobile crane where it stands for a job, in one configuration; a move is done `by` it.
    "set-up" => SetUp [Machine] {
        /// The crane that is set up, by its name in the yard.
        crane: Once<CraneName>,
        /// The centre of slewing in plan.
        at: Once<PlanPlace>,
        /// Angle of the carrier's x axis from the plant's, anticlockwise seen from above.
        heading: Once<Exact<Heading>>,
        /// The ground or floor that it stands on.
        on: Once<SurfaceName>,
        /// How it is set up, whole: every item that its charts name.
        config: Once<Configuration>,
        /// A hook: how high and low it bears there; how far it reaches, its chart says.
        hook: Members<MachineHook>,
        /// What it stands on: outrigger pads or tracks, from the centre of slewing, and the size of what bears below
        /// each, mats included.
        pads: Once<Pads>,
        /// Mass of the mat under each pad, `0 kg` where there is none.
        mat: Once<Banded<Mass>>,
        /// The largest pressure below it in this configuration, as its maker gives it: `at most 180 kPa`.
        presses: Once<Limit<Pressure>>,
        /// The largest reaction of one pad with this load in any direction, as its maker gives it: `at most 48 t`.
        pad_reaction = "pad-reaction": Once<Limit<RatedForce>>,
        /// A part that stays with the carrier, told apart by name: mass and centre of gravity along the carrier's axes.
        fixed: Members<PartWeighs>,
        /// A part that slews, told apart by name: mass and centre of gravity, x along the boom, over all its angles here.
        slewing: Members<PartWeighs>,
        /// Whether the parts that are given are the whole machine.
        parts_listed = "parts-listed": Once<Fact>,
    }
}
