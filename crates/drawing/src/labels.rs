//! Names and measures: outside the outline near the middle of each side, and on the patches.
//!
//! A piece is turned while it is worked on, so nothing here says left or right: sides have names.
//! Every length says which size it is.

use crate::scene::Scene;
use crate::{Item, Stroke, Tag, TextItem, words_width_in};
use plane::{Point, Vec2, polygon};
use quilt::table::Side;

/// Height of letters at weight 1, in inches.
const LETTERS_IN: f64 = 0.3;
/// How far labels stay off the outline at weight 1, in inches.
const OFF_IN: f64 = 0.2;

/// Names and lengths of the sides, as far as they are wanted.
pub(crate) fn side_labels(scene: &Scene<'_>) -> Vec<Item> {
    let (labels, measures) = (scene.what.labels, scene.what.measures);
    if !labels && !measures {
        return Vec::new();
    }
    let mut items = Vec::new();
    for side in scene.sides() {
        let Some(name) = side.name() else { continue };
        let mut lines = Vec::new();
        if labels {
            lines.push((name.to_string(), true));
        }
        if measures {
            let length = scene.what.length(side.length_in());
            lines.push((format!("{} {length}", scene.size_word()), false));
        }
        items.push(label(scene, &side, &lines).tagged(Tag::class("side").with("side", name)));
    }
    items
}

/// A block of lines beside the middle of a side, and a thin line that leads to it. The block's
/// box lies wholly beyond the side's own line, so it can't cover a convex piece.
fn label(scene: &Scene<'_>, side: &Side, lines: &[(String, bool)]) -> Item {
    let size = LETTERS_IN * scene.weight;
    let pitch = size * 1.15;
    let width = lines.iter().map(|(words, _)| words_width_in(words, size)).fold(0.0, f64::max);
    let height = pitch * lines.len() as f64;
    let along = side.to - side.from;
    let length = along.length();
    let out = if length > 0.0 { -along.left() * (1.0 / length) } else { Vec2::new(0.0, -1.0) };
    let middle = side.from.midpoint(side.to);
    let off = OFF_IN * scene.weight;
    let reach = off + (out.x.abs() * width + out.y.abs() * height) / 2.0;
    let centre = middle + out * reach;
    let leader = vec![middle + out * (0.3 * off), middle + out * (0.85 * off)];
    let mut items = vec![Item::line(leader, Stroke::Leader)];
    for (i, (words, bold)) in lines.iter().enumerate() {
        let y = centre.y + height / 2.0 - pitch * (i as f64 + 0.5);
        let text = TextItem::level(Point::new(centre.x, y), size, words.as_str());
        items.push(Item::text(TextItem { bold: *bold, ..text }));
    }
    Item::group("side", items)
}

/// The number of each patch on the middle of what shows of it, as large as it has room for.
pub(crate) fn patch_labels(scene: &Scene<'_>) -> Vec<Item> {
    if !scene.what.labels {
        return Vec::new();
    }
    let mut items = Vec::new();
    for face in scene.top.faces().values() {
        let points = scene.face_outline(face);
        let Some(middle) = polygon::centroid(&points) else { continue };
        let words = face.patch.to_string();
        let room = polygon::least_width(&points) * 0.7;
        let wanted = LETTERS_IN * 0.85 * scene.weight;
        let size = wanted.min(room).min(wanted * room / words_width_in(&words, wanted).max(1e-9));
        if size < 0.2 * wanted {
            continue;
        }
        let text = TextItem { rim: true, ..TextItem::level(middle, size, words.as_str()) };
        items.push(Item::text(text).tagged(Tag::default().with("patch", face.patch)));
    }
    items
}

/// Width and height of the whole, under the piece.
pub(crate) fn size_label(scene: &Scene<'_>, lowest: f64) -> Option<Item> {
    if !scene.what.measures {
        return None;
    }
    let corners: Vec<Point> = scene.sides().iter().map(|side| side.from).collect();
    let (lo, hi) = polygon::bounds(&corners)?;
    let length = |inches: f64| scene.what.length(inches);
    let words = format!("{} {} × {}", scene.size_word(), length(hi.x - lo.x), length(hi.y - lo.y));
    let size = LETTERS_IN * scene.weight;
    let at = Point::new(f64::midpoint(lo.x, hi.x), lowest - size * 1.4);
    let text = TextItem { bold: true, ..TextItem::level(at, size, words) };
    Some(Item::text(text).tagged(Tag::class("size")))
}
