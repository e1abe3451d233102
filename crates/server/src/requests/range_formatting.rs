//! `textDocument/rangeFormatting`: the same for the entries that a range touches.

use tower_lsp::ls_types::{DocumentRangeFormattingParams, OneOf, ServerCapabilities, TextEdit};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = DocumentRangeFormattingParams;
pub(super) type Answer = Option<Vec<TextEdit>>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.document_range_formatting_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let (start, end) = (params.range.start, params.range.end);
    // A range that ends at the start of a line does not touch it.
    let open = end.character == 0 && end.line > start.line;
    let lines = start.line..end.line.saturating_add(u32::from(!open));
    let found = plumbhook_ide::range_formatting(file.snapshot, &file.path, &lines);
    let edits = found.into_iter().map(|edit| TextEdit {
        range: file.stretch(edit.at),
        new_text: edit.new,
    });
    Ok(Some(edits.collect()))
}
