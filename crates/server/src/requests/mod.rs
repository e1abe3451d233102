//! One file per request. A new one is its file, its `mod` line and its row in the table below; `pulled` is what two
//! of them share.
//!
//! Each file has `Params` and `Answer` (the protocol's types), its `LANE`, `announce` (what the
//! client is told that we can do) and `answer`.

use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    InitializeParams, InitializeResult, InitializedParams, ServerCapabilities,
};

use crate::language::Language;
use crate::session::Abilities;

mod completion;
mod definition;
mod document_diagnostic;
mod document_highlight;
mod document_symbol;
mod folding_range;
mod formatting;
mod hover;
mod inlay_hint;
mod prepare_rename;
mod pulled;
mod range_formatting;
mod references;
mod rename;
mod selection_range;
mod semantic_tokens;
mod semantic_tokens_range;
mod workspace_diagnostic;
mod workspace_symbol;

macro_rules! requests {
    ($($method:ident in $file:ident;)+) => {
        /// Adds what the requests can do to what the client is told.
        pub(crate) fn announce(server: &mut ServerCapabilities, client: Abilities) {
            $($file::announce(server, client);)+
        }

        impl LanguageServer for Language {
            async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
                Ok(self.begin(&params))
            }

            async fn initialized(&self, _: InitializedParams) {
                self.watch().await;
            }

            async fn shutdown(&self) -> Result<()> {
                Ok(())
            }

            $(async fn $method(&self, params: $file::Params) -> Result<$file::Answer> {
                self.ask($file::LANE, params, $file::answer).await
            })+
        }
    };
}

requests! {
    goto_definition in definition;
    hover in hover;
    completion in completion;
    inlay_hint in inlay_hint;
    references in references;
    document_highlight in document_highlight;
    prepare_rename in prepare_rename;
    rename in rename;
    document_symbol in document_symbol;
    symbol in workspace_symbol;
    folding_range in folding_range;
    selection_range in selection_range;
    formatting in formatting;
    range_formatting in range_formatting;
    semantic_tokens_full in semantic_tokens;
    semantic_tokens_range in semantic_tokens_range;
    diagnostic in document_diagnostic;
    workspace_diagnostic in workspace_diagnostic;
}
