//! Free edges: thin plain lines where cloth is cut, chalk where that is only planned.

use crate::scene::Scene;
use crate::{Item, Shape, Stroke, Tag};
use quilt::log::Bound;

/// All free edges, each tagged with the side it belongs to; chalk ones last.
pub(crate) fn edges(scene: &Scene<'_>) -> Item {
    let mut items = if scene.what.finished { outline(scene) } else { raw_edges(scene) };
    let stroke_of = |item: &Item| match item.shape {
        Shape::Line { stroke, .. } => stroke,
        _ => Stroke::CutLine,
    };
    items.sort_by_key(|item| stroke_of(item) == Stroke::Chalk);
    Item::group("edges", items)
}

/// The edges of the finished shape.
fn outline(scene: &Scene<'_>) -> Vec<Item> {
    scene
        .sides()
        .iter()
        .map(|side| Item::line(vec![side.from, side.to], Stroke::Outline).tagged(tag(side.bound)))
        .collect()
}

fn raw_edges(scene: &Scene<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    for (name, face) in scene.top.faces() {
        let free: Vec<Bound> = face.around().iter().filter(|b| is_free(scene, **b)).copied().collect();
        if free.is_empty() {
            continue;
        }
        let stroke = if scene.there.contains(name) { Stroke::CutLine } else { Stroke::Chalk };
        for (bound, a, b) in scene.runs(face) {
            if free.contains(&bound) {
                items.push(Item::line(vec![a, b], stroke).tagged(tag(bound)));
            }
        }
    }
    items
}

fn is_free(scene: &Scene<'_>, bound: Bound) -> bool {
    match bound {
        Bound::Raw(_) => true,
        // A seam line that sticks out shows in the outline; its stitches are drawn as a seam.
        Bound::Seam(name) => !scene.top.seams().contains_key(&name),
    }
}

fn tag(bound: Bound) -> Tag {
    match bound {
        Bound::Raw(name) => Tag::default().with("side", name),
        Bound::Seam(name) => Tag::default().with("seam", name),
    }
}
