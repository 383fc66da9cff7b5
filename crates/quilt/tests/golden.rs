//! Golden logs: stored bytes that must open for ever, to the same bits. Each file of
//! `tests/golden` holds one log, an entry a line, and the digest of the table it replays to.
//!
//! A file that is missing fails. `UPDATE_GOLDEN=1 cargo test -p quilt --test golden` writes files
//! that aren't there; it never changes one that is.

mod common;

use common::Hand;
use quilt::log::StepId;
use quilt::table::{Table, replay_bytes};
use sha2::{Digest, Sha256};
use std::path::PathBuf;

/// SHA-256 over the names and the bits of all corners of a table.
fn digest(table: &Table) -> String {
    let mut hash = Sha256::new();
    for (mark, top) in table.tops() {
        hash.update(mark.to_string());
        for side in top.sides() {
            hash.update(format!("{:?}", side.bound));
            hash.update(side.from.x.to_bits().to_le_bytes());
            hash.update(side.from.y.to_bits().to_le_bytes());
        }
        for (name, face) in top.faces() {
            hash.update(name.to_string());
            for p in top.face_points(face) {
                hash.update(p.x.to_bits().to_le_bytes());
                hash.update(p.y.to_bits().to_le_bytes());
            }
        }
    }
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A log sewn at random: pieces, trims, slices.
fn sewn(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    for i in 0..24 {
        match i % 6 {
            2 => hand.trim(),
            5 => hand.slice_and_rejoin(),
            _ => hand.add_piece(),
        };
    }
    hand
}

fn check(name: &str, seed: u64) {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if !file.exists() && std::env::var_os("UPDATE_GOLDEN").is_some() {
        let hand = sewn(seed);
        let lines: Vec<String> =
            hand.entries.iter().map(|entry| String::from_utf8(entry.to_bytes()).unwrap()).collect();
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(&file, format!("{}\n{}\n", digest(&hand.table), lines.join("\n"))).unwrap();
    }
    let text = std::fs::read_to_string(&file).unwrap_or_else(|_| panic!("{} is missing", file.display()));
    let (expected, log) = text.trim_end().split_once('\n').unwrap();
    let entries: Vec<&str> = log.lines().collect();
    assert!(entries.len() > 20);
    let tip = entries.iter().fold(None, |id, entry| Some(StepId::of(id, entry.as_bytes()))).unwrap();
    let (table, halt) = replay_bytes(&entries, tip).unwrap();
    assert_eq!(halt, None);
    assert_eq!(digest(&table), expected);
}

#[test]
fn the_first_golden_log_opens_to_the_same_bits() {
    check("one.log", 41);
}

#[test]
fn the_second_golden_log_opens_to_the_same_bits() {
    check("two.log", 42);
}

#[test]
fn the_third_golden_log_opens_to_the_same_bits() {
    check("three.log", 43);
}
