//! `textDocument/prepareRename`: the name under the pointer, if it can be changed.

use tower_lsp::ls_types::{PrepareRenameResponse, ServerCapabilities, TextDocumentPositionParams};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = TextDocumentPositionParams;
pub(super) type Answer = Option<PrepareRenameResponse>;

pub(super) const LANE: Lane = Lane::Quick;

/// `rename` announces both.
pub(super) fn announce(_: &mut ServerCapabilities, _: Abilities) {}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let at = file.lines.place(params.position);
    let found = plumbhook_ide::renamable(file.snapshot, &file.path, at.line, at.column);
    Ok(found.map(|it| PrepareRenameResponse::RangeWithPlaceholder {
        range: file.range(it.at.line, it.at.start, it.at.end),
        placeholder: it.name,
    }))
}
