//! `textDocument/rename`: another name for an entry, in all files at once or not at all.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use tower_lsp::ls_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, RenameOptions, RenameParams,
    ServerCapabilities, TextDocumentEdit, TextEdit, WorkDoneProgressOptions, WorkspaceEdit,
};

use crate::engine::Cancel;
use crate::lanes::Lane;
use crate::language::Unanswered;
use crate::session::Abilities;
use crate::view::View;

pub(super) type Params = RenameParams;
pub(super) type Answer = Option<WorkspaceEdit>;

/// It goes through all files.
pub(super) const LANE: Lane = Lane::Calculation;

pub(super) fn announce(server: &mut ServerCapabilities, _: Abilities) {
    server.rename_provider = Some(OneOf::Right(RenameOptions {
        prepare_provider: Some(true),
        work_done_progress_options: WorkDoneProgressOptions::default(),
    }));
}

pub(super) fn answer(view: &View, params: &Params, cancel: &Cancel) -> Result<Answer, Unanswered> {
    let asked = &params.text_document_position;
    let Some(file) = view.file(&asked.text_document.uri) else {
        return Ok(None);
    };
    let at = file.lines.place(asked.position);
    let roots: Vec<&Path> = view.roots.iter().map(PathBuf::as_path).collect();
    let places = plumbhook_ide::rename(
        file.snapshot,
        (&file.path, at.line, at.column),
        &params.new_name,
        &roots,
        cancel,
    )?
    .map_err(Unanswered::Refused)?;
    let mut converter = view.converter();
    let mut files: BTreeMap<PathBuf, Vec<TextEdit>> = BTreeMap::new();
    for place in &places {
        let range = converter.located(place).map(|location| location.range);
        let edit = range.map(|range| TextEdit {
            range,
            new_text: params.new_name.clone(),
        });
        files.entry(place.path.clone()).or_default().extend(edit);
    }
    lost(view, &files)?;
    Ok(Some(edit(view, files)))
}

/// A text that is not the editor's must not be edited, and half a rename is worse than none.
fn lost(view: &View, files: &BTreeMap<PathBuf, Vec<TextEdit>>) -> Result<(), Unanswered> {
    let is_lost = |path: &&PathBuf| view.open.get(*path).is_some_and(|it| it.lost.is_some());
    match files.keys().find(is_lost) {
        Some(path) => Err(Unanswered::Refused(format!(
            "{} is no longer followed: close it and open it again",
            path.display()
        ))),
        None => Ok(()),
    }
}

fn edit(view: &View, files: BTreeMap<PathBuf, Vec<TextEdit>>) -> WorkspaceEdit {
    let spelled = files
        .into_iter()
        .filter_map(|(path, edits)| Some((view.spelling.uri(&path)?, path, edits)));
    if !view.abilities.versioned_edits {
        let changes: HashMap<_, _> = spelled.map(|(uri, _, edits)| (uri, edits)).collect();
        return WorkspaceEdit {
            changes: Some(changes),
            ..WorkspaceEdit::default()
        };
    }
    let documents = spelled.map(|(uri, path, edits)| TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier {
            uri,
            version: view.open.get(&path).and_then(|open| open.version),
        },
        edits: edits.into_iter().map(OneOf::Left).collect(),
    });
    WorkspaceEdit {
        document_changes: Some(DocumentChanges::Edits(documents.collect())),
        ..WorkspaceEdit::default()
    }
}
