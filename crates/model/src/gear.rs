//! What every piece of gear in a leg can be asked, whatever its kind.

use crate::values::{Banded, Rated};
use crate::{Claims, Once};
use plumbhook_units::{Length, Mass, Stiffness};

/// A piece that can stand in a leg.
pub trait Gear {
    /// Length from bearing to bearing.
    fn length(&self) -> &Once<Banded<Length>>;
    /// Its own mass.
    fn mass(&self) -> &Once<Banded<Mass>>;
    /// Its ratings.
    fn rated(&self) -> &Claims<Rated>;
    /// Whether a rating holds for a straight pull in a leg.
    fn rating_counts(&self, rated: &Rated) -> bool {
        rated.hitch.is_none()
    }
    /// Whether it can go round a load: choked, or in a basket.
    fn goes_round(&self) -> bool {
        false
    }
    /// Its force over stretch, where a piece of its kind stretches.
    fn stiffness(&self) -> Option<&Once<Banded<Stiffness>>> {
        None
    }
}
