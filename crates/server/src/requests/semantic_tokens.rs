//! `textDocument/semanticTokens/full`: what each word is, for colouring.

use plumbhook_ide::{SemanticToken, TokenClass};
use std::ops::RangeInclusive;
use tower_lsp::ls_types::{
    self as lsp, SemanticTokenModifier, SemanticTokenType, SemanticTokens,
    SemanticTokensFullOptions, SemanticTokensLegend, SemanticTokensOptions, SemanticTokensParams,
    SemanticTokensResult, SemanticTokensServerCapabilities, ServerCapabilities,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = SemanticTokensParams;
pub(super) type Answer = Option<SemanticTokensResult>;

pub(super) const LANE: Lane = Lane::Quick;

/// What each class is for a client; its place in the list is its number on the wire.
const CLASSES: [(TokenClass, SemanticTokenType); 10] = [
    (TokenClass::EntryWord, SemanticTokenType::KEYWORD),
    (TokenClass::Key, SemanticTokenType::PROPERTY),
    (TokenClass::Declaration, SemanticTokenType::CLASS),
    (TokenClass::Name, SemanticTokenType::VARIABLE),
    (TokenClass::Word, SemanticTokenType::ENUM_MEMBER),
    (TokenClass::Number, SemanticTokenType::NUMBER),
    (TokenClass::Unit, SemanticTokenType::TYPE),
    (TokenClass::Text, SemanticTokenType::STRING),
    (TokenClass::Comment, SemanticTokenType::COMMENT),
    (TokenClass::Operator, SemanticTokenType::OPERATOR),
];

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    let legend = SemanticTokensLegend {
        token_types: CLASSES.map(|(_, kind)| kind).to_vec(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    };
    let options = SemanticTokensOptions {
        legend,
        range: Some(true),
        full: Some(SemanticTokensFullOptions::Bool(true)),
        ..SemanticTokensOptions::default()
    };
    server.semantic_tokens_provider = Some(
        SemanticTokensServerCapabilities::SemanticTokensOptions(options),
    );
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let found = of_lines(view, &params.text_document.uri, &(0..=u32::MAX), cancel)?;
    Ok(found.map(SemanticTokensResult::Tokens))
}

/// The words of some lines, each told by its distance from the one before it.
pub(super) fn of_lines(
    view: &View,
    uri: &lsp::Uri,
    lines: &RangeInclusive<u32>,
    cancel: &Cancel,
) -> Result<Option<SemanticTokens>, Cancelled> {
    let Some(file) = view.file(uri) else {
        return Ok(None);
    };
    let found = plumbhook_ide::semantic_tokens(file.snapshot, &file.path, lines, cancel)?;
    let mut data = Vec::with_capacity(found.len());
    let mut before = lsp::Position::default();
    for token in found {
        let SemanticToken { line, place, class } = token;
        let range = file.range(line, place.start, place.end);
        let at = range.start;
        let same_line = at.line == before.line;
        let kind = CLASSES.iter().position(|(known, _)| *known == class);
        data.push(lsp::SemanticToken {
            delta_line: at.line - before.line,
            delta_start: at.character - if same_line { before.character } else { 0 },
            length: range.end.character - at.character,
            token_type: kind
                .and_then(|kind| u32::try_from(kind).ok())
                .unwrap_or_default(),
            token_modifiers_bitset: u32::from(class == TokenClass::Declaration),
        });
        before = at;
    }
    Ok(Some(SemanticTokens {
        result_id: None,
        data,
    }))
}
