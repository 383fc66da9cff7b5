//! The one page over which all lines are seen, at the scale that fits.

use super::tiles::Tile;
use super::{FREE, Guide, Ink, LINES, MARGIN_IN, MARKS, OUTLINE, OnPage, Paper};
use crate::pdf::Page;
use drawing::{words_in_lines, words_width_in};
use plane::fill::Stroke;
use plane::{Point, Vec2, polygon};

/// Height of the letters of the title, the notes and the numbers, in inches.
const TITLE_IN: f64 = 0.2;
const NOTE_IN: f64 = 0.12;
const NUMBER_IN: f64 = 0.1;
/// Arrows stand so far apart on the paper.
const ARROWS_IN: f64 = 1.5;
/// More starts than this aren't numbered: numbers would cover the lines.
const MOST_NUMBERED: usize = 60;

pub(super) fn overview(guide: &Guide<'_>, paper: Paper, tiles: &[Tile]) -> Page {
    let [width, height] = paper.size_in();
    let mut page = Page::new([width, height]);
    let room = width - 2.0 * MARGIN_IN;
    let notes: Vec<String> =
        guide.notes.iter().flat_map(|note| words_in_lines(note, room, NOTE_IN)).collect();
    let notes_in = 1.35 * NOTE_IN * (notes.len() + 2) as f64;
    let top = height - MARGIN_IN - 1.6 * TITLE_IN;
    page.words(Point::new(MARGIN_IN, height - MARGIN_IN - TITLE_IN), TITLE_IN, true, guide.title);
    let (low, high) = polygon::bounds(guide.outline).unwrap_or_default();
    let size = high - low;
    let left_for_lines = (top - MARGIN_IN - notes_in).max(2.0);
    let scale = (room / size.x).min(left_for_lines / size.y).min(1.0);
    let drawn = Vec2::new(size.x * scale, size.y * scale);
    let to = Point::new((width - drawn.x) / 2.0, top - drawn.y);
    let on_page = OnPage { from: low, to, scale };
    lines(&mut page, guide, on_page);
    for tile in tiles {
        // No further than the piece itself: what is beyond it stays empty.
        let held = |p: Point| Point::new(p.x.clamp(low.x, high.x), p.y.clamp(low.y, high.y));
        let corners = on_page.all(&tile.inner_corners().map(held));
        page.line(&corners, true, Ink::plain(MARKS, 0.006));
        let name = tile.name();
        let half = Vec2::new(words_width_in(&name, NUMBER_IN) / 2.0, NUMBER_IN / 2.0);
        page.words(corners[0].midpoint(corners[2]) - half, NUMBER_IN, true, &name);
    }
    let mut at = Point::new(MARGIN_IN, to.y - 2.0 * NOTE_IN);
    page.words(at, NOTE_IN, false, &scale_words(scale));
    for note in notes {
        at = at + Vec2::new(0.0, -1.35 * NOTE_IN);
        page.words(at, NOTE_IN, false, &note);
    }
    page
}

fn scale_words(scale: f64) -> String {
    let size = if scale < 1.0 {
        format!("1 inch here is {:.2} on the piece.", 1.0 / scale)
    } else {
        "True size.".to_owned()
    };
    format!("{size} A dot is a start, an arrow the direction, a ring with a number a change of bobbin.")
}

fn lines(page: &mut Page, guide: &Guide<'_>, on_page: OnPage) {
    page.line(&on_page.all(guide.outline), true, OUTLINE);
    guide.free.iter().for_each(|ring| page.line(&on_page.all(ring), true, FREE));
    let numbered = guide.lines.strokes.len() > 1 && guide.lines.strokes.len() <= MOST_NUMBERED;
    for (i, stroke) in guide.lines.strokes.iter().enumerate() {
        let points = on_page.all(&stroke.points);
        page.line(&points, stroke.closed, LINES);
        let Some(start) = points.first() else { continue };
        page.area(&disc(*start, 0.04), MARKS);
        if numbered {
            let at = *start + Vec2::new(0.05, 0.03);
            page.words(at, NUMBER_IN, false, &(i + 1).to_string());
        }
        arrows(page, &Stroke { points, closed: stroke.closed });
    }
    for (i, change) in guide.changes.iter().enumerate() {
        let at = on_page.at(*change);
        page.line(&disc(at, 0.07), true, Ink::plain(MARKS, 0.015));
        page.words(at + Vec2::new(0.09, -0.035), NUMBER_IN, true, &(i + 1).to_string());
    }
}

/// Small heads along a stroke: the first near its start, so that every stroke has one.
fn arrows(page: &mut Page, stroke: &Stroke) {
    let mut next = (stroke.length() / 2.0).min(0.3);
    let mut along = 0.0;
    for (a, b) in stroke.segments() {
        let long = a.distance(b);
        if long > 0.0 && next <= along + long {
            let unit = (b - a) * (1.0 / long);
            let tip = a + unit * (next - along) + unit * 0.04;
            let wing = |side: f64| tip - unit * 0.08 + unit.left() * (side * 0.03);
            page.area(&[tip, wing(1.0), wing(-1.0)], MARKS);
            while next <= along + long {
                next += ARROWS_IN;
            }
        }
        along += long;
    }
}

/// A disc as a polygon.
fn disc(middle: Point, radius: f64) -> Vec<Point> {
    let corner = |i: u32| {
        let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 16.0).sin_cos();
        middle + Vec2::new(cos * radius, sin * radius)
    };
    (0..16).map(corner).collect()
}
