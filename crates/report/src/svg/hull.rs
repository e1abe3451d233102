//! The outline of a solid in a view.

type Pixels = (f64, f64);

/// The corners of the outline that holds all places, in order; those inside it are left out.
pub(super) fn hull(mut places: Vec<Pixels>) -> Vec<Pixels> {
    places.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    // Two chains from left to right and back, each turning one way (Andrew, 1979).
    let there = chain(places.iter());
    let back = chain(places.iter().rev());
    there.into_iter().chain(back).collect()
}

/// One chain without its last corner, which starts the other.
fn chain<'a>(places: impl Iterator<Item = &'a Pixels>) -> Vec<Pixels> {
    let mut chain: Vec<Pixels> = Vec::new();
    for place in places {
        while let [.., before, last] = chain[..]
            && turn(before, last, *place) <= 0.0
        {
            chain.pop();
        }
        chain.push(*place);
    }
    chain.pop();
    chain
}

/// Above zero where the way from `a` over `b` to `c` turns towards the second axis.
fn turn(a: Pixels, b: Pixels, c: Pixels) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_with_places_inside_and_on_its_sides_has_four_corners() {
        let places = vec![
            (0.0, 0.0),
            (1.0, 1.0),
            (2.0, 0.0),
            (2.0, 2.0),
            (0.0, 2.0),
            (1.0, 0.0),
            (2.0, 2.0),
        ];
        assert_eq!(
            hull(places),
            [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]
        );
    }

    #[test]
    fn one_place_has_no_outline() {
        assert!(hull(vec![(1.0, 1.0)]).is_empty());
        assert!(hull(vec![]).is_empty());
    }
}
