//! A load chart: the configuration that it holds for, and what it rates at each radius.

use super::configuration::Configuration;
use super::quantity::Exact;
use super::table::{Cells, Column, Table, TableRow};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::load_chart::Cell;
use plumbhook_sheet::Origin;
use plumbhook_units::{Length, RatedForce};

/// `needs boom 36.2 m, counterweight 54 t`, and rows of radius and rating below it.
#[derive(Clone, Debug)]
pub struct Chart {
    /// The configuration that it holds for, whole.
    pub needs: Configuration,
    /// Its cells in order.
    pub cells: Vec<ChartCell>,
}

/// A cell and where it stands.
#[derive(Clone, Debug)]
pub struct ChartCell {
    /// Radius and rating.
    pub cell: Cell,
    /// The rating, or its radius where it is empty.
    pub origin: Origin,
}

impl TableRow for ChartCell {
    const SAY: &'static str =
        "rows `| radius | rated |`, or one row each; an empty cell is not rated";
    const COLUMNS: &'static [Column] = &[Column::needed("radius"), Column::needed("rated")];

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail> {
        let radius = cells.read::<Exact<Length>>("radius")?;
        let rated = cells.optional::<Exact<RatedForce>>("rated")?;
        Ok(Self {
            cell: Cell {
                radius: radius.value.0,
                rated: rated.as_ref().map(|rated| rated.value.0),
            },
            origin: rated.map_or(radius.origin, |rated| rated.origin),
        })
    }
}

impl Value for Chart {
    const SHAPE: Shape = Shape {
        say: "its name, the whole configuration that it holds for, and rows of radius and rating: `main-36 needs boom 36.2 m, counterweight 54 t` with `| radius | 8 m | 10 m |` and `| rated | 51 t | 40.2 t |` below",
        kind: None,
        words: &["needs", "radius", "rated"],
        role: None,
    };
    const ROWS: bool = true;

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if !line.word("needs") {
            return Err(line.broken(
                "a chart says which configuration it holds for",
                "as `needs boom 36.2 m, counterweight 54 t, tracks out`",
            ));
        }
        let needs = Configuration::read_part(line)?;
        let Table(cells) = Table::read(line)?;
        Ok(Self { needs, cells })
    }
}
