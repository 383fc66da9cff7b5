//! The lines as a drawing, with starts, directions and changes of bobbin: in true size, and over the page.

use super::Guide;
use crate::Paper;
use crate::tiles::Tile;
use drawing::{Anchor, Drawing, INK, Item, MADDER, Paint, Stroke, TextItem};
use plane::fill::Stroke as Way;
use plane::{Point, Vec2, polygon};

/// Height of the letters of numbers, in inches on the paper.
const NUMBER_IN: f64 = 0.14;
/// Arrows stand at least so far apart on the paper.
const ARROWS_IN: f64 = 1.5;
/// A stroke has no more arrows than this: on a long one they would cover the lines.
const MOST_ARROWS: f64 = 50.0;
/// More starts than this aren't numbered: numbers would cover the lines.
const MOST_NUMBERED: usize = 60;
/// Numbers of starts nearer to each other than this on the paper would cover each other: the later is left out.
const NUMBERS_APART_IN: f64 = 0.22;
/// The most room that the overview takes of a page's height; the notes stand below.
const ROOM_HIGH_IN: f64 = 5.9;
/// What of the paper's width stays empty.
const ROOM_BESIDE_IN: f64 = 1.3;

/// Outline, lines, what is kept free, and the marks, for tiles.
pub(super) fn true_size(guide: &Guide<'_>) -> Drawing {
    let (lo, hi) = polygon::bounds(guide.outline).unwrap_or_default();
    let mut items = plain(guide);
    marked(guide, &Marks { on_paper: 1.0 }, &mut items);
    Drawing { title: guide.title.to_owned(), lo, hi, weight: 0.6, items }
}

fn plain(guide: &Guide<'_>) -> Vec<Item> {
    let mut items = vec![Item::closed(guide.outline.to_vec(), Stroke::Outline)];
    items.extend(guide.free.iter().map(|ring| Item::closed(ring.clone(), Stroke::Leader)));
    items.extend(guide.lines.strokes.iter().map(|stroke| {
        let line = if stroke.closed { Item::closed } else { Item::line };
        line(stroke.points.clone(), Stroke::CutLine)
    }));
    items
}

/// Starts, directions and changes of bobbin.
fn marked(guide: &Guide<'_>, marks: &Marks, items: &mut Vec<Item>) {
    let strokes = &guide.lines.strokes;
    let numbered = strokes.len() > 1 && strokes.len() <= MOST_NUMBERED;
    let apart_in = NUMBERS_APART_IN * marks.on_paper;
    let mut numbers: Vec<Point> = Vec::new();
    for (i, stroke) in strokes.iter().enumerate() {
        let Some(start) = stroke.points.first() else { continue };
        solid(marks.disc(*start, 0.045), items);
        let at = *start + Vec2::new(0.07, 0.07) * marks.on_paper;
        if numbered && numbers.iter().all(|other| other.distance(at) > apart_in) {
            items.push(marks.number(at, &(i + 1).to_string(), Anchor::Start));
            numbers.push(at);
        }
        marks.arrows(stroke, items);
    }
    for (i, change) in guide.changes.iter().enumerate() {
        items.push(Item::closed(marks.disc(*change, 0.07), Stroke::Mark));
        let at = *change + Vec2::new(0.11, 0.0) * marks.on_paper;
        items.push(marks.number(at, &(i + 1).to_string(), Anchor::Start));
    }
}

/// The drawing that goes over the page, and its scale.
pub(super) fn overview(guide: &Guide<'_>, tiles: &[Tile], paper: Paper) -> (Drawing, f64) {
    let (low, high) = polygon::bounds(guide.outline).unwrap_or_default();
    let size = high - low;
    let scale = ((paper.size_in()[0] - ROOM_BESIDE_IN) / size.x).min(ROOM_HIGH_IN / size.y).min(1.0);
    let marks = Marks { on_paper: 1.0 / scale };
    let mut items = plain(guide);
    marked(guide, &marks, &mut items);
    for tile in tiles {
        // No further than the piece itself: what is beyond it stays empty.
        let held = |p: Point| Point::new(p.x.clamp(low.x, high.x), p.y.clamp(low.y, high.y));
        let corners = tile.crosses().map(held);
        items.push(Item::closed(corners.to_vec(), Stroke::Mark));
        items.push(marks.number(corners[0].midpoint(corners[2]), &tile.name(), Anchor::Middle));
    }
    let title = format!("{}: the lines of quilting over the outline", guide.title);
    (Drawing::around(title, items, 0.35 * marks.on_paper, 0.08 * marks.on_paper), scale)
}

/// A mark that is seen where ink is saved too: areas are pale then, lines aren't.
fn solid(points: Vec<Point>, items: &mut Vec<Item>) {
    items.push(Item::fill(points.clone(), Paint::solid(MADDER)));
    items.push(Item::closed(points, Stroke::Mark));
}

/// Marks that are as large on the paper as they are said to be.
struct Marks {
    /// Inches of the drawing for an inch of paper.
    on_paper: f64,
}

impl Marks {
    fn number(&self, at: Point, words: &str, anchor: Anchor) -> Item {
        let size_in = NUMBER_IN * self.on_paper;
        let text =
            TextItem { anchor, bold: true, rim: true, colour: INK, ..TextItem::level(at, size_in, words) };
        Item::text(text)
    }

    /// A disc as a polygon.
    fn disc(&self, middle: Point, radius_in: f64) -> Vec<Point> {
        let corner = |i: u32| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 16.0).sin_cos();
            middle + Vec2::new(cos, sin) * (radius_in * self.on_paper)
        };
        (0..16).map(corner).collect()
    }

    /// Small heads along a stroke: the first near its start, so that every stroke has one.
    fn arrows(&self, stroke: &Way, items: &mut Vec<Item>) {
        let long_in = 0.11 * self.on_paper;
        let apart_in = (ARROWS_IN * self.on_paper).max(stroke.length() / MOST_ARROWS);
        let mut next = (stroke.length() / 2.0).min(0.3 * self.on_paper);
        let mut along = 0.0;
        for (a, b) in stroke.segments() {
            let long = a.distance(b);
            if long > 0.0 && next <= along + long {
                let unit = (b - a) * (1.0 / long);
                let tip = a + unit * (next - along) + unit * (0.5 * long_in);
                let wing = |side: f64| tip - unit * long_in + unit.left() * (side * 0.38 * long_in);
                solid(vec![tip, wing(1.0), wing(-1.0)], items);
                while next <= along + long {
                    next += apart_in;
                }
            }
            along += long;
        }
    }
}
