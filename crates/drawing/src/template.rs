//! Templates and sections in true size: solid where it is cut, dashed where it is sewn.

use crate::words::words_width_in;
use crate::{Anchor, Item, MADDER, Stroke, Tag, TextItem};
use plane::{Point, Region, Turn, Vec2, largest_disc};
use quilt::pattern::Lines;

/// The smallest words: 10 points.
const SMALL_IN: f64 = 10.0 / 72.0;
/// The largest number.
const LARGE_IN: f64 = 0.34;

/// What is said of a template. Directions are those on the paper.
#[derive(Clone, Debug)]
pub struct TemplateWords {
    /// Its number.
    pub number: String,
    /// What stands under it, where there is room.
    pub under: String,
    /// The lengthwise threads.
    pub grain: Option<Turn>,
    /// The top of a print that has one.
    pub top: Option<Turn>,
}

/// Cut line, seam line and marks, with the neighbours' numbers in the allowance.
#[must_use]
pub fn pattern_lines(lines: &Lines) -> Vec<Item> {
    let tagged = |item: Item, class: &'static str| item.tagged(Tag::class(class));
    let mut items = vec![
        tagged(Item::closed(lines.cut.clone(), Stroke::CutLine), "cut"),
        tagged(Item::closed(lines.seam.clone(), Stroke::SeamLine), "seam"),
    ];
    for ends in &lines.meetings {
        items.push(tagged(Item::line(ends.to_vec(), Stroke::Leader), "meeting"));
    }
    for notch in &lines.notches {
        items.push(tagged(Item::line(vec![notch.from, notch.to], Stroke::CutLine), "notch"));
        let width = words_width_in(&notch.neighbour, SMALL_IN);
        let Some(out) = Turn::towards(notch.to - notch.from) else { continue };
        if notch.shared_in < 2.0 * (width + 0.1) {
            continue;
        }
        // Along the side, as upright as it can be.
        let along = if out.left().cos < -1e-9 { out.left().opposite() } else { out.left() };
        let at = notch.from.midpoint(notch.to) + along.vec() * (width / 2.0 + 0.05);
        let words = TextItem { turn: along, ..TextItem::level(at, SMALL_IN, notch.neighbour.clone()) };
        items.push(Item::text(words));
    }
    items
}

/// Number, words and arrows inside a shape.
#[must_use]
pub fn pattern_words(inside: &[Point], words: &TemplateWords) -> Vec<Item> {
    let region = Region { outer: inside.to_vec(), holes: Vec::new() };
    let Some(disc) = largest_disc(&region, 0.02) else { return Vec::new() };
    let (centre, radius) = (disc.centre, disc.radius);
    let mut items = Vec::new();
    // Grain on one side of the middle, the print's top on the other.
    let beside = |turn: Turn, side: f64| {
        let half = turn.vec() * (0.75 * radius);
        let middle = centre + turn.vec().left() * (side * 0.5 * radius);
        [middle - half, middle + half]
    };
    if let Some(grain) = words.grain {
        let [from, to] = beside(grain, -1.0);
        items.extend(arrow(from, to, true, Stroke::Leader));
    }
    if let Some(top) = words.top {
        let [from, to] = beside(top, 1.0);
        items.extend(arrow(from, to, false, Stroke::Mark));
        if radius > 0.6 {
            let word =
                TextItem { colour: MADDER, rim: true, ..TextItem::level(from.lerp(to, 0.2), SMALL_IN, "up") };
            items.push(Item::text(word));
        }
    }
    let wide = words_width_in(&words.number, 1.0).max(1e-9);
    let size = LARGE_IN.min(1.5 * radius / wide).min(1.1 * radius);
    let under = SMALL_IN.max(0.4 * size);
    let has_room = !words.under.is_empty() && {
        let down = 0.5 * size + under;
        down < radius && words_width_in(&words.under, SMALL_IN) < 2.0 * (radius * radius - down * down).sqrt()
    };
    let lift = if has_room { 0.35 * size } else { 0.0 };
    let number = TextItem::level(centre + Vec2::new(0.0, lift), size, words.number.clone());
    items.push(Item::text(TextItem { bold: true, rim: true, anchor: Anchor::Middle, ..number }));
    if has_room {
        let at = centre - Vec2::new(0.0, 0.5 * size + 0.3 * SMALL_IN);
        items.push(Item::text(TextItem { rim: true, ..TextItem::level(at, SMALL_IN, words.under.clone()) }));
    }
    items
}

/// A line with a head at its end, or at both.
fn arrow(from: Point, to: Point, both: bool, stroke: Stroke) -> Vec<Item> {
    let Some(way) = Turn::towards(to - from) else { return Vec::new() };
    let size = (0.25 * from.distance(to)).min(0.14);
    let head = |tip: Point, way: Turn| {
        let wing = |side: f64| tip - way.vec() * size + way.vec().left() * (side * 0.45 * size);
        Item::line(vec![wing(1.0), tip, wing(-1.0)], stroke)
    };
    let mut items = vec![Item::line(vec![from, to], stroke), head(to, way)];
    if both {
        items.push(head(from, way.opposite()));
    }
    items
}
