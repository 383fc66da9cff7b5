//! The back of a piece, as it is seen when the piece is turned over from left to right.

use crate::looks::Looks;
use crate::scene::Scene;
use crate::shows::Seen;
use crate::{Drawing, DrawingProblem, FrontOptions, Item, Shape, Stroke, Tag};
use crate::{allowance, edges, front, seams};
use plane::{Point, Region, Turn};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Bound, Mark, Press};
use quilt::table::Table;
use std::collections::BTreeMap;

/// The back of the top begun by step `top`: the front's mirror image, with the wrong sides of the
/// cloths, the allowances of sewn seams on the side they are pressed to, and arrows that say
/// which way. Always in its raw shape; `what.finished` counts for nothing here.
///
/// # Errors
/// When there is no such top on the table.
pub fn back(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
) -> Result<Drawing, DrawingProblem> {
    let what = FrontOptions { finished: false, ..what.clone() };
    let looks = Looks::of(cloths);
    let scene = Scene::of(table, top, &looks, &what)?;
    let title = format!("Back of the piece begun by step {top}");
    let drawing = Drawing::around(title, back_items(&scene), scene.weight, 0.5 * scene.weight);
    let back = drawing.turned_over();
    Ok(if what.ground { back.on_calico() } else { back })
}

/// All items of a back, still seen through the front.
pub(crate) fn back_items(scene: &Scene<'_>) -> Vec<Item> {
    let seen = Seen { wrong_side: true, flat: scene.what.flat };
    let faces = scene.top.faces().values().map(|face| {
        let region = Region { outer: scene.face_outline(face), holes: Vec::new() };
        let items = front::patch_shows(scene, face, &region, seen);
        let tag = Tag::class("patch").with("patch", face.patch);
        Item::new(Shape::Group { clip: None, items }).tagged(tag)
    });
    let mut items = vec![Item::group("patches", faces.collect())];
    items.push(allowances(scene));
    items.extend([seams::seams(scene), edges::edges(scene)]);
    items.extend(arrows(scene));
    items.extend(front::trims(scene));
    items.extend(front::pointed_out(scene));
    items.extend(front::words(scene));
    items
}

/// The allowances of all sewn seams, the latest on top.
fn allowances(scene: &Scene<'_>) -> Item {
    let runs = allowance::runs(scene);
    let mut seams: Vec<_> =
        scene.top.seams().iter().filter(|(name, _)| scene.what.is_sewn(name.by)).collect();
    seams.sort_by_key(|(name, seam)| (seam.order, **name));
    let strips = seams
        .into_iter()
        .filter_map(|(name, seam)| runs.get(name).map(|runs| allowance::strips(scene, *name, seam, runs)));
    Item::group("allowances", strips.collect())
}

/// One arrow a sewn seam, across it, to the side it is pressed to.
fn arrows(scene: &Scene<'_>) -> Option<Item> {
    let mut items = Vec::new();
    for (name, seam) in scene.top.seams() {
        let ends = scene.seam_ends(*name, seam).filter(|_| scene.what.is_sewn(name.by));
        let Some(((a, b), line)) = ends.zip(scene.line(Bound::Seam(*name))) else { continue };
        let towards_added = line.normal.opposite();
        // Off the middle, where patches have their numbers.
        let at = a.lerp(b, 0.3);
        let size = (0.42 * scene.weight).min(a.distance(b) * 0.4);
        let lines = match seam.press {
            Press::Over => arrow(at, towards_added, size),
            Press::Back => arrow(at, line.normal, size),
            Press::Open => {
                let mut both = arrow(at, towards_added, size * 0.8);
                both.extend(arrow(at, line.normal, size * 0.8));
                both
            }
        };
        let word = match seam.press {
            Press::Over => "over",
            Press::Back => "back",
            Press::Open => "open",
        };
        let tag = Tag::class("press").with("seam", name).with("press", word);
        items.push(Item::group("press", lines).tagged(tag));
    }
    (!items.is_empty()).then(|| Item::group("pressing", items))
}

/// An arrow of length `size` from `at` in the direction `turn`.
pub(crate) fn arrow(at: Point, turn: Turn, size: f64) -> Vec<Item> {
    let tip = at + turn.vec() * size;
    let wing = |side: f64| tip - turn.vec() * (0.32 * size) + turn.left().vec() * (side * 0.2 * size);
    vec![
        Item::line(vec![at, tip], Stroke::CutLine),
        Item::line(vec![wing(1.0), tip, wing(-1.0)], Stroke::CutLine),
    ]
}
