//! The protocol's service. What it answers is in `requests`; here is how a session begins and how
//! a question runs.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;
use tokio::sync::oneshot;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::ls_types::{
    DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern, InitializeParams,
    InitializeResult, OneOf, Registration, ServerCapabilities, ServerInfo,
    TextDocumentSyncCapability, TextDocumentSyncKind, TextDocumentSyncOptions,
    WorkspaceFoldersServerCapabilities, WorkspaceServerCapabilities,
};

use crate::cancel::CancelOnDrop;
use crate::engine::{Cancel, Cancelled};
use crate::events::Event;
use crate::fence::{internal_error, place};
use crate::lanes::{Lane, Lanes};
use crate::log::{self, fenced};
use crate::requests;
use crate::session::Session;
use crate::view::View;

/// Why a question has no answer.
pub(crate) enum Unanswered {
    /// Nobody waits for it any more.
    Cancelled,
    /// What is asked for cannot be done, in words for a person.
    Refused(String),
}

impl From<Cancelled> for Unanswered {
    fn from(_: Cancelled) -> Self {
        Self::Cancelled
    }
}

impl Unanswered {
    fn error(self) -> Error {
        match self {
            Self::Cancelled => Error::request_cancelled(),
            // `RequestFailed` of the protocol: the question was understood.
            Self::Refused(why) => Error {
                code: ErrorCode::ServerError(-32803),
                message: why.into(),
                data: None,
            },
        }
    }
}

/// The protocol's service.
pub(crate) struct Language {
    client: Client,
    inbox: Sender<Event>,
    lanes: Lanes,
    /// Patterns of the files whose change on disk matters.
    watched: Vec<String>,
    watches_on_request: AtomicBool,
}

impl Language {
    pub(crate) fn new(
        client: Client,
        inbox: Sender<Event>,
        lanes: Lanes,
        watched: Vec<String>,
    ) -> Self {
        Self {
            client,
            inbox,
            lanes,
            watched,
            watches_on_request: AtomicBool::new(false),
        }
    }

    /// Answers `initialize`. Nothing is awaited, so the next message finds a session.
    pub(crate) fn begin(&self, params: &InitializeParams) -> InitializeResult {
        let session = Session::new(params);
        let encoding = session.encoding.kind();
        let abilities = session.abilities;
        self.watches_on_request
            .store(session.watches_on_request, Ordering::Release);
        if self.inbox.send(Event::Begin(session)).is_err() {
            log::line("the owner of the texts is gone (our bug)");
        }
        let mut capabilities = ServerCapabilities {
            position_encoding: Some(encoding),
            text_document_sync: Some(TextDocumentSyncCapability::Options(
                TextDocumentSyncOptions {
                    open_close: Some(true),
                    change: Some(TextDocumentSyncKind::INCREMENTAL),
                    ..TextDocumentSyncOptions::default()
                },
            )),
            workspace: Some(WorkspaceServerCapabilities {
                workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                    supported: Some(true),
                    change_notifications: Some(OneOf::Left(true)),
                }),
                ..WorkspaceServerCapabilities::default()
            }),
            ..ServerCapabilities::default()
        };
        requests::announce(&mut capabilities, abilities);
        InitializeResult {
            capabilities,
            server_info: Some(ServerInfo {
                name: "plumbhook".to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
            ..InitializeResult::default()
        }
    }

    /// Asks the client to watch our files, if it offers that.
    pub(crate) async fn watch(&self) {
        if self.watched.is_empty() || !self.watches_on_request.load(Ordering::Acquire) {
            return;
        }
        let watchers = self.watched.iter().map(|pattern| FileSystemWatcher {
            glob_pattern: GlobPattern::String(pattern.clone()),
            kind: None,
        });
        let options = DidChangeWatchedFilesRegistrationOptions {
            watchers: watchers.collect(),
        };
        let registration = Registration {
            id: "plumbhook-files".to_owned(),
            method: "workspace/didChangeWatchedFiles".to_owned(),
            register_options: serde_json::to_value(options).ok(),
        };
        if let Err(error) = self.client.register_capability(vec![registration]).await {
            log::line(format_args!(
                "the client does not watch files for us: {error}"
            ));
        }
    }

    /// Runs a question on the state of its place, on a worker thread.
    pub(crate) async fn ask<P, A, E>(
        &self,
        lane: Lane,
        params: P,
        answer: fn(&View, &P, &Cancel) -> std::result::Result<A, E>,
    ) -> Result<A>
    where
        P: Send + 'static,
        A: Send + 'static,
        E: Into<Unanswered> + Send + 'static,
    {
        let Some(place) = place() else {
            return Err(internal_error());
        };
        let view = place.await.map_err(|_| internal_error())?;
        let cancel = Cancel::default();
        // Dropped with this future: by `$/cancelRequest`, or when we leave.
        let _guard = CancelOnDrop(cancel.clone());
        let (reply, answered) = oneshot::channel();
        let asked = cancel.clone();
        self.lanes.spawn(lane, move || {
            if !asked.is_cancelled() {
                // Nobody may be waiting any more.
                let _ = reply.send(fenced(|| answer(&view, &params, &asked)));
            }
        });
        match answered.await {
            Ok(Some(Ok(answer))) => Ok(answer),
            Ok(Some(Err(why))) => Err(why.into().error()),
            Ok(None) | Err(_) => Err(internal_error()),
        }
    }
}
