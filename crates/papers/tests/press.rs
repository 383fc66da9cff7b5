//! Pages bound to a file: what a reader of PDF finds there.

mod common;

use common::{kept, text_of, types};
use drawing::{Drawing, Item, PictureItem, Placement, Shape, Stroke, TextItem};
use papers::Paper;
use papers::flow::{Block, Column, Fit, Format, Table, pages};
use papers::press::{Book, Inking, Letters, bind};
use plane::{Point, Region};
use quilt::cloth::Picture;
use std::process::Command;
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

#[test]
fn what_is_too_long_is_broken_or_seen_to_be_shortened() {
    let letters = Letters::new(&types());
    let (name, face) = ("w".repeat(500), papers::flow::faces::BODY);
    let broken = letters.set(&name, face, Some(2.0));
    assert!(broken.width_in <= 2.0 && broken.count() > 10, "{} {}", broken.width_in, broken.count());
    for words in [&name, &"גאות ושפל ".repeat(60), &"🧵 ".repeat(200)] {
        let one = letters.on_one_line(words, face, 2.0);
        assert!(one.count() == 1 && one.width_in <= 2.0 && one.width_in > 1.5, "{}", one.width_in);
        assert!(letters.set_within(words, face, 2.0, 1.0).height_in <= 1.0);
    }
    assert_eq!(letters.on_one_line("Low\nTide", face, 2.0).count(), 1);
    // In a narrow column, in a heading, in a drawing, at the foot: nothing leaves its page, and dots say so.
    let label = Item::text(TextItem::level(Point::new(2.5, 2.5), 0.2, name.clone()));
    let rows = vec![vec![name.clone(), "1".to_owned()]];
    let columns = vec![Column::words("Cloth", 1.0), Column::numbers("No.", 9.0)];
    let blocks = [
        Block::chapter(name.clone()),
        Block::Table(Table { columns, rows }),
        Block::list([name.clone()]),
        Block::figure(Drawing { items: vec![label], ..square(5.0) }, 4.0, name.clone()),
    ];
    let sheets = pages(&blocks, &Format::new(Paper::A4, name.clone()), &letters);
    let pdf = bind(&Book { title: name, sheets, ..Book::default() }, &letters, &|_| None).unwrap();
    assert!(text_of(&pdf).matches('…').count() >= 3, "{}", text_of(&pdf));
    let file = kept(&pdf);
    let told = Command::new("pdftotext").arg("-bbox").arg(&file.0).arg("-").output().unwrap().stdout;
    let told = String::from_utf8(told).unwrap();
    let number = |line: &str, name: &str| -> f64 {
        line.split(&format!("{name}=\"")).nth(1).unwrap().split('"').next().unwrap().parse().unwrap()
    };
    let words: Vec<&str> = told.lines().filter(|line| line.contains("<word ")).collect();
    assert!(words.len() > 10);
    for line in words {
        assert!(number(line, "xMax") < 595.3 && number(line, "yMax") < 841.9, "{line}");
    }
}

/// Pictures that are fine enough stay so: 200 pixels an inch on the page, in true size and much smaller.
#[test]
fn pictures_on_paper_have_200_pixels_an_inch_where_they_were_taken_so_fine() {
    let size_px = [1200, 900];
    let bytes = papers::packed(
        size_px,
        vec![200; 4 * 1200 * 900]
            .iter()
            .enumerate()
            .map(|(i, v)| if i % 4 == 3 { 255 } else { *v })
            .collect(),
    )
    .unwrap();
    let picture = |pixels_per_in: f64| {
        let high = 900.0 / pixels_per_in;
        let top_left = Point::new(0.0, high);
        let picture = Picture {
            hash: format!("{pixels_per_in}"),
            format: "png".to_owned(),
            pixels_per_in,
            top_left,
            size_px,
        };
        let clip = Region::rectangle(1200.0 / pixels_per_in, high);
        let shown = PictureItem { picture: picture.into(), placement: Placement::STAY, clip, opacity: 1.0 };
        Drawing::around("A cloth", vec![Item::new(Shape::Picture(shown))], 1.0, 0.0)
    };
    let letters = Letters::new(&types());
    for (pixels_per_in, scale) in [(600.0, 1.0), (300.0, 0.5), (250.0, 0.8), (240.0, 1.0), (100.0, 0.3)] {
        let blocks = [Block::Figure {
            drawing: Arc::new(picture(pixels_per_in)),
            alt: String::new(),
            fit: Fit::Scale(scale),
            caption: String::new(),
        }];
        let sheets = pages(&blocks, &Format::new(Paper::A4, ""), &letters);
        let pdf = bind(&Book { sheets, ..Book::default() }, &letters, &|_| Some(bytes.clone())).unwrap();
        let file = kept(&pdf);
        let list = Command::new("pdfimages").arg("-list").arg(&file.0).output().unwrap().stdout;
        let list = String::from_utf8(list).unwrap();
        let row: Vec<&str> = list.lines().nth(2).unwrap().split_whitespace().collect();
        let fine: f64 = row[12].parse().unwrap();
        assert!((200.0..900.0).contains(&fine), "{pixels_per_in} at {scale}: {fine}\n{list}");
    }
}
