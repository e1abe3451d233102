//! What an angle of choke leaves of a choker rating.

use plumbhook_sheet::{Basis, Trust};
use plumbhook_units::{ChokeAngle, Measured, RatedForce};
use serde::Deserialize;
use std::sync::LazyLock;

/// What is left of a choker rating.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choke {
    /// The rating at the angle.
    pub rated: RatedForce,
    /// How much of the choker rating that is, as printed, in per cent.
    pub per_cent: u32,
    /// The table.
    pub basis: Basis,
}

/// Why nothing is said of an angle of choke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoChoke {
    /// It is no angle from 0 to 180 deg.
    Angle {
        /// As given.
        stated: ChokeAngle,
    },
    /// The sling is tighter than it is rated for as a choker, and no published table is kept for its kind.
    Kind,
}

#[derive(Deserialize)]
struct Table {
    source: Box<str>,
    section: Box<str>,
    kind: Box<str>,
    rows: Vec<(f64, u32)>,
}

static TABLE: LazyLock<Option<Table>> =
    LazyLock::new(|| serde_json::from_str(include_str!("choke_wire_rope.json")).ok());

/// Above this angle a choker rating holds whole.
const WHOLE_ABOVE_DEG: f64 = 120.0;

const CHAIN_CHOKED: Basis = Basis {
    publication: "OSHA, Guidance on Safe Sling Use",
    section: "Table 3 (angle of choke above 120 deg)",
    trust: Trust::Published,
};

/// The choker tables of the other kinds were not read.
const OTHERS_CHOKED: Basis = Basis {
    publication: "rating of a choker",
    section: "holds for an angle of choke above 120 deg",
    trust: Trust::CommonPractice,
};

/// What is left of the choker rating of a sling of that kind at the angle of choke, from 0 to 180 deg: the smaller the
/// angle, the less. Per cent of the *choker* rating, never of the vertical one.
///
/// Wire rope alone has a table below 120 deg here. Its bands are printed in whole degrees; between two of them the lower
/// share counts.
///
/// # Errors
/// [`NoChoke`].
pub fn of_choker_rating(
    choker: RatedForce,
    angle: ChokeAngle,
    kind: &str,
) -> Result<Choke, NoChoke> {
    let degrees = angle.si().to_degrees();
    // 180 deg in radians is no exact double.
    if !(-1e-9..=180.0 + 1e-9).contains(&degrees) {
        return Err(NoChoke::Angle { stated: angle });
    }
    let table = TABLE.as_ref().ok_or(NoChoke::Kind)?;
    let basis = match kind {
        _ if *table.kind == *kind => Basis {
            publication: &table.source,
            section: &table.section,
            trust: Trust::Published,
        },
        "chain" => CHAIN_CHOKED,
        _ => OTHERS_CHOKED,
    };
    let whole = degrees > WHOLE_ABOVE_DEG + 1e-9;
    if !whole && *table.kind != *kind {
        return Err(NoChoke::Kind);
    }
    let row = table.rows.iter().find(|(from, _)| degrees >= from - 1e-9);
    let per_cent = if whole {
        100
    } else {
        row.ok_or(NoChoke::Kind)?.1
    };
    let rated = RatedForce::from_si(choker.si() * f64::from(per_cent) / 100.0);
    Ok(Choke {
        rated,
        per_cent,
        basis,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wire-rope maker's leaflet on basket hitches and bridles (reproduces the wire-rope trade board / B30.9 tables), load
    /// factor and choker tables: per cent of the choker rating by angle of choke in degrees.
    #[test]
    fn what_a_choker_keeps_is_what_the_table_says() {
        let printed = [
            (121.0, 100),
            (180.0, 100),
            (120.0, 87),
            (90.0, 87),
            (89.0, 74),
            (60.0, 74),
            (59.0, 62),
            (30.0, 62),
            (29.0, 49),
            (0.0, 49),
        ];
        let choker = RatedForce::from_si(1000.0);
        for (degrees, per_cent) in printed {
            let angle = ChokeAngle::from_si(f64::to_radians(degrees));
            let found = of_choker_rating(choker, angle, "wire-rope").unwrap();
            assert_eq!(found.per_cent, per_cent, "{degrees} deg");
            assert!((found.rated.si() - 10.0 * f64::from(per_cent)).abs() < 1e-9);
        }
    }

    #[test]
    fn other_slings_keep_their_rating_above_120_deg_and_have_none_below() {
        let choker = RatedForce::from_si(1000.0);
        let at = |degrees: f64| ChokeAngle::from_si(degrees.to_radians());
        let found = of_choker_rating(choker, at(130.0), "chain").map(|choke| choke.per_cent);
        assert_eq!(found, Ok(100));
        assert_eq!(
            of_choker_rating(choker, at(120.0), "chain"),
            Err(NoChoke::Kind)
        );
        for outside in [-1.0, 181.0, f64::NAN] {
            let found = of_choker_rating(choker, at(outside), "wire-rope");
            assert!(matches!(found, Err(NoChoke::Angle { .. })), "{outside}");
        }
    }
}
