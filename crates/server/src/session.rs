//! What the client said when it began: how it counts, which folders it has open, what it can do.

use std::path::PathBuf;
use tower_lsp::ls_types::{ClientCapabilities, InitializeParams};

use crate::encoding::Encoding;
use crate::uri::path_of;

/// A folder that the client has open, in its own spelling.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Folder {
    pub(crate) uri: String,
    pub(crate) path: PathBuf,
}

impl Folder {
    /// `None` for a folder that is on no disk.
    pub(crate) fn new(uri: &str) -> Option<Self> {
        Some(Self {
            uri: uri.to_owned(),
            path: path_of(uri)?,
        })
    }
}

/// What the client can do beyond what all can.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "the protocol has a flag for each"
)]
pub(crate) struct Abilities {
    /// Asks for findings itself, and can be told to ask again, so that they are not sent to it. One that cannot be
    /// told would go on showing an old "fine" of a file when another one changes: it is sent its findings.
    pub(crate) pulls: bool,
    /// Takes the findings of related files with those of the file that it asks for.
    pub(crate) related_files: bool,
    /// Can be told to ask for results at line ends again.
    pub(crate) asks_inlays_again: bool,
    /// Knows the snippet syntax.
    pub(crate) snippets: bool,
    /// Takes symbols as a tree.
    pub(crate) symbol_tree: bool,
    /// Takes edits of several files with their versions.
    pub(crate) versioned_edits: bool,
}

impl Abilities {
    fn new(client: &ClientCapabilities) -> Self {
        let text = client.text_document.as_ref();
        let workspace = client.workspace.as_ref();
        let pulling = text.and_then(|it| it.diagnostic.as_ref());
        let yes = |flag: Option<bool>| flag.unwrap_or(false);
        Self {
            pulls: pulling.is_some()
                && yes(workspace
                    .and_then(|it| it.diagnostics.as_ref())
                    .and_then(|it| it.refresh_support)),
            related_files: yes(pulling.and_then(|it| it.related_document_support)),
            asks_inlays_again: yes(workspace
                .and_then(|it| it.inlay_hint.as_ref())
                .and_then(|it| it.refresh_support)),
            snippets: yes(text
                .and_then(|it| it.completion.as_ref())
                .and_then(|it| it.completion_item.as_ref())
                .and_then(|it| it.snippet_support)),
            symbol_tree: yes(text
                .and_then(|it| it.document_symbol.as_ref())
                .and_then(|it| it.hierarchical_document_symbol_support)),
            versioned_edits: yes(workspace
                .and_then(|it| it.workspace_edit.as_ref())
                .and_then(|it| it.document_changes)),
        }
    }
}

/// What the client said when it began.
#[derive(Clone, Debug, Default)]
pub(crate) struct Session {
    pub(crate) encoding: Encoding,
    pub(crate) folders: Vec<Folder>,
    pub(crate) watches_on_request: bool,
    pub(crate) abilities: Abilities,
}

impl Session {
    pub(crate) fn new(params: &InitializeParams) -> Self {
        let watching = params
            .capabilities
            .workspace
            .as_ref()
            .and_then(|w| w.did_change_watched_files);
        Self {
            encoding: Encoding::negotiate(&params.capabilities),
            folders: folders(params),
            abilities: Abilities::new(&params.capabilities),
            watches_on_request: watching
                .and_then(|w| w.dynamic_registration)
                .unwrap_or(false),
        }
    }
}

/// The folders, or the one root of clients from before there were several.
#[expect(deprecated, reason = "clients still in use send the root only")]
fn folders(params: &InitializeParams) -> Vec<Folder> {
    let many = params.workspace_folders.as_deref().unwrap_or_default();
    if !many.is_empty() {
        return many
            .iter()
            .filter_map(|f| Folder::new(f.uri.as_str()))
            .collect();
    }
    if let Some(root) = &params.root_uri {
        return Folder::new(root.as_str()).into_iter().collect();
    }
    let path = params
        .root_path
        .as_ref()
        .filter(|p| !p.is_empty())
        .map(PathBuf::from);
    path.map(|path| Folder {
        uri: crate::uri::address(&path),
        path,
    })
    .into_iter()
    .collect()
}
