//! One line of a take-off as a solid at its place.

use crate::ask::Ask;
use crate::entries::Takeoff;
use crate::values::{AXES, Banded, Copies, PartLine};
use crate::{Datum, Pedigree};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::hanging::Axis;
use plumbhook_mechanics::takeoff::{Piece, Solid, Turn};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Density, Heading, Length, Measured};

/// A line being made into a solid: what is asked of it is asked in its name.
pub(super) struct Line<'l> {
    pub(super) what: String,
    pub(super) origin: &'l Origin,
    pub(super) pedigree: &'l Pedigree,
}

impl Line<'_> {
    /// Both sides of a number of the line; what it lacks is noted.
    fn closed<T: Measured>(
        &self,
        ask: &mut Ask<'_>,
        label: &str,
        banded: Option<&Banded<T>>,
    ) -> Option<Interval<T>> {
        let what = format!("{label} of {}", self.what);
        let Some(banded) = banded else {
            ask.lacks(
                what,
                Lack::Absent,
                self.origin,
                format!("say `{label} …` in this line"),
            );
            return None;
        };
        let banded = ask.closed(&what, banded, self.pedigree, self.origin);
        if let (Some(lo), Some(hi)) = (banded.lo, banded.hi) {
            return Some(Interval { lo, hi });
        }
        ask.lacks(
            format!("{what}: how exact it is"),
            Lack::OneSided,
            self.origin,
            format!("state its tolerance, as `{label} … +/- …`, or name a source with an accuracy"),
        );
        None
    }

    fn place<const N: usize>(
        &self,
        ask: &mut Ask<'_>,
        label: &str,
        at: &[Banded<Length>; N],
    ) -> Option<[Interval<Length>; N]> {
        let mut out = [Interval::exact(Length::from_si(0.0)); N];
        let mut whole = true;
        for ((side, given), axis) in out.iter_mut().zip(at).zip(AXES) {
            match self.closed(ask, &format!("{label} {axis}"), Some(given)) {
                Some(closed) => *side = closed,
                None => whole = false,
            }
        }
        whole.then_some(out)
    }

    pub(super) fn density(
        &self,
        ask: &mut Ask<'_>,
        name: &str,
        takeoff: &Takeoff,
        line: &PartLine,
    ) -> Option<Interval<Density>> {
        let Some((of, origin)) = &line.of else {
            ask.lacks(
                format!("material of {}", self.what),
                Lack::Absent,
                self.origin,
                "say `of steel` in this line, and its density in a line `density steel …`",
            );
            return None;
        };
        match takeoff.density.get(of) {
            Some(Datum::Known(given)) => {
                let density = Line {
                    what: format!("{of} in {name}"),
                    origin: &given.origin,
                    pedigree: &given.pedigree,
                };
                density.closed(ask, "density", Some(&given.value))
            }
            Some(Datum::Lacking(lacking)) => {
                let mend = "state its density with a range, as `density steel 7850 kg/m3 +/- 1 %`";
                ask.lacks(
                    format!("density of {of} in {name}"),
                    lacking.lack,
                    &lacking.origin,
                    mend,
                );
                None
            }
            None => {
                ask.lacks(
                    format!("density of {of} in {name}"),
                    Lack::NotFound,
                    origin,
                    format!("add a line `density {of} … kg/m3 +/- … %`{}", in_print(of)),
                );
                None
            }
        }
    }

    pub(super) fn pieces(&self, ask: &mut Ask<'_>, line: &PartLine) -> Option<Vec<Piece>> {
        let solid = self.solid(ask, line);
        let at = match &line.at {
            Some(at) => self.place(ask, "at", at),
            None => self.closed::<Length>(ask, "at", None).map(|side| [side; 3]),
        };
        let turn = line.along.map_or(Turn::AS_DRAWN, |(axis, forwards)| {
            let axis = Axis::ALL.get(axis).copied().unwrap_or(Axis::Z);
            Turn::along(axis, forwards)
        });
        let copies = match &line.times {
            None => None,
            Some(Copies::Ring { radius, .. }) => {
                Some([self.closed(ask, "radius", radius.as_ref())?; 2])
            }
            Some(Copies::Rectangle { sides: [x, y] }) => Some([
                self.closed(ask, "x of the rectangle", x.as_ref())?,
                self.closed(ask, "y of the rectangle", y.as_ref())?,
            ]),
        };
        let piece = Piece {
            solid: solid?,
            at: at?,
            turn,
        };
        Some(match (&line.times, copies) {
            (
                Some(Copies::Ring {
                    count,
                    first: [x, y],
                    anticlockwise,
                    ..
                }),
                Some([radius, _]),
            ) => piece.ring(
                *count,
                radius,
                Heading::from_si(y.atan2(*x)),
                *anticlockwise,
            ),
            (Some(Copies::Rectangle { .. }), Some(sides)) => piece.rectangle(sides),
            _ => vec![piece],
        })
    }

    fn solid(&self, ask: &mut Ask<'_>, line: &PartLine) -> Option<Solid> {
        let mut sizes = Vec::new();
        for label in line.form.sizes {
            let given = line.sizes.iter().find(|(given, _)| given == label);
            sizes.push(self.closed(ask, label, given.map(|(_, banded)| banded)));
        }
        let sizes = sizes.into_iter().collect::<Option<Vec<_>>>();
        let per_length = (line.form.word == "section")
            .then(|| self.closed(ask, "per-length", line.per_length.as_ref()));
        let mass = (line.form.word == "lump").then(|| self.closed(ask, "mass", line.mass.as_ref()));
        let corners: Vec<_> = line
            .corners
            .iter()
            .map(|corner| self.place(ask, "corner", corner))
            .collect();
        Some(match (line.form.word, &sizes?[..]) {
            ("box", [x, y, z]) => Solid::Block { size: [*x, *y, *z] },
            ("round", [outside, long]) => Solid::Round {
                outside: *outside,
                long: *long,
            },
            ("tube" | "ring", [outside, inside, long]) => Solid::Tube {
                outside: *outside,
                inside: *inside,
                long: *long,
            },
            ("frustum", [base, top, high]) => Solid::Frustum {
                base: *base,
                top: *top,
                high: *high,
            },
            ("cone", [base, high]) => Solid::Frustum {
                base: *base,
                top: Interval::exact(Length::from_si(0.0)),
                high: *high,
            },
            ("sphere", [outside]) => Solid::Sphere { outside: *outside },
            ("dome", [outside, high]) => Solid::Dome {
                outside: *outside,
                high: *high,
            },
            ("polygon", [thick]) => Solid::Prism {
                corners: corners.into_iter().collect::<Option<_>>()?,
                thick: *thick,
            },
            ("section", [long]) => Solid::Section {
                per_length: per_length??,
                long: *long,
            },
            ("lump", []) => Solid::Lump { mass: mass?? },
            _ => return None,
        })
    }
}

/// What is printed of a material, as help for who writes its density; never a value.
fn in_print(material: &str) -> String {
    plumbhook_mechanics::density::in_print(material)
        .map(|row| {
            format!(
                "; in print: {} kg/m3 ({})",
                row.density.si().round(),
                row.source
            )
        })
        .next()
        .unwrap_or_default()
}
