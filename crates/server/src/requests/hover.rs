//! `textDocument/hover`: value, source and formula of what stands under the pointer.

use tower_lsp::ls_types::{
    Hover, HoverContents, HoverParams, HoverProviderCapability, MarkupContent, MarkupKind,
    ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = HoverParams;
pub(super) type Answer = Option<Hover>;

/// A computed value may stand in it.
pub(super) const LANE: Lane = Lane::Calculation;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.hover_provider = Some(HoverProviderCapability::Simple(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some((snapshot, path, at)) = view.asked(&params.text_document_position_params) else {
        return Ok(None);
    };
    let text = snapshot.hover(&path, at, cancel)?;
    Ok(text.map(|text| Hover {
        contents: HoverContents::Markup(MarkupContent {
            kind: MarkupKind::Markdown,
            value: text.markdown,
        }),
        range: Some(view.converter().range(&path, text.span)),
    }))
}
