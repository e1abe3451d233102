//! What a shackle carries that is pulled aside.

use crate::lug::SideAngle;
use plumbhook_sheet::{Basis, Trust};
use plumbhook_units::{Measured, RatedForce};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
struct Table {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    to: f64,
    share: f64,
}

static TABLE: LazyLock<Option<Table>> =
    LazyLock::new(|| serde_json::from_str(include_str!("shackle_side_load.json")).ok());

/// Publication of the bands of the angle.
pub const BANDS: Basis = Basis {
    publication: "WAC 296-155-33905, as effective 20 May 2016",
    section: "(4) and Figure 17: a shackle that is pulled aside has its rating reduced",
    trust: Trust::Published,
};

/// Publication of the shares that are left.
pub const SHARES: Basis = Basis {
    publication: "shares of a shackle pulled aside",
    section: "70 % to 45 deg, 50 % to 90 deg, as two marine suppliers' pages print them",
    trust: Trust::CommonPractice,
};

/// What a shackle that is rated `rating` in line carries when it is pulled `aside` in the plane of its pin, by the
/// published table. The shares step down at the start of each band; nothing lies between. `None` for an angle beyond
/// 90 deg, below zero or not a number.
pub fn pulled_aside(rating: RatedForce, aside: SideAngle) -> Option<RatedForce> {
    let degrees = aside.si().to_degrees();
    let rows = TABLE.as_ref().map_or(&[][..], |table| &table.rows);
    // 90 deg in radians is no exact double.
    let band = rows.iter().find(|row| degrees <= row.to + 1e-9)?;
    (degrees >= 0.0).then(|| RatedForce::from_si(rating.si() * band.share))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(degrees: f64) -> Option<f64> {
        let aside = SideAngle::from_si(degrees.to_radians());
        pulled_aside(RatedForce::from_si(1.0), aside).map(Measured::si)
    }

    /// Marine supplier and catalogue pages (two, same figures; B30.26 practice), reduction table: in line 100 %, at 45 deg
    /// 70 %, at 90 deg 50 %.
    #[test]
    fn the_printed_angles_leave_the_printed_shares() {
        for (degrees, printed) in [(0.0, 1.0), (45.0, 0.7), (90.0, 0.5)] {
            assert_eq!(share(degrees), Some(printed), "{degrees} deg");
        }
    }

    /// WAC 296-155-33905, Figure 17: in line reaches to 5 deg; the next bands are 6 to 45 and 46 to 90 deg; beyond is not
    /// permitted.
    #[test]
    fn a_band_steps_down_at_its_start() {
        for (degrees, wanted) in [
            (5.0, Some(1.0)),
            (5.1, Some(0.7)),
            (45.1, Some(0.5)),
            (90.1, None),
            (f64::NAN, None),
            (-1.0, None),
        ] {
            assert_eq!(share(degrees), wanted, "{degrees} deg");
        }
    }
}
