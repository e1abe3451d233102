//! What the client said when it began: how it counts, which folders it has open, what it can do.

use std::path::PathBuf;
use tower_lsp::ls_types::InitializeParams;

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

/// What the client said when it began.
#[derive(Clone, Debug, Default)]
pub(crate) struct Session {
    pub(crate) encoding: Encoding,
    pub(crate) folders: Vec<Folder>,
    pub(crate) watches_on_request: bool,
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
