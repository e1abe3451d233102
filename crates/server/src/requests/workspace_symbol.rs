//! `workspace/symbol`: entries of all files by some letters of their name or title.

use tower_lsp::ls_types::{
    OneOf, ServerCapabilities, WorkspaceSymbol, WorkspaceSymbolParams, WorkspaceSymbolResponse,
};

use super::document_symbol::kind;
use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = WorkspaceSymbolParams;
pub(super) type Answer = Option<WorkspaceSymbolResponse>;

/// It goes through all files.
pub(super) const LANE: Lane = Lane::Calculation;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.workspace_symbol_provider = Some(OneOf::Left(true));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let state = view.snapshot.as_deref();
    let Some(snapshot) = state.and_then(|state| state.workspace()) else {
        return Ok(None);
    };
    let found = plumbhook_ide::workspace_symbols(snapshot, &params.query, cancel)?;
    let mut converter = view.converter();
    let symbols = found.into_iter().filter_map(|symbol| {
        Some(WorkspaceSymbol {
            location: OneOf::Left(converter.located(&symbol.at)?),
            name: symbol.name,
            kind: kind(symbol.role),
            tags: None,
            container_name: Some(format!("{} ({})", symbol.detail, symbol.at.shown)),
            data: None,
        })
    });
    Ok(Some(WorkspaceSymbolResponse::Nested(symbols.collect())))
}
