//! The README says what the program prints and what the examples hold.
#![allow(clippy::unwrap_used, reason = "helpers of tests")]

use plumbhook_tests::examples::repository;
use plumbhook_tests::programs;
use std::fs::read_to_string;
use std::process::Command;

const LEFT_OUT: &str = "…";

fn readme() -> String {
    read_to_string(repository().join("README.md")).unwrap()
}

/// The blocks between fences.
fn fenced(text: &str) -> impl Iterator<Item = &str> {
    text.split("```").skip(1).step_by(2).map(str::trim)
}

fn said(folder: &str, arguments: &[&str]) -> String {
    let output = Command::new(programs::plumbhook())
        .args(arguments)
        .current_dir(repository().join(folder))
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    String::from_utf8(output.stdout).unwrap()
}

/// `…` stands for what is left out; everything else is word for word, in its order.
#[test]
fn the_screen_is_what_the_command_prints() {
    let readme = readme();
    let mut screens = fenced(&readme).filter_map(|block| block.strip_prefix("$ cd examples && "));
    let (command, shown) = screens.next().unwrap().split_once('\n').unwrap();
    assert_eq!(screens.next(), None);
    let arguments: Vec<&str> = command.split(' ').skip(1).collect();
    let printed = said("examples", &arguments);
    let mut rest = printed.as_str();
    let stretches = shown.split(LEFT_OUT).map(str::trim_end);
    for stretch in stretches
        .map(|it| it.trim_start_matches('\n'))
        .filter(|it| !it.is_empty())
    {
        let at = rest.find(stretch);
        let at = at.unwrap_or_else(|| panic!("it does not print:\n{stretch}\n\nbut:\n{printed}"));
        rest = &rest[at + stretch.len()..];
    }
}

#[test]
fn every_command_is_told() {
    let help = said(".", &["--help"]);
    let (_, commands) = help.split_once("Commands:\n").unwrap();
    let commands = commands.lines().take_while(|line| !line.is_empty());
    let names = commands.filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let names: Vec<&str> = names
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert!(names.len() > 5, "{help}");
    let readme = readme();
    for name in names.into_iter().filter(|name| *name != "help") {
        assert!(readme.contains(&format!("- `plumbhook {name}")), "{name}");
    }
}

#[test]
fn the_text_of_the_tour_stands_in_the_example() {
    let job = read_to_string(repository().join("examples/jobs/unit-3-runner.pick")).unwrap();
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let job: Vec<String> = job.lines().map(words).collect();
    let readme = readme();
    let mut shown = fenced(&readme).filter(|block| block.starts_with("load "));
    for line in shown.next().unwrap().lines() {
        assert!(job.contains(&words(line)), "{line}");
    }
}
