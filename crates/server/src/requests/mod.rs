//! One file per request. A new one is its file, its `mod` line and its row in the table below.
//!
//! Each file has `Params` and `Answer` (the protocol's types), its `LANE`, `announce` (what the
//! client is told that we can do) and `answer`.

use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    InitializeParams, InitializeResult, InitializedParams, ServerCapabilities,
};

use crate::language::Language;

mod definition;
mod hover;

macro_rules! requests {
    ($($method:ident in $file:ident;)+) => {
        /// Adds what the requests can do to what the client is told.
        pub(crate) fn announce(server: &mut ServerCapabilities) {
            $($file::announce(server);)+
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
}
