//! What the options of `plumbhook check`, the environment and the files around it change.

use crate::folder::Folder;

const WEAK_SLING: (&str, &str) = ("rated      vertical 10.0 t", "rated      vertical 5.0 t");
/// Due when the job is issued.
const NO_TILT: (&str, &str) = ("  tilt       at most 3 deg\n", "");

#[test]
fn a_stage_raises_what_is_demanded_and_lowers_nothing() {
    let clean = Folder::lift(&[]);
    let said = clean.run(&["check", "--stage", "first-look"]);
    assert_eq!(said.code, 0, "{}", said.out);
    // Whether a stand may tilt and what proves a load free are due at issue.
    let early = Folder::lift(&[NO_TILT]);
    assert_eq!(early.run(&["check"]).code, 0);
    let said = early.run(&["check", "--stage", "issue"]);
    assert_eq!(said.code, 1, "{}", said.out);
    let line = "Every job is taken to have come to issue at least.";
    assert!(said.out.contains(line), "{}", said.out);
    let json = early.run(&["check", "--stage", "issue", "--format", "json"]);
    assert!(json.out.contains("\"stage\":\"issue\""), "{}", json.out);
    let wrong = clean.run(&["check", "--stage", "isue"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.err.contains("'issue'"), "{}", wrong.err);
}

/// no-color.org; bixense.com/clicolors
#[test]
fn the_environment_says_whether_there_is_colour_and_the_command_line_outranks_it() {
    let folder = Folder::lift(&[WEAK_SLING]);
    let coloured = |set: &[(&str, &str)], arguments: &[&str]| {
        let mut command = folder.command(&[&["check"], arguments].concat());
        command.env_remove("CLICOLOR_FORCE");
        let out = command.envs(set.iter().copied()).output().unwrap().stdout;
        out.contains(&0x1b)
    };
    assert!(coloured(&[("CLICOLOR_FORCE", "1")], &[]));
    assert!(!coloured(
        &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")],
        &[]
    ));
    assert!(!coloured(&[("CLICOLOR_FORCE", "1")], &["--color", "never"]));
    assert!(coloured(&[("NO_COLOR", "1")], &["--color", "always"]));
    assert!(!coloured(&[("NO_COLOR", "1")], &[]));
}

#[test]
fn every_setting_is_shown_with_where_it_comes_from() {
    let folder = Folder::lift(&[]);
    folder.write("old.pick", b"job old\n");
    folder.write(".ignore", b"old.pick\n");
    let root = format!(
        "{}[stage]\nleast = \"bid\"\n",
        folder.read("plumbhook.toml")
    );
    folder.write("plumbhook.toml", root.as_bytes());
    let said = folder.run(&["check", "cover.pick", "--show-config", "--stage", "issue"]);
    assert_eq!((said.code, &*said.err), (0, ""), "{}", said.out);
    let line = root.lines().count();
    let rows: Vec<Vec<&str>> = said
        .out
        .lines()
        .map(|line| line.split_whitespace().collect())
        .collect();
    let has = |row: &str| {
        let row: Vec<&str> = row.split_whitespace().collect();
        assert!(
            rows.iter().any(|shown| shown.starts_with(&row)),
            "{row:?}\n{}",
            said.out
        );
    };
    has("plumbhook.toml");
    has("language line 1 1");
    has(&format!("stage.least line {line} \"bid\""));
    has("factor.dynamic default none:");
    has("--stage command line issue");
    has("cover.pick job");
    has("yard.pick yard");
    has("old.pick ignored: `old.pick` in");
}

#[test]
fn a_wrong_root_file_is_shown_as_wrong_and_none_at_all_is_told() {
    let folder = Folder::lift(&[]);
    folder.write("plumbhook.toml", b"language = 1\nyards = []\n");
    let said = folder.run(&["check", "--show-config"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(
        said.out.contains("wrong, so nothing under it is checked"),
        "{}",
        said.out
    );
    let said = Folder::empty().run(&["check", "--show-config"]);
    assert_eq!((said.code, &*said.out), (2, ""));
}

#[cfg(unix)]
#[test]
fn a_table_behind_a_link_that_leads_outside_is_not_read() {
    let folder = Folder::lift(&[]);
    let job = folder.read("cover.pick");
    let (before, _) = job.split_once("  stations\n").unwrap();
    let job = format!("{before}  stations in path.csv\n");
    folder.write("cover.pick", job.as_bytes());
    let elsewhere = Folder::empty();
    elsewhere.write("path.csv", b"at,underside\n\"(18.0 m, 5.0 m)\",on stool\n");
    std::os::unix::fs::symlink(
        elsewhere.path().join("path.csv"),
        folder.path().join("path.csv"),
    )
    .unwrap();
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 1, "{}", said.out);
    let told = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("it is a link that leads outside"),
        "{}",
        said.out
    );
}

/// A pipe would be waited for without end.
#[cfg(unix)]
#[test]
fn what_is_no_plain_file_is_not_read() {
    let folder = Folder::lift(&[]);
    std::fs::create_dir(folder.path().join("real")).unwrap();
    std::os::unix::fs::symlink("real", folder.path().join("folder.pick")).unwrap();
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("it is no plain file"), "{}", said.err);
    assert!(
        said.out.contains("nothing over, nothing unknown"),
        "{}",
        said.out
    );
}
