//! How a cloth is cut, on its drawing: its edges with the letters that the words use, and the lines
//! of the ruler with their numbers and marks.

use crate::back::arrow;
use crate::{Item, Stroke, Tag, TextItem, fraction};
use plane::{Point, Region, Turn, Vec2, polygon};
use quilt::marks::{Ruler, RulerLine, letter, lettered, point_of};

/// Height of letters at weight 1, in inches.
const LETTERS_IN: f64 = 0.3;

/// Which of both is wanted beside an edge: its letter, its length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Beside {
    pub(crate) letters: bool,
    pub(crate) lengths: bool,
}

/// Beside the middle of each edge its letter and its length, and at its start an arrow: from there,
/// and that way, its marks are counted.
pub(crate) fn edges(outline: &Region, beside: Beside, denominator: u32, weight: f64) -> Vec<Item> {
    if !beside.letters && !beside.lengths {
        return Vec::new();
    }
    let corners = lettered(outline);
    let mut items = Vec::new();
    for (i, (from, to)) in polygon::edges(&corners).enumerate() {
        let along = to - from;
        let length = along.length();
        let Some(turn) = Turn::towards(along) else { continue };
        let out = -along.left() * (1.0 / length);
        let mut words = Vec::new();
        if beside.letters {
            words.push(letter(i));
        }
        if beside.lengths {
            words.push(fraction(length, denominator));
        }
        let words = words.join("  ");
        let size = LETTERS_IN * weight;
        let wide = crate::words_width_in(&words, size);
        let reach = 0.25 * weight + (out.x.abs() * wide + out.y.abs() * size) / 2.0;
        let text = TextItem::level(from.midpoint(to) + out * reach, size, words);
        let mut own = vec![Item::text(TextItem { bold: beside.letters, ..text })];
        if beside.letters {
            let half = (0.2 * weight).min(0.2 * length);
            let start = from + turn.vec() * half + out * (0.12 * weight);
            own.extend(arrow(start, turn, half));
        }
        items.push(Item::group("edge-name", own).tagged(Tag::class("edge-name").with("edge", letter(i))));
    }
    items
}

/// The lines of the ruler: thin from mark to mark, plain where it is cut, with a number; and the
/// marks with their distances from where their edge starts.
pub(crate) fn rulers(
    outline: &Region,
    rulers: &[Ruler],
    what: Beside,
    denominator: u32,
    weight: f64,
) -> Vec<Item> {
    let corners = lettered(outline);
    let lines = rulers.iter().flat_map(|ruler| &ruler.lines);
    lines.map(|line| ruler_line(line, &corners, what, denominator, weight)).collect()
}

fn ruler_line(line: &RulerLine, corners: &[Point], what: Beside, denominator: u32, weight: f64) -> Item {
    let mut items = Vec::new();
    if let (Some(from), Some(to)) = (point_of(line.from, corners), point_of(line.to, corners)) {
        items.push(Item::line(vec![from, to], Stroke::Leader));
        if what.lengths {
            for (mark, at, towards) in [(line.from, from, to), (line.to, to, from)] {
                let inward = Turn::towards(towards - at).map_or(Vec2::default(), Turn::vec);
                let size = 0.7 * LETTERS_IN * weight;
                let text =
                    TextItem::level(at + inward * (0.3 * weight), size, fraction(mark.at_in, denominator));
                items.push(Item::text(TextItem { rim: true, ..text }));
            }
        }
    }
    items.push(Item::line(line.on.to_vec(), Stroke::CutLine));
    if what.letters {
        let middle = line.on[0].midpoint(line.on[1]);
        let text = TextItem::level(middle, LETTERS_IN * weight, line.no.to_string());
        items.push(Item::text(TextItem { bold: true, rim: true, ..text }));
    }
    Item::group("ruler", items).tagged(Tag::class("ruler").with("line", line.no))
}
