//! `textDocument/semanticTokens/range`: the same for the lines that are shown.

use tower_lsp::ls_types::{
    SemanticTokensRangeParams, SemanticTokensRangeResult, ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = SemanticTokensRangeParams;
pub(super) type Answer = Option<SemanticTokensRangeResult>;

pub(super) const LANE: Lane = Lane::Quick;

/// `semantic_tokens` announces both.
pub(super) fn announce(_: &mut ServerCapabilities, _: Abilities) {}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let lines = params.range.start.line..=params.range.end.line;
    let found = super::semantic_tokens::of_lines(view, &params.text_document.uri, &lines, cancel)?;
    Ok(found.map(SemanticTokensRangeResult::Tokens))
}
