//! The centre of gravity of a load, asked for axis by axis.

use crate::Datum;
use crate::ask::Ask;
use crate::entries::Load;
use crate::scope::Declared;
use crate::values::AXES;
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, ClaimId, Length};

/// The united centre of gravity, axis by axis, of all claims, in the load's own frame. A tolerance is per
/// axis: the three bands are a box.
pub fn centre_of_gravity(ask: &mut Ask<'_>, declared: &Declared, load: &Load) -> [Band<Length>; 3] {
    let name = declared.name();
    let mut bands = [Band::unknown(); 3];
    let mut origins = Vec::new();
    let mut pedigrees = Vec::new();
    if load.cg.lines.is_empty() {
        ask.lacks(
            format!("centre of gravity of {name}"),
            Lack::Absent,
            &load.cg.home,
            format!("add a line `cg …` to `{name}`: {}", load.cg.key.shape.say),
        );
        return bands;
    }
    for (index, line) in load.cg.lines.iter().enumerate() {
        let claim = ClaimId(u32::try_from(index).unwrap_or(u32::MAX));
        match line {
            Datum::Known(given) => {
                origins.push(given.origin.clone());
                pedigrees.push(given.pedigree.words.clone());
                let axes = given.value.0.iter().zip(AXES);
                for (band, (axis, letter)) in bands.iter_mut().zip(axes) {
                    if let Some(axis) = axis {
                        let what = format!("cg {letter} of {name}");
                        let axis = ask.closed(&what, axis, &given.pedigree, &given.origin);
                        *band = band.unite(axis.band(claim));
                    }
                }
            }
            Datum::Lacking(lacking) => ask.lacks(
                format!("centre of gravity of {name}"),
                lacking.lack,
                &lacking.origin,
                format!("a claim of it is not known: {}", load.cg.key.shape.say),
            ),
        }
    }
    pedigrees.retain(|words| !words.is_empty());
    note(
        ask,
        (name, load),
        &mut bands,
        &origins,
        &pedigrees.join("; "),
    );
    bands
}

fn note(
    ask: &mut Ask<'_>,
    (name, load): (&str, &Load),
    bands: &mut [Band<Length>; 3],
    origins: &[Origin],
    pedigree: &str,
) {
    let known = load.cg.lines.iter().filter_map(Datum::known);
    for (band, axis) in bands.iter_mut().zip(AXES) {
        let what = format!("cg {axis} of {name}");
        if let Some(origin) = origins.first() {
            *band = ask.in_order(&what, *band, origin);
        }
        ask.note_band(&what, *band, origins.to_vec(), pedigree);
        let typed_unknown = known.clone().find(|given| {
            let mut axes = given.value.1.into_iter().zip(AXES);
            axes.any(|(unknown, of)| unknown && of == axis)
        });
        let lack = match (typed_unknown, band.is_known()) {
            (Some(given), _) => (Lack::Unknown, &given.origin),
            (None, true) => continue,
            (None, false) => match origins.first() {
                Some(origin) => (Lack::OneSided, origin),
                None => continue,
            },
        };
        ask.lacks(
            format!("centre of gravity of {name}: {axis}"),
            lack.0,
            lack.1,
            format!("state both sides, as `{axis} 0 +/- 60 mm`"),
        );
    }
}
