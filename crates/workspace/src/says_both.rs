//! Lines of one entry that cannot all be true: something and nothing of the same.

use plumbhook_model::entries::{Floor, Load};
use plumbhook_model::{Datum, Declared, notices};
use plumbhook_sheet::{Notice, Origin, Related};

/// What an entry says to be there and not to be there.
pub(crate) fn notices_of(entry: &Declared) -> Vec<Notice> {
    let inside = entry.of::<Load>().and_then(inside);
    let voids = entry.of::<Floor>().and_then(voids);
    inside.into_iter().chain(voids).collect()
}

fn inside(load: &Load) -> Option<Notice> {
    let nothing = load.inside.says_nothing_and_something()?;
    let lines = load.inside.lines.iter().filter_map(Datum::known);
    let something = lines.filter(|line| !line.value.0.is_empty());
    Some(Notice {
        code: &notices::SAID_TWICE,
        say: "`inside` says nothing here and something elsewhere, so nobody knows which holds"
            .into(),
        origin: nothing.clone(),
        related: related(
            something.map(|line| &line.origin),
            "this says what is inside",
        ),
        mend: "take `inside nothing` out, or the other lines".into(),
    })
}

fn voids(floor: &Floor) -> Option<Notice> {
    let none = floor.says_none_and_lists()?;
    let members = floor.hole.members.iter().chain(&floor.cavity.members);
    Some(Notice {
        code: &notices::SAID_TWICE,
        say: "`voids none` stands beside holes or cavities, so nobody knows which holds".into(),
        origin: none.clone(),
        related: related(members.map(|(_, datum)| datum.origin()), "this is one"),
        mend: "write `voids listed`, or take the holes and cavities out".into(),
    })
}

fn related<'a>(origins: impl Iterator<Item = &'a Origin>, say: &str) -> Vec<Related> {
    origins
        .take(5)
        .map(|origin| Related {
            origin: origin.clone(),
            say: say.to_owned(),
        })
        .collect()
}
