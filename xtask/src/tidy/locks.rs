//! Lock files: no dependency twice without a reason on record, no registry's host.

use crate::place;
use std::collections::BTreeMap;
use std::fs;

/// Crates that are built in two versions, and why that can't be helped.
const TWICE: [(&str, &str); 8] = [
    ("float-cmp", "krilla and jagua-rs disagree"),
    ("i_float", "geo, an oracle in tests, pins i_overlay below the version we build on"),
    ("i_key_sort", "as i_float"),
    ("i_overlay", "as i_float"),
    ("i_shape", "as i_float"),
    ("i_tree", "as i_float"),
    ("miniz_oxide", "png and flate2 disagree"),
    ("syn", "macros of different ages"),
];

fn versions() -> BTreeMap<String, Vec<String>> {
    let lock = fs::read_to_string(place::root().join("Cargo.lock")).unwrap();
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut name = String::new();
    for line in lock.lines() {
        let value = |key: &str| line.strip_prefix(key).map(|rest| rest.trim_matches('"').to_owned());
        if let Some(is) = value("name = ") {
            name = is;
        } else if let Some(version) = value("version = ") {
            found.entry(std::mem::take(&mut name)).or_default().push(version);
        }
    }
    found.remove("");
    found
}

#[test]
fn no_dependency_is_built_twice_without_a_reason() {
    let found = versions();
    assert!(found.len() > 10, "the lock file was not understood");
    for (name, versions) in &found {
        let known = TWICE.iter().any(|(one, _)| one == name);
        assert!(
            versions.len() < 2 || known,
            "{name} is there in versions {}: agree on one, or give the reason in TWICE",
            versions.join(" and ")
        );
    }
    for (name, why) in TWICE {
        let count = found.get(name).map_or(0, Vec::len);
        assert!(count > 1, "{name} is no longer there twice ({why}): take it off TWICE");
    }
}

#[test]
fn the_pages_lock_file_names_no_host() {
    let lock = fs::read_to_string(place::web().join("package-lock.json")).unwrap();
    assert!(!lock.contains("\"resolved\""), "web/.npmrc must keep addresses out of the lock file");
    assert!(lock.contains("\"integrity\""), "the lock file was not understood");
}
