//! `ring`: a ring or link in which legs gather.

use crate::gear::Gear;
use crate::values::{Banded, Rated, Words};
use crate::{Claims, Once, block};
use plumbhook_units::{Length, Mass};

block! {
    /// A ring or link in which legs gather.
    "ring" => Ring [Gear] {
        /// Form and steel, in words.
        kind: Once<Words>,
        /// Rated capacity, from the mark on it.
        rated: Claims<Rated>,
        /// Length inside, from the bearing of the legs to the bearing of the hook.
        #[like(geometry)]
        inside: Once<Banded<Length>>,
        /// Its own mass.
        mass: Once<Banded<Mass>>,
    }
}

impl Gear for Ring {
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
