//! `textDocument/selectionRange`: what a selection grows through.

use tower_lsp::ls_types::{
    Position, Range, SelectionRange, SelectionRangeParams, SelectionRangeProviderCapability,
    ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::{File, View};

pub(super) type Params = SelectionRangeParams;
pub(super) type Answer = Option<Vec<SelectionRange>>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.selection_range_provider = Some(SelectionRangeProviderCapability::Simple(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    let mut all = Vec::with_capacity(params.positions.len().min(1_000));
    for position in &params.positions {
        cancel.check()?;
        all.push(growing(&file, *position));
    }
    Ok(Some(all))
}

/// One answer for each place: the protocol counts on it.
fn growing(file: &File<'_>, position: Position) -> SelectionRange {
    let at = file.lines.place(position);
    let found = plumbhook_ide::selections(file.snapshot, &file.path, at.line, at.column);
    let outermost_first = found.into_iter().rev();
    let grown = outermost_first.fold(None, |parent: Option<SelectionRange>, stretch| {
        Some(SelectionRange {
            range: file.stretch(stretch),
            parent: parent.map(Box::new),
        })
    });
    grown.unwrap_or(SelectionRange {
        range: Range {
            start: position,
            end: position,
        },
        parent: None,
    })
}
