//! What may spin about a plumb line, which changes nothing: found once, and taken out of every step.

use super::bodies::{At, Many, Spin, Tie, add};
use super::numbers::V3;
use nalgebra::{DMatrix, DVector};

/// Lift of the matrix that keeps it from being singular, in weights per length.
const LIFT: f64 = 1e-8;

impl Many {
    /// The spins of a rig: of all that hangs by one hook alone, and of all that hangs by one ring alone.
    pub(crate) fn with_spins(mut self) -> Self {
        let mut seen: Vec<usize> = Vec::new();
        let hooks = self.lines.iter().filter_map(|line| match line.upper {
            Tie::Hook(hook, _) if !seen.contains(&hook) => {
                seen.push(hook);
                Some(line.upper)
            }
            _ => None,
        });
        let mut about: Vec<Tie> = hooks.collect();
        let solids = self.solids.iter().enumerate();
        let rings = solids.filter(|(_, solid)| solid.particle);
        about.extend(rings.map(|(body, _)| Tie::On(body, V3::zeros())));
        let spins = about.into_iter().filter_map(|about| self.spin(about));
        self.spins = spins.collect();
        self
    }

    /// What hangs by this point, if nothing else holds it.
    fn spin(&self, about: Tie) -> Option<Spin> {
        let is = |tie: &Tie| match (*tie, about) {
            (Tie::Hook(a, _), Tie::Hook(b, _)) | (Tie::On(a, _), Tie::On(b, _)) => a == b,
            _ => false,
        };
        let mut bodies: Vec<usize> = Vec::new();
        let mut held = false;
        loop {
            let before = bodies.len();
            for line in &self.lines {
                let joins = |tie: &Tie| match tie {
                    Tie::On(body, _) => bodies.contains(body),
                    Tie::Hook(..) => false,
                };
                let (upper, lower) = (line.upper, line.lower);
                if !(is(&upper) || joins(&upper) || joins(&lower)) {
                    continue;
                }
                for end in [upper, lower] {
                    match end {
                        _ if is(&end) => {}
                        Tie::On(body, _) if !bodies.contains(&body) => bodies.push(body),
                        Tie::On(..) => {}
                        Tie::Hook(..) => held = true,
                    }
                }
            }
            if bodies.len() == before {
                break;
            }
        }
        (!held && !bodies.is_empty()).then_some(Spin { about, bodies })
    }

    /// The slope of the energy with each spin held, so that no step is spent on it.
    pub(crate) fn lifted(&self, curvature: DMatrix<f64>, at: &[At]) -> DMatrix<f64> {
        let mut lifted = curvature;
        let unit = self.weight() / self.scale;
        for i in 0..lifted.nrows() {
            if let Some(slot) = lifted.get_mut((i, i)) {
                *slot += LIFT * unit;
            }
        }
        for spin in &self.spins {
            if let Some(mode) = self.mode(spin, at) {
                lifted.ger(unit, &mode, &mode, 1.0);
            }
        }
        lifted
    }

    /// How the freedoms move in a spin, of length one.
    fn mode(&self, spin: &Spin, at: &[At]) -> Option<DVector<f64>> {
        let about = match spin.about {
            Tie::Hook(_, place) => place,
            Tie::On(body, _) => at.get(body)?.origin,
        };
        let mut mode = DVector::zeros(self.size());
        for body in &spin.bodies {
            let arm = at.get(*body)?.origin - about;
            add(&mut mode, 6 * body, &V3::z().cross(&arm));
            if !self.solids.get(*body)?.particle {
                add(&mut mode, 6 * body + 3, &(V3::z() * self.scale));
            }
        }
        Some(mode.normalize())
    }
}
