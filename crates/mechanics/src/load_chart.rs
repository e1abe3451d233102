//! What a load chart rates over a range of radii.
//!
//! Basis: common practice, no source: between two radii of a chart the lower of the two ratings holds unless the chart
//! says that it may be interpolated, and outside its radii a chart rates nothing.

use plumbhook_units::{Length, Measured, RatedForce};

/// One cell of a chart: a radius and what is rated there; `None` where the chart leaves the cell empty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Horizontal distance from the centre of slewing to the hook, in metres; above zero.
    pub radius: Length,
    /// What is rated there.
    pub rated: Option<RatedForce>,
}

/// What a chart rates over a range of radii.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rated {
    /// The lowest rating of the range; `None` where some of the range lies outside the chart or in an empty cell.
    pub least: Option<RatedForce>,
    /// The highest rating of the range; `None` where none of it is rated.
    pub most: Option<RatedForce>,
}

/// Why a chart rates nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoChart {
    /// It has no cell.
    Empty,
    /// The radius of this cell, from 0, is not above zero or not beyond the one before.
    NotInOrder(usize),
    /// A rating of this cell, from 0, is not above zero.
    NotPositive(usize),
    /// The range of radii runs backwards or is not finite.
    NoRange,
}

/// The lowest and the highest rating over the radii from `low` to `high`.
///
/// At a radius of the chart its own cell holds; between two, the lower of both; outside, nothing.
///
/// # Errors
/// [`NoChart`] where the cells are no chart, or the range is none.
pub fn rated_between(cells: &[Cell], low: Length, high: Length) -> Result<Rated, NoChart> {
    in_order(cells)?;
    let (low, high) = (low.si(), high.si());
    if !(low.is_finite() && high.is_finite() && low <= high) {
        return Err(NoChart::NoRange);
    }
    let mut found = Found::default();
    let (Some(first), Some(last)) = (cells.first(), cells.last()) else {
        return Err(NoChart::Empty);
    };
    found.outside |= low < first.radius.si() || high > last.radius.si();
    for cell in cells {
        if (low..=high).contains(&cell.radius.si()) {
            found.take(cell.rated);
        }
    }
    for pair in cells.windows(2) {
        let [near, far] = pair else { continue };
        // The open stretch between the two has a part of the range in it.
        if low < far.radius.si() && high > near.radius.si() {
            found.take(lower(near.rated, far.rated));
        }
    }
    Ok(found.rated())
}

fn in_order(cells: &[Cell]) -> Result<(), NoChart> {
    let mut before = 0.0;
    for (index, cell) in cells.iter().enumerate() {
        let radius = cell.radius.si();
        if !(radius.is_finite() && radius > before) {
            return Err(NoChart::NotInOrder(index));
        }
        before = radius;
        if cell
            .rated
            .is_some_and(|rated| rated.si().is_nan() || rated.si() <= 0.0)
        {
            return Err(NoChart::NotPositive(index));
        }
    }
    Ok(())
}

/// Where one of two is not rated, neither is what lies between.
fn lower(near: Option<RatedForce>, far: Option<RatedForce>) -> Option<RatedForce> {
    let (near, far) = near.zip(far)?;
    Some(if far < near { far } else { near })
}

#[derive(Default)]
struct Found {
    least: Option<RatedForce>,
    most: Option<RatedForce>,
    /// Whether some of the range is not rated.
    outside: bool,
}

impl Found {
    fn take(&mut self, rated: Option<RatedForce>) {
        let Some(rated) = rated else {
            self.outside = true;
            return;
        };
        if self.least.is_none_or(|least| rated < least) {
            self.least = Some(rated);
        }
        if self.most.is_none_or(|most| rated > most) {
            self.most = Some(rated);
        }
    }

    fn rated(self) -> Rated {
        Rated {
            least: self.least.filter(|_| !self.outside),
            most: self.most,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plumbhook_units::Mass;

    fn cell(radius: f64, tonnes: Option<f64>) -> Cell {
        Cell {
            radius: Length::from_si(radius),
            rated: tonnes.map(|t| RatedForce::from_mass(Mass::from_si(t * 1000.0))),
        }
    }

    fn tonnes(rated: Option<RatedForce>) -> Option<f64> {
        rated.map(|rated| (rated.mass().si() / 1000.0 * 1e6).round() / 1e6)
    }

    fn between(cells: &[Cell], low: f64, high: f64) -> (Option<f64>, Option<f64>) {
        let rated = rated_between(cells, Length::from_si(low), Length::from_si(high)).unwrap();
        (tonnes(rated.least), tonnes(rated.most))
    }

    /// Invented.
    fn chart() -> [Cell; 4] {
        [
            cell(8.0, Some(51.0)),
            cell(10.0, Some(40.2)),
            cell(12.0, Some(32.4)),
            cell(14.0, Some(26.1)),
        ]
    }

    #[test]
    fn between_two_radii_the_lower_rating_holds_and_at_a_radius_its_own() {
        assert_eq!(between(&chart(), 10.0, 10.0), (Some(40.2), Some(40.2)));
        assert_eq!(between(&chart(), 10.1, 10.1), (Some(32.4), Some(32.4)));
        assert_eq!(between(&chart(), 9.9, 10.1), (Some(32.4), Some(40.2)));
        assert_eq!(between(&chart(), 8.0, 14.0), (Some(26.1), Some(51.0)));
    }

    #[test]
    fn a_chart_that_rises_again_is_read_at_its_lower_side_too() {
        // Short radii are often limited by structure, not by tipping.
        let chart = [
            cell(4.0, Some(30.0)),
            cell(6.0, Some(35.0)),
            cell(8.0, Some(28.0)),
        ];
        assert_eq!(between(&chart, 5.0, 5.0), (Some(30.0), Some(30.0)));
        assert_eq!(between(&chart, 5.0, 6.0), (Some(30.0), Some(35.0)));
    }

    #[test]
    fn outside_the_chart_and_in_an_empty_cell_nothing_is_rated() {
        assert_eq!(between(&chart(), 7.9, 9.0), (None, Some(51.0)));
        assert_eq!(between(&chart(), 14.1, 15.0), (None, None));
        let gap = [
            cell(8.0, Some(51.0)),
            cell(10.0, None),
            cell(12.0, Some(32.4)),
        ];
        assert_eq!(between(&gap, 8.5, 8.5), (None, None));
        assert_eq!(between(&gap, 8.0, 8.0), (Some(51.0), Some(51.0)));
    }

    #[test]
    fn what_is_no_chart_rates_nothing() {
        let at = Length::from_si(9.0);
        assert_eq!(rated_between(&[], at, at), Err(NoChart::Empty));
        let backwards = [cell(8.0, Some(5.0)), cell(7.0, Some(6.0))];
        assert_eq!(
            rated_between(&backwards, at, at),
            Err(NoChart::NotInOrder(1))
        );
        let free = [cell(8.0, Some(0.0))];
        assert_eq!(rated_between(&free, at, at), Err(NoChart::NotPositive(0)));
        let (low, high) = (Length::from_si(2.0), Length::from_si(1.0));
        assert_eq!(rated_between(&chart(), low, high), Err(NoChart::NoRange));
    }

    proptest::proptest! {
        /// A wider range is never rated higher at its worst, nor lower at its best.
        #[test]
        fn a_wider_range_is_never_safer(low in 7.0_f64..15.0, more in 0.0_f64..4.0, wider in 0.0_f64..2.0) {
            let narrow = rated_between(&chart(), Length::from_si(low), Length::from_si(low + more)).unwrap();
            let wide = rated_between(&chart(), Length::from_si(low - wider), Length::from_si(low + more + wider)).unwrap();
            if let Some(least) = wide.least {
                proptest::prop_assert!(narrow.least.is_some_and(|narrow| narrow >= least));
            }
            if let Some(most) = narrow.most {
                proptest::prop_assert!(wide.most.is_some_and(|wide| wide >= most));
            }
        }
    }
}
