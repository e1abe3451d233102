//! `shackle`: a type of shackle the house owns.

use crate::gear::Gear;
use crate::values::{Banded, Exact, Rated, Words};
use crate::{Claims, Once, block};
use plumbhook_units::{Length, Mass};

block! {
    /// A type of shackle the house owns.
    "shackle" => Shackle [Gear] {
        /// Form, pin and steel, in words.
        kind: Once<Words>,
        /// Rated capacity, from the mark on it.
        rated: Claims<Rated>,
        /// Diameter of the pin.
        #[like(geometry)]
        pin: Once<Exact<Length>>,
        /// Width between the ears.
        #[like(geometry)]
        jaw: Once<Exact<Length>>,
        /// Length inside, from the pin to the bearing of the bow.
        #[like(geometry)]
        inside: Once<Banded<Length>>,
        /// Its own mass.
        mass: Once<Banded<Mass>>,
        /// How many the house has.
        have: Once<Exact<f64>>,
    }
}

impl Gear for Shackle {
    fn length(&self) -> &Once<Banded<Length>> {
        &self.inside
    }
    fn mass(&self) -> &Once<Banded<Mass>> {
        &self.mass
    }
    fn rated(&self) -> &Claims<Rated> {
        &self.rated
    }
}
