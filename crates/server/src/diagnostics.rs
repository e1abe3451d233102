//! Findings as the client wants them.

use serde::{Serialize, Serializer};
use std::path::Path;
use std::str::FromStr;
use std::sync::Arc;
use tower_lsp::ls_types::notification::{Notification, PublishDiagnostics};
use tower_lsp::ls_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, NumberOrString,
    Range, Uri,
};

use crate::engine::{FileFindings, Finding, Severity};
use crate::view::Converter;

/// All that is to be shown of one file. The address is a string: the client's own, valid or not.
#[derive(Debug, Serialize)]
pub(crate) struct Report {
    pub(crate) uri: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) version: Option<i32>,
    #[serde(serialize_with = "shared")]
    pub(crate) diagnostics: Arc<Vec<Diagnostic>>,
}

fn shared<S: Serializer>(list: &Arc<Vec<Diagnostic>>, to: S) -> Result<S::Ok, S::Error> {
    list.as_slice().serialize(to)
}

/// The notification that carries a [`Report`], as it goes out: as a tree of JSON values a long list would take many
/// times the memory of its text.
#[derive(Debug, Serialize)]
pub(crate) struct Publication {
    jsonrpc: &'static str,
    method: &'static str,
    params: Report,
}

impl Publication {
    pub(crate) fn of(params: Report) -> Self {
        Self {
            jsonrpc: "2.0",
            method: PublishDiagnostics::METHOD,
            params,
        }
    }
}

/// The list of one file.
pub(crate) fn list(converter: &mut Converter<'_>, file: FileFindings) -> Vec<Diagnostic> {
    let path = file.path;
    let findings = file.findings.into_iter();
    findings
        .map(|finding| diagnostic(converter, &path, finding))
        .collect()
}

fn diagnostic(converter: &mut Converter<'_>, path: &Path, finding: Finding) -> Diagnostic {
    let related: Vec<_> = finding
        .related
        .into_iter()
        .filter_map(|(location, message)| {
            let location = converter.location(&location)?;
            Some(DiagnosticRelatedInformation { location, message })
        })
        .collect();
    let address = finding
        .documentation
        .as_deref()
        .and_then(|text| Uri::from_str(text).ok());
    Diagnostic {
        range: converter.range(path, finding.span),
        severity: Some(severity(finding.severity)),
        code: Some(NumberOrString::String(finding.code)),
        code_description: address.map(|href| CodeDescription { href }),
        related_information: (!related.is_empty()).then_some(related),
        ..ours(finding.message)
    }
}

fn severity(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
        Severity::Information => DiagnosticSeverity::INFORMATION,
    }
}

/// The whole check failed: silence here would read as "nothing wrong".
pub(crate) fn not_checked() -> Diagnostic {
    failure("internal error (our bug): this text was NOT checked; the log has the details")
}

/// Our copy of the text is not the editor's.
pub(crate) fn not_followed(why: &str) -> Diagnostic {
    failure(&format!(
        "this text is no longer followed and was NOT checked ({why}); \
         close the file and open it again"
    ))
}

fn failure(message: &str) -> Diagnostic {
    Diagnostic {
        severity: Some(DiagnosticSeverity::ERROR),
        code: Some(NumberOrString::String("internal-error".to_owned())),
        ..ours(message.to_owned())
    }
}

fn ours(message: String) -> Diagnostic {
    Diagnostic {
        range: Range::default(),
        source: Some("plumbhook".to_owned()),
        message,
        ..Diagnostic::default()
    }
}
