//! The arrows between crates, as `docs/ARCHITECTURE.md` draws them.

use crate::place;
use std::collections::BTreeSet;
use std::fs;

/// Each crate and the crates it may build on. Tests may also build on `demo`.
const MAY_USE: [(&str, &[&str]); 13] = [
    ("plane", &[]),
    ("colour", &[]),
    ("nest", &["plane"]),
    ("quilt", &["plane", "colour"]),
    ("vision", &["plane", "colour"]),
    ("grow", &["quilt", "plane", "colour"]),
    ("drawing", &["quilt", "plane", "colour"]),
    ("papers", &["drawing", "quilt", "plane", "colour"]),
    ("demo", &["drawing", "vision", "quilt", "plane", "colour"]),
    ("workroom", &["grow", "nest", "papers", "drawing", "vision", "quilt", "plane", "colour", "demo"]),
    (
        "ragbag",
        &["workroom", "grow", "nest", "papers", "drawing", "vision", "quilt", "plane", "colour", "demo"],
    ),
    ("page", &[]),
    ("xtask", &[]),
];

/// The names under one heading of a manifest.
fn named(manifest: &str, heading: &str) -> Vec<String> {
    let mut inside = false;
    let mut names = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            inside = line == format!("[{heading}]");
        } else if inside && !line.starts_with('#') {
            names.extend(line.split(['.', '=', ' ']).next().map(str::to_owned));
        }
    }
    names.retain(|name| !name.is_empty());
    names
}

#[test]
fn arrows_between_crates_point_down_only() {
    let ours: BTreeSet<&str> = MAY_USE.iter().map(|(name, _)| *name).collect();
    let mut seen = 0;
    for entry in fs::read_dir(place::root().join("crates")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let Ok(manifest) = fs::read_to_string(path.join("Cargo.toml")) else { continue };
        let may = MAY_USE.iter().find(|(one, _)| *one == name);
        let (_, may) = may.unwrap_or_else(|| panic!("crate {name} has no place in MAY_USE"));
        for heading in ["dependencies", "build-dependencies", "dev-dependencies"] {
            let extra = (heading == "dev-dependencies").then_some("demo");
            for used in named(&manifest, heading).iter().filter(|used| ours.contains(used.as_str())) {
                let allowed = may.contains(&used.as_str()) || extra == Some(used.as_str());
                assert!(allowed, "{name} builds on {used}, which is not below it");
                seen += 1;
            }
        }
        assert!(manifest.contains("[lints]\nworkspace = true"), "{name} does not take the workspace's lints");
    }
    assert!(seen > 5, "the manifests were not understood");
}

#[test]
fn this_tool_uses_the_standard_library_only() {
    let manifest = fs::read_to_string(place::root().join("xtask/Cargo.toml")).unwrap();
    assert_eq!(named(&manifest, "dependencies"), Vec::<String>::new());
}

#[test]
fn names_are_read_from_a_manifest() {
    let manifest = "[package]\nname = \"x\"\n[dependencies]\n# no\nplane.workspace = true\npng = \"0.18\"\n\n[lints]\nworkspace = true\n";
    assert_eq!(named(manifest, "dependencies"), ["plane", "png"]);
}
