//! What counts against a chart's rating beside the load and its rigging.

use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Mass};

/// `hook-block 1.35 t +/- 3 %, stowed-jib 600 kg +/- 5 %`, or `nothing`.
#[derive(Clone, Debug)]
pub struct Deducts(pub Vec<(Box<str>, Banded<Mass>)>);

impl Value for Deducts {
    const SHAPE: Shape = Shape {
        say: "what counts against the rating beside load and rigging, each with its mass: `hook-block 1.35 t +/- 3 %, stowed-jib 600 kg +/- 5 %`, or `nothing`",
        kind: Some(Kind::Mass),
        words: &["nothing", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("nothing") {
            return Ok(Self(vec![]));
        }
        let mut all = Vec::new();
        loop {
            let (name, _) = line.name("what is deducted")?;
            all.push((name.into(), Banded::read_part(line)?));
            if !line.comma() {
                return Ok(Self(all));
            }
        }
    }
}
