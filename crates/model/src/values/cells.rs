//! What load cells read, as a table.

use super::axes::take_signed;
use super::part::place;
use super::quantity::{Banded, one_plain};
use super::table::{Cells, Column, Table, TableRow};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::Interval;
use plumbhook_sheet::Origin;
use plumbhook_units::{Length, Mass, Measured, Ratio};

/// One load cell.
#[derive(Clone, Debug)]
pub struct LoadCell {
    /// Its name.
    pub name: Box<str>,
    /// Where it carries, in the load's own frame.
    pub at: [Banded<Length>; 3],
    /// What it read, level.
    pub reading: Mass,
    /// What it read when weighed again, level.
    pub again: Option<Mass>,
    /// What it read with the load tilted.
    pub tilted: Option<Mass>,
    /// Where its row stands.
    pub origin: Origin,
}

/// Rows `| cell | at | reading | again | tilted |`.
pub type Readings = Table<LoadCell>;

impl TableRow for LoadCell {
    const SAY: &'static str = "rows `| cell | at | reading |`: where each cell carries in the load's own frame, and what it read, as `| C1 | (1.2 m, 0.8 m, 0) +/- 5 mm | 7.92 t |`; columns `again` and `tilted` may follow";
    const COLUMNS: &'static [Column] = &[
        Column::needed("cell"),
        Column::needed("at"),
        Column::needed("reading"),
        Column::optional("again"),
        Column::optional("tilted"),
    ];

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail> {
        let name = cells.read_by("cell", |line| Ok(line.name("the name of the cell")?.0))?;
        let other = |column: &str| Ok(cells.optional_by(column, reading)?.map(|cell| cell.value));
        Ok(Self {
            name: name.value.into(),
            at: cells.read_by("at", place)?.value,
            reading: cells.read_by("reading", reading)?.value,
            again: other("again")?,
            tilted: other("tilted")?,
            origin: name.origin,
        })
    }
}

fn reading(line: &mut Cursor<'_, '_>) -> Result<Mass, Fail> {
    let say = "a reading is one number; how exact it is stands under `accuracy`";
    one_plain(line, |_| true, (say, ""))
}

/// How exact a reading is: `reading 0.5 %`, `each 20 kg`, or both, which add.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// As a share of the reading.
    pub share: Ratio,
    /// The same at every reading.
    pub each: Mass,
}

impl Accuracy {
    /// What a cell that reads so much may carry, in kilograms: to both sides the share of what it reads, whatever its
    /// sign, and what is the same at every reading.
    pub fn band(&self, reading: Mass) -> Interval<Mass> {
        let off = reading.si().abs() * self.share.si() + self.each.si();
        Interval {
            lo: Mass::from_si(reading.si() - off),
            hi: Mass::from_si(reading.si() + off),
        }
    }
}

impl Value for Accuracy {
    const SHAPE: Shape = Shape {
        say: "how exact a reading is, to both sides: as a share of it, `reading 0.5 %`, the same at every reading, `each 20 kg`, or both, `reading 0.1 %, each 20 kg`, which add",
        kind: None,
        words: &["reading", "each", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let (mut share, mut each) = (None, None);
        loop {
            if line.word("reading") && share.is_none() {
                share = Some(plain::<Ratio>(line)?);
            } else if line.word("each") && each.is_none() {
                each = Some(plain::<Mass>(line)?);
            } else {
                return Err(line.broken("an accuracy is `reading 0.5 %` or `each 20 kg`", ""));
            }
            if !line.comma() {
                break;
            }
        }
        Ok(Self {
            share: share.unwrap_or(Ratio::from_si(0.0)),
            each: each.unwrap_or(Mass::from_si(0.0)),
        })
    }
}

fn plain<T: Measured + 'static>(line: &mut Cursor<'_, '_>) -> Result<T, Fail> {
    let say = "an accuracy is one number above zero";
    one_plain(line, |value: T| value.si() > 0.0, (say, ""))
}

/// How the load was tilted for the second weighing: `up +x 300 mm +/- 2 mm over 3.00 m +/- 2 mm`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilted {
    /// The axis along which it rises: 0 for x, 1 for y.
    pub axis: usize,
    /// Whether the positive side is up.
    pub forwards: bool,
    /// How far up.
    pub rise: Banded<Length>,
    /// Over how much of the load, measured along it.
    pub over: Banded<Length>,
}

impl Value for Tilted {
    const SHAPE: Shape = Shape {
        say: "which side was raised, how far, and over how much of the load measured along it: `up +x 300 mm +/- 2 mm over 3.00 m +/- 2 mm`",
        kind: Some(plumbhook_units::Kind::Length),
        words: &["up", "over", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let side = line.word("up").then(|| take_signed(line)).flatten();
        let Some((axis, forwards)) = side.filter(|(axis, _)| *axis < 2) else {
            return Err(line.broken("the side that was raised is missing", "as `up +x …`"));
        };
        let rise = Banded::read_part(line)?;
        if !line.word("over") {
            return Err(line.broken("`over` says how long that is, measured along the load", ""));
        }
        Ok(Self {
            axis,
            forwards,
            rise,
            over: Banded::read_part(line)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_that_reads_below_nothing_is_as_inexact_to_both_sides() {
        // 1 % of 200 kg and 5 kg, by hand: 7 kg.
        let accuracy = Accuracy {
            share: Ratio::from_si(0.01),
            each: Mass::from_si(5.0),
        };
        let band = accuracy.band(Mass::from_si(-200.0));
        assert!((band.lo.si() + 207.0).abs() < 1e-9);
        assert!((band.hi.si() + 193.0).abs() < 1e-9);
    }
}
