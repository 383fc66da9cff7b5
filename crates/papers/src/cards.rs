//! Measuring cards to print and cut out: each a square marker of a known side, with its number, and
//! on every page a ruler line by which to see whether the printer kept the size.
//!
//! What is on the cards is the caller's: cells in rows from the top, black where true. Round the black
//! square stays a white margin of one cell; cut lines run outside it.

use crate::PaperProblem;
use crate::guide::Paper;
use crate::pdf::{Ink, Page, pdf};
use drawing::{words_in_lines, words_width_in};
use plane::Point;

/// Cells along a side of a card's black square.
pub const CELLS: usize = 8;

/// The cells of one card, rows from the top, black where true.
pub type CardCells = [[bool; CELLS]; CELLS];

/// Fewest cards that are printed, where there are as many: several lie round each picture.
const FEWEST: usize = 8;
/// Smallest side in inches: less, and a phone sees too few pixels of it.
const LEAST_SIDE_IN: f64 = 0.75;
/// What of a page's edge stays empty: most printers can't reach it.
const MARGIN_IN: f64 = 0.38;
/// Height of the letters of title, sentences and numbers, in inches.
const TITLE_IN: f64 = 0.18;
const WORDS_IN: f64 = 0.11;
const NUMBER_IN: f64 = 0.1;
/// A line of words takes so much more than its letters.
const LINE: f64 = 1.35;
/// Strip of a card below its margin, in which its number stands.
const STRIP_IN: f64 = 0.2;
/// Room for the ruler line with its ticks and figures.
const RULER_IN: f64 = 0.55;
/// Lengths of the ruler line, inches, of which the longest that fits is drawn.
const RULERS_IN: [f64; 2] = [6.0, 4.0];

const BLACK: [f64; 3] = [0.0, 0.0, 0.0];
const WHITE: [f64; 3] = [1.0, 1.0, 1.0];
const CUT: Ink = Ink { colour: [0.6, 0.58, 0.56], width_in: 0.006, dash_in: Some([0.08, 0.06]) };
const TICK: Ink = Ink::plain([0.0, 0.0, 0.0], 0.008);

/// How the cards are used, and what spoils them (common practice, no source).
const SENTENCES: [&str; 5] = [
    "Cut along the dashed lines and lay three or more cards flat round the cloth, at any turn, none of them on the cloth.",
    "Photograph all of it from above in even light, whole cards with their white margins in the picture.",
    "Print at 100 %, not \"fit to page\", on plain white paper: glossy film glares. Leave out curled or creased cards, mix no two printings, and print anew what is stained.",
    "Measure the line below with your ruler. If it is not as long as it says, measure the side of a black square on the paper and tell it once: ragbag scrap card-side 1-31/32.",
    "A millimetre wrong on the card is a millimetre wrong on every two inches of cloth.",
];

/// Pages of measuring cards of a side in inches, as PDF: at least eight cards where there are as many
/// patterns, and as many as fill the last page. Card `i` has the number `i`.
///
/// # Errors
/// A side that is too small to be seen, or too large for the paper; no patterns.
pub fn cards(patterns: &[CardCells], side_in: f64, paper: Paper) -> Result<Vec<u8>, PaperProblem> {
    let [wide, high] = paper.size_in();
    let room = [wide - 2.0 * MARGIN_IN, high - 2.0 * MARGIN_IN];
    let lines: Vec<String> =
        SENTENCES.iter().flat_map(|words| words_in_lines(words, room[0], WORDS_IN)).collect();
    let head_in = LINE * TITLE_IN + LINE * WORDS_IN * lines.len() as f64 + RULER_IN;
    let card = Card { side_in };
    let fits = card.wide_in() <= room[0] && card.high_in() <= room[1] - head_in;
    if patterns.is_empty() || !fits || side_in < LEAST_SIDE_IN {
        let most_in = room[0].min(room[1] - head_in - STRIP_IN) / (1.0 + 2.0 / CELLS as f64);
        let most_in = (4.0 * most_in).floor() / 4.0;
        return Err(PaperProblem::CardSide { side_in, least_in: LEAST_SIDE_IN, most_in });
    }
    let count = |room: f64, one: f64| ((room + 1e-9) / one).floor().max(1.0) as usize;
    let columns = count(room[0], card.wide_in());
    let a_page = columns * count(room[1] - head_in, card.high_in());
    let wanted = FEWEST.div_ceil(a_page) * a_page;
    let printed = &patterns[..wanted.min(patterns.len())];
    let left = (wide - columns as f64 * card.wide_in()) / 2.0;
    let pages: Vec<Page> = printed
        .chunks(a_page)
        .zip(0..)
        .map(|(some, page_no)| {
            let mut page = Page::new([wide, high]);
            let top = head(&mut page, &lines, [wide, high]);
            for (i, cells) in some.iter().enumerate() {
                let (row, column) = ((i / columns) as f64, (i % columns) as f64);
                let at = Point::new(left + column * card.wide_in(), top - (row + 1.0) * card.high_in());
                card.draw(&mut page, at, page_no * a_page + i, cells);
            }
            page
        })
        .collect();
    Ok(pdf("Measuring cards", &pages))
}

/// Title, sentences and ruler line; gives the height at which they end.
fn head(page: &mut Page, lines: &[String], [wide, high]: [f64; 2]) -> f64 {
    let mut y = high - MARGIN_IN - TITLE_IN;
    page.words(Point::new(MARGIN_IN, y), TITLE_IN, true, "Measuring cards");
    y -= (LINE - 1.0) * TITLE_IN;
    for line in lines {
        y -= LINE * WORDS_IN;
        page.words(Point::new(MARGIN_IN, y), WORDS_IN, false, line);
    }
    let room = wide - 2.0 * MARGIN_IN;
    let long = RULERS_IN.into_iter().find(|long| *long <= room).unwrap_or(1.0);
    ruler(page, Point::new(MARGIN_IN, y - 0.5 * RULER_IN), long, wide - MARGIN_IN);
    y - RULER_IN
}

/// A line so many inches long, inches ticked above it and centimetres below; its words end before
/// `right_in`.
fn ruler(page: &mut Page, at: Point, long_in: f64, right_in: f64) {
    let place = |along: f64, up: f64| Point::new(at.x + along, at.y + up);
    page.line(&[place(0.0, 0.0), place(long_in, 0.0)], false, TICK);
    let mut tick = |along: f64, up: f64| page.line(&[place(along, 0.0), place(along, up)], false, TICK);
    let eighths = (long_in * 8.0).round() as u32;
    for i in 0..=eighths {
        tick(
            f64::from(i) / 8.0,
            if i % 8 == 0 {
                0.14
            } else if i % 4 == 0 {
                0.09
            } else {
                0.05
            },
        );
    }
    let millimetres = (long_in * 25.4).floor() as u32;
    for i in (0..=millimetres).step_by(5) {
        tick(f64::from(i) / 25.4, if i % 10 == 0 { -0.12 } else { -0.06 });
    }
    let words = format!("{long_in:.0} inches, {:.1} millimetres", long_in * 25.4);
    let beside = Point::new(at.x + long_in + 0.1, at.y - 0.5 * NUMBER_IN);
    if beside.x + words_width_in(&words, NUMBER_IN) < right_in {
        page.words(beside, NUMBER_IN, false, &words);
    } else {
        page.words(place(0.0, -0.12 - 1.2 * NUMBER_IN), NUMBER_IN, false, &words);
    }
}

/// One card to cut out, of a side.
#[derive(Clone, Copy, Debug)]
struct Card {
    side_in: f64,
}

impl Card {
    fn cell_in(self) -> f64 {
        self.side_in / CELLS as f64
    }

    fn wide_in(self) -> f64 {
        self.side_in + 2.0 * self.cell_in()
    }

    fn high_in(self) -> f64 {
        self.wide_in() + STRIP_IN
    }

    /// Draws it with its lower left corner at a place.
    fn draw(self, page: &mut Page, at: Point, no: usize, cells: &CardCells) {
        let rectangle = |x: f64, y: f64, wide: f64, high: f64| {
            [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
                .map(|(x, y)| Point::new(at.x + x, at.y + y))
        };
        page.line(&rectangle(0.0, 0.0, self.wide_in(), self.high_in()), true, CUT);
        let (cell, low) = (self.cell_in(), STRIP_IN + self.cell_in());
        page.area(&rectangle(cell, low, self.side_in, self.side_in), BLACK);
        for (row, line) in cells.iter().enumerate() {
            let up = low + (CELLS - 1 - row) as f64 * cell;
            for (from, to) in white_runs(line) {
                let (x, long) = ((from + 1) as f64 * cell, (to - from) as f64 * cell);
                page.area(&rectangle(x, up, long, cell), WHITE);
            }
        }
        let words = format!("No. {no}, side {:.3} in = {:.1} mm", self.side_in, self.side_in * 25.4);
        let fits = (self.side_in / words_width_in(&words, NUMBER_IN) * NUMBER_IN).min(NUMBER_IN);
        page.words(Point::new(at.x + cell, at.y + 0.5 * STRIP_IN), fits, false, &words);
    }
}

/// From where to where a row of cells is white.
fn white_runs(line: &[bool; CELLS]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (i, _) in line.iter().enumerate().filter(|(_, black)| !**black) {
        match runs.last_mut().filter(|(_, to)| *to == i) {
            Some(run) => run.1 = i + 1,
            None => runs.push((i, i + 1)),
        }
    }
    runs
}
