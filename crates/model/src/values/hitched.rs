//! How a sling stands in a leg when it is not pulled straight: choked, or in a basket.

use super::choice::Choice;
use super::quantity::Banded;
use crate::{Cursor, Fail};
use plumbhook_mechanics::sling::Hitch;
use plumbhook_units::{ChokeAngle, Length, Measured};

/// How a piece stands in its leg: `choker reach 4.10 m +/- 30 mm choke 130 deg`, `basket reach 2.30 m +/- 20 mm over 900 mm edge padded fast`;
/// a straight pull where nothing is said.
#[derive(Clone, Debug, PartialEq)]
pub struct Hitched {
    /// The hitch.
    pub hitch: Hitch,
    /// From the lifting point to the next piece: of a sling that goes round the load not its own length.
    pub reach: Option<Banded<Length>>,
    /// Angle of choke.
    pub choke: Option<Banded<ChokeAngle>>,
    /// Diameter of what it goes round.
    pub over: Option<Banded<Length>>,
    /// What it lies on at the edges of the load.
    pub edge: Option<Edge>,
    /// Whether something keeps it from sliding round the load.
    pub fast: bool,
}

/// What a sling lies on at the edges of the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Padding between them.
    Padded,
    /// No edge that could cut it.
    Rounded,
    /// Sharp, and bare.
    Sharp,
}

impl Hitched {
    const STRAIGHT: Self = Self {
        hitch: Hitch::Vertical,
        reach: None,
        choke: None,
        over: None,
        edge: None,
        fast: false,
    };

    /// Reads what stands behind a piece, up to the next comma.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut it = Self::STRAIGHT;
        it.hitch = if line.word("choker") {
            Hitch::Choker
        } else if line.word("basket") {
            Hitch::Basket
        } else {
            return Ok(it);
        };
        loop {
            if it.reach.is_none() && line.word("reach") {
                it.reach = part(line)?;
            } else if it.hitch == Hitch::Choker && it.choke.is_none() && line.word("choke") {
                it.choke = part(line)?;
            } else if it.hitch == Hitch::Basket && it.over.is_none() && line.word("over") {
                it.over = part(line)?;
            } else if it.edge.is_none() && line.word("edge") {
                it.edge = edge(line)?;
            } else if it.hitch == Hitch::Basket && !it.fast && line.word("fast") {
                it.fast = true;
            } else {
                return Ok(it);
            }
        }
    }
}

/// A part of it; nothing where it is typed `unknown`, which is as good as not said.
fn part<T: Measured>(line: &mut Cursor<'_, '_>) -> Result<Option<Banded<T>>, Fail> {
    if line.word("unknown") {
        return Ok(None);
    }
    Banded::read_part(line).map(Some)
}

fn edge(line: &mut Cursor<'_, '_>) -> Result<Option<Edge>, Fail> {
    let edge = [
        ("padded", Some(Edge::Padded)),
        ("rounded", Some(Edge::Rounded)),
        ("sharp", Some(Edge::Sharp)),
        ("unknown", None),
    ];
    let found = edge.into_iter().find(|(word, _)| line.word(word));
    let say = "what the sling lies on is missing here";
    let mend = "`edge padded`, `edge rounded`, `edge sharp` or `edge unknown`";
    found
        .map(|(_, edge)| edge)
        .ok_or_else(|| line.broken(say, mend))
}

/// What the rating of a sling is read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RatedBy;

impl Choice for RatedBy {
    const WORDS: &'static [&'static str] = &["tag", "table"];
}
