//! Where the search for the worst starts.

use super::family::Few;
use super::outcome::{Param, Said};
use super::search::{Aim, Hunt, NoPlace};

/// Up to this many banded inputs all corners are solved.
const ENUMERATED: usize = 6;
/// Directions in which the tilt is sought.
const LEANS: usize = 12;

impl Hunt<'_> {
    /// All corners if there are few; else the middle, all corners of the centre of gravity with the weight high, the corners
    /// that lean furthest, and those where few legs are short.
    pub(crate) fn seed(&mut self) -> Result<(), NoPlace> {
        let middle = self.family.middle();
        let centre = self.solve(&middle, None)?;
        if self.width() <= ENUMERATED {
            for mask in 0..1_u64 << self.width() {
                self.solve_corner(mask, centre)?;
            }
            return Ok(());
        }
        let heavy: Vec<usize> = (0..self.width())
            .filter(|j| matches!(self.family.params.get(*j), Some(Param::Weight(_))))
            .collect();
        for pattern in 0..8 {
            // The other inputs stay in the middle, so that no end of theirs is preferred from the start.
            let mut at = self.family.cg_corner(pattern);
            for j in &heavy {
                if let Some((slot, (_, hi))) = at.get_mut(*j).zip(self.ends(*j)) {
                    *slot = hi;
                }
            }
            self.solve(&at, centre)?;
        }
        if self.family.must_stand() {
            for body in 0..self.family.counts().bodies {
                self.lean_seeds(centre, body)?;
            }
        }
        if self.family.stretches() {
            self.few_leg_seeds(centre)?;
        }
        Ok(())
    }

    /// The tilt grows from nothing in any direction, so its slope says little: corners that lean furthest in each of many
    /// directions are tried.
    fn lean_seeds(&mut self, centre: Option<usize>, body: usize) -> Result<(), NoPlace> {
        let Some(centre) = centre else {
            return Ok(());
        };
        let (Some(x), Some(y)) = (
            self.raw_slopes(Said::Lean(body, 0), centre),
            self.raw_slopes(Said::Lean(body, 1), centre),
        ) else {
            return Ok(());
        };
        for direction in 0..LEANS {
            let angle = direction as f64 * core::f64::consts::TAU / LEANS as f64;
            let (sine, cosine) = angle.sin_cos();
            let towards = x.iter().zip(&y).enumerate();
            let mask = towards.fold(0, |mask, (j, (x, y))| {
                mask | u64::from(cosine * x + sine * y > 0.0) << j
            });
            self.solve_corner(mask, Some(centre))?;
        }
        Ok(())
    }

    /// A leg carries most where it and few others are short and stiff, and the rest long and soft: which others, is tried. Each
    /// such place leads on to the corner that is worst to first order for each of its legs.
    fn few_leg_seeds(&mut self, centre: Option<usize>) -> Result<(), NoPlace> {
        let lengths = self
            .family
            .params
            .iter()
            .any(|p| matches!(p, Param::Length(_)));
        if !lengths {
            return Ok(());
        }
        for Few { few, others } in self.family.few() {
            let ends = self.family.lo.iter().zip(&self.family.hi);
            let at: Vec<f64> = ends
                .zip(&self.family.params)
                .map(|((lo, hi), param)| match param {
                    Param::Length(leg) if few.contains(leg) => *lo,
                    Param::Length(leg) if others.contains(leg) => *hi,
                    Param::Stiffness(leg) if others.contains(leg) => *lo,
                    Param::Stiffness(leg) if few.contains(leg) => *hi,
                    Param::Weight(_) => *hi,
                    Param::Cg(..) | Param::Length(_) | Param::Stiffness(_) => {
                        f64::midpoint(*lo, *hi)
                    }
                })
                .collect();
            let Some(seed) = self.solve(&at, centre)? else {
                continue;
            };
            for leg in few {
                let aim = Aim {
                    said: Said::Tension(leg),
                    largest: true,
                };
                if let Some(aim) = self.aims.iter().position(|a| *a == aim) {
                    self.climb(aim, seed)?;
                }
            }
        }
        Ok(())
    }
}
