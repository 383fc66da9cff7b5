//! Golden logs: stored bytes that must open for ever, to the same bits. Each file of
//! `tests/golden` holds one log, an entry a line, and the digest of the table it replays to.
//!
//! A file that is missing fails. `UPDATE_GOLDEN=1 cargo test -p quilt --test golden` writes files
//! that aren't there; it never changes one that is.

mod common;

use common::{Hand, bars, frame, lay, sew};
use plane::Turn;
use quilt::log::{
    Along, Bound, End, Keep, Mark, Measured, Name, Press, Run, RunKind, Sewing, Stage, Step, StepId,
};
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

/// As [`digest`], and over seams, offcuts, patches and stages as well.
fn full_digest(table: &Table) -> String {
    let mut hash = Sha256::new();
    let mut number = |value: f64| hash.update(value.to_bits().to_le_bytes());
    for offcut in table.offcuts() {
        number(f64::from(offcut.by.0));
        for part in &offcut.parts {
            number(f64::from(part.patch.0));
            [part.pose.turn.cos, part.pose.turn.sin, part.pose.by.x, part.pose.by.y]
                .into_iter()
                .for_each(&mut number);
            part.piece.iter().for_each(|p| [p.x, p.y].into_iter().for_each(&mut number));
        }
    }
    for top in table.tops().values() {
        for (name, seam) in top.seams() {
            number(f64::from(seam.order));
            [seam.allowance_in, seam.sewn_in, f64::from(seam.added.0)].into_iter().for_each(&mut number);
            let ends = top.seam_points(*name).map(|(a, b)| [a.x, a.y, b.x, b.y]);
            ends.into_iter().flatten().for_each(&mut number);
        }
    }
    for (mark, top) in table.tops() {
        for (name, seam) in top.seams() {
            let words = (mark, name, seam.press, seam.open, seam.ends(), &seam.crosses);
            hash.update(format!("{words:?}"));
        }
    }
    for (mark, patch) in table.patches() {
        hash.update(format!("{mark} {}", patch.cloth));
    }
    hash.update(format!("{:?}{}", table.stages(), digest(table)));
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A piece that is turned on the table and sewn on further.
fn turned(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    for degrees in [0.0, -25.0, 140.0] {
        let top = hand.table.piece().expect("a piece").0;
        hand.try_step(Step::Turn { top, by: Turn::from_degrees(degrees) }).expect("it can be turned");
        for _ in 0..6 {
            hand.add_piece();
        }
        hand.trim();
    }
    hand
}

/// A log with every kind of step and every choice that a step has.
fn every_kind(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    let done = |hand: &mut Hand, step: Step| hand.try_step(step).expect("a step that can be done");
    let square = |wide: f64| lay(&[(0.0, 0.0), (wide, 0.0), (wide, 3.0), (0.0, 3.0)]);
    let chosen = |press, slide_in, stop, flush, step: Step| match step {
        Step::Sew(Sewing::Join { onto, with, allowance_in, .. }) => {
            Step::Sew(Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press })
        }
        other => other,
    };
    for (press, stop, flush) in [
        (Press::Over, None, [true, true]),
        (Press::Back, None, [true, false]),
        (Press::Open, Some((End::End, 0.75)), [false, true]),
        (Press::Over, Some((End::Start, 0.5)), [true, true]),
    ] {
        let bar = done(&mut hand, square(9.0));
        let onto = hand.table.tops()[&Mark(1)].sides();
        let onto = onto.iter().filter_map(|side| Some((side.length_in(), side.name()?)));
        let names: Vec<Name> = onto.filter(|(length, _)| *length > 1.5).map(|(_, name)| name).collect();
        let step = |onto: &Name| chosen(press, 0.125, stop, flush, sew(*onto, Name::new(bar, 0), flush));
        let seam = names.iter().find_map(|onto| hand.try_step(step(onto)).ok()).expect("a side to sew");
        if stop.is_some() {
            done(&mut hand, Step::Sew(Sewing::Close { seam: Name::new(seam, 0) }));
        }
    }
    let base = done(&mut hand, square(6.0));
    let from = |no, at_in, degrees| {
        let side = Name::new(base, no);
        Along::From { side, at_in, turn: Turn::from_degrees(degrees) }
    };
    done(&mut hand, Step::Cut { top: base, along: from(0, 4.5, 80.0), keep: Keep::Left });
    done(&mut hand, Step::Cut { top: base, along: from(0, 0.5, 95.0), keep: Keep::Right });
    let halves = done(&mut hand, Step::Cut { top: base, along: from(0, 2.0, 90.0), keep: Keep::Both });
    done(&mut hand, sew(Name::new(halves, 0), Name::new(halves, 1), [true, true]));
    let notched = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 4.0), (2.0, 2.0), (0.0, 2.0)];
    let ell = done(&mut hand, lay(&notched));
    let along = Along::Side(Name::new(ell, 4));
    done(&mut hand, Step::Cut { top: ell, along, keep: Keep::Left });
    let side = Name::new(ell, 0);
    let line = hand.table.tops()[&ell].line(Bound::Raw(side)).expect("a line").inward(0.0625);
    done(&mut hand, Step::Measure { top: ell, sides: vec![Measured { side, line }], shown: None });
    for stage in [Stage::Layers, Stage::Quilting, Stage::Binding, Stage::Figure] {
        done(&mut hand, Step::Choose(stage("as it comes".to_owned())));
    }
    done(&mut hand, Step::Note("the ell waits".to_owned()));
    let kinds = [
        RunKind::Start,
        RunKind::Piece,
        RunKind::Trim,
        RunKind::Grow,
        RunKind::StripSet,
        RunKind::PutIn,
        RunKind::TrueUp,
    ];
    for (entry, kind) in hand.entries.iter_mut().zip(kinds) {
        let ask = (kind == RunKind::Grow).then(|| r#"{"pieces":3}"#.to_owned());
        entry.run = Some(Run { first: entry.mark, kind, ask });
    }
    hand
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

/// A log sliced and sewn together again and again, with pieces and trims on the sides that this
/// brings: half of its names are those that a slice gave.
fn sliced(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    let mut slices = 0;
    while slices < 9 {
        hand.add_piece();
        hand.trim();
        slices += usize::from(hand.slice_and_rejoin());
        hand.add_piece();
    }
    hand
}

/// A piece in a mitred border of unequal widths.
fn framed(seed: u64) -> Hand {
    let mut hand = sewn(seed);
    let top = hand.table.piece().expect("a piece").0;
    let strips = bars(&mut hand, top, &[1.5, 2.75, 2.0], 30.0);
    hand.try_step(frame(strips, 0.25)).expect("it can be framed");
    hand
}

fn check(name: &str, sewn: impl Fn() -> Hand, digest: impl Fn(&Table) -> String) {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if !file.exists() && std::env::var_os("UPDATE_GOLDEN").is_some() {
        let hand = sewn();
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
    check("one.log", || sewn(41), digest);
}

#[test]
fn the_second_golden_log_opens_to_the_same_bits() {
    check("two.log", || sewn(42), digest);
}

#[test]
fn the_third_golden_log_opens_to_the_same_bits() {
    check("three.log", || sewn(43), digest);
}

#[test]
fn the_golden_log_of_many_slices_opens_to_the_same_names_and_bits() {
    check("sliced.log", || sliced(45), digest);
}

#[test]
fn the_golden_log_of_a_mitred_border_opens_to_the_same_bits() {
    check("frame.log", || framed(41), full_digest);
}

#[test]
fn the_golden_log_of_a_turned_piece_opens_to_the_same_bits() {
    check("turned.log", || turned(47), full_digest);
}

#[test]
fn the_golden_log_of_every_kind_of_step_opens_to_the_same_bits() {
    check("every-kind.log", || every_kind(44), full_digest);
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden/every-kind.log");
    let log = std::fs::read_to_string(file).unwrap();
    for word in [
        "lay",
        "join",
        "close",
        "cut",
        "measure",
        "choose",
        "note",
        "side",
        "from",
        "left",
        "right",
        "both",
        "over",
        "back",
        "open",
        "start",
        "end",
        "layers",
        "quilting",
        "binding",
        "figure",
        "ask",
        "piece",
        "trim",
        "grow",
        "strip_set",
        "put_in",
        "true_up",
    ] {
        assert!(log.contains(&format!("\"{word}\"")), "no {word} in it");
    }
}
