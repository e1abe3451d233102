//! `textDocument/diagnostic`: the findings of one file, and of closed files that they are about.

use std::collections::{BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::PoisonError;
use tower_lsp::ls_types::{
    DiagnosticOptions, DiagnosticServerCapabilities, DocumentDiagnosticParams,
    DocumentDiagnosticReport, DocumentDiagnosticReportKind, DocumentDiagnosticReportResult,
    RelatedFullDocumentDiagnosticReport, RelatedUnchangedDocumentDiagnosticReport,
    ServerCapabilities, Uri,
};

use super::pulled::{Pulled, pulled};
use crate::engine::{Cancel, Cancelled};
use crate::lanes::Lane;
use crate::session::Abilities;
use crate::uri::path_of;
use crate::view::{Lists, View};

pub(super) type Params = DocumentDiagnosticParams;
pub(super) type Answer = DocumentDiagnosticReportResult;

pub(super) const LANE: Lane = Lane::Calculation;

/// To others the findings are sent, and both would show each of them twice.
pub(super) fn announce(server: &mut ServerCapabilities, client: Abilities) {
    let options = DiagnosticOptions {
        identifier: Some("plumbhook".to_owned()),
        inter_file_dependencies: true,
        workspace_diagnostics: true,
        ..DiagnosticOptions::default()
    };
    server.diagnostic_provider = client
        .pulls
        .then_some(DiagnosticServerCapabilities::Options(options));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Cancelled> {
    let lists = view.lists(cancel)?;
    let path = path_of(params.text_document.uri.as_str()).unwrap_or_default();
    let before = params.previous_result_id.as_deref();
    let related_documents = related(view, lists, &path);
    let report = match pulled(lists, &path, before) {
        Pulled::Full(full_document_diagnostic_report) => {
            DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
                related_documents,
                full_document_diagnostic_report,
            })
        }
        Pulled::Unchanged(unchanged_document_diagnostic_report) => {
            DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
                related_documents,
                unchanged_document_diagnostic_report,
            })
        }
    };
    Ok(report.into())
}

/// Closed files that this file sees, whose findings point at it, or that its findings point at: what its checks say
/// may stand there. For an open one the client asks itself.
fn related(
    view: &View,
    lists: &Lists,
    path: &Path,
) -> Option<HashMap<Uri, DocumentDiagnosticReportKind>> {
    if !view.abilities.related_files {
        return None;
    }
    let points_at = |of: &Path| -> BTreeSet<PathBuf> {
        let list = lists.files.get(of).into_iter().flat_map(|list| list.iter());
        let places = list.filter_map(|it| it.related_information.as_ref());
        let files = places.flatten().map(|it| it.location.uri.as_str());
        files.filter_map(path_of).collect()
    };
    let mut wanted = points_at(path);
    let pointing = lists.files.keys().filter(|of| points_at(of).contains(path));
    wanted.extend(pointing.cloned());
    wanted.extend(seen_by(view, path).into_iter().flatten());
    let mut told = view
        .told_with_others
        .lock()
        .unwrap_or_else(PoisonError::into_inner);
    wanted.append(&mut told);
    told.clone_from(&wanted);
    drop(told);
    let closed = wanted
        .iter()
        .filter(|it| *it != path && !view.open.contains_key(*it));
    let found: HashMap<_, _> = closed
        .filter_map(|it| {
            let report = match pulled(lists, it, None) {
                Pulled::Full(full) => DocumentDiagnosticReportKind::Full(full),
                Pulled::Unchanged(same) => DocumentDiagnosticReportKind::Unchanged(same),
            };
            Some((view.spelling.uri(it)?, report))
        })
        .collect();
    (!found.is_empty()).then_some(found)
}

/// The files whose entries a file can name.
fn seen_by(view: &View, path: &Path) -> Option<BTreeSet<PathBuf>> {
    let snapshot = view.snapshot.as_ref()?.workspace()?;
    let layers = snapshot.scope(snapshot.file(path)?).layers;
    // Every entry of a layer names its file; a layer of a yard may have several.
    let shown: BTreeSet<_> = layers
        .iter()
        .flat_map(|layer| layer.entries())
        .map(|entry| &*entry.key.file)
        .collect();
    let paths = shown.iter().filter_map(|shown| snapshot.path_of(shown));
    Some(paths.map(Path::to_path_buf).collect())
}
