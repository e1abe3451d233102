//! Rating tables of slings, as published: a cell is read, nothing between two rows or beyond the last is made up.

use super::Hitch;
use plumbhook_sheet::{Basis, Trust};
use plumbhook_units::{HorizontalAngle, Length, Lookup, Mass, Measured, RatedForce, unit};
use serde::Deserialize;
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// A published table of ratings by size.
#[derive(Debug)]
pub struct SlingTable {
    /// What kind of sling it rates.
    pub kind: Box<str>,
    /// Of which grade, where the table tells grades apart.
    pub grade: Option<Box<str>>,
    /// What else a sling has to be, word for word, so that the table rates it.
    pub marks: Vec<Box<str>>,
    publication: Box<str>,
    section: Box<str>,
    rows: Vec<Row>,
}

#[derive(Debug)]
struct Row {
    /// As printed, in inches, with the nominal millimetres where the table has them.
    size: Box<str>,
    /// The diameters that mean this row.
    diameters: Vec<Length>,
    rated: Vec<(Hitch, RatedForce)>,
}

/// A cell of a table: what one part of a sling is rated at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// What one part carries along its length: of a basket each of its two parts.
    pub rated: RatedForce,
    /// The row as printed: `3/8 in (10 mm)`.
    pub row: &'static str,
    /// The table.
    pub basis: Basis,
}

/// Why no cell rates a sling; each with what the tables do have.
#[derive(Clone, Debug, PartialEq)]
pub enum NotInTable {
    /// No table is of its kind.
    Kind {
        /// Kinds that have one.
        known: Vec<&'static str>,
    },
    /// No table of its kind is of its grade.
    Grade {
        /// Grades that have one.
        known: Vec<&'static str>,
    },
    /// The table asks for other marks than the sling says.
    Marks {
        /// What it asks for.
        wanted: Vec<&'static str>,
    },
    /// No table of its kind and grade rates that hitch.
    Hitch,
    /// No row is of its size.
    Size {
        /// The next smaller row.
        below: Option<&'static str>,
        /// The next larger row.
        above: Option<&'static str>,
    },
}

/// The file as it is written.
#[derive(Deserialize)]
struct Written {
    source: Box<str>,
    section: Box<str>,
    kind: Box<str>,
    grade: Option<Box<str>>,
    marks: Vec<Box<str>>,
    unit: Box<str>,
    hitches: BTreeMap<String, Vec<usize>>,
    #[serde(default)]
    angles: Vec<f64>,
    rows: Vec<Vec<Value>>,
}

const MILLIMETRE: f64 = 1e-3;
const INCH: f64 = 0.0254;

static US: LazyLock<Vec<SlingTable>> = LazyLock::new(|| {
    let texts = [
        include_str!("chain_grade_80.json"),
        include_str!("chain_grade_100.json"),
        include_str!("chain_grade_80_choker.json"),
    ];
    texts.into_iter().filter_map(read).collect()
});

static LONGSHORING: LazyLock<Vec<SlingTable>> =
    LazyLock::new(|| read(include_str!("fibre_rope.json")).into_iter().collect());

static EN: LazyLock<Vec<SlingTable>> = LazyLock::new(|| {
    read(include_str!("chain_grade_8.json"))
        .into_iter()
        .collect()
});

/// The table of European chain slings of grade 8 as a straight leg; second-hand.
pub fn en_tables() -> &'static [SlingTable] {
    &EN
}

/// The tables of US federal guidance: chain of grade 80 and 100 as a straight leg, of grade 80 choked.
pub fn us_tables() -> &'static [SlingTable] {
    &US
}

/// The table of 29 CFR 1918: slings of natural fibre rope, for longshoring where certificate and maker say nothing.
pub fn longshoring_tables() -> &'static [SlingTable] {
    &LONGSHORING
}

impl SlingTable {
    /// What one part of a sling of that kind, grade, marks and diameter is rated at in that hitch.
    ///
    /// The diameter has to be that of a row, in inches or in the nominal millimetres beside them, to a millionth.
    ///
    /// # Errors
    /// [`NotInTable`], the first that keeps the sling out.
    pub fn rated(
        tables: &'static [Self],
        (kind, grade, marks): (&str, Option<&str>, &[Box<str>]),
        diameter: Length,
        hitch: Hitch,
    ) -> Result<Cell, NotInTable> {
        let of_kind = || tables.iter().filter(|table| &*table.kind == kind);
        if of_kind().next().is_none() {
            let known = distinct(tables.iter().map(|table| &*table.kind));
            return Err(NotInTable::Kind { known });
        }
        let of_grade = || of_kind().filter(|table| table.grade.as_deref() == grade);
        let Some(first) = of_grade().next() else {
            let known = distinct(of_kind().filter_map(|table| table.grade.as_deref()));
            return Err(NotInTable::Grade { known });
        };
        let same = |table: &Self| {
            table.marks.len() == marks.len() && table.marks.iter().all(|mark| marks.contains(mark))
        };
        if !same(first) {
            let wanted = first.marks.iter().map(|mark| &**mark).collect();
            return Err(NotInTable::Marks { wanted });
        }
        of_grade()
            .find(|table| table.rows.iter().any(|row| row.of(hitch).is_some()))
            .ok_or(NotInTable::Hitch)?
            .cell(diameter, hitch)
    }

    fn cell(&'static self, diameter: Length, hitch: Hitch) -> Result<Cell, NotInTable> {
        let found = self.rows.iter().find(|row| row.is(diameter));
        if let Some((row, rated)) = found.and_then(|row| Some((row, row.of(hitch)?))) {
            return Ok(Cell {
                rated,
                row: &row.size,
                basis: self.basis(),
            });
        }
        let inch = |row: &&Row| row.diameters.first().map_or(0.0, |inch| inch.si());
        let below = self.rows.iter().rfind(|row| inch(row) < diameter.si());
        let above = self.rows.iter().find(|row| inch(row) > diameter.si());
        Err(NotInTable::Size {
            below: below.map(|row| &*row.size),
            above: above.map(|row| &*row.size),
        })
    }

    /// Its publication.
    pub fn basis(&'static self) -> Basis {
        Basis {
            publication: &self.publication,
            section: &self.section,
            trust: Trust::Published,
        }
    }
}

impl Row {
    fn is(&self, diameter: Length) -> bool {
        let near = |size: &Length| (size.si() - diameter.si()).abs() <= 1e-6 * size.si();
        self.diameters.iter().any(near)
    }

    fn of(&self, hitch: Hitch) -> Option<RatedForce> {
        let found = self.rated.iter().find(|(of, _)| *of == hitch);
        found.map(|(_, rated)| *rated)
    }
}

fn distinct<'t>(words: impl Iterator<Item = &'t str>) -> Vec<&'t str> {
    let mut all: Vec<&str> = Vec::new();
    for word in words {
        if !all.contains(&word) {
            all.push(word);
        }
    }
    all
}

fn read(text: &str) -> Option<SlingTable> {
    let written: Written = serde_json::from_str(text).ok()?;
    let rows: Option<Vec<Row>> = written.rows.iter().map(|row| written.row(row)).collect();
    Some(SlingTable {
        rows: rows?,
        kind: written.kind,
        grade: written.grade,
        marks: written.marks,
        publication: written.source,
        section: written.section,
    })
}

impl Written {
    fn row(&self, row: &[Value]) -> Option<Row> {
        let mut diameters = Vec::new();
        let inches = row.first()?.as_str();
        if let Some(inches) = inches {
            diameters.push(Length::from_si(fraction(inches)? * INCH));
        }
        let nominal = row.get(1)?.as_f64();
        if let Some(nominal) = nominal {
            diameters.push(Length::from_si(nominal * MILLIMETRE));
        }
        let size = match (inches, nominal) {
            (Some(inches), Some(nominal)) => format!("{inches} in ({nominal} mm)"),
            (Some(inches), None) => format!("{inches} in"),
            (None, nominal) => format!("{} mm", nominal?),
        };
        let mut rated = Vec::new();
        for hitch in Hitch::ALL {
            if let Some(columns) = self.hitches.get(hitch.word()) {
                let cells: Option<Vec<&Value>> = columns.iter().map(|at| row.get(*at)).collect();
                rated.push((hitch, self.one_part(hitch, &cells?)?));
            }
        }
        Some(Row {
            size: size.into(),
            diameters,
            rated,
        })
    }

    /// What one part carries along its length. A basket is printed for both of its parts, plumb and at angles; the
    /// prints are rounded, so the least that any of them allows in a part is taken.
    fn one_part(&self, hitch: Hitch, cells: &[&Value]) -> Option<RatedForce> {
        let single = self.rated(cells.first()?)?;
        if hitch != Hitch::Basket {
            return Some(single);
        }
        let mut least = single.si() / 2.0;
        let at_angles = cells.get(1).and_then(|cell| cell.as_array());
        for (degrees, cell) in self.angles.iter().zip(at_angles.into_iter().flatten()) {
            let angle = HorizontalAngle::from_si(degrees.to_radians());
            least = least.min(self.rated(cell)?.si() / (2.0 * angle.si().sin()));
        }
        Some(RatedForce::from_si(least))
    }

    fn rated(&self, cell: &Value) -> Option<RatedForce> {
        let Lookup::Unit(of) = unit(&self.unit) else {
            return None;
        };
        let mass = Mass::from_si(of.to_si(cell.as_f64()?));
        Some(RatedForce::from_mass(mass))
    }
}

/// `3/8`, `1`, `1 1/4`.
fn fraction(text: &str) -> Option<f64> {
    let mut sum = 0.0;
    for part in text.split(' ') {
        sum += match part.split_once('/') {
            Some((above, below)) => above.parse::<f64>().ok()? / below.parse::<f64>().ok()?,
            None => part.parse().ok()?,
        };
    }
    Some(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A table that could not be read would rate nothing, and nobody would see why.
    #[test]
    fn every_table_is_read_whole() {
        let rows = |tables: &'static [SlingTable]| -> Vec<usize> {
            tables.iter().map(|table| table.rows.len()).collect()
        };
        assert_eq!(rows(us_tables()), [10, 8, 5]);
        assert_eq!(rows(longshoring_tables()), [19]);
        assert_eq!(rows(en_tables()), [10]);
    }

    /// Mistyped cells show: in every published table a larger size carries more.
    #[test]
    fn a_larger_size_carries_more() {
        let all = us_tables().iter().chain(longshoring_tables());
        for table in all.chain(en_tables()) {
            for hitch in Hitch::ALL {
                let rated: Vec<_> = table.rows.iter().filter_map(|row| row.of(hitch)).collect();
                assert!(rated.windows(2).all(|two| two[0] < two[1]), "{hitch:?}");
            }
            for two in table.rows.windows(2) {
                assert!(two[0].diameters[0] < two[1].diameters[0], "{}", two[1].size);
            }
        }
    }
}
