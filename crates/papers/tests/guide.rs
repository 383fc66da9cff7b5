//! A paper guide is a sound file, in true size, with all that is to be told on it.
//!
//! Sizes are measured by a second program: poppler's pdftoppm, which `cargo xtask test` installs.

mod seen;

use papers::{Guide, MOST_TILES, Paper, PaperProblem, guide};
use plane::Point;
use plane::fill::{Fill, Stroke};
use seen::{DPI, Seen, check_table, text_of};

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

fn written(outline: &[Point], paper: Paper, true_size: bool) -> Result<Vec<u8>, PaperProblem> {
    let notes = ["Take out pins (count them).".to_owned()];
    let changes = [Point::new(3.0, 1.5)];
    let told = Guide {
        title: "Low Tide \u{2192} guide",
        outline,
        free: &[],
        lines: &lines(),
        changes: &changes,
        notes: &notes,
    };
    guide(&told, paper, true_size)
}

#[test]
fn a_guide_is_a_sound_file_and_says_what_is_to_be_told() {
    let file = written(&rectangle(4.0, 3.0), Paper::A4, true).unwrap();
    check_table(&file);
    let text = text_of(&file);
    assert!(text.contains("/Count 2"), "the overview and one tile");
    assert!(text.contains("(Low Tide ? guide)"), "letters that the types lack are question marks");
    assert!(text.contains("(Take out pins \\(count them\\).)"));
    // Both strokes are numbered, and the change of bobbin.
    assert_eq!((text.matches("(1) Tj").count(), text.matches("(2) Tj").count()), (2, 1));
    assert!(text.contains("/MediaBox [0 0 595.276 841.890]"));
    let letter = written(&rectangle(4.0, 3.0), Paper::Letter, false).unwrap();
    check_table(&letter);
    let letter = text_of(&letter);
    assert!(letter.contains("/Count 1") && letter.contains("/MediaBox [0 0 612.000 792.000]"));
    assert_eq!(written(&rectangle(4.0, 3.0), Paper::A4, true).unwrap(), file, "the same bytes");
}

#[test]
fn what_has_no_room_or_no_end_is_refused() {
    let flat = points(&[(0.0, 0.0), (4.0, 0.0)]);
    assert!(matches!(written(&flat, Paper::A4, false), Err(PaperProblem::NoOutline)));
    let bed = rectangle(200.0, 200.0);
    assert!(written(&bed, Paper::A4, false).is_ok());
    let refused = written(&bed, Paper::A4, true).unwrap_err();
    assert!(matches!(refused, PaperProblem::TooManyTiles { tiles, most: MOST_TILES } if tiles > MOST_TILES));
}

#[test]
fn a_tile_is_in_true_size() {
    let outline = rectangle(4.0, 3.0);
    let seen = Seen::page(&written(&outline, Paper::A4, true).unwrap(), 2);
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
    // From the outline to the stroke's upright part at 3 inches.
    let strokes = seen.dark_in_row(((top + 1.5) * DPI) as usize);
    assert!((strokes[1] - strokes[0] - 3.0).abs() < 0.004, "{strokes:?}");
}
