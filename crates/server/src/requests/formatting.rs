//! `textDocument/formatting`: what the formatter of the command line would write.

use tower_lsp::ls_types::{DocumentFormattingParams, OneOf, ServerCapabilities, TextEdit};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = DocumentFormattingParams;
pub(super) type Answer = Option<Vec<TextEdit>>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.document_formatting_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let found = plumbhook_ide::formatting(file.snapshot, &file.path);
    let edits = found.into_iter().map(|edit| TextEdit {
        range: file.stretch(edit.at),
        new_text: edit.new,
    });
    Ok(Some(edits.collect()))
}
