//! `textDocument/documentSymbol`: the entries of a file and their members.

use plumbhook_ide::Symbol;
use plumbhook_model::Role;
use tower_lsp::ls_types::{
    DocumentSymbol, DocumentSymbolParams, DocumentSymbolResponse, Location, OneOf,
    ServerCapabilities, SymbolInformation, SymbolKind,
};

use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::{File, View};

pub(super) type Params = DocumentSymbolParams;
pub(super) type Answer = Option<DocumentSymbolResponse>;

pub(super) const LANE: Lane = Lane::Quick;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.document_symbol_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let Some(file) = view.file(&params.text_document.uri) else {
        return Ok(None);
    };
    cancel.check()?;
    let found = plumbhook_ide::document_symbols(file.snapshot, &file.path);
    if view.abilities.symbol_tree {
        let tree = found.into_iter().map(|symbol| node(&file, symbol));
        return Ok(Some(DocumentSymbolResponse::Nested(tree.collect())));
    }
    let uri = &params.text_document.uri;
    let flat = found.into_iter().map(|symbol| flat(&file, uri, symbol));
    Ok(Some(DocumentSymbolResponse::Flat(flat.collect())))
}

#[expect(deprecated, reason = "the type has a field that the protocol gave up")]
fn node(file: &File<'_>, symbol: Symbol) -> DocumentSymbol {
    let members = symbol.members.into_iter().map(|member| node(file, member));
    let members: Vec<_> = members.collect();
    DocumentSymbol {
        name: symbol.name,
        detail: Some(symbol.detail).filter(|detail| !detail.is_empty()),
        kind: kind(symbol.role),
        tags: None,
        deprecated: None,
        range: file.whole(*symbol.lines.start(), *symbol.lines.end()),
        selection_range: file.range(symbol.at.line, symbol.at.start, symbol.at.end),
        children: (!members.is_empty()).then_some(members),
    }
}

#[expect(deprecated, reason = "the type has a field that the protocol gave up")]
fn flat(file: &File<'_>, uri: &tower_lsp::ls_types::Uri, symbol: Symbol) -> SymbolInformation {
    SymbolInformation {
        name: symbol.name,
        kind: kind(symbol.role),
        tags: None,
        deprecated: None,
        location: Location {
            uri: uri.clone(),
            range: file.whole(*symbol.lines.start(), *symbol.lines.end()),
        },
        container_name: None,
    }
}

/// The protocol's kinds are a programmer's; each of ours takes one that clients show apart from the others.
pub(super) fn kind(role: Option<Role>) -> SymbolKind {
    match role {
        Some(Role::Plant) => SymbolKind::NAMESPACE,
        Some(Role::Source) => SymbolKind::FILE,
        Some(Role::Load) => SymbolKind::OBJECT,
        Some(Role::Rigging) => SymbolKind::STRUCT,
        Some(Role::Move) => SymbolKind::EVENT,
        Some(Role::Machine) => SymbolKind::CLASS,
        Some(Role::Surface | Role::Stand) => SymbolKind::MODULE,
        Some(_) => SymbolKind::CONSTANT,
        None => SymbolKind::FIELD,
    }
}
