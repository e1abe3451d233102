//! `textDocument/completion`: what can stand at the place, from the declarations.

use plumbhook_ide::{Offer, OfferKind};
use tower_lsp::ls_types::{
    CompletionItem, CompletionItemKind, CompletionOptions, CompletionParams, CompletionResponse,
    CompletionTextEdit, Documentation, InsertTextFormat, MarkupContent, MarkupKind, Range,
    ServerCapabilities, TextEdit,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = CompletionParams;
pub(super) type Answer = Option<CompletionResponse>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    // Behind a blank the next item of a line begins, behind a dot a member, behind a bar a cell.
    let signs = [" ", ".", "|"];
    server.completion_provider = Some(CompletionOptions {
        trigger_characters: Some(signs.map(str::to_owned).to_vec()),
        ..CompletionOptions::default()
    });
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let asked = &params.text_document_position;
    let Some(file) = view.file(&asked.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let at = file.lines.place(asked.position);
    let found = plumbhook_ide::completion(file.snapshot, &file.path, at.line, at.column);
    Ok(found.map(|found| {
        let range = file.range(at.line, found.replaces.start, found.replaces.end);
        let offers = found.offers.into_iter().enumerate();
        let snippets = view.abilities.snippets;
        let items = offers.map(|(order, offer)| item(order, offer, range, snippets));
        CompletionResponse::Array(items.collect())
    }))
}

fn item(order: usize, offer: Offer, range: Range, snippets: bool) -> CompletionItem {
    let snippet = offer.snippet.filter(|_| snippets);
    let format = snippet.is_some().then_some(InsertTextFormat::SNIPPET);
    let help = Some(offer.help).filter(|help| !help.is_empty());
    CompletionItem {
        kind: Some(kind(offer.kind)),
        detail: Some(offer.detail).filter(|detail| !detail.is_empty()),
        documentation: help.map(|value| {
            Documentation::MarkupContent(MarkupContent {
                kind: MarkupKind::Markdown,
                value,
            })
        }),
        // Ours is the order of what is likely, a client's own is that of the alphabet.
        sort_text: Some(format!("{order:05}")),
        filter_text: Some(offer.label.clone()),
        insert_text_format: format,
        text_edit: Some(CompletionTextEdit::Edit(TextEdit {
            range,
            new_text: snippet.unwrap_or(offer.insert),
        })),
        label: offer.label,
        ..CompletionItem::default()
    }
}

fn kind(kind: OfferKind) -> CompletionItemKind {
    match kind {
        OfferKind::EntryWord => CompletionItemKind::CLASS,
        OfferKind::Key => CompletionItemKind::PROPERTY,
        OfferKind::Word => CompletionItemKind::KEYWORD,
        OfferKind::Name => CompletionItemKind::REFERENCE,
        OfferKind::Unit => CompletionItemKind::UNIT,
        OfferKind::Column => CompletionItemKind::FIELD,
    }
}
