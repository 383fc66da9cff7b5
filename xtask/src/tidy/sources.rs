//! Sources: each says what it is, none is overlong, none names what it shouldn't.

use crate::{place, stamp};
use std::fs;
use std::path::PathBuf;

/// Not ours, or not sources.
const SKIPPED: [&str; 8] =
    [".git", "target", "node_modules", "dist", "test-results", "playwright-report", "data", "golden"];
/// A file longer than this has grown a second job.
const LONGEST: usize = 700;

/// Words that have no place here, in two halves so that this file does not hold them.
const BANNED: [[&str; 2]; 7] = [
    ["registry.npm", "js.org"],
    ["static.", "crates.io"],
    ["index.", "crates.io"],
    ["pypi", ".org/"],
    ["pythonhosted", ".org"],
    ["/work", "/main"],
    ["/work", "/shared"],
];

/// Every text file of the project, by its path from the root.
fn files() -> Vec<(String, String)> {
    let mut paths: Vec<PathBuf> = Vec::new();
    stamp::collect(&place::root(), &SKIPPED, &mut paths).unwrap();
    paths.sort();
    let short = |path: &PathBuf| path.strip_prefix(place::root()).unwrap().to_string_lossy().into_owned();
    paths.iter().filter_map(|path| Some((short(path), fs::read_to_string(path).ok()?))).collect()
}

fn ends(path: &str, endings: &[&str]) -> bool {
    endings.iter().any(|ending| path.ends_with(ending))
}

#[test]
fn every_source_opens_by_saying_what_it_is() {
    let files = files();
    let rust: Vec<_> = files.iter().filter(|(path, _)| path.ends_with(".rs")).collect();
    assert!(rust.len() > 50, "the sources were not found");
    for (path, text) in rust {
        assert!(text.starts_with("//!"), "{path} doesn't open with `//!`");
    }
    let page =
        files.iter().filter(|(path, _)| path.starts_with("web/src/") && ends(path, &[".ts", ".svelte"]));
    for (path, text) in page {
        let test = path.ends_with(".test.ts") || path.ends_with("main.ts");
        assert!(
            test || text.starts_with("//") || text.starts_with("<!--"),
            "{path} doesn't open with a comment"
        );
    }
}

#[test]
fn no_file_is_longer_than_it_should_be() {
    for (path, text) in files() {
        let data = ends(&path, &[".lock", "-lock.json", ".svg", ".csv", ".json", ".gen.ts", ".snap"]);
        let lines = text.lines().count();
        assert!(data || lines <= LONGEST, "{path} has {lines} lines: has it grown a second job?");
    }
}

#[test]
fn no_banned_word_stands_anywhere() {
    for (path, text) in files() {
        for word in BANNED.map(|halves| halves.concat()) {
            assert!(!text.contains(&word), "{path} holds `{word}`");
        }
    }
}
