//! Catching up on the command line, as a maker runs it. The pictures are rendered, small, with a known
//! truth.

mod common;

use common::Room;
use demo::Sewn;
use demo::scene::{Recipe, Scene, piece_scene, scene};
use plane::{Region, polygon};
use serde_json::Value;
use workroom::photo::card_patterns;

const KNOWN: usize = 5;
const ALL: usize = 8;
const SEED: u64 = 3;

fn recipe() -> Recipe {
    Recipe {
        card_side_in: [2.0, 2.0],
        least_pixels_per_in: 0.0,
        tilt_deg: [0.0, 12.0],
        blur_px: [0.3, 0.6],
        ..Recipe::NORMAL.in_size(&[[2016, 1512]])
    }
}

fn pattern(no: u16) -> Option<[[bool; 8]; 8]> {
    card_patterns().get(usize::from(no)).copied()
}

/// A workroom in which the piece is known as one patch, as it was before the last ones; its picture as it
/// is now; how large it is really.
fn bench() -> (Room, String, Region) {
    let room = Room::new();
    let sewn: Sewn = demo::sewn(SEED, ALL, 16);
    let shown: Scene = piece_scene(&recipe(), SEED, &pattern, &sewn.table(ALL), &sewn.heap).unwrap();
    let picture = room.path("table.jpg");
    std::fs::write(&picture, shown.to_jpeg().unwrap()).unwrap();
    let known = sewn.table(KNOWN).piece().unwrap().1.outline_points();
    let (low, _) = polygon::bounds(&known).unwrap();
    let corners: Vec<String> =
        known.iter().map(|p| format!("{:.5},{:.5}", p.x - low.x + 1.0, p.y - low.y + 1.0)).collect();
    room.json(&["add", "rectangle", "rust", "60", "60"]);
    room.json(&["add", "rectangle", "sand", "30", "30"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", &corners.join(" ")]);
    (room, picture, shown.truth.piece.unwrap())
}

impl Room {
    fn told(&self, args: &[&str]) -> (String, String) {
        let out = self.run(args);
        let [said, talk] = [out.stdout, out.stderr].map(|bytes| String::from_utf8(bytes).unwrap());
        assert!(out.status.success(), "{args:?}: {talk}");
        (said, talk)
    }

    fn refused(&self, args: &[&str], status: i32) -> String {
        let out = self.run(args);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(status), "{args:?}: {said}");
        assert!(!said.contains("panicked") && said.contains("ragbag: "), "{said}");
        said
    }

    fn sides(&self) -> Value {
        self.json(&["sides"])["sides"].clone()
    }
}

fn perimeter(sides: &Value) -> f64 {
    sides.as_array().unwrap().iter().map(|side| side["raw_in"].as_f64().unwrap()).sum()
}

#[test]
fn what_was_sewn_since_is_told_and_taken_in() {
    let (room, picture, truth) = bench();
    let before = room.sides();
    let catch_up = ["catch-up", "Tide", &picture];
    let looked = room.json(&[&catch_up[..], &["--look"]].concat());
    assert_eq!(looked["changed"], false);
    assert_eq!(looked["patches"].as_array().unwrap().len(), ALL - KNOWN, "{}", looked["patches"]);
    assert_eq!(room.sides(), before, "a look changes nothing");
    let (said, talk) = room.told(&[&catch_up[..], &["--cloth", "1=2", "--as-found", "3"]].concat());
    assert!(said.contains("3 patches are new") && said.contains("Taken in as sewn: No. 2,"), "{said}");
    assert!(said.contains("as found"), "{said}");
    for stage in ["opening the picture", "looking for the cards", "following the outlines"] {
        assert!(talk.contains(stage), "{talk}");
    }
    let off = perimeter(&room.sides()) / polygon::perimeter(&truth.outer) - 1.0;
    assert!(off.abs() < 0.01, "{off}");
    let log = room.json(&["log"]);
    assert_eq!(log["sewn"], log["tip"], "{log}");
    // The next piece starts from there, and a picture of the same piece brings nothing new.
    assert!(!room.json(&["next"])["proposals"].as_array().unwrap().is_empty());
    let (again, _) = room.told(&catch_up);
    assert!(again.contains("No patch is new"), "{again}");
    room.json(&["undo"]);
    room.json(&["undo"]);
    assert_eq!(room.sides(), before);
    let (said, _) = room.told(&[&catch_up[..], &["--in-one"]].concat());
    assert!(said.contains("one patch now"), "{said}");
    let off = perimeter(&room.sides()) / polygon::perimeter(&truth.outer) - 1.0;
    assert!(off.abs() < 0.01, "{off}");
}

#[test]
fn what_can_not_be_caught_up_with_is_refused_with_the_reason() {
    let (room, picture, _) = bench();
    let before = room.sides();
    let heap = room.json(&["heap"]);
    let file = |name: &str, bytes: &[u8]| {
        let path = room.path(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let tell = |args: &[&str], status| room.refused(&[&["catch-up"], args].concat(), status);
    let said = tell(&["Tide", &picture, "--cloth", "7=1"], 2);
    assert!(said.contains("no patch 7 that is new; 3 were found"), "{said}");
    let said = tell(&["Tide", &picture, "--cloth", "1=99"], 2);
    assert!(said.contains("99"), "{said}");
    let said = tell(&["Tide", &picture, "--cloth", "rust"], 2);
    assert!(said.contains("doesn't say which patch"), "{said}");
    let said = tell(&["Tide", &picture, "--cloth", "1=1", "--as-found", "1"], 2);
    assert!(said.contains("patch 1 is told twice"), "{said}");
    let said = tell(&["Ebb", &picture], 2);
    assert!(said.contains("Ebb"), "{said}");
    let said = tell(&["Tide", &file("words.jpg", b"words")], 2);
    assert!(said.contains("not a picture"), "{said}");
    let said = tell(&["Tide", &room.path("nowhere.jpg")], 2);
    assert!(said.contains("no such file"), "{said}");
    let bare = scene(&Recipe { cards: [0, 0], ..recipe() }, 3, &pattern).to_jpeg().unwrap();
    let said = tell(&["Tide", &file("bare.jpg", &bare)], 1);
    assert!(said.contains("no measuring card"), "{said}");
    let nothing = scene(&Recipe { scraps: [0, 0], ..recipe() }, 3, &pattern).to_jpeg().unwrap();
    let said = tell(&["Tide", &file("mat.jpg", &nothing)], 1);
    assert!(said.contains("no cloth beside them"), "{said}");
    let sewn = demo::sewn(SEED, 2, 16);
    let small = piece_scene(&recipe(), SEED, &pattern, &sewn.table(2), &sewn.heap).unwrap();
    let said = tell(&["Tide", &file("small.jpg", &small.to_jpeg().unwrap())], 1);
    assert!(said.contains("square inches") && said.contains("known of"), "{said}");
    room.json(&["quilt", "Empty"]);
    let said = tell(&["Empty", &picture], 1);
    assert!(said.contains("nothing on the table"), "{said}");
    assert_eq!(room.json(&["--quilt", "Tide", "sides"])["sides"], before);
    assert_eq!(room.json(&["heap"]), heap);
}
