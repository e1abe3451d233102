//! The stations of a move, as a table.

use super::place::{Level, PlanPlace};
use super::quantity::Exact;
use super::reference::{StandName, SurfaceName};
use super::table::{Cells, Column, Table, TableRow};
use super::words::Words;
use crate::declare::Link;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::Origin;
use plumbhook_syntax::Node;
use plumbhook_units::Length;

/// How high the load is.
#[derive(Clone, Debug)]
pub enum Standing {
    /// Its underside at a level, as planned: without a band.
    Level(Level),
    /// Its underside so far above a floor.
    Above(SurfaceName, Length),
    /// Set down on something.
    On(StandName),
}

/// One station.
#[derive(Clone, Debug)]
pub struct Station {
    /// Where the origin of the load's frame is in plan.
    pub at: PlanPlace,
    /// How high it is.
    pub standing: Standing,
    /// What holds there, in words.
    pub hold: String,
    /// Where the row stands.
    pub origin: Origin,
    /// Where the height stands.
    pub height_origin: Origin,
}

/// Rows `| at | underside | hold |`.
pub type Stations = Table<Station>;

impl TableRow for Station {
    const SAY: &'static str = "rows `| at | underside | hold |`: a place in plan, and `EL 104.25 m`, `above hall 700 mm` or `on stool-3`";
    const COLUMNS: &'static [Column] = &[
        Column::needed("at"),
        Column::needed("underside"),
        Column::optional("hold"),
    ];

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail> {
        let at = cells.read_by("at", PlanPlace::read_part)?;
        let height = cells.read_by("underside", standing)?;
        let hold = cells.optional::<Words>("hold")?;
        Ok(Self {
            at: at.value,
            standing: height.value,
            hold: hold.map_or_else(String::new, |hold| hold.value.0),
            origin: at.origin,
            height_origin: height.origin,
        })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.at.link());
        match &self.standing {
            Standing::Above(surface, _) => out.push(surface.link()),
            Standing::On(stand) => out.push(stand.link()),
            Standing::Level(level) => out.push(level.datum.link()),
        }
    }
}

fn standing(cell: &mut Cursor<'_, '_>) -> Result<Standing, Fail> {
    if cell.word("on") {
        return StandName::read_part(cell).map(Standing::On);
    }
    if cell.word("above") {
        let surface = SurfaceName::read_part(cell)?;
        return Exact::<Length>::read(cell).map(|height| Standing::Above(surface, height.0));
    }
    if matches!(cell.peek().map(|item| &item.node), Some(Node::Word(word)) if !Cursor::is_glue(word))
    {
        let level = Level::read_part(cell)?;
        if level.above.nominal.is_some() && level.above.is_plain() {
            return Ok(Standing::Level(level));
        }
        return Err(cell.broken("a planned level has no band", ""));
    }
    if cell.word("unknown") {
        return Err(Fail::Unknown);
    }
    Err(cell.broken(
        "how high the load is, is missing here",
        "write `EL 104.25 m`, `above hall 700 mm` or `on stool-3`",
    ))
}
