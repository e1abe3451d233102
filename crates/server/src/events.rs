//! What the owner is told, in the order in which it arrived.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::sync::Arc;
use tokio::sync::oneshot;
use tower_lsp::ls_types::Range;

use crate::session::{Folder, Session};
use crate::view::View;

/// One thing for the owner to do. All of them come through one channel, so there is one order.
pub(crate) enum Event {
    /// The client has said who it is.
    Begin(Session),
    /// The client has heard our answer: from here on it may be told things.
    Ready,
    Open {
        uri: String,
        version: Option<i32>,
        text: String,
    },
    Change {
        uri: String,
        version: Option<i32>,
        changes: Vec<Change>,
    },
    Close {
        uri: String,
    },
    /// A change that cannot be read: from here on the text, or every text, is not the editor's.
    Lost {
        uri: Option<String>,
        why: String,
    },
    Disk {
        uris: Vec<String>,
    },
    Folders {
        added: Vec<Folder>,
        removed: Vec<Folder>,
    },
    /// A question wants the state of its place in the order.
    Ask(oneshot::Sender<Arc<View>>),
}

/// A piece of text put in place of a range, or of the whole text where there is no range.
#[derive(Debug, Deserialize)]
pub(crate) struct Change {
    pub(crate) range: Option<Range>,
    pub(crate) text: String,
}

/// Whether a message is for the owner alone. Its handler is [`read`], never an asynchronous one.
pub(crate) fn is_for_owner(method: &str) -> bool {
    matches!(
        method,
        "textDocument/didOpen"
            | "textDocument/didChange"
            | "textDocument/didClose"
            | "workspace/didChangeWatchedFiles"
            | "workspace/didChangeWorkspaceFolders"
    )
}

/// Reads such a message. Addresses stay strings here: a client may send what is no valid address.
pub(crate) fn read(method: &str, params: Value) -> Result<Event, String> {
    match method {
        "textDocument/didOpen" => take(params).map(|p: Opened| Event::Open {
            uri: p.text_document.uri,
            version: p.text_document.version,
            text: p.text_document.text,
        }),
        "textDocument/didChange" => Ok(changed(params)),
        "textDocument/didClose" => take(params).map(|p: Closed| Event::Close {
            uri: p.text_document.uri,
        }),
        "workspace/didChangeWatchedFiles" => take(params).map(|p: Watched| Event::Disk {
            uris: p.changes.into_iter().map(|c| c.uri).collect(),
        }),
        _ => take(params).map(|p: FoldersChanged| Event::Folders {
            added: p
                .event
                .added
                .iter()
                .filter_map(|f| Folder::new(&f.uri))
                .collect(),
            removed: p
                .event
                .removed
                .iter()
                .filter_map(|f| Folder::new(&f.uri))
                .collect(),
        }),
    }
}

fn changed(params: Value) -> Event {
    let uri = params
        .pointer("/textDocument/uri")
        .and_then(Value::as_str)
        .map(str::to_owned);
    match take(params) {
        Ok(Changed {
            text_document,
            content_changes,
        }) => Event::Change {
            uri: text_document.uri,
            version: text_document.version,
            changes: content_changes,
        },
        Err(why) => Event::Lost { uri, why },
    }
}

fn take<P: DeserializeOwned>(params: Value) -> Result<P, String> {
    serde_json::from_value(params).map_err(|error| error.to_string())
}

#[derive(Deserialize)]
struct Named {
    uri: String,
}

#[derive(Deserialize)]
struct Versioned {
    uri: String,
    version: Option<i32>,
}

#[derive(Deserialize)]
struct WithText {
    uri: String,
    version: Option<i32>,
    text: String,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Opened {
    text_document: WithText,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Changed {
    text_document: Versioned,
    content_changes: Vec<Change>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Closed {
    text_document: Named,
}

#[derive(Deserialize)]
struct Watched {
    changes: Vec<Named>,
}

#[derive(Deserialize)]
struct FoldersChanged {
    event: FolderLists,
}

#[derive(Deserialize)]
struct FolderLists {
    added: Vec<Named>,
    removed: Vec<Named>,
}
