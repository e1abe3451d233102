//! Which unit and how many digits a kind is printed with, by its size.

use crate::{Kind, Lookup, ONE, Unit, unit};

/// One unit of a ladder, for sizes below a limit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rung {
    pub(crate) symbol: &'static str,
    /// Printed so while the rounded size stays under this many units.
    pub(crate) below: f64,
    /// Significant digits wanted.
    pub(crate) significant: u8,
    /// Decimals at least and at most.
    pub(crate) decimals: (usize, usize),
    /// Whether a number that needs fewer decimals is printed with fewer: `17 t`, not `17.0 t`.
    pub(crate) trim: bool,
}

impl Rung {
    /// For a unit that the reader chose: a gauge's own unit.
    pub(crate) const fn chosen(symbol: &'static str) -> Self {
        rung(symbol, f64::INFINITY, 4, 0, 3)
    }

    pub(crate) fn unit(&self) -> &'static Unit {
        match unit(self.symbol) {
            Lookup::Unit(unit) => unit,
            Lookup::Ambiguous(_) | Lookup::None => ONE,
        }
    }
}

const fn rung(
    symbol: &'static str,
    below: f64,
    significant: u8,
    least: usize,
    most: usize,
) -> Rung {
    Rung {
        symbol,
        below,
        significant,
        decimals: (least, most),
        trim: true,
    }
}

const fn fixed(symbol: &'static str, decimals: usize) -> Rung {
    Rung {
        symbol,
        below: f64::INFINITY,
        significant: 3,
        decimals: (decimals, decimals),
        trim: false,
    }
}

const END: f64 = f64::INFINITY;

/// A kind's metric ladder, smallest unit first; the last rung has no limit.
pub(crate) const fn metric(kind: Kind) -> &'static [Rung] {
    match kind {
        Kind::Number => const { &[rung("", END, 4, 0, 4)] },
        Kind::Ratio => const { &[rung("", END, 3, 0, 4)] },
        Kind::Mass | Kind::Rating => const { &[rung("kg", 1e3, 3, 0, 3), rung("t", END, 3, 1, 3)] },
        Kind::Force => const { &[rung("N", 1e3, 3, 0, 3), rung("kN", END, 3, 1, 3)] },
        Kind::Length => const { &[rung("mm", 1e3, 3, 0, 1), fixed("m", 2)] },
        Kind::Angle
        | Kind::HorizontalAngle
        | Kind::VerticalAngle
        | Kind::ChokeAngle
        | Kind::Heading => const { &[fixed("deg", 1)] },
        Kind::Slope => const { &[rung("%", END, 3, 0, 2)] },
        Kind::Pressure => const { &[rung("kPa", 1e4, 3, 0, 3), rung("MPa", END, 3, 0, 3)] },
        Kind::Density => const { &[rung("kg/m3", END, 4, 0, 2)] },
        Kind::Area => const { &[rung("mm2", 1e5, 3, 0, 2), rung("m2", END, 3, 0, 3)] },
        Kind::Volume => const { &[rung("l", 1e3, 3, 0, 2), rung("m3", END, 3, 0, 3)] },
        Kind::SectionModulus => const { &[rung("cm3", END, 4, 0, 2)] },
        Kind::SecondMoment => const { &[rung("cm4", 1e7, 4, 0, 2), rung("m4", END, 3, 0, 3)] },
        Kind::Time => {
            const {
                &[
                    rung("s", 60.0, 3, 0, 2),
                    rung("min", 60.0, 3, 0, 2),
                    rung("h", 48.0, 3, 0, 2),
                    rung("d", END, 3, 0, 2),
                ]
            }
        }
        Kind::Temperature => const { &[rung("degC", END, 3, 0, 1)] },
        Kind::Speed => const { &[rung("m/s", END, 3, 0, 3)] },
        Kind::Acceleration => const { &[rung("m/s2", END, 3, 0, 3)] },
        Kind::Stiffness | Kind::LineLoad => const { &[rung("kN/m", END, 3, 0, 3)] },
        Kind::SubgradeModulus => const { &[rung("MN/m3", END, 3, 0, 3)] },
        Kind::Moment => const { &[rung("N*m", 1e3, 3, 0, 3), rung("kN*m", END, 3, 1, 3)] },
        Kind::Energy => const { &[rung("J", 1e3, 3, 0, 3), rung("kJ", END, 3, 1, 3)] },
        Kind::Power => const { &[rung("W", 1e3, 3, 0, 3), rung("kW", END, 3, 1, 3)] },
        Kind::Flow => const { &[rung("l/min", END, 3, 0, 2)] },
        Kind::LinearMass => const { &[rung("kg/m", 1e3, 3, 0, 3), rung("t/m", END, 3, 1, 3)] },
    }
}

/// The ladder that stands beside the metric one under US rules; empty where practice wants none.
pub(crate) const fn us(kind: Kind) -> &'static [Rung] {
    match kind {
        Kind::Mass | Kind::Rating => const { &[rung("lb", END, 3, 0, 2)] },
        Kind::Force => const { &[rung("lbf", 1e3, 3, 0, 2), rung("kip", END, 3, 1, 3)] },
        Kind::Pressure => {
            const {
                &[
                    rung("psf", 1e5, 3, 0, 2),
                    rung("psi", 1e4, 3, 0, 2),
                    rung("ksi", END, 3, 1, 3),
                ]
            }
        }
        Kind::Density => const { &[rung("pcf", END, 3, 0, 2)] },
        Kind::SectionModulus => const { &[rung("in3", END, 3, 0, 2)] },
        Kind::SecondMoment => const { &[rung("in4", 1e6, 3, 0, 2), rung("ft4", END, 3, 0, 2)] },
        Kind::Temperature => const { &[rung("degF", END, 3, 0, 1)] },
        Kind::Speed => const { &[rung("ft/min", 300.0, 3, 0, 2), rung("mph", END, 3, 0, 2)] },
        Kind::Stiffness => const { &[rung("kip/in", END, 3, 0, 3)] },
        Kind::LineLoad => const { &[rung("plf", 1e3, 3, 0, 2), rung("klf", END, 3, 1, 3)] },
        Kind::SubgradeModulus => const { &[rung("pci", END, 3, 0, 2)] },
        Kind::Moment => const { &[rung("lbf*ft", 1e3, 3, 0, 2), rung("kip*ft", END, 3, 1, 3)] },
        Kind::Energy => const { &[rung("lbf*ft", END, 3, 0, 2)] },
        Kind::Flow => const { &[rung("us_gal/min", END, 3, 0, 2)] },
        Kind::LinearMass => const { &[rung("lb/ft", END, 3, 0, 2)] },
        Kind::Number
        | Kind::Ratio
        | Kind::Length
        | Kind::Angle
        | Kind::HorizontalAngle
        | Kind::ChokeAngle
        | Kind::Heading
        | Kind::VerticalAngle
        | Kind::Slope
        | Kind::Area
        | Kind::Power
        | Kind::Volume
        | Kind::Time
        | Kind::Acceleration => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rung_is_a_unit_of_its_kind_and_the_last_has_no_limit() {
        for &kind in Kind::ALL {
            for ladder in [metric(kind), us(kind)] {
                for rung in ladder {
                    assert_eq!(rung.unit().symbol, rung.symbol, "{kind:?}");
                    assert!(kind.accepts(rung.unit()), "{kind:?} {rung:?}");
                }
                assert!(
                    ladder.last().is_none_or(|rung| rung.below == END),
                    "{kind:?}"
                );
            }
            assert!(!metric(kind).is_empty());
        }
    }
}
