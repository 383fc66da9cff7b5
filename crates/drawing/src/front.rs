//! The front of a piece: every face filled with exactly the part of its cloth that will be seen.

use crate::display::bounds;
use crate::looks::Looks;
use crate::scene::Scene;
use crate::shows::{Seen, shows};
use crate::{
    Accent, Drawing, DrawingProblem, FrontOptions, Item, PictureItem, Placement, Shape, Stroke, Tag,
};
use crate::{edges, labels, seams};
use plane::Region;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Bound, Mark, Name};
use quilt::table::{Face, Table};
use std::collections::BTreeMap;

/// The front of the top begun by step `top`, in the top's own coordinates. A cloth that isn't
/// among `cloths` is drawn grey.
///
/// # Errors
/// When there is no such top on the table.
pub fn front(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
) -> Result<Drawing, DrawingProblem> {
    let looks = Looks::of(cloths);
    let scene = Scene::of(table, top, &looks, what)?;
    let drawing = page(&scene, format!("Front of the piece begun by step {top}"), front_items(&scene));
    Ok(drawing)
}

/// A page around the items of a piece, on calico if that is wanted.
pub(crate) fn page(scene: &Scene<'_>, title: String, items: Vec<Item>) -> Drawing {
    let drawing = Drawing::around(title, items, scene.weight, 0.5 * scene.weight);
    if scene.what.ground { drawing.on_calico() } else { drawing }
}

/// All items of a front, lowest first.
pub(crate) fn front_items(scene: &Scene<'_>) -> Vec<Item> {
    let faces = scene.top.faces().iter().map(|(name, face)| patch(scene, *name, face)).collect();
    let mut items = vec![Item::group("patches", faces), seams::seams(scene), edges::edges(scene)];
    items.extend(trims(scene));
    items.extend(pointed_out(scene));
    items.extend(words(scene));
    items
}

/// One patch: what shows of it.
fn patch(scene: &Scene<'_>, name: Name, face: &Face) -> Item {
    let region = Region { outer: scene.face_outline(face), holes: Vec::new() };
    let seen = Seen { wrong_side: false, flat: scene.what.flat };
    let items = patch_shows(scene, face, &region, seen);
    let state = if scene.there.contains(&name) { "sewn" } else { "chalk" };
    let tag = Tag::class("patch").with("patch", face.patch).with("state", state);
    Item::new(Shape::Group { clip: None, items }).tagged(tag)
}

/// The part of a patch's cloth that is seen in `region`: from the cloth to the patch, from the
/// patch to the top. Of a patch that was photographed, the photograph over its mean colour.
pub(crate) fn patch_shows(scene: &Scene<'_>, face: &Face, region: &Region, seen: Seen) -> Vec<Item> {
    let Some(patch) = scene.table.patches().get(&face.patch) else { return Vec::new() };
    if let Some(photo) = scene.what.photographed.as_ref().filter(|_| !seen.wrong_side)
        && let Some(lies) = photo.lies.get(&face.patch)
    {
        let paint = scene.looks.paint(patch.cloth, false);
        let under = Item::new(Shape::Fill { region: region.clone(), paint }).tagged(Tag::class("cloth"));
        let picture = PictureItem {
            picture: photo.picture.clone(),
            placement: lies.then(Placement::moved(face.pose)),
            clip: region.clone(),
            opacity: 1.0,
        };
        return vec![under, Item::new(Shape::Picture(picture)).tagged(Tag::class("photograph"))];
    }
    let placement = Placement::moved(patch.at.inverse().then(face.pose));
    shows(scene.looks, patch.cloth, placement, region, seen)
}

/// Names and measures.
pub(crate) fn words(scene: &Scene<'_>) -> Vec<Item> {
    let mut items = labels::patch_labels(scene);
    items.extend(labels::side_labels(scene));
    let outline: Vec<Item> = vec![Item::line(scene.top.outline_points(), Stroke::Outline)];
    let lowest = [&items, &outline].into_iter().filter_map(|i| bounds(i)).map(|(lo, _)| lo.y);
    let lowest = lowest.fold(f64::INFINITY, f64::min);
    items.extend(labels::size_label(scene, lowest));
    if items.is_empty() { items } else { vec![Item::group("words", items)] }
}

/// Trims that are due.
pub(crate) fn trims(scene: &Scene<'_>) -> Option<Item> {
    let trims = &scene.what.trims;
    let lines = trims.iter().map(|ends| Item::line(ends.to_vec(), Stroke::CutLine)).collect();
    (!trims.is_empty()).then(|| Item::group("trims", lines))
}

/// Patches that are pointed out, and what the hand is on.
pub(crate) fn pointed_out(scene: &Scene<'_>) -> Option<Item> {
    let mut items = Vec::new();
    for face in scene.top.faces().values() {
        let on_hand = scene.what.accent == Some(Accent::Patch(face.patch));
        if on_hand || scene.what.highlights.contains(&face.patch) {
            items.push(Item::closed(scene.face_outline(face), Stroke::Mark));
        }
    }
    match scene.what.accent {
        Some(Accent::Side(side)) => {
            let found = scene.sides().into_iter().find(|s| s.name() == Some(side));
            items.extend(found.map(|s| Item::line(vec![s.from, s.to], Stroke::Mark)));
        }
        Some(Accent::Seam(seam)) => {
            let ends = scene.top.seams().get(&seam).and_then(|found| scene.seam_ends(seam, found));
            let ends = ends.filter(|_| scene.line(Bound::Seam(seam)).is_some());
            items.extend(ends.map(|(a, b)| Item::line(vec![a, b], Stroke::Mark)));
        }
        Some(Accent::Patch(_)) | None => {}
    }
    (!items.is_empty()).then(|| Item::group("accent", items))
}
