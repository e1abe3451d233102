//! `textDocument/definition`: where the name under the pointer is declared.

use tower_lsp::ls_types::{
    GotoDefinitionParams, GotoDefinitionResponse, OneOf, ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = GotoDefinitionParams;
pub(super) type Answer = Option<GotoDefinitionResponse>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.definition_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some((snapshot, path, at)) = view.asked(&params.text_document_position_params) else {
        return Ok(None);
    };
    let found = snapshot.definition(&path, at, cancel)?;
    let mut converter = view.converter();
    let places: Vec<_> = found
        .iter()
        .filter_map(|to| converter.location(to))
        .collect();
    Ok((!places.is_empty()).then_some(GotoDefinitionResponse::Array(places)))
}
