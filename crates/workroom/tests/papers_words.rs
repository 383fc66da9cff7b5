//! What the papers of the stages say: in the wished unit throughout, and no thing twice.

mod common;

use common::{bench, take};
use drawing::{Drawing, Item, Shape};
use papers::flow::{Block, Fit};
use papers::press::Inking;
use workroom::Workroom;
use workroom::papers::{Paper, PaperKind, PapersWish};
use workroom::quilts::MAIN;

fn paper(room: &mut Workroom, kind: PaperKind, wish: &PapersWish) -> Paper {
    let head = room.head("low tide", MAIN).unwrap();
    room.paper(&head, kind, wish).unwrap()
}

/// Every word that stands in blocks, those of drawings too.
fn words(blocks: &[Block], out: &mut Vec<String>) {
    for block in blocks {
        match block {
            Block::Heading { words, .. } | Block::Words { words, .. } => out.push(words.clone()),
            Block::List { items, .. } | Block::Caution(items) => out.extend(items.iter().cloned()),
            Block::Table(table) => {
                out.extend(table.columns.iter().map(|column| column.head.clone()));
                out.extend(table.rows.iter().flatten().cloned());
            }
            Block::Figure { drawing, caption, .. } => {
                out.push(caption.clone());
                drawn(&drawing.items, out);
            }
            Block::Beside(columns) => columns.iter().for_each(|(_, held)| words(held, out)),
            Block::Columns { items, .. } => items.iter().for_each(|held| words(held, out)),
            Block::Together(held) | Block::Framed(held) => words(held, out),
            Block::Room(_) | Block::NewPage | Block::Page(_) => {}
        }
    }
}

fn drawn(items: &[Item], out: &mut Vec<String>) {
    for item in items {
        match &item.shape {
            Shape::Group { items, .. } => drawn(items, out),
            Shape::Text(text) => out.push(text.words.clone()),
            _ => {}
        }
    }
}

/// Drawings with the scale that they are drawn at.
fn figures(blocks: &[Block], out: &mut Vec<(Drawing, f64)>) {
    for block in blocks {
        match block {
            Block::Figure { drawing, fit: Fit::Scale(scale), .. } => {
                out.push((drawing.as_ref().clone(), *scale));
            }
            Block::Beside(columns) => columns.iter().for_each(|(_, held)| figures(held, out)),
            Block::Columns { items, .. } => items.iter().for_each(|held| figures(held, out)),
            Block::Together(held) | Block::Framed(held) => figures(held, out),
            _ => {}
        }
    }
}

/// The heights of letters on the paper, in points.
fn heights(items: &[Item], scale: f64, out: &mut Vec<f64>) {
    for item in items {
        match &item.shape {
            Shape::Group { items, .. } => heights(items, scale, out),
            Shape::Text(text) => out.push(text.size_in * scale * 72.0),
            _ => {}
        }
    }
}

fn tells_inches(words: &str) -> bool {
    let bytes = words.as_bytes();
    let fraction = bytes.windows(3).any(|w| w[0].is_ascii_digit() && w[1] == b'/' && w[2].is_ascii_digit());
    let words = words.to_lowercase();
    fraction || words.contains("inch") || words.contains("yard")
}

fn all_stages(room: &mut Workroom) {
    for ask in [
        r#"{ "border": { "cloth": "navy", "sewn_in": [2.5], "order": "mitred" } }"#,
        r#"{ "layers": { "basting": { "pins": { "spacing_in": 3.5 } } } }"#,
        r#"{ "quilting": { "design": "round_spiral", "spacing_in": 0.75 } }"#,
        r#"{ "binding": {} }"#,
        r#"{ "sleeve": {} }"#,
    ] {
        take(room, ask);
    }
}

#[test]
fn in_centimetres_no_word_of_a_stage_is_in_inches() {
    let (_folder, mut room) = bench();
    all_stages(&mut room);
    let metric = PapersWish { centimetres: true, ..PapersWish::default() };
    for kind in [
        PaperKind::Cutting,
        PaperKind::RingBorder,
        PaperKind::Layers,
        PaperKind::Quilting,
        PaperKind::Binding,
        PaperKind::Sleeve,
        PaperKind::Thread,
    ] {
        let mut said = Vec::new();
        words(&paper(&mut room, kind, &metric).blocks, &mut said);
        let wrong: Vec<&String> = said.iter().filter(|words| tells_inches(words)).collect();
        assert!(wrong.is_empty(), "{kind}: {wrong:?}");
        assert!(kind == PaperKind::Thread || said.iter().any(|words| words.contains(" cm")), "{kind}");
        // The same paper in inches says them, so that the search finds what it seeks.
        let mut said = Vec::new();
        words(&paper(&mut room, kind, &PapersWish::default()).blocks, &mut said);
        assert!(said.iter().any(|words| tells_inches(words)), "{kind}: {said:?}");
    }
}

/// A border of 2 round a rectangle: four corners of 90 degrees are one picture. The mitre leans 45 degrees.
#[test]
fn equal_corners_are_told_once() {
    let (_folder, mut room) = bench();
    take(&mut room, r#"{ "border": { "cloth": "navy", "sewn_in": [2.0], "order": "mitred" } }"#);
    take(&mut room, r#"{ "binding": {} }"#);
    for (kind, more) in [(PaperKind::RingBorder, "leans 45.0"), (PaperKind::Binding, "Stop 1/4 before")] {
        let mut said = Vec::new();
        words(&paper(&mut room, kind, &PapersWish::default()).blocks, &mut said);
        let corners: Vec<&String> = said.iter().filter(|words| words.starts_with("Corner")).collect();
        assert_eq!(corners.len(), 1, "{kind}: {corners:?}");
        assert!(corners[0].starts_with("Corners 1\u{2013}4: 90°"), "{kind}: {corners:?}");
        assert!(said.iter().any(|words| words.contains(more)), "{kind}: {said:?}");
    }
}

/// Whatever the size of a cloth, what is written on its picture is read: 10 points and more.
#[test]
fn numbers_on_cut_cloths_are_large_enough_on_the_paper() {
    let (_folder, mut room) = bench();
    all_stages(&mut room);
    for inking in [Inking::Colour, Inking::Saving] {
        let wish = PapersWish { inking, ..PapersWish::default() };
        let mut found = Vec::new();
        figures(&paper(&mut room, PaperKind::Cutting, &wish).blocks, &mut found);
        assert!(!found.is_empty());
        for (drawing, scale) in found {
            let mut points = Vec::new();
            heights(&drawing.items, scale, &mut points);
            assert!(!points.is_empty(), "{}", drawing.title);
            assert!(points.iter().all(|pt| (10.0 - 1e-6..=14.0 + 1e-6).contains(pt)), "{points:?}");
        }
    }
}

/// Where ink is saved a thread is a tint; a word for its colour stands by it.
#[test]
fn a_thread_is_named_by_its_colour_where_ink_is_saved() {
    let (_folder, mut room) = bench();
    take(
        &mut room,
        r#"{ "quilting": { "design": "lines", "thread": { "name": "no. 7", "lab": { "l": 92.0, "a": 0.0, "b": 6.0 } } } }"#,
    );
    let above = |room: &mut Workroom, inking: Inking| {
        let mut said = Vec::new();
        words(
            &paper(room, PaperKind::Thread, &PapersWish { inking, ..PapersWish::default() }).blocks,
            &mut said,
        );
        said.into_iter().find(|words| words.starts_with("Above: no. 7")).expect("the thread above")
    };
    assert_eq!(above(&mut room, Inking::Colour), "Above: no. 7");
    let saved = above(&mut room, Inking::Saving);
    let word = saved.strip_prefix("Above: no. 7 (about ").and_then(|rest| rest.strip_suffix(')'));
    assert!(word.is_some_and(|word| colour::read_words(word).is_some()), "{saved}");
}
