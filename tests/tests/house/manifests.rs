//! What may lean on what.

use crate::repository::{files, is_rust, manifests, root_manifest, text};
use crate::sources::{code, names};
use toml::Table;

/// The crates, lowest first; a crate may name only those before its own. Those of one group do not know each
/// other.
const ORDER: [&[&str]; 10] = [
    &["units"],
    &["sheet"],
    &["mechanics"],
    &["syntax"],
    &["model"],
    &["checks"],
    &["workspace"],
    &["ide", "report"],
    &["server"],
    &["plumbhook"],
];

/// Edges that the order alone would allow and that would let knowledge leak.
const FORBIDDEN: [(&str, &str, &str); 4] = [
    ("syntax", "mechanics", "text knows no engineering"),
    ("syntax", "sheet", "text knows no verdict"),
    (
        "server",
        "report",
        "the editor asks `ide`; pages and drawings are the command line's",
    ),
    (
        "server",
        "mechanics",
        "the server computes nothing of its own",
    ),
];

/// Packages that one crate alone may name, and why.
const RESERVED: [(&str, &str, &str); 10] = [
    ("tower-lsp", "server", "only the server knows the protocol"),
    ("tower", "server", "only the server knows the protocol"),
    (
        "tokio",
        "server",
        "threads of waiting belong to the protocol; calculation has its own",
    ),
    ("clap", "plumbhook", "only the command line has arguments"),
    ("nalgebra", "mechanics", "linear algebra is engineering"),
    ("pest", "syntax", "only one crate reads text"),
    ("pest_derive", "syntax", "only one crate reads text"),
    (
        "ignore",
        "workspace",
        "only the owner of texts walks folders",
    ),
    ("miette", "report", "a terminal's look is a face"),
    ("svg", "report", "a drawing is a face"),
];

fn rank(name: &str) -> usize {
    let short = name.strip_prefix("plumbhook-").unwrap_or(name);
    ORDER
        .iter()
        .position(|group| group.contains(&short))
        .unwrap_or_else(|| panic!("`{name}` has no place in the order of the crates"))
}

/// Every dependency of a manifest, of any sort, for any target: (sort, name).
fn dependencies(manifest: &Table) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for sort in ["dependencies", "dev-dependencies", "build-dependencies"] {
        let targets = manifest.get("target").and_then(toml::Value::as_table);
        let tables = targets
            .into_iter()
            .flat_map(|targets| targets.values().filter_map(|target| target.get(sort)))
            .chain(manifest.get(sort));
        for table in tables.filter_map(toml::Value::as_table) {
            all.extend(table.keys().map(|name| (sort.to_owned(), name.clone())));
        }
    }
    all
}

fn package(folder: &str) -> String {
    folder.trim_start_matches("crates/").to_owned()
}

/// The crates, without the package of these tests, which may name them all.
fn crates() -> Vec<(String, Table)> {
    let all = manifests();
    assert!(all.len() > 10, "{} manifests are too few", all.len());
    all.into_iter()
        .filter(|(folder, _)| folder != "tests")
        .map(|(folder, manifest)| (package(&folder), manifest))
        .collect()
}

#[test]
fn arrows_between_crates_point_down_only() {
    let mut wrong = Vec::new();
    for (name, manifest) in crates() {
        for (sort, other) in dependencies(&manifest) {
            if other.starts_with("plumbhook") && rank(&other) >= rank(&name) {
                wrong.push(format!(
                    "{name} names {other} in [{sort}], which is not below it"
                ));
            }
        }
        for (from, to, why) in FORBIDDEN {
            let named = dependencies(&manifest)
                .iter()
                .any(|(_, other)| *other == format!("plumbhook-{to}"));
            if name == from && named {
                wrong.push(format!("{from} names {to}: {why}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_crate_has_its_place_and_the_root_lists_them_in_order() {
    for (name, manifest) in crates() {
        let said = manifest["package"]["name"].as_str().expect("a name");
        let wanted = if name == "plumbhook" {
            name.clone()
        } else {
            format!("plumbhook-{name}")
        };
        assert_eq!(said, wanted, "crates/{name} is named after its folder");
        rank(&name);
    }
    // The parsed table is sorted by name; the order is that of the lines.
    let root = text("Cargo.toml");
    let listed: Vec<usize> = root
        .lines()
        .filter(|line| line.starts_with("plumbhook") && line.contains("path"))
        .filter_map(|line| line.split_whitespace().next())
        .map(rank)
        .collect();
    assert!(
        listed.is_sorted() && listed.len() == ORDER.concat().len(),
        "the root manifest lists the crates lowest first: {listed:?}"
    );
}

#[test]
fn some_packages_belong_to_one_crate_alone() {
    let mut wrong = Vec::new();
    for (name, manifest) in crates() {
        for (sort, other) in dependencies(&manifest) {
            for (reserved, owner, why) in RESERVED {
                if other == reserved && name != owner && sort == "dependencies" {
                    wrong.push(format!("{name} names {other}: {why}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_version_is_said_once_and_pinned() {
    let root = root_manifest();
    let shared = root["workspace"]["dependencies"]
        .as_table()
        .expect("a table");
    for (name, said) in shared {
        let version = said
            .get("version")
            .unwrap_or(said)
            .as_str()
            .unwrap_or_default();
        let own = said.get("path").is_some();
        assert!(
            own || version.starts_with('='),
            "`{name}` is not pinned with `=`"
        );
    }
    for (folder, manifest) in manifests() {
        for sort in ["dependencies", "dev-dependencies", "build-dependencies"] {
            let table = manifest.get(sort).and_then(toml::Value::as_table);
            for (name, said) in table.into_iter().flatten() {
                assert_eq!(
                    said.get("workspace").and_then(toml::Value::as_bool),
                    Some(true),
                    "{folder}: `{name}` takes its version from the root manifest"
                );
            }
        }
    }
}

#[test]
fn a_dependency_is_used() {
    let files = files();
    let mut idle = Vec::new();
    for (folder, manifest) in manifests() {
        let code: String = files
            .iter()
            .filter(|file| file.starts_with(&format!("{folder}/")) && is_rust(file))
            .filter(|file| !file.starts_with("tests/fuzz/"))
            .map(|file| code(&text(file)))
            .collect();
        for (sort, name) in dependencies(&manifest) {
            let named = name.replace('-', "_");
            if !names(&code).any(|name| name == named) {
                idle.push(format!("{folder} [{sort}] {name}"));
            }
        }
    }
    assert!(idle.is_empty(), "named and never used: {idle:?}");
}

#[test]
fn a_panic_unwinds_so_that_the_fence_can_catch_it() {
    let root = root_manifest();
    for profile in ["dev", "release"] {
        let panic = root["profile"][profile].get("panic");
        assert_eq!(
            panic.and_then(toml::Value::as_str),
            Some("unwind"),
            "[profile.{profile}]: with `abort` one bad rule takes the whole server down"
        );
    }
}

#[test]
fn every_crate_takes_the_lints_and_unsafe_code_is_forbidden() {
    let root = root_manifest();
    let lints = &root["workspace"]["lints"];
    assert_eq!(lints["rust"]["unsafe_code"].as_str(), Some("forbid"));
    for lint in ["unwrap_used", "expect_used", "dbg_macro", "todo"] {
        let level = lints["clippy"][lint].as_str();
        assert!(matches!(level, Some("warn" | "deny" | "forbid")), "{lint}");
    }
    for (folder, manifest) in manifests() {
        let taken = manifest
            .get("lints")
            .and_then(|lints| lints.get("workspace"));
        assert_eq!(
            taken.and_then(toml::Value::as_bool),
            Some(true),
            "{folder} does not take the lints of the workspace"
        );
    }
}

#[test]
fn every_dependency_has_its_reason_in_the_guide_for_contributors() {
    let guide = text("DEVELOPERS.md");
    let root = root_manifest();
    let shared = root["workspace"]["dependencies"]
        .as_table()
        .expect("a table");
    let reasons: Vec<(&str, &str)> = guide
        .lines()
        .filter_map(|line| line.strip_prefix('|')?.split_once('|'))
        .collect();
    let missing: Vec<_> = shared
        .keys()
        .filter(|name| !name.starts_with("plumbhook"))
        .filter(|name| {
            let named = format!("`{name}`");
            !reasons.iter().any(|(names, reason)| {
                let reason = reason.trim_end_matches('|');
                names.contains(&named) && reason.split_whitespace().count() >= 2
            })
        })
        .collect();
    assert!(
        missing.is_empty(),
        "DEVELOPERS.md has no line of reason for {missing:?}"
    );
}
