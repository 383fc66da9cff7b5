//! Measuring cards are printed in true size, with their numbers, and cell for cell as they were given.

mod common;
mod seen;

use common::{text_of, types};
use papers::press::{Book, Letters, bind};
use papers::{CELLS, CardCells, Paper, PaperProblem};
use seen::{DPI, Seen};

fn cards(patterns: &[CardCells], side_in: f64, paper: Paper) -> Result<Vec<u8>, PaperProblem> {
    let letters = Letters::new(&types());
    let sheets = papers::cards(patterns, side_in, paper, &letters)?;
    bind(&Book { title: "Measuring cards".to_owned(), sheets, ..Book::default() }, &letters, &|_| None)
}

/// How many pages a file has.
fn pages(text: &str) -> usize {
    text.matches('\u{c}').count()
}

/// Patterns with a black border, each another inside.
fn patterns(count: usize) -> Vec<CardCells> {
    let inner = |i: usize, x: usize, y: usize| (x * 7 + y * 5 + i * 3 + x * y).is_multiple_of(3);
    let cell = |i: usize, x: usize, y: usize| {
        let rim = [0, CELLS - 1];
        rim.contains(&x) || rim.contains(&y) || inner(i, x, y)
    };
    (0..count).map(|i| std::array::from_fn(|y| std::array::from_fn(|x| cell(i, x, y)))).collect()
}

/// First and last row and column of the black pixels that hang together with a place.
fn black_square(seen: &Seen, x_in: f64, y_in: f64) -> [usize; 4] {
    let (x, y) = ((x_in * DPI) as usize, (y_in * DPI) as usize);
    let black = |x: usize, y: usize| seen.grey[y * seen.wide + x] < 128;
    assert!(black(x, y), "a border at {x_in}, {y_in}");
    let mut left = x;
    while black(left - 1, y) {
        left -= 1;
    }
    let mut top = y;
    while black(left, top - 1) {
        top -= 1;
    }
    let (mut right, mut bottom) = (left, top);
    while black(right + 1, top) {
        right += 1;
    }
    while black(left, bottom + 1) {
        bottom += 1;
    }
    [left, top, right, bottom]
}

#[test]
fn cards_have_their_size_their_cells_and_their_numbers() {
    for (paper, size_in) in [(Paper::A4, [210.0 / 25.4, 297.0 / 25.4]), (Paper::Letter, [8.5, 11.0])] {
        let patterns = patterns(24);
        let file = cards(&patterns, 2.0, paper).unwrap();
        let text = text_of(&file);
        assert_eq!(pages(&text), 1, "nine cards on one page");
        for no in 0..9 {
            assert!(text.contains(&format!("No. {no}, side 2.000 in = 50.8 mm")), "{no}");
        }
        assert!(!text.contains("No. 9,"));
        assert!(text.contains("6 inches, 152.4 millimetres"));
        assert_eq!(cards(&patterns, 2.0, paper).unwrap(), file, "the same bytes");
        let seen = Seen::page(&file, 1);
        assert!((seen.wide as f64 / DPI - size_in[0]).abs() < 0.01);
        let high = (seen.grey.len() / seen.wide) as f64 / DPI;
        assert!((high - size_in[1]).abs() < 0.01);
        // Below, the rows of cards end; three columns lie in the middle of the page.
        let left = (size_in[0] - 3.0 * 2.5) / 2.0;
        let columns = [0, 1, 2].map(|column| left + 2.5 * f64::from(column) + 0.25);
        let first = seen.dark_in_column(((columns[0] + 0.1) * DPI) as usize);
        // The middles of the dark runs through a card's left border, as long as its side.
        let borders: Vec<f64> = first
            .into_iter()
            .filter(|y| {
                let at = |dy: f64| {
                    let (x, y) = (((columns[0] + 0.1) * DPI) as usize, ((y + dy) * DPI) as usize);
                    y < seen.grey.len() / seen.wide && seen.grey[y * seen.wide + x] < 128
                };
                (-19..=19).all(|k| at(0.05 * f64::from(k)))
            })
            .collect();
        assert_eq!(borders.len(), 3, "three rows: {borders:?}");
        for (row, y) in borders.iter().enumerate() {
            for (column, x) in columns.iter().enumerate() {
                let [left, top, right, bottom] = black_square(&seen, x + 0.1, *y);
                let sides = [right + 1 - left, bottom + 1 - top].map(|pixels| pixels as f64 / DPI);
                assert!(sides.iter().all(|side| (side - 2.0).abs() < 0.004), "{sides:?}");
                let cells = &patterns[3 * row + column];
                for (j, line) in cells.iter().enumerate() {
                    for (i, black) in line.iter().enumerate() {
                        let at = |from: usize, k: usize| from + ((k as f64 + 0.5) * 0.25 * DPI) as usize;
                        let grey = seen.grey[at(top, j) * seen.wide + at(left, i)];
                        assert_eq!(grey < 128, *black, "card {}, cell {i}, {j}", 3 * row + column);
                    }
                }
                // A white margin of a cell all round, but for the cut line at its end.
                for out in [0.03, 0.22] {
                    let off = (out * DPI) as usize;
                    let row = &seen.grey[(top - off) * seen.wide..][left..right];
                    assert!(row.iter().all(|grey| *grey > 200), "margin above");
                }
            }
        }
    }
}

#[test]
fn the_ruler_line_is_as_long_as_it_says() {
    let seen = Seen::page(&cards(&patterns(8), 2.0, Paper::A4).unwrap(), 1);
    // The longest dark run of any row above the cards is the line itself.
    let rows = seen.grey.chunks(seen.wide).take((3.0 * DPI) as usize);
    let longest = rows.map(|row| {
        let mut best = 0;
        let mut run = 0;
        for grey in row {
            run = if *grey < 128 { run + 1 } else { 0 };
            best = best.max(run);
        }
        best
    });
    let long_in = longest.max().unwrap() as f64 / DPI;
    assert!((long_in - 6.0).abs() < 0.02, "{long_in}: the line's ends are half its width longer");
}

#[test]
fn large_cards_go_on_over_pages_and_there_are_eight() {
    let text = text_of(&cards(&patterns(24), 5.0, Paper::Letter).unwrap());
    assert!(pages(&text) == 8 && text.contains("No. 7,") && !text.contains("No. 8,"));
    let small = text_of(&cards(&patterns(24), 1.0, Paper::A4).unwrap());
    assert!(small.contains("No. 23,"), "small cards: as many as fill the page");
}

#[test]
fn a_side_that_makes_no_card_is_refused_with_the_limits() {
    for side_in in [0.0, -2.0, 0.5, 7.0, 40.0, f64::NAN, f64::INFINITY] {
        let refused = cards(&patterns(8), side_in, Paper::A4).unwrap_err();
        assert!(matches!(refused, PaperProblem::CardSide { .. }), "{side_in}: {refused}");
    }
    let told = cards(&patterns(8), 7.0, Paper::A4).unwrap_err().to_string();
    assert!(told.contains("0.75 to 6"), "{told}");
    assert!(cards(&patterns(8), 6.0, Paper::A4).is_ok());
    assert!(cards(&[], 2.0, Paper::A4).is_err());
}
