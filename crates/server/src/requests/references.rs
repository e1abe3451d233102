//! `textDocument/references`: every place that names what is under the pointer.

use tower_lsp::ls_types::{Location, OneOf, ReferenceParams, ServerCapabilities};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = ReferenceParams;
pub(super) type Answer = Option<Vec<Location>>;

/// It goes through all files.
pub(super) const LANE: Lane = Lane::Calculation;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.references_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let asked = &params.text_document_position;
    let Some(file) = view.file(&asked.text_document.uri) else {
        return Ok(None);
    };
    let at = file.lines.place(asked.position);
    let found = plumbhook_ide::references(file.snapshot, &file.path, at.line, at.column, cancel)?;
    let mut converter = view.converter();
    let wanted = found
        .iter()
        .filter(|it| params.context.include_declaration || !it.declares);
    let places = wanted.filter_map(|it| converter.located(&it.at));
    Ok(Some(places.collect()))
}
