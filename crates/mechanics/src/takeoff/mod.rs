//! Take-off: mass, centre of gravity and inertia of a load from the solids that it is made of.
//!
//! Every dimension, place and density is free within its interval, independent of all others, except that what is
//! cut from a part has the part's density. What is found are the exact ends over that box (to about 1e-9), not
//! the wider ones of dividing intervals: the centre of gravity is a ratio of two sums with the same parts, so its end
//! is where `most(sum of m_i (x_i - l))` passes zero, and there each part stands at its own worst end.

mod inertia;
mod part;
mod polynomial;
mod prism;
mod solid;
mod sum;
mod why;

pub use inertia::Inertia;
pub use part::{Part, Parts, Piece, Turn};
pub use solid::Solid;
pub use sum::{PartSum, TakenOff, take_off};
pub use why::{Fault, NoTakeOff};
