//! A quilt travels from one workroom to another without a bit of its log changing.

mod common;

use common::{enter, join, lay, note, plain, rectangle, workroom, workroom_called};
use plane::{Point, Region};
use quilt::cloth::{ClothId, Picture};
use quilt::wish::Wish;
use std::io::{Cursor, Read, Write};
use workroom::bundle::BundleProblem;
use workroom::quilts::MAIN;
use workroom::stash::CutAsk;
use workroom::{Workroom, WorkroomError};
use zip::write::SimpleFileOptions;

const PICTURE: &[u8] = b"\x89PNG\r\n\x1a\nnot much of a picture, but one";

/// A quilt with two heads, partly sewn, of a cloth with a picture that was also cut by hand.
fn quilt(room: &mut Workroom) -> ClothId {
    let hash = room.keep_picture(PICTURE, "png").unwrap();
    let mut scrap = plain("ripple", Region::rectangle(12.0, 6.0));
    let top_left = Point::new(0.0, 6.0);
    scrap.picture = Some(Picture {
        hash,
        format: "png".to_owned(),
        pixels_per_in: 100.0,
        top_left,
        size_px: [1200, 600],
    });
    let cloth = room.enter(vec![scrap]).unwrap()[0].1;
    enter(room, 9.0, 9.0);
    room.cut(&CutAsk { cloth, piece: rectangle(10.0, 0.0, 2.0, 6.0), keep: false, anyway: false }).unwrap();
    let wish = Wish { across_in: 20.0 / 3.0, ..Wish::default() };
    let head = room.new_quilt("low tide", &wish).unwrap();
    let steps = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (4.0, 0.0), (4.0, 4.0)),
        join(3, (1, 1), (2, 3), true),
    ];
    let head = room.append(&head.at(), &steps).unwrap();
    let ids: Vec<_> = room.log("low tide", MAIN).unwrap().steps.iter().map(|step| step.id).collect();
    let what_if = room.what_if(&head.at(), Some(ids[1]), "other").unwrap();
    room.append(&what_if.at(), &[note(3, "a \"quoted\" word, ½ and \u{1f9f5}")]).unwrap();
    room.sew(&head.at(), ids[0], false).unwrap();
    cloth
}

#[test]
fn a_quilt_comes_out_as_it_went_in() {
    let (_folder, mut from) = workroom();
    let cloth = quilt(&mut from);
    let bytes = from.export("low tide").unwrap();
    assert_eq!(from.export("low tide").unwrap(), bytes, "the same quilt gives the same file");
    let (folder, mut to) = workroom_called(8);
    enter(&mut to, 1.0, 1.0);
    let file = folder.path().join("low tide.ragbag");
    from.export_to("low tide", &file).unwrap();
    let report = to.import_from(&file, None).unwrap();
    assert_eq!((report.steps, report.cloths, report.pictures), (4, 1, 1));
    for head in [MAIN, "other"] {
        let (a, b) = (from.log("low tide", head).unwrap(), to.log("low tide", head).unwrap());
        assert_eq!((a.steps, a.sewn, a.head.tip), (b.steps, b.sewn, b.head.tip));
        let tip = a.head.tip.unwrap();
        assert_eq!(from.path_bytes(tip).unwrap(), to.path_bytes(tip).unwrap());
    }
    assert_eq!(from.wish("low tide").unwrap(), to.wish("low tide").unwrap());
    let (there, here) =
        (from.stash().unwrap().get(cloth).unwrap().clone(), to.stash().unwrap().get(cloth).unwrap().clone());
    assert_eq!((&there.came, &there.now), (&here.came, &here.now));
    assert_eq!(to.picture(&here.came.picture.unwrap().hash).unwrap().unwrap().0, PICTURE);
    // The rest of the quilt can be sewn here, from what is left of the cloth.
    let head = to.head("low tide", MAIN).unwrap();
    assert_eq!(to.sew(&head.at(), head.tip.unwrap(), false).unwrap().cut, 1);
    // And once more, under another name: the cloth is known already.
    let error = to.import(&bytes, None).unwrap_err();
    assert!(matches!(error, WorkroomError::QuiltTaken(_)), "{error}");
    assert_eq!(to.import(&bytes, Some("low tide again")).unwrap().cloths, 0);
    to.undo().unwrap();
    assert_eq!(to.quilts().unwrap().len(), 1);
}

/// The same zip with one file changed, added (`None` before) or left out (`None` after).
fn with_file(bytes: &[u8], name: &str, change: impl Fn(Option<Vec<u8>>) -> Option<Vec<u8>>) -> Vec<u8> {
    let mut old = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut new = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let mut found = false;
    for i in 0..old.len() {
        let mut file = old.by_index(i).unwrap();
        let here = file.name().unwrap().into_owned();
        let mut content = Vec::new();
        file.read_to_end(&mut content).unwrap();
        found |= here == name;
        let content = if here == name { change(Some(content)) } else { Some(content) };
        if let Some(content) = content {
            new.start_file(here, SimpleFileOptions::default()).unwrap();
            new.write_all(&content).unwrap();
        }
    }
    if !found && let Some(content) = change(None) {
        new.start_file(name, SimpleFileOptions::default()).unwrap();
        new.write_all(&content).unwrap();
    }
    new.finish().unwrap().into_inner()
}

fn refused(bytes: &[u8]) -> BundleProblem {
    let (_folder, mut room) = workroom_called(9);
    let error = room.import(bytes, None).unwrap_err();
    assert!(error.hint().is_some());
    assert!(room.quilts().unwrap().is_empty() && room.stash().unwrap().present().is_empty());
    match error {
        WorkroomError::Bundle(problem) => problem,
        other => panic!("{other}"),
    }
}

#[test]
fn a_damaged_file_is_refused_and_takes_nothing_in() {
    let (_folder, mut from) = workroom();
    quilt(&mut from);
    let bytes = from.export("low tide").unwrap();
    assert!(matches!(refused(b"words"), BundleProblem::Zip(_)));
    refused(&bytes[..bytes.len() / 2]);
    let swap = |from: &'static str, to: &'static str| {
        with_file(&bytes, "quilt.json", move |old| {
            let text = String::from_utf8(old.unwrap()).unwrap();
            assert!(text.contains(from), "{from} is not in {text}");
            Some(text.replacen(from, to, 1).into_bytes())
        })
    };
    assert!(matches!(refused(&swap("\\\"mark\\\":2", "\\\"mark\\\":5")), BundleProblem::Damaged(_)));
    assert!(matches!(
        refused(&swap("\"version\": 1", "\"version\": 2")),
        BundleProblem::Newer { found: 2, .. }
    ));
    assert!(matches!(refused(&swap("ragbag quilt", "shopping list")), BundleProblem::Damaged(_)));
    assert!(matches!(refused(&swap("\"x\": 12.0", "\"x\": -12.0")), BundleProblem::Damaged(_)));
    // The other head, sewn on a branch of its own: what is sewn lies on one path.
    let tip = from.head("low tide", "other").unwrap().tip.unwrap();
    let whole = from.head("low tide", MAIN).unwrap();
    let sewn_apart = with_file(&bytes, "quilt.json", |old| {
        let text = String::from_utf8(old.unwrap()).unwrap();
        let (main, sewn) = (whole.tip.unwrap(), whole.sewn.unwrap());
        let text = text.replacen(&format!("\"sewn\": \"{sewn}\""), &format!("\"sewn\": \"{main}\""), 1);
        let other = format!("\"tip\": \"{tip}\",\n      \"sewn\": ");
        let at = text.find(&other).unwrap() + other.len();
        let end = at + text[at..].find('\n').unwrap();
        Some(format!("{}\"{tip}\"{}", &text[..at], &text[end..]).into_bytes())
    });
    assert!(matches!(refused(&sewn_apart), BundleProblem::Damaged(_)));
    assert!(matches!(refused(&swap("\"sparks\": 0.06", "\"sparks\": 6.0")), BundleProblem::Damaged(_)));
    let without = with_file(&bytes, "quilt.json", |_| None);
    assert_eq!(refused(&without), BundleProblem::Missing("quilt.json".to_owned()));
    let stranger = with_file(&bytes, "../../etc/heron", |_| Some(b"x".to_vec()));
    assert!(matches!(refused(&stranger), BundleProblem::Stranger(_)));
    let archive = zip::ZipArchive::new(Cursor::new(&bytes)).unwrap();
    let mut names = archive.file_names().map(|name| name.unwrap().into_owned());
    let picture = names.find(|name| name.starts_with("pictures")).unwrap();
    let changed = with_file(&bytes, &picture, |_| Some(b"\x89PNG\r\n\x1a\nanother".to_vec()));
    assert!(matches!(refused(&changed), BundleProblem::Damaged(_)));
    assert!(matches!(refused(&with_file(&bytes, &picture, |_| None)), BundleProblem::Missing(_)));
}

#[test]
fn outlines_are_taken_in_counter_clockwise_however_they_were_drawn_and_parts_are_checked() {
    let (_folder, mut from) = workroom();
    let cloth = quilt(&mut from);
    let bytes = from.export("low tide").unwrap();
    let with_cloth = |change: &dyn Fn(&mut serde_json::Value)| {
        with_file(&bytes, "quilt.json", |old| {
            let mut document: serde_json::Value = serde_json::from_slice(&old.unwrap()).unwrap();
            change(&mut document["cloths"][0]);
            Some(serde_json::to_vec(&document).unwrap())
        })
    };
    let (_other, mut to) = workroom_called(8);
    let clockwise = with_cloth(&|form| {
        form["cloth"]["outline"]["outer"].as_array_mut().unwrap().reverse();
        form["left"]["outer"].as_array_mut().unwrap().reverse();
    });
    to.import(&clockwise, None).unwrap();
    let item = to.stash().unwrap().get(cloth).unwrap().clone();
    assert!((item.came.outline.area() - 72.0).abs() < 1e-9 && item.now.unwrap().outline.area() > 0.0);
    let corner = |x: f64, y: f64| serde_json::json!({ "x": x, "y": y });
    let bow_tie = with_cloth(&|form| {
        form["cloth"]["parts"] = serde_json::json!([{
            "cloth": cloth.to_string(),
            "pose": { "turn": { "cos": 1.0, "sin": 0.0 }, "by": { "x": 0.0, "y": 0.0 } },
            "shows": [corner(0.0, 0.0), corner(2.0, 2.0), corner(2.0, 0.0), corner(0.0, 2.0)],
        }]);
    });
    let BundleProblem::Damaged(why) = refused(&bow_tie) else { panic!("it was not damaged") };
    assert!(why.contains("sides 1 and 3"), "{why}");
}

/// A cut with a corner on the edge of its cloth leaves a hole that touches the edge.
#[test]
fn a_rest_that_touches_itself_travels() {
    let (_folder, mut from) = workroom();
    let cloth = enter(&mut from, 6.0, 5.0);
    let head = from.new_quilt("low tide", &Wish::default()).unwrap();
    let head = from.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (0.05, 0.05))]).unwrap();
    from.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    let piece = [(0.1, 3.0), (1.6, 2.8), (3.2, 4.7), (1.0, 5.0 - 5e-10)].map(|(x, y)| Point::new(x, y));
    from.cut(&CutAsk { cloth, piece: piece.to_vec(), keep: false, anyway: false }).unwrap();
    let left = from.stash().unwrap().get(cloth).unwrap().now.clone().unwrap().outline;
    assert_eq!(left.holes.len(), 1);
    let bytes = from.export("low tide").unwrap();
    let (_other, mut to) = workroom_called(8);
    to.import(&bytes, None).unwrap();
    assert_eq!(to.stash().unwrap().get(cloth).unwrap().now.clone().unwrap().outline, left);
    // A file of before, in which the outline runs round the hole.
    let before = with_file(&bytes, "quilt.json", |old| {
        let mut document: serde_json::Value = serde_json::from_slice(&old.unwrap()).unwrap();
        let form = &mut document["cloths"][0]["left"];
        let mut hole: Vec<_> = form["holes"][0].as_array().unwrap().clone();
        let touch = |p: &serde_json::Value| p["y"].as_f64().unwrap() > 4.99;
        let at = hole.iter().position(touch).unwrap();
        hole.rotate_left(at);
        let outer = form["outer"].as_array_mut().unwrap();
        let right = |p: &serde_json::Value| touch(p) && p["x"].as_f64().unwrap() > 5.0;
        let top = outer.iter().position(right).unwrap();
        let first = hole[0].clone();
        hole.push(first);
        outer.splice(top + 1..top + 1, hole);
        form.as_object_mut().unwrap().remove("holes");
        Some(serde_json::to_vec(&document).unwrap())
    });
    let (_third, mut to) = workroom_called(9);
    to.import(&before, None).unwrap();
    let now = to.stash().unwrap().get(cloth).unwrap().now.clone().unwrap().outline;
    assert!(now.holes.len() == 1 && (now.area() - left.area()).abs() < 1e-6, "{now:?}");
}

#[test]
fn no_single_byte_can_be_changed_unnoticed_or_make_it_fall_over() {
    let (_folder, mut from) = workroom();
    quilt(&mut from);
    let bytes = from.export("low tide").unwrap();
    let log = from.log("low tide", MAIN).unwrap().steps;
    let (_other, mut to) = workroom_called(9);
    let mut refused = 0;
    for at in (0..bytes.len()).step_by(7) {
        let mut changed = bytes.clone();
        changed[at] ^= 0x40;
        match to.import(&changed, Some(&format!("quilt {at}"))) {
            // Bytes that say nothing, such as a date.
            Ok(report) => assert_eq!(to.log(&report.quilt, MAIN).unwrap().steps, log),
            Err(_) => refused += 1,
        }
    }
    assert!(refused > bytes.len() / 14, "{refused} of {}", bytes.len());
}

#[test]
fn a_file_that_unpacks_to_far_more_than_it_is_is_refused() {
    let (_folder, mut from) = workroom();
    quilt(&mut from);
    let bytes = from.export("low tide").unwrap();
    // 65 MiB of spaces before the document: some 64 KiB packed.
    let bomb = with_file(&bytes, "quilt.json", |old| {
        let mut content = vec![b' '; 65 << 20];
        content.extend(old.unwrap());
        Some(content)
    });
    assert!(bomb.len() < 1 << 20);
    assert!(matches!(refused(&bomb), BundleProblem::TooLarge { .. }));
    let many = (0..5000).fold(zip::ZipWriter::new(Cursor::new(Vec::new())), |mut zip, i| {
        zip.start_file(format!("pictures/{i}.png"), SimpleFileOptions::default()).unwrap();
        zip
    });
    assert!(matches!(refused(&many.finish().unwrap().into_inner()), BundleProblem::TooMany { .. }));
}
