//! Asking for the level that a station gives.

use super::{Ask, Hurts, words};
use crate::entries::{Floor, Stand};
use crate::values::{Standing, Station, SurfaceName};
use plumbhook_units::{Amount, Band, ClaimId, Length};

fn exactly(height: Length) -> Band<Length> {
    Band::within(height, None, height, ClaimId(0))
}

impl<'c> Ask<'c> {
    /// The level that a station gives of its part of the load, `at` in words ("station 2").
    pub fn station_level(&mut self, at: &str, station: &'c Station) -> Band<Length> {
        let height = |ask: &mut Self, height: Length| {
            ask.note(
                &format!("height at {at}"),
                Amount::of(height),
                &station.height_origin,
            );
            exactly(height)
        };
        match &station.standing {
            Standing::Level(level) => {
                let above = level.above.nominal;
                let above = above.map_or_else(Band::unknown, |above| height(self, above));
                self.above_own(&format!("level at {at}"), &level.datum, above)
            }
            Standing::At(place) => self.level_of_place(place, Hurts::Both),
            Standing::Above(floor, above) => self.top(floor).plus(height(self, *above)),
            Standing::On(stand) => match self.entry::<Stand, _>(stand) {
                Some((declared, stand)) => {
                    let name = declared.name();
                    let on = self.value(&format!("the floor under {name}"), &stand.on, |on| {
                        words(&on.name)
                    });
                    let high = self.exact::<Length>(&format!("height of {name}"), &stand.high);
                    let top = on.map_or_else(Band::unknown, |on| self.top(&on.value));
                    high.map_or_else(Band::unknown, |high| top.plus(exactly(high)))
                }
                None => Band::unknown(),
            },
        }
    }

    /// The level of a floor.
    fn top(&mut self, floor: &'c SurfaceName) -> Band<Length> {
        match self.entry::<Floor, _>(floor) {
            Some((declared, floor)) => self.level(
                &format!("top of {}", declared.name()),
                &floor.top,
                Hurts::Both,
            ),
            None => Band::unknown(),
        }
    }
}
