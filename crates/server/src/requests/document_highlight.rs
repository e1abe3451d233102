//! `textDocument/documentHighlight`: the same name elsewhere in the file.

use tower_lsp::ls_types::{
    DocumentHighlight, DocumentHighlightKind, DocumentHighlightParams, OneOf, ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = DocumentHighlightParams;
pub(super) type Answer = Option<Vec<DocumentHighlight>>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.document_highlight_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let asked = &params.text_document_position_params;
    let Some(file) = view.file(&asked.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let at = file.lines.place(asked.position);
    let found = plumbhook_ide::highlights(file.snapshot, &file.path, at.line, at.column);
    let marks = found.iter().map(|it| DocumentHighlight {
        range: file.range(it.at.line, it.at.start, it.at.end),
        kind: Some(if it.declares {
            DocumentHighlightKind::WRITE
        } else {
            DocumentHighlightKind::READ
        }),
    });
    Ok(Some(marks.collect()))
}
