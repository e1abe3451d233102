//! How a suspended load really hangs: rigid bodies, hung from hooks by legs that pull and cannot push.
//!
//! [`hang`] gives the pose of one definite rig. [`worst`] gives the extremes of a rig inside its bands. Both say why
//! when they cannot ([`NoPose`]); neither ever gives a number whose forces and moments do not balance.

mod bodies;
mod elastic;
mod family;
mod gather;
mod hang;
mod inputs;
mod inside;
mod lead;
mod many;
mod near;
mod numbers;
mod one;
mod outcome;
mod pose;
mod rest;
mod rig;
mod rigid;
mod search;
mod seeds;
mod several;
mod sharing;
mod slide;
mod spins;
mod tell;
mod tiers;
mod why;
mod worst;

pub use hang::{hang, hang_by_legs};
pub use pose::{BodyPose, CgHeight, LegPose, Pose, Residual, Stretch};
pub use rig::{
    Axis, BandedBody, BandedLeg, BandedRig, Body, End, Hook, Input, Interval, Leg, Rig, Rotation,
};
pub use why::{CgFault, Names, NoPose};
pub use worst::{
    BandEnd, BodyExtremes, Both, Corner, CornerInput, Extreme, Extremes, LegExtremes, Worst, worst,
};
