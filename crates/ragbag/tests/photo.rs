//! Photographs on the command line, as a maker runs it. The pictures are rendered, small, with a known
//! truth.

mod common;

use common::Room;
use demo::scene::{Recipe, Scene, piece_scene, scene};
use demo::sewn;
use plane::polygon;
use serde_json::Value;
use std::process::Command;
use workroom::photo::card_patterns;

impl Room {
    fn said(&self, args: &[&str]) -> String {
        let out = self.run(args);
        assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
        String::from_utf8(out.stdout).unwrap()
    }

    fn refused(&self, args: &[&str], status: i32) -> String {
        let out = self.run(args);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(status), "{args:?}: {said}");
        assert!(!said.contains("panicked") && said.contains("ragbag: "), "{said}");
        said
    }

    /// How many cloths the heap has.
    fn cloths(&self) -> usize {
        self.json(&["heap"])["cloths"].as_array().unwrap().len()
    }
}

fn recipe() -> Recipe {
    Recipe {
        card_side_in: [2.5, 2.5],
        scraps: [4, 5],
        cut_off: 0.0,
        ravelled: 0.0,
        contrast: 25.0,
        tilt_deg: [0.0, 15.0],
        ..Recipe::NORMAL.in_size(&[[1344, 1008]])
    }
}

fn pattern(no: u16) -> Option<[[bool; 8]; 8]> {
    card_patterns().get(usize::from(no)).copied()
}

fn heap_scene(seed: u64) -> Scene {
    scene(&recipe(), seed, &pattern)
}

/// A picture of a piece of five patches, on a mat from which every patch stands out.
fn piece_shown() -> Scene {
    let recipe = Recipe { least_pixels_per_in: 0.0, ..recipe() };
    let stands_out = |scene: &Scene| {
        let mat = scene.truth.mat.to_lab();
        let shades = scene.truth.cloths.iter().flat_map(|cloth| &cloth.look.shades);
        shades.filter(|shade| shade.share >= 0.2).all(|shade| colour::difference(shade.lab, mat) >= 12.0)
    };
    let taken = |seed| {
        let sewn = sewn(seed, 5, 24);
        piece_scene(&recipe, seed, &pattern, &sewn.table(5), &sewn.heap).filter(stands_out)
    };
    (1..60).find_map(taken).unwrap()
}

fn areas(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values
}

#[test]
fn a_folder_of_pictures_fills_the_stash_and_a_bad_one_stops_nothing() {
    let room = Room::new();
    let pictures = room.path("pictures");
    std::fs::create_dir(&pictures).unwrap();
    let (one, two) = (heap_scene(3), heap_scene(4));
    let jpeg = one.to_jpeg().unwrap();
    let write = |name: &str, bytes: &[u8]| std::fs::write(format!("{pictures}/{name}"), bytes).unwrap();
    write("a.jpg", &jpeg);
    write("b.JPG", &two.to_jpeg().unwrap());
    write("c.jpg", &jpeg[..jpeg.len() / 2]);
    write("d.png", b"no picture at all");
    write("e.jpg", &jpeg);
    write("notes.txt", b"not looked at");
    assert_eq!(room.json(&["scrap", "card-side", "2 1/2"])["card_side_in"], 2.5);
    let looked = room.json(&["scrap", "photo", &pictures, "--look"]);
    assert_eq!((&looked["changed"], &looked["failed"]), (&Value::from(false), &Value::from(2)));
    assert_eq!(room.cloths(), 0, "a look changes nothing");
    let told = room.json(&["scrap", "photo", &pictures]);
    let pictures_told = told["pictures"].as_array().unwrap();
    assert_eq!(pictures_told.len(), 5);
    let error = |i: usize| pictures_told[i]["error"]["message"].as_str().unwrap_or_default();
    assert!(error(2).contains("stops before its end"), "{}", error(2));
    assert!(error(3).contains("not a picture"), "{}", error(3));
    assert_eq!(pictures_told[4]["skipped"], true, "the same picture twice");
    let entered = |i: usize| pictures_told[i]["entered"].as_array().unwrap();
    for (i, scene) in [(0, &one), (1, &two)] {
        let found = areas(entered(i).iter().map(|cloth| cloth["area_in2"].as_f64().unwrap()));
        let truth = areas(scene.truth.cloths.iter().map(|cloth| cloth.outline.area()));
        assert_eq!(found.len(), truth.len(), "{found:?} {truth:?}");
        for (found, truth) in found.iter().zip(&truth) {
            assert!((found / truth - 1.0).abs() < 0.02, "{found} {truth}");
        }
    }
    let count = room.cloths();
    assert_eq!(count, one.truth.cloths.len() + two.truth.cloths.len());
    // Once more: everything is known, nothing comes twice, and it is said.
    let again = room.said(&["scrap", "photo", &format!("{pictures}/a.jpg")]);
    assert!(again.contains("entered before, as No. 1, No. 2") && again.contains("--again"), "{again}");
    assert_eq!(room.cloths(), count);
    room.json(&["scrap", "photo", &format!("{pictures}/a.jpg"), "--again", "--as", "blue box"]);
    assert_eq!(room.cloths(), count + one.truth.cloths.len());
    let boxed = room.json(&["heap", "blue box"]);
    assert_eq!(boxed["cloths"].as_array().unwrap().len(), one.truth.cloths.len());
    room.json(&["undo"]);
    assert_eq!(room.cloths(), count, "a picture is one deed");
}

#[test]
fn pictures_that_can_not_be_used_are_refused_with_the_reason() {
    let room = Room::new();
    room.json(&["scrap", "card-side", "2.5"]);
    let file = |name: &str, bytes: &[u8]| {
        let path = room.path(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let jpeg = heap_scene(3).to_jpeg().unwrap();
    let photo = |path: &str, status| room.refused(&["scrap", "photo", path], status);
    let said = photo(&file("half.jpg", &jpeg[..jpeg.len() / 2]), 2);
    assert!(said.contains("half.jpg: the picture stops before its end"), "{said}");
    let said = photo(&file("words.jpg", b"words"), 2);
    assert!(said.contains("not a picture"), "{said}");
    let said = photo(&file("empty.jpg", b""), 2);
    assert!(said.contains("empty"), "{said}");
    let said = photo(&room.path("nowhere.jpg"), 2);
    assert!(said.contains("can't be read: no such file"), "{said}");
    let large = room.path("large.jpg");
    std::fs::File::create(&large).unwrap().set_len(70 << 20).unwrap();
    let said = photo(&large, 2);
    assert!(said.contains("70 megabytes; at most 64"), "{said}");
    let bare = scene(&Recipe { cards: [0, 0], ..recipe() }, 3, &pattern).to_jpeg().unwrap();
    let said = photo(&file("bare.jpg", &bare), 1);
    assert!(said.contains("no measuring card was found"), "{said}");
    let nothing = scene(&Recipe { scraps: [0, 0], ..recipe() }, 3, &pattern).to_jpeg().unwrap();
    let said = photo(&file("mat.jpg", &nothing), 1);
    assert!(said.contains("no cloth beside them"), "{said}");
    std::fs::create_dir(room.path("none")).unwrap();
    let said = photo(&room.path("none"), 2);
    assert!(said.contains("there is no picture in"), "{said}");
    let all = [room.path("half.jpg"), room.path("words.jpg")];
    let said = room.refused(&["scrap", "photo", &all[0], &all[1]], 2);
    assert!(said.contains("none of 2 pictures") && said.contains("half.jpg") && said.contains("words.jpg"));
    for side in ["0", "-2", "90", "wide"] {
        room.run(&["scrap", "card-side", side]);
        assert_eq!(room.json(&["scrap", "card-side"])["card_side_in"], 2.5, "{side}");
    }
    assert_eq!(room.cloths(), 0);
}

#[test]
fn cards_are_written_and_what_they_can_not_be_is_said() {
    let room = Room::new();
    let file = room.path("cards.pdf");
    let told = room.json(&["cards", "--to", &file, "--paper", "letter"]);
    assert_eq!(told["side_in"], 2.0);
    let bytes = std::fs::read(&file).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    let said = room.said(&["cards", "--to", &file, "--side", "1 1/2"]);
    assert!(said.contains("ragbag scrap card-side 1-1/2") || said.contains("card-side 1 1/2"), "{said}");
    assert!(room.refused(&["cards", "--to", &file, "--side", "40"], 2).contains("0.75 to"));
    assert!(room.refused(&["cards", "--to", &room.path("cards.png")], 2).contains("no .pdf"));
    assert_ne!(std::fs::read(&file).unwrap(), bytes);
    assert!(!std::path::Path::new(&room.path("room")).exists(), "cards make no workroom");
}

fn in_fours(picture: &vision::Picture) -> vision::Picture {
    let (width, height) = (picture.width / 4, picture.height / 4);
    let mean = |x: u32, y: u32| {
        let all = (0..16).map(|i| picture.at(i64::from(4 * x + i % 4), i64::from(4 * y + i / 4)));
        let light = |value: u8| (f64::from(value) / 255.0).powf(2.2);
        let sum = all.fold([0.0; 3], |sum, px| [0, 1, 2].map(|i| sum[i] + light(px[i])));
        sum.map(|light| (255.0 * (light / 16.0).powf(1.0 / 2.2)).round() as u8)
    };
    let rgb = (0..height).flat_map(|y| (0..width).map(move |x| (x, y))).map(|(x, y)| mean(x, y)).collect();
    vision::Picture { width, height, rgb }
}

/// The printed page, drawn by pdftoppm (which `cargo xtask test` installs), read as if it were photographed.
#[test]
fn what_is_printed_is_read_with_its_numbers_and_its_size() {
    let room = Room::new();
    room.json(&["cards", "--to", &room.path("cards.pdf")]);
    let args = ["-png", "-singlefile", "-r", "600", "cards.pdf", "page"];
    let ran = Command::new("pdftoppm").args(args).current_dir(room.0.path()).status();
    assert!(ran.expect("pdftoppm is there: `cargo xtask test` installs poppler-utils").success());
    // Four by four pixels in one, as a camera gathers light: drawn small, every edge is fattened to whole pixels.
    let page = in_fours(&vision::decode(&std::fs::read(room.path("page.png")).unwrap()).unwrap());
    let cards = vision::find_cards(&page);
    assert_eq!(cards.iter().map(|card| card.no).collect::<Vec<_>>(), (0..9).collect::<Vec<_>>());
    let map = vision::flatten(&cards, 2.0, [page.width, page.height]).unwrap();
    assert_eq!((map.used().len(), map.left_out().len()), (9, 0));
    // Within a pixel of the drawing.
    assert!(map.residual_in() < 1.0 / 150.0, "{}", map.residual_in());
    let middle = plane::Point::new(f64::from(page.width) / 2.0, f64::from(page.height) / 2.0);
    assert!((map.pixels_per_in(middle) / 150.0 - 1.0).abs() < 0.002, "{}", map.pixels_per_in(middle));
}

#[test]
fn the_piece_is_measured_anew_from_a_picture() {
    let room = Room::new();
    let scene = piece_shown();
    let truth = scene.truth.piece.clone().unwrap();
    let picture = room.path("table.jpg");
    std::fs::write(&picture, scene.to_jpeg().unwrap()).unwrap();
    // Planned as one patch, a little larger than what was sewn.
    let middle = polygon::centroid(&truth.outer).unwrap();
    let (low, _) = polygon::bounds(&truth.outer).unwrap();
    let corners: Vec<String> = truth
        .outer
        .iter()
        .map(|p| middle + (*p - middle) * 1.03)
        .map(|p| format!("{:.4},{:.4}", p.x - low.x + 1.0, p.y - low.y + 1.0))
        .collect();
    room.json(&["add", "rectangle", "rust", "60", "60"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", &corners.join(" ")]);
    let sides = room.json(&["sides"]);
    let remeasure = ["remeasure", "Tide", "--photo", &picture, "--side", "2.5"];
    let looked = room.json(&[&remeasure[..], &["--look"]].concat());
    assert_eq!(looked["changed"], false);
    assert!(looked["square"]["corners"].as_array().unwrap().len() >= 3 && looked["square_words"].is_array());
    assert!(looked["differences"].as_array().unwrap().iter().any(|line| {
        let line = line.as_str().unwrap();
        line.starts_with("Side 1") && line.ends_with("shorter.")
    }));
    assert_eq!(room.json(&["sides"]), sides, "a look changes nothing");
    let words = room.said(&remeasure);
    assert!(words.contains("What was seen is now the outline.") && words.contains("shorter"), "{words}");
    let shown = room.json(&["draw", "front", "--photo"])["svg"].as_str().unwrap().to_owned();
    assert!(shown.contains("data:image/png") && shown.contains("photograph"));
    assert!(!room.json(&["draw", "front"])["svg"].as_str().unwrap().contains("data:image/png"));
    assert!(room.refused(&["draw", "back", "--photo"], 2).contains("shows the front"));
    let now = room.json(&["sides"]);
    let lengths = |value: &Value| -> f64 {
        value["sides"].as_array().unwrap().iter().map(|side| side["raw_in"].as_f64().unwrap()).sum()
    };
    let perimeter = polygon::perimeter(&truth.outer);
    assert!((lengths(&sides) / perimeter - 1.03).abs() < 1e-3);
    assert!((lengths(&now) / perimeter - 1.0).abs() < 0.01, "{} {perimeter}", lengths(&now));
    room.json(&["undo"]);
    assert_eq!(room.json(&["sides"])["sides"], sides["sides"]);
    assert!(room.refused(&["draw", "front", "--photo"], 1).contains("no photograph"));
    let heap = room.path("heap.jpg");
    std::fs::write(&heap, heap_scene(3).to_jpeg().unwrap()).unwrap();
    let said = room.refused(&["remeasure", "Tide", "--photo", &heap, "--side", "2.5"], 1);
    assert!(said.contains("another piece"), "{said}");
    room.refused(&["remeasure", "Ebb", "--photo", &heap], 2);
    assert_eq!(room.json(&["sides"])["sides"], sides["sides"]);
}

#[test]
fn the_eye_check_of_a_picture_needs_no_quilt() {
    let room = Room::new();
    let picture = room.path("wall.jpg");
    std::fs::write(&picture, piece_shown().to_jpeg().unwrap()).unwrap();
    let eye = ["eye", "--photo", &picture, "--side", "2.5"];
    let words = room.said(&eye);
    for told in [
        "round: The outline strays",
        "balance: The centre of weight lies",
        "From the middle outward:",
        "needs a log",
    ] {
        assert!(words.contains(told), "{told}: {words}");
    }
    let raw = room.json(&eye);
    assert_eq!((&raw["edge_in"], raw["rows"].as_array().unwrap().len()), (&Value::from(0.25), 3));
    let finished = room.json(&[&eye[..], &["--edge", "0"]].concat());
    let across = |value: &Value| value["across_finished_in"].as_f64().unwrap();
    let off = across(&finished) - across(&raw);
    assert!((0.4..0.6).contains(&off), "a quarter inch on each side: {off}");
    assert!(room.refused(&[&eye[..], &["--edge", "9"]].concat(), 2).contains("can't take 9"));
    room.refused(&["--quilt", "Ebb", "eye", "--photo", &picture, "--side", "2.5"], 2);
    room.refused(&["eye", "--photo", &room.path("nowhere.jpg")], 2);
}

#[test]
fn the_outline_of_a_cloth_that_is_entered_is_put_right_by_its_corners() {
    let room = Room::new();
    room.json(&["add", "rectangle", "rust", "6", "4"]);
    let seen = room.json(&["scrap", "outline", "1"]);
    assert_eq!(
        (&seen["changed"], seen["outline"]["outer"].as_array().unwrap().len()),
        (&Value::from(false), 4)
    );
    let moved = room.json(&["scrap", "outline", "1", "--corner", "6 1/8,4", "--corner", "3,-1/4"]);
    assert_eq!(
        (&moved["changed"], moved["outline"]["outer"].as_array().unwrap().len()),
        (&Value::from(true), 5)
    );
    // Half of 1/8 by 4 more at the side, half of 6 by 1/4 more below (areas of triangles).
    assert!((moved["area_in2"].as_f64().unwrap() - (24.0 + 0.25 + 0.75)).abs() < 1e-9, "{moved}");
    let whole = room.json(&["scrap", "outline", "1", "--whole", "0,0 5,0 5,4 0,4"]);
    assert_eq!(whole["area_in2"], 20.0);
    assert!(room.said(&["scrap", "outline", "1"]).contains("No. 1 rust: 5 by 4."));
    for (asked, told) in [("3", "not two lengths"), ("a,b", "a corner"), ("1,", "a corner")] {
        let said = room.refused(&["scrap", "outline", "1", "--corner", asked], 2);
        assert!(said.contains(told), "{said}");
    }
    let said = room.refused(&["scrap", "outline", "1", "--whole", "0,0 5,4 5,0 0,4"], 2);
    assert!(said.contains("cross"), "{said}");
    room.refused(&["scrap", "outline", "9"], 2);
    room.json(&["undo"]);
    room.json(&["undo"]);
    assert_eq!(room.json(&["heap"])["cloths"][0]["area_in2"], 24.0);
}
