//! The stations of a move, as a table.

use super::height_of::HeightOf;
use super::hold::HoldHere;
use super::place::{Level, PlanPlace};
use super::quantity::Exact;
use super::reference::{PlaceName, StandName, SurfaceName};
use super::table::{Cells, Column, InCell, Table, TableRow};
use crate::declare::Link;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::Origin;
use plumbhook_syntax::Node;
use plumbhook_units::Length;

/// How high the load is.
#[derive(Clone, Debug)]
pub enum Standing {
    /// At a level, as planned: without a band.
    Level(Level),
    /// So far above a floor.
    Above(SurfaceName, Length),
    /// At the level of a named place.
    At(PlaceName),
    /// Set down on something.
    On(StandName),
}

/// One station.
#[derive(Clone, Debug)]
pub struct Station {
    /// Where the origin of the load's frame is in plan.
    pub at: PlanPlace,
    /// What of the load the height is given of.
    pub of: HeightOf,
    /// How high that is.
    pub standing: Standing,
    /// The hold there.
    pub hold: Option<HoldHere>,
    /// Where the row stands.
    pub origin: Origin,
    /// Where the height stands.
    pub height_origin: Origin,
}

/// Rows `| at | underside | hold |`; each row gives one height, under `underside`, `lowest`, `cg` or `hook`.
pub type Stations = Table<Station>;

impl TableRow for Station {
    const SAY: &'static str = "rows `| at | underside | hold |`: a place in plan, and how high the underside is (or `lowest`, `cg`, `hook`): `EL 104.25 m`, `above hall 700 mm`, `at unit-3.pit` or `on stool-3`";
    const COLUMNS: &'static [Column] = &[
        Column::needed("at"),
        Column::optional(HeightOf::Underside.column()),
        Column::optional(HeightOf::Lowest.column()),
        Column::optional(HeightOf::CentreOfGravity.column()),
        Column::optional(HeightOf::Hook.column()),
        Column::optional("hold"),
    ];

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail> {
        let at = cells.read_by("at", PlanPlace::read_part)?;
        let (of, height) = height(cells)?;
        let hold = cells.optional::<HoldHere>("hold")?;
        Ok(Self {
            at: at.value,
            of,
            standing: height.value,
            hold: hold.map(|hold| hold.value),
            origin: at.origin,
            height_origin: height.origin,
        })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        self.links_to(out);
    }
}

impl Station {
    /// Every name in it that leads elsewhere.
    pub(crate) fn links_to<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.at.link());
        match &self.standing {
            Standing::Above(surface, _) => out.push(surface.link()),
            Standing::On(stand) => out.push(stand.link()),
            Standing::At(place) => out.push(place.link()),
            Standing::Level(level) => out.push(level.datum.link()),
        }
    }
}

/// The one height that a row gives.
fn height(cells: &Cells<'_, '_>) -> Result<(HeightOf, InCell<Standing>), Fail> {
    let mut found: Option<(HeightOf, InCell<Standing>)> = None;
    for of in HeightOf::ALL {
        let read = cells.optional_by(of.column(), |cell| standing(cell, of))?;
        let Some(read) = read else { continue };
        if let Some((other, _)) = &found {
            let (other, of) = (other.column(), of.column());
            let say = format!("this row gives a height of `{other}` and of `{of}`");
            return Err(cells.fail(say, "keep the one that is planned"));
        }
        found = Some((of, read));
    }
    found.ok_or_else(|| {
        cells.fail(
            "how high the load is, is missing in this row",
            "give it under `underside`, `lowest`, `cg` or `hook`",
        )
    })
}

/// Reads how high that of the load is.
pub(super) fn standing(cell: &mut Cursor<'_, '_>, of: HeightOf) -> Result<Standing, Fail> {
    if cell.word("on") {
        if !of.can_stand() {
            let say = format!("the {} of a load stands on nothing", of.column());
            return Err(cell.broken(say, "give it under `underside`"));
        }
        return StandName::read_part(cell).map(Standing::On);
    }
    if cell.word("at") {
        return PlaceName::read_part(cell).map(Standing::At);
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
        "write `EL 104.25 m`, `above hall 700 mm`, `at unit-3.pit` or `on stool-3`",
    ))
}
