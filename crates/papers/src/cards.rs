//! Measuring cards to print and cut out: each a square marker of a known side, with its number, and
//! on every page a ruler line by which to see whether the printer kept the size.
//!
//! What is on the cards is the caller's: cells in rows from the top, black where true. Round the black
//! square stays a white margin of one cell; cut lines run outside it.

use crate::flow::faces;
use crate::press::{Face, Laid, Letters, Part, Role, Sheet};
use crate::{Paper, PaperProblem};
use colour::Srgb;
use drawing::{Drawing, Item, Paint, Stroke, TextItem, words_width_in};
use plane::Point;
use std::sync::Arc;

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
/// The title and the sentences.
const TITLE: Face = Face { leading: 1.35, ..Face::bold(14.0) };
const WORDS: Face = faces::CAUTION;
/// Height of the letters of numbers, in inches.
const NUMBER_IN: f64 = 0.11;
/// Strip of a card below its margin, in which its number stands.
const STRIP_IN: f64 = 0.2;
/// Room for the ruler line with its ticks and figures.
const RULER_IN: f64 = 0.55;
/// Lengths of the ruler line, inches, of which the longest that fits is drawn.
const RULERS_IN: [f64; 2] = [6.0, 4.0];

const BLACK: Paint = Paint::solid(Srgb::from_number(0));
const WHITE: Paint = Paint::solid(Srgb::from_number(0xff_ff_ff));
/// How heavy lines are drawn: thin ones, so that lengths are read at them.
const WEIGHT: f64 = 0.4;

/// How the cards are used, and what spoils them (common practice, no source).
const SENTENCES: [&str; 5] = [
    "Cut along the thin lines and lay three or more cards flat round the cloth, at any turn, none of them on the cloth.",
    "Photograph all of it from above in even light, whole cards with their white margins in the picture.",
    "Print at 100 %, not \"fit to page\", on plain white paper: glossy film glares. Leave out curled or creased cards, mix no two printings, and print anew what is stained.",
    "Measure the line below with your ruler. If it is not as long as it says, measure the side of a black square on the paper and tell it once: ragbag scrap card-side 1-31/32.",
    "A millimetre wrong on the card is a millimetre wrong on every two inches of cloth.",
];

/// Pages of measuring cards of a side in inches: at least eight cards where there are as many patterns,
/// and as many as fill the last page. Card `i` has the number `i`.
///
/// # Errors
/// A side that is too small to be seen, or too large for the paper; no patterns.
pub fn cards(
    patterns: &[CardCells],
    side_in: f64,
    paper: Paper,
    letters: &Letters,
) -> Result<Vec<Sheet>, PaperProblem> {
    let size_in = paper.size_in();
    let [wide, high] = size_in;
    let room = [wide - 2.0 * MARGIN_IN, high - 2.0 * MARGIN_IN];
    let head = Head::new(letters, room[0]);
    let head_in = head.high_in();
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
    let top = high - MARGIN_IN - head_in;
    let sheet = |(some, page_no): (&[CardCells], usize)| {
        let mut parts = head.parts(size_in);
        for (i, cells) in some.iter().enumerate() {
            let (row, column) = ((i / columns) as f64, (i % columns) as f64);
            let at = Point::new(left + column * card.wide_in(), top - (row + 1.0) * card.high_in());
            parts.push(card.part(at, page_no * a_page + i, cells));
        }
        Sheet { size_in, parts }
    };
    Ok(printed.chunks(a_page).zip(0..).map(sheet).collect())
}

/// Title, sentences and ruler line, the same on every page.
struct Head {
    title: Laid,
    sentences: Vec<Laid>,
}

impl Head {
    fn new(letters: &Letters, room_in: f64) -> Self {
        let set = |words: &&str| letters.set(words, WORDS, Some(room_in));
        Self {
            title: letters.set("Measuring cards", TITLE, Some(room_in)),
            sentences: SENTENCES.iter().map(set).collect(),
        }
    }

    fn words_in(&self) -> f64 {
        self.title.height_in + self.sentences.iter().map(|words| words.height_in).sum::<f64>()
    }

    fn high_in(&self) -> f64 {
        self.words_in() + RULER_IN
    }

    fn parts(&self, [wide, high]: [f64; 2]) -> Vec<Part> {
        let mut at = Point::new(MARGIN_IN, high - MARGIN_IN);
        let role = Role::Heading { level: 1, mark: None };
        let mut parts = vec![Part::Words { role, at, words: self.title.clone() }];
        at.y -= self.title.height_in;
        for words in &self.sentences {
            parts.push(Part::Words { role: Role::Words, at, words: words.clone() });
            at.y -= words.height_in;
        }
        let room = wide - 2.0 * MARGIN_IN;
        let long = RULERS_IN.into_iter().find(|long| *long <= room).unwrap_or(1.0);
        parts.push(ruler(Point::new(MARGIN_IN, at.y - 0.5 * RULER_IN), long, room));
        parts
    }
}

/// A line so many inches long that begins at a place, inches ticked above it and centimetres below; its
/// words end within `room_in`.
fn ruler(at: Point, long_in: f64, room_in: f64) -> Part {
    let place = Point::new;
    let line = |from: Point, to: Point| Item::line(vec![from, to], Stroke::CutLine);
    let tick = |along: f64, up: f64| line(place(along, 0.0), place(along, up));
    let mut items = vec![line(Point::ORIGIN, place(long_in, 0.0))];
    let eighths = (long_in * 8.0).round() as u32;
    items.extend((0..=eighths).map(|i| {
        let up = match (i % 8, i % 4) {
            (0, _) => 0.14,
            (_, 0) => 0.09,
            _ => 0.05,
        };
        tick(f64::from(i) / 8.0, up)
    }));
    let millimetres = (long_in * 25.4).floor() as u32;
    let fives = (0..=millimetres).step_by(5);
    items.extend(fives.map(|i| tick(f64::from(i) / 25.4, if i % 10 == 0 { -0.12 } else { -0.06 })));
    let words = format!("{long_in:.0} inches, {:.1} millimetres", long_in * 25.4);
    let long = words_width_in(&words, NUMBER_IN);
    let beside = long_in + 0.1 + long < room_in;
    let middle =
        if beside { place(long_in + 0.1 + long / 2.0, 0.0) } else { place(long / 2.0, -0.12 - NUMBER_IN) };
    items.push(Item::text(TextItem::level(middle, NUMBER_IN, words.clone())));
    let (lo, hi) = (place(-0.05, -0.4), place(room_in, 0.2));
    let drawing = Arc::new(Drawing { title: words.clone(), lo, hi, weight: WEIGHT, items });
    Part::Figure {
        alt: Some(format!("A line to measure: {words}")),
        at: at + (lo - Point::ORIGIN),
        scale: 1.0,
        drawing,
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

    /// It, with its lower left corner at a place.
    fn part(self, at: Point, no: usize, cells: &CardCells) -> Part {
        let rectangle = |x: f64, y: f64, wide: f64, high: f64| {
            vec![
                Point::new(x, y),
                Point::new(x + wide, y),
                Point::new(x + wide, y + high),
                Point::new(x, y + high),
            ]
        };
        let (cell, low) = (self.cell_in(), STRIP_IN + self.cell_in());
        let cut = rectangle(0.0, 0.0, self.wide_in(), self.high_in());
        let mut items = vec![
            Item::closed(cut, Stroke::Leader),
            Item::fill(rectangle(cell, low, self.side_in, self.side_in), BLACK),
        ];
        for (row, line) in cells.iter().enumerate() {
            let up = low + (CELLS - 1 - row) as f64 * cell;
            items.extend(white_runs(line).into_iter().map(|(from, to)| {
                let (x, long) = ((from + 1) as f64 * cell, (to - from) as f64 * cell);
                Item::fill(rectangle(x, up, long, cell), WHITE)
            }));
        }
        let words = format!("No. {no}, side {:.3} in = {:.1} mm", self.side_in, self.side_in * 25.4);
        let fits = (self.side_in / words_width_in(&words, 1.0).max(1e-9)).min(NUMBER_IN);
        let middle = Point::new(self.wide_in() / 2.0, 0.5 * STRIP_IN);
        items.push(Item::text(TextItem::level(middle, fits, words)));
        let title = format!("Measuring card No. {no}");
        // Half a cut line lies outside.
        let drawing = Drawing::around(title, items, WEIGHT, WEIGHT * 0.01);
        let at = at + (drawing.lo - Point::ORIGIN);
        Part::Figure { alt: Some(drawing.title.clone()), at, scale: 1.0, drawing: Arc::new(drawing) }
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
