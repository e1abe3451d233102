//! `textDocument/inlayHint`: results of the checks at the ends of lines.

use tower_lsp::ls_types::{
    InlayHint, InlayHintLabel, InlayHintParams, InlayHintTooltip, MarkupContent, MarkupKind, OneOf,
    ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = InlayHintParams;
pub(super) type Answer = Option<Vec<InlayHint>>;

pub(super) const LANE: Lane = Lane::Calculation;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.inlay_hint_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    let Some(checked) = file.state.checked(cancel)? else {
        return Ok(None);
    };
    cancel.check()?;
    let lines = params.range.start.line..=params.range.end.line;
    let found = plumbhook_ide::inlays(file.snapshot, checked, &file.path, &lines);
    let hints = found.into_iter().map(|inlay| InlayHint {
        position: file.range(inlay.line, u32::MAX, u32::MAX).end,
        label: InlayHintLabel::String(inlay.text),
        kind: None,
        text_edits: None,
        tooltip: Some(inlay.markdown)
            .filter(|value| !value.is_empty())
            .map(|value| {
                InlayHintTooltip::MarkupContent(MarkupContent {
                    kind: MarkupKind::Markdown,
                    value,
                })
            }),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    });
    Ok(Some(hints.collect()))
}
