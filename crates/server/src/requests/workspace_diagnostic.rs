//! `workspace/diagnostic`: the findings of every file.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use tower_lsp::ls_types::{
    ServerCapabilities, WorkspaceDiagnosticParams, WorkspaceDiagnosticReport,
    WorkspaceDiagnosticReportResult, WorkspaceDocumentDiagnosticReport,
    WorkspaceFullDocumentDiagnosticReport, WorkspaceUnchangedDocumentDiagnosticReport,
};

use super::pulled::{Pulled, pulled};
use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::uri::path_of;
use crate::view::View;

pub(super) type Params = WorkspaceDiagnosticParams;
pub(super) type Answer = WorkspaceDiagnosticReportResult;

pub(super) const LANE: Lane = Lane::Calculation;

/// `document_diagnostic` announces both.
pub(super) fn announce(_: &mut ServerCapabilities, _: Abilities) {}

/// Every file that has findings, and every one that the client has a result of, so that none stays behind.
pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let lists = view.lists(cancel)?;
    let mut files: BTreeMap<PathBuf, Option<&str>> = BTreeMap::new();
    files.extend(lists.files.keys().map(|path| (path.clone(), None)));
    files.extend(params.previous_result_ids.iter().filter_map(|before| {
        let path = path_of(before.uri.as_str())?;
        Some((path, Some(before.value.as_str())))
    }));
    let mut items = Vec::with_capacity(files.len());
    for (path, before) in &files {
        cancel.check()?;
        items.extend(report(view, path, pulled(lists, path, *before)));
    }
    Ok(WorkspaceDiagnosticReport { items }.into())
}

fn report(view: &View, path: &Path, pulled: Pulled) -> Option<WorkspaceDocumentDiagnosticReport> {
    let uri = view.spelling.uri(path)?;
    let version = view.open.get(path).and_then(|open| open.version);
    let version = version.map(i64::from);
    Some(match pulled {
        Pulled::Full(full_document_diagnostic_report) => WorkspaceFullDocumentDiagnosticReport {
            uri,
            version,
            full_document_diagnostic_report,
        }
        .into(),
        Pulled::Unchanged(unchanged_document_diagnostic_report) => {
            WorkspaceUnchangedDocumentDiagnosticReport {
                uri,
                version,
                unchanged_document_diagnostic_report,
            }
            .into()
        }
    })
}
