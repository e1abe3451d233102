//! A rated capacity, with the hitch it holds for.

use super::number::amount;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::sling::Hitch;
use plumbhook_units::{Kind, Measured, RatedForce};

/// `17 t`, `vertical 14.1 t`, `choker 10.4 t`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rated {
    /// The hitch; `None` where the rating names none.
    pub hitch: Option<Hitch>,
    /// The capacity, as a force under standard gravity.
    pub capacity: RatedForce,
}

impl Value for Rated {
    const SHAPE: Shape = Shape {
        say: "a rated capacity as a mass or a force, for a sling with its hitch: `vertical 14.1 t`",
        kind: Some(Kind::Rating),
        words: &["vertical", "choker", "basket", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let hitch = Hitch::ALL.into_iter().find(|hitch| line.word(hitch.word()));
        let Some(item) = line.take() else {
            return Err(line.broken("the rated capacity is missing here", ""));
        };
        let capacity = amount(line, item, Kind::Rating)?;
        if capacity > 0.0 && capacity.is_finite() {
            Ok(Self {
                hitch,
                capacity: RatedForce::from_si(capacity),
            })
        } else {
            Err(line.broken_at(item.place, "a rated capacity is above zero", ""))
        }
    }
}
