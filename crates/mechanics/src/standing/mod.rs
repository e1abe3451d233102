//! A rigid body on pads that can push and not pull.
//!
//! Three pads share the weight by statics. Four or more never stand level to a hair, so statics cannot tell which
//! carry: each pad is given the largest share that any three of them could leave it ("worst three-point share").
//! Neither an even share nor the elastic plane formula is a bound for rigid pads. That three are enough: every
//! sharing in balance is a mix of sharings on three pads, so no mix gives a pad more than the worst of these.

mod contact;
mod edge;
mod several;
mod shares;
mod why;

pub use contact::{NoPressure, contact_pressure};
pub use edge::{EdgePressure, NoEdgePressure, edge_pressure};
pub use several::{Weighs, worst_reactions};
pub use shares::{PadShare, worst_pad_shares};
pub use why::{Given, NoShare};

/// The most pads that are judged; the sets of three grow with the third power.
pub const MOST_PADS: usize = 64;
