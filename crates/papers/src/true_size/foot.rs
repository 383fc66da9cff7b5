//! The foot of a true-size page: two squares to measure, and what to know.

use super::{Foot, MARGIN_IN};
use crate::Paper;
use drawing::{Anchor, Item, Stroke, TextItem};
use plane::{Point, Vec2};

/// The side of the larger square: 5 cm.
pub(super) const SQUARE_IN: f64 = 5.0 / 2.54;
/// Letters of the foot: 10 points.
pub(super) const LETTERS_IN: f64 = 10.0 / 72.0;
/// Room that the words beside the squares take from below.
pub(super) const WORDS_IN: f64 = 0.85;

pub(super) fn square(corner: Point, side: f64) -> Vec<Point> {
    let at = |x: f64, y: f64| corner + Vec2::new(x, y);
    vec![at(0.0, 0.0), at(side, 0.0), at(side, side), at(0.0, side)]
}

pub(super) fn words(at: Point, size_in: f64, anchor: Anchor, bold: bool, words: &str) -> Item {
    Item::text(TextItem { anchor, bold, ..TextItem::level(at, size_in, words) })
}

pub(super) fn foot(foot: &Foot, number: usize, total: usize, paper: Paper) -> Vec<Item> {
    let corner = Point::new(MARGIN_IN, MARGIN_IN);
    let inch = 1.0;
    let mut items = vec![
        Item::closed(square(corner, SQUARE_IN), Stroke::CutLine),
        Item::closed(square(corner, inch), Stroke::CutLine),
        words(corner + Vec2::new(0.5, 0.5), LETTERS_IN, Anchor::Middle, false, "1 inch"),
        words(corner + Vec2::new(SQUARE_IN / 2.0, 1.5), LETTERS_IN, Anchor::Middle, false, "5 cm"),
    ];
    let left = corner.x + SQUARE_IN + 0.2;
    let right = paper.size_in()[0] - MARGIN_IN;
    let first = format!("{}: sheet {number} of {total}", foot.title);
    let check = "Print at 100 %. Measure a square before you cut.".to_owned();
    let lines = std::iter::once((first, true))
        .chain(std::iter::once(check).chain(foot.notes.iter().cloned()).map(|line| (line, false)));
    for (i, (line, bold)) in lines.enumerate() {
        let y = corner.y + WORDS_IN - LETTERS_IN - i as f64 * LETTERS_IN * 1.35;
        let width = drawing::words_width_in(&line, LETTERS_IN).max(1e-9);
        // Widths are guessed a little large.
        let size = LETTERS_IN * (1.12 * (right - left) / width).min(1.0);
        items.push(words(Point::new(left, y), size, Anchor::Start, bold, &line));
    }
    items
}
