//! A paper guide is a sound file, in true size, with all that is to be told on it.
//!
//! Sizes are measured by a second program: poppler's pdftoppm, which `cargo xtask test` installs.

mod common;
mod seen;

use common::{text_of, types};
use papers::flow::{Format, pages};
use papers::press::{Book, Letters, bind};
use papers::{Guide, MOST_TILES, Paper, PaperProblem, guide};
use plane::Point;
use plane::fill::{Fill, Stroke};
use seen::{DPI, Seen};

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn rectangle(wide: f64, high: f64) -> Vec<Point> {
    points(&[(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)])
}

/// One long stroke and a short one.
fn lines() -> Fill {
    let long = Stroke::open(points(&[(1.0, 1.0), (3.0, 1.0), (3.0, 2.0)]));
    Fill { strokes: vec![long, Stroke::open(points(&[(1.0, 2.0), (2.0, 2.0)]))] }
}

fn written(outline: &[Point], paper: Paper, true_size: bool, notes: usize) -> Result<Vec<u8>, PaperProblem> {
    let notes = vec!["Take out pins (count them).".to_owned(); notes];
    let changes = [Point::new(3.0, 1.5)];
    let told =
        Guide { title: "Low Tide", outline, free: &[], lines: &lines(), changes: &changes, notes: &notes };
    let letters = Letters::new(&types());
    let sheets = pages(&guide(&told, paper, true_size)?, &Format::new(paper, "Low Tide"), &letters);
    bind(&Book { title: "Low Tide".to_owned(), sheets, ..Book::default() }, &letters, &|_| None)
}

#[test]
fn a_guide_says_what_is_to_be_told_and_is_the_same_each_time() {
    let file = written(&rectangle(4.0, 3.0), Paper::A4, true, 1).unwrap();
    let text = text_of(&file);
    assert_eq!(text.matches('\u{c}').count(), 2, "the overview and one tile: {text}");
    assert!(text.contains("Take out pins (count them)."), "{text}");
    assert!(
        text.contains("Low Tide. Print at 100 %") && text.contains("5 cm") && text.contains("1 in"),
        "{text}"
    );
    assert_eq!(written(&rectangle(4.0, 3.0), Paper::A4, true, 1).unwrap(), file, "the same bytes");
    let wide = text_of(&written(&rectangle(12.0, 3.0), Paper::A4, true, 1).unwrap());
    assert!(wide.contains("A1 Low Tide") && wide.contains("A2 Low Tide"), "{wide}");
    let letter = text_of(&written(&rectangle(4.0, 3.0), Paper::Letter, false, 1).unwrap());
    assert_eq!(letter.matches('\u{c}').count(), 1);
}

#[test]
fn notes_go_on_over_pages_and_none_is_lost() {
    let text = text_of(&written(&rectangle(12.0, 20.0), Paper::Letter, false, 90).unwrap());
    assert_eq!(text.matches("Take out pins").count(), 90);
    assert!(text.matches('\u{c}').count() > 1);
}

#[test]
fn what_has_no_room_or_no_end_is_refused() {
    let flat = points(&[(0.0, 0.0), (4.0, 0.0)]);
    assert!(matches!(written(&flat, Paper::A4, false, 1), Err(PaperProblem::NoOutline)));
    let bed = rectangle(200.0, 200.0);
    assert!(written(&bed, Paper::A4, false, 1).is_ok());
    let refused = written(&bed, Paper::A4, true, 1).unwrap_err();
    assert!(matches!(refused, PaperProblem::TooManyTiles { tiles, most: MOST_TILES } if tiles > MOST_TILES));
}

#[test]
fn a_tile_is_in_true_size() {
    let outline = rectangle(4.0, 3.0);
    let seen = Seen::page(&written(&outline, Paper::A4, true, 1).unwrap(), 2);
    let high = seen.grey.len() / seen.wide;
    assert!((seen.wide as f64 / DPI - 210.0 / 25.4).abs() < 0.01);
    assert!((high as f64 / DPI - 297.0 / 25.4).abs() < 0.01);
    // What the page has to spare lies on both sides alike.
    let (left, top) = ((210.0 / 25.4 - 4.0) / 2.0, (297.0 / 25.4 - 3.0) / 2.0);
    let sides = seen.dark_in_row(((top + 2.5) * DPI) as usize);
    assert_eq!(sides.len(), 2, "both sides of the outline below the lines: {sides:?}");
    assert!((sides[0] - left).abs() < 0.004 && (sides[1] - sides[0] - 4.0).abs() < 0.004, "{sides:?}");
    let level = seen.dark_in_column(((left + 3.5) * DPI) as usize);
    assert!((level[1] - level[0] - 3.0).abs() < 0.004, "{level:?}");
    // From the outline to the stroke's upright part at 3 inches; an arrow lies on it.
    let strokes = seen.dark_in_row(((top + 1.5) * DPI) as usize);
    assert!(strokes.iter().any(|at| (at - strokes[0] - 3.0).abs() < 0.004), "{strokes:?}");
}
