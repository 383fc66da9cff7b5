//! A paper guide is a sound file, in true size, with all that is to be told on it.
//!
//! Sizes are measured by a second program: poppler's pdftoppm, which `cargo xtask test` installs.

use papers::{Guide, MOST_TILES, Paper, PaperProblem, guide};
use plane::Point;
use plane::fill::{Fill, Stroke};
use std::process::Command;

const DPI: f64 = 600.0;

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

/// A file as text of as many letters as it has bytes.
fn text_of(file: &[u8]) -> String {
    file.iter().map(|byte| if byte.is_ascii() { char::from(*byte) } else { '#' }).collect()
}

/// Every place that the table of a file names begins the object it should.
fn check_table(file: &[u8]) {
    let text = text_of(file);
    let begins: usize = text.rsplit("startxref\n").next().unwrap().lines().next().unwrap().parse().unwrap();
    let mut table = text[begins..].lines();
    assert_eq!(table.next(), Some("xref"));
    let count: usize = table.next().unwrap().strip_prefix("0 ").unwrap().parse().unwrap();
    for (no, line) in table.take(count).enumerate().skip(1) {
        let at: usize = line[..10].parse().unwrap();
        assert_eq!(line.len(), 19, "{line:?}");
        assert!(text[at..].starts_with(&format!("{no} 0 obj\n")), "object {no}");
    }
    for (at, _) in text.match_indices("/Length ") {
        let said: usize = text[at + 8..].split(' ').next().unwrap().parse().unwrap();
        let stream = text[at..].split_once("stream\n").unwrap().1;
        assert!(stream[said..].starts_with("\nendstream"));
    }
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

/// Grey pixels of a page, as pdftoppm draws it.
struct Seen {
    wide: usize,
    grey: Vec<u8>,
}

impl Seen {
    fn page(file: &[u8], page: u32) -> Self {
        let folder = std::env::temp_dir().join(format!("ragbag-guide-{}-{page}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("guide.pdf"), file).unwrap();
        let only = page.to_string();
        let args = ["-gray", "-singlefile", "-r", "600", "-f", &only, "-l", &only, "guide.pdf", "page"];
        let ran = Command::new("pdftoppm").args(args).current_dir(&folder).status();
        let ran = ran.expect("pdftoppm is there: `cargo xtask test` installs poppler-utils");
        assert!(ran.success());
        let file = std::fs::read(folder.join("page.pgm")).unwrap();
        std::fs::remove_dir_all(&folder).unwrap();
        let mut head = file.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(head.next(), Some(&b"P5"[..]));
        let number = |text: Option<&[u8]>| std::str::from_utf8(text.unwrap()).unwrap().parse().unwrap();
        let (wide, high): (usize, usize) = (number(head.next()), number(head.next()));
        let grey = file[file.len() - wide * high..].to_vec();
        Self { wide, grey }
    }

    /// The middles of the dark runs of a row, in inches from the left.
    fn dark_in_row(&self, row: usize) -> Vec<f64> {
        runs(self.grey[row * self.wide..(row + 1) * self.wide].iter().copied())
    }

    /// The same of a column, from the top.
    fn dark_in_column(&self, column: usize) -> Vec<f64> {
        runs(self.grey.chunks(self.wide).map(|row| row[column]))
    }
}

fn runs(pixels: impl Iterator<Item = u8>) -> Vec<f64> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (i, _) in pixels.enumerate().filter(|(_, grey)| *grey < 128) {
        match found.last_mut().filter(|(_, last)| *last + 1 == i) {
            Some(run) => run.1 = i,
            None => found.push((i, i)),
        }
    }
    found.into_iter().map(|(from, to)| (from + to + 1) as f64 / 2.0 / DPI).collect()
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
