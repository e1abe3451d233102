//! `textDocument/foldingRange`: entries, tables and runs of comments.

use tower_lsp::ls_types::{
    FoldingRange, FoldingRangeKind, FoldingRangeParams, FoldingRangeProviderCapability,
    ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = FoldingRangeParams;
pub(super) type Answer = Option<Vec<FoldingRange>>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.folding_range_provider = Some(FoldingRangeProviderCapability::Simple(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let found = plumbhook_ide::folds(file.snapshot, &file.path).into_iter();
    let folds = found.map(|fold| FoldingRange {
        start_line: fold.first,
        end_line: fold.last,
        kind: Some(if fold.comment {
            FoldingRangeKind::Comment
        } else {
            FoldingRangeKind::Region
        }),
        ..FoldingRange::default()
    });
    Ok(Some(folds.collect()))
}
