//! Findings as a client asks for them: the very lists that others are sent.

use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};
use std::path::Path;
use tower_lsp::ls_types::{
    Diagnostic, FullDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport,
};

use crate::diagnostics::not_checked;
use crate::view::Lists;

/// A list, or word that the client has it already.
pub(super) enum Pulled {
    Full(FullDocumentDiagnosticReport),
    Unchanged(UnchangedDocumentDiagnosticReport),
}

/// The list of one file for a client that last had the result `before`.
pub(super) fn pulled(lists: &Lists, path: &Path, before: Option<&str>) -> Pulled {
    let items = match lists.files.get(path) {
        Some(list) => list.to_vec(),
        // Silence would read as "nothing wrong".
        None if lists.failed => vec![not_checked()],
        None => vec![],
    };
    let result_id = id(&items);
    if before == Some(&*result_id) {
        return Pulled::Unchanged(UnchangedDocumentDiagnosticReport { result_id });
    }
    Pulled::Full(FullDocumentDiagnosticReport {
        result_id: Some(result_id),
        items,
    })
}

/// Names what a list says, so that the same list has the same name whatever was asked in between.
fn id(list: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    // What cannot be written has no name that a list could have.
    serde_json::to_string(list).ok().hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}
