//! The whole check of a small job repository in memory, one of whose files is anything at all.

use super::text_of;
use plumbhook_checks::example;
use plumbhook_model::notices::OUR_BUG;
use plumbhook_sheet::{Aspect, Origin, Verdict};
use plumbhook_workspace::{Cancel, Checked, InMemory, Snapshot, Targets, Workspace};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Where the small repository lies.
const HOME: &str = "/lift";

/// The clean lift with one of its files replaced and then edited is checked to the end; nothing in it is our bug,
/// everything said has a place, and a check after edits says what a check from nothing says.
///
/// The first byte chooses the file, the rest is cut at each 0xFF: the first piece is its text (empty for the clean
/// one), each other one an edit, as in [`super::document`].
///
/// # Panics
/// Where that does not hold.
pub fn checked(bytes: &[u8]) {
    let (which, rest) = bytes.split_first().unwrap_or((&0, &[]));
    let mut files = example::FILES.map(|(name, text)| (format!("{HOME}/{name}"), text.to_owned()));
    let at = usize::from(*which) % files.len();
    let mut pieces = rest.split(|byte| *byte == 0xFF);
    let first = text_of(pieces.next().unwrap_or_default());
    let Some((path, text)) = files.get_mut(at) else {
        return;
    };
    if !first.is_empty() {
        *text = first;
    }
    let path = PathBuf::from(&*path);
    let mut edited = workspace(&files);
    let text = files.get(at).map_or("", |(_, text)| text);
    edited.open(&path, text);
    // What is kept of a first check must not show in the second.
    says(&mut edited);
    for edit in pieces.take(16) {
        let (start, length, new) = super::edit_of(edit, edited.text(&path).unwrap_or_default());
        edited.edit(&path, start..start + length, &new);
    }
    let (snapshot, said) = says(&mut edited);
    every_word_has_a_place(&snapshot, &said);

    let now = edited.text(&path).unwrap_or_default().to_owned();
    let mut fresh = workspace(&files);
    // A mark before it, so that one which the text itself begins with stays its own.
    fresh.open(&path, &format!("\u{FEFF}{now}"));
    let (_, fresh) = says(&mut fresh);
    assert_eq!(
        said, fresh,
        "a check after edits differs from a check from nothing of {now:?}"
    );
}

fn workspace(files: &[(String, String)]) -> Workspace {
    let root = (format!("{HOME}/plumbhook.toml"), example::ROOT.to_owned());
    let all = files.iter().chain([&root]);
    let memory = InMemory::new(all.map(|(path, text)| (path.as_str(), text.as_str())));
    let mut workspace = Workspace::new(Arc::new(memory)).seen_from(Path::new(HOME));
    workspace.folders(&[PathBuf::from(HOME)]);
    workspace
}

fn says(workspace: &mut Workspace) -> (Snapshot, Checked) {
    let snapshot = workspace.snapshot();
    let said = snapshot.check(&Targets::All, &Cancel::default());
    assert!(said.is_ok(), "nobody cancelled");
    (snapshot, said.unwrap_or_default())
}

fn every_word_has_a_place(snapshot: &Snapshot, said: &Checked) {
    for notice in &said.notices {
        assert!(notice.code != &OUR_BUG, "{}", notice.say);
        assert!(!notice.say.is_empty(), "{} says nothing", notice.code.code);
        is_found(snapshot, &notice.origin);
        for related in &notice.related {
            is_found(snapshot, &related.origin);
        }
    }
    for finding in said.cases.iter().flat_map(|case| &case.findings) {
        let aspect = &finding.aspect;
        assert!(
            !aspect.headline.is_empty(),
            "{:?} says nothing",
            finding.identity
        );
        is_sound(aspect);
        is_found(snapshot, &aspect.primary);
        let inputs = aspect.sheet.inputs.iter().flat_map(|input| &input.origins);
        let related = aspect.related.iter().map(|related| &related.origin);
        for origin in inputs.chain(related) {
            is_found(snapshot, origin);
        }
    }
}

/// An outcome fits its numbers.
fn is_sound(aspect: &Aspect) {
    if let Some(share) = aspect.sheet.utilisation {
        assert!(share.is_finite(), "{}: {share}", aspect.headline);
        match aspect.verdict {
            Verdict::Within => assert!(
                share <= 1.0 + 1e-9,
                "within at {share}: {}",
                aspect.headline
            ),
            Verdict::Over => assert!(share > 1.0 - 1e-9, "over at {share}: {}", aspect.headline),
            Verdict::CannotTell(_) | Verdict::DoesNotApply(_) => {}
        }
    }
    if let Verdict::CannotTell(missing) = &aspect.verdict {
        assert!(
            !missing.is_empty(),
            "cannot tell, and nothing is missing: {}",
            aspect.headline
        );
    }
}

fn is_found(snapshot: &Snapshot, origin: &Origin) {
    let found = snapshot.locate(origin);
    assert!(found.is_some(), "{origin:?} is nowhere");
    let Some(found) = found else { return };
    let line = snapshot
        .file(&found.path)
        .and_then(|file| file.document().line_text(found.line));
    assert!(line.is_some(), "{found:?} is no line");
    super::on_characters(line.unwrap_or_default(), found.start, found.end);
}
