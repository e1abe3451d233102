//! Pressure under a pad.

use core::fmt;
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Amount, Force, Length, Measured, Pressure, Printer, Round};

/// Why a pad has no contact pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPressure {
    /// A side is not a finite length above zero.
    NoSize {
        /// The size as given.
        size: [Length; 2],
    },
    /// The force is not finite, or pulls.
    NoPush {
        /// The force as given.
        force: Force,
    },
}

impl fmt::Display for NoPressure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let metric = |amount| Printer::default().metric(amount, Round::Nearest);
        match self {
            Self::NoSize { size } => {
                let [along, across] = size.map(|side| metric(Amount::of(side)));
                write!(
                    f,
                    "a pad of {along} by {across} has no area to stand on; give both sides above zero"
                )
            }
            Self::NoPush { force } => write!(
                f,
                "a force of {} does not push on the pad; give it as zero or above",
                metric(Amount::of(*force))
            ),
        }
    }
}

impl core::error::Error for NoPressure {}

/// Pressure under a rectangular pad, uniform over the whole of it: `p = F / (b l)`.
///
/// `force`: all that the pad presses down with, its own weight and what lies on it included. `size`: the sides `l`
/// and `b` of the face that bears.
///
/// Holds where the force passes through the middle of the pad (a swivelling foot, or a foot set centred), where the
/// pad is stiff enough not to bend beyond what stands on it, where the whole face bears (no overhang, edge or hollow)
/// and where what is below gives evenly. Elsewhere the peak is higher, and this is no bound for it.
///
/// # Errors
/// [`NoPressure`].
pub fn contact_pressure<T: Trail>(
    force: Force,
    size: [Length; 2],
    trail: &mut T,
) -> Result<Pressure, NoPressure> {
    if !size
        .iter()
        .all(|side| side.si().is_finite() && side.si() > 0.0)
    {
        return Err(NoPressure::NoSize { size });
    }
    if !(force.si().is_finite() && force.si() >= 0.0) {
        return Err(NoPressure::NoPush { force });
    }
    let [pad_length, pad_width] = size;
    step!(
        trail,
        Basis::STATICS,
        [force, pad_length, pad_width],
        contact_pressure = force / (pad_length * pad_width)
    );
    Ok(contact_pressure)
}
