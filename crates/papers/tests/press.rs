//! Pages bound to a file: what a reader of PDF finds there.

mod common;

use common::{text_of, types};
use drawing::{Drawing, Item, Stroke};
use papers::Paper;
use papers::flow::{Block, Column, Fit, Format, Table, pages};
use papers::press::{Book, Inking, Letters, bind};
use plane::Point;
use std::sync::Arc;

fn square(side: f64) -> Drawing {
    let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|(x, y)| Point::new(x, y));
    let item = Item::closed(corners.to_vec(), Stroke::CutLine);
    Drawing::around("A square", vec![item], 1.0, 0.25)
}

fn book(blocks: &[Block], letters: &Letters) -> Vec<u8> {
    let sheets = pages(blocks, &Format::new(Paper::A4, "Low Tide"), letters);
    let book = Book { title: "Low Tide".to_owned(), sheets, ..Book::default() };
    bind(&book, letters, &|_| None).unwrap()
}

fn everything() -> Vec<Block> {
    let rows = (1..=60).map(|i| vec![format!("{i}"), "sand dot".to_owned(), format!("{i} 3/16")]).collect();
    let columns =
        vec![Column::numbers("No.", 1.0), Column::words("Cloth", 4.0), Column::numbers("Long", 2.0)];
    let words = "Sew the long side first; press towards the new patch, then trim 2 1/4 along this edge. ";
    vec![
        Block::chapter("The centre"),
        Block::body(words.repeat(30)),
        Block::section("What is cut"),
        Block::Table(Table { columns, rows }),
        Block::Caution(vec!["Rotary blades are sharp: close them after every cut.".to_owned()]),
        Block::list(["One".to_owned(), "Two".to_owned()]),
        Block::chapter("True size"),
        Block::Figure {
            drawing: Arc::new(square(5.0)),
            alt: "A square of 5 inches".to_owned(),
            fit: Fit::Scale(1.0),
            caption: "5 inches".to_owned(),
        },
    ]
}

#[test]
fn a_book_is_read_by_another_reader() {
    let letters = Letters::new(&types());
    let text = text_of(&book(&everything(), &letters));
    assert!(text.contains("The centre") && text.contains("sand dot"), "{text}");
    // A fraction is set as one, and found as it was written.
    assert!(text.contains("60 3/16"), "{text}");
    // The head of a torn table comes again.
    assert!(text.matches("Cloth").count() >= 2, "{text}");
    assert!(text.contains("1 of ") && !text.contains("0 of "), "{text}");
}

#[test]
fn the_same_pages_give_the_same_bytes() {
    let letters = Letters::new(&types());
    assert!(book(&everything(), &letters) == book(&everything(), &letters));
}

#[test]
fn any_name_is_set_or_seen_to_be_missing() {
    let letters = Letters::new(&types());
    let names = ["Niedrigwasser", "שפל", "جزر", "Отлив", "Άμπωτη", "退潮", "🧵🪡", "a\u{0}b\u{200d}c", ""];
    for name in names {
        let long = name.repeat(300);
        let text = text_of(&book(&[Block::chapter(name), Block::body(long)], &letters));
        let known = !name.is_empty() && name.chars().all(|c| c.is_alphabetic() && (c as u32) < 0x5ff);
        assert!(
            !known || text.contains(name) || text.contains(&name.chars().rev().collect::<String>()),
            "{name}: {text}"
        );
    }
    let boxes = letters.set("退潮 🧵", papers::flow::faces::BODY, None);
    assert!(boxes.width_in > 0.2, "{}", boxes.width_in);
}

#[test]
fn without_any_type_the_lines_are_still_there() {
    let letters = Letters::new(&papers::Fonts::none());
    assert!(book(&everything(), &letters).starts_with(b"%PDF"));
}

#[test]
fn saving_ink_leaves_the_words() {
    let letters = Letters::new(&types());
    let sheets = pages(&everything(), &Format::new(Paper::Letter, ""), &letters);
    let saving = Book { title: "x".to_owned(), sheets, inking: Inking::Saving, ..Book::default() };
    assert!(text_of(&bind(&saving, &letters, &|_| None).unwrap()).contains("sand dot"));
}
