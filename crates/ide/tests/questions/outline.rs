//! Symbols, folds, selections, colours, formatting.

use crate::lift::Lift;
use plumbhook_ide::{
    SemanticToken, TokenClass, document_symbols, folds, formatting, range_formatting, selections,
    semantic_tokens, workspace_symbols,
};
use plumbhook_workspace::Cancel;

#[test]
fn a_file_is_a_list_of_entries_with_their_members() {
    let lift = Lift::new(&[]);
    let (path, ..) = lift.at("^plant pump-hall \"");
    let found = document_symbols(&lift.snapshot, &path);
    let words: Vec<_> = found
        .iter()
        .map(|it| format!("{} | {}", it.name, it.detail))
        .collect();
    assert_eq!(
        words,
        [
            "pump-hall | plant, Pump hall",
            "walk-2 | source, Walk with laser and tape",
            "slab | floor",
            "bridge | overhead-crane",
            "stool | stand",
        ]
    );
    let hook = &found[3].members[0];
    assert_eq!(hook.name, "hook main");
    assert!(
        hook.detail.starts_with("bears-up-to EL 59.20 m"),
        "{}",
        hook.detail
    );
    assert_eq!(found[2].lines, 8..=15);
    assert_eq!(lift.words(&found[2].at), "hall.plant.pick:9:slab");
}

#[test]
fn all_files_are_searched_by_letters_in_their_order() {
    let lift = Lift::new(&[]);
    let found = |query| {
        let found = workspace_symbols(&lift.snapshot, query, &Cancel::default()).unwrap();
        found.into_iter().map(|it| it.name).collect::<Vec<_>>()
    };
    assert_eq!(found("BW12"), ["bow-12"]);
    assert_eq!(found("laser"), ["walk-2"]);
    assert_eq!(found("no such thing"), [""; 0]);
    assert_eq!(found("").len(), 14);
}

#[test]
fn entries_tables_and_runs_of_comments_fold() {
    let lift = Lift::new(&[("# Invented.\njob", "# Invented.\n# By us.\njob")]);
    let (path, ..) = lift.at("^job cover");
    let found = folds(&lift.snapshot, &path);
    let lines: Vec<_> = found
        .iter()
        .map(|it| (it.first, it.last, it.comment))
        .collect();
    assert_eq!(
        lines,
        [
            (0, 1, true),
            (2, 5, false),
            (7, 15, false),
            (17, 19, false),
            (21, 33, false),
            (28, 33, false),
            (35, 41, false),
        ]
    );
}

#[test]
fn a_selection_grows_from_word_to_value_to_line_to_entry_to_file() {
    let lift = Lift::new(&[]);
    let (path, line, byte) = lift.at("through bow^-12, rope");
    let found = selections(&lift.snapshot, &path, line, byte);
    let document = lift.snapshot.file(&path).unwrap().document();
    let words: Vec<_> = found
        .iter()
        .map(|it| {
            let byte =
                |(line, byte): (u32, u32)| (document.line_start(line).unwrap() + byte) as usize;
            &document.text()[byte(it.start)..byte(it.end)]
        })
        .collect();
    assert_eq!(words[0], "bow-12");
    assert_eq!(
        words[1],
        "A B C to ring-2, through bow-12, rope-32-long-5, bow-12"
    );
    assert!(words[2].starts_with("legs "), "{words:?}");
    assert!(words[words.len() - 2].starts_with("rigging chains-of-three\n"));
    assert_eq!(words[words.len() - 1], document.text());
}

fn coloured(lift: &Lift, marked: &str) -> Vec<(String, TokenClass)> {
    let (path, line, _) = lift.at(marked);
    let found = semantic_tokens(&lift.snapshot, &path, &(line..=line), &Cancel::default()).unwrap();
    let text = lift
        .snapshot
        .file(&path)
        .unwrap()
        .document()
        .line_text(line)
        .unwrap();
    let word = |it: &SemanticToken| (it.place.of(text).to_owned(), it.class);
    found.iter().map(word).collect()
}

#[test]
fn each_word_has_the_colour_of_what_it_is() {
    use TokenClass::{Declaration, EntryWord, Key, Name, Number, Operator, Text, Unit, Word};
    let lift = Lift::new(&[]);
    let said = |list: &[(&str, TokenClass)]| -> Vec<(String, TokenClass)> {
        list.iter()
            .map(|(word, class)| ((*word).to_owned(), *class))
            .collect()
    };
    assert_eq!(
        coloured(&lift, "^load cover"),
        said(&[
            ("load", EntryWord),
            ("cover", Declaration),
            ("\"Pump cover, cast steel\"", Text)
        ])
    );
    assert_eq!(
        coloured(&lift, "^14.0 t +/- 5 %"),
        said(&[
            ("mass", Key),
            ("14.0", Number),
            ("t", Unit),
            ("+/-", Operator),
            ("5", Number),
            ("%", Unit),
            ("from", Word),
        ])
    );
    assert_eq!(
        coloured(&lift, "  by  ^       bridge with"),
        said(&[
            ("by", Key),
            ("bridge", Name),
            ("with", Word),
            ("chains-of-three", Name)
        ])
    );
}

#[test]
fn formatting_gives_what_the_formatter_gives_and_nothing_where_all_is_well() {
    let lift = Lift::new(&[("  tilt       at most 3 deg\n", "  tilt at most   3 deg\n")]);
    let (path, line, _) = lift.at("  tilt ^at most   3 deg");
    let document = lift.snapshot.file(&path).unwrap().document();
    let whole = formatting(&lift.snapshot, &path).unwrap();
    let byte = |(line, byte): (u32, u32)| (document.line_start(line).unwrap() + byte) as usize;
    let mut text = document.text().to_owned();
    text.replace_range(byte(whole.at.start)..byte(whole.at.end), &whole.new);
    assert_eq!(text, plumbhook_syntax::format::format(document));
    assert!(
        whole.new.contains("  tilt       at most 3 deg\n"),
        "{}",
        whole.new
    );

    let of_entry = range_formatting(&lift.snapshot, &path, &(line..line + 1));
    assert_eq!(of_entry.len(), 1);
    assert!(
        of_entry[0].new.starts_with("move M1"),
        "{}",
        of_entry[0].new
    );
    let formatted = Lift::with(
        &[],
        &[
            ("plumbhook.toml", plumbhook_checks::example::ROOT),
            ("cover.pick", &text),
        ],
    );
    assert_eq!(formatting(&formatted.snapshot, &path), None);
}
