//! Photographs of a piece that is being sewn.

use super::camera::Camera;
use super::card::CardPattern;
use super::lay::Table;
use super::recipe::Recipe;
use super::scenery::Thing;
use super::shot::Shot;
use super::texture::Texture;
use super::truth::ClothThere;
use super::{Drawn, Scene, Setting, cards, mat, taken};
use crate::dice::Dice;
use crate::heap::Heap;
use plane::{Pose, Region, Turn, polygon};
use quilt::cloth::ClothId;
use quilt::table::{self, Top};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Room for the cards beside a piece: so many inches more than its own width.
const ROOM_IN: f64 = 5.0;
/// Where a piece isn't seen whole or leaves no room for the cards, the picture is taken from farther
/// away, each time by so much, so many times.
const FARTHER: f64 = 1.06;
const TIMES: usize = 30;
/// What is seen whole keeps so far from the picture's edge, in pixels.
const MARGIN_PX: f64 = 12.0;

/// The piece on the table, sewn from scraps of a heap, with measuring cards around it, as it is
/// after the last step that has been replayed. None while there is no piece, when one of its
/// patches is of no scrap of the heap, or when it can't be seen whole
/// with the cards beside it.
#[must_use]
pub fn piece_scene(
    recipe: &Recipe,
    seed: u64,
    pattern: CardPattern,
    sewn: &table::Table,
    heap: &Heap,
) -> Option<Scene> {
    let (_, top) = sewn.piece()?;
    let mut dice = Dice::new(seed, 0x91_ece);
    let mut shot = Shot::draw(recipe, &mut dice);
    let outline = top.outline_points();
    let longer = f64::from(shot.stand.size_px[0].max(shot.stand.size_px[1]));
    let middle = polygon::centroid(&outline)?;
    let lies = Pose::carrying(Turn::from_degrees(dice.between(-180.0, 180.0)), middle, shot.stand.target);
    shot.stand.pixels_per_in = longer / (polygon::diameter(&outline) + ROOM_IN);
    let raw = Region { outer: lies.apply_all(&outline), holes: Vec::new() };
    let mut things = Vec::new();
    let cloths = patches(sewn, top, heap, lies, &mut things)?;
    things.extend(top.seams().keys().filter_map(|name| {
        let (a, b) = top.seam_points(*name)?;
        Some(Thing::Seam([lies.apply(a), lies.apply(b)]))
    }));
    let mat = mat(&mut dice);
    let (camera, cards) = (0..TIMES).find_map(|_| {
        let camera = Camera::new(shot.stand);
        shot.stand.pixels_per_in /= FARTHER;
        let whole = raw.outer.iter().all(|p| camera.sees(*p, MARGIN_PX));
        let mut table = Table::new(&camera, recipe, vec![raw.clone()]);
        let cards = cards(recipe, &mut table, pattern, &mut dice.clone());
        (whole && cards.len() >= recipe.cards[0]).then_some((camera, cards))
    })?;
    shot.stand = *camera.stand();
    let setting =
        Setting { recipe, camera, shot, mat, things, cards, cloths, piece: Some(raw), drawn: Drawn::All };
    Some(taken(setting, seed, &mut dice))
}

/// What shows of each patch; each one's cloth goes to the things.
fn patches(
    sewn: &table::Table,
    top: &Top,
    heap: &Heap,
    lies: Pose,
    things: &mut Vec<Thing>,
) -> Option<Vec<ClothThere>> {
    let scraps: BTreeMap<ClothId, _> = heap.scraps.iter().map(|scrap| (scrap.cloth.id, scrap)).collect();
    let mut textures = BTreeMap::new();
    let mut cloths = Vec::new();
    for face in top.faces().values() {
        let patch = sewn.patches().get(&face.patch)?;
        let scrap = scraps.get(&patch.cloth)?;
        let print = heap.print_of(scrap)?;
        let texture = textures.entry(scrap.print).or_insert_with(|| Arc::new(Texture::of(print)));
        let to_print = lies.inverse().then(face.pose.inverse()).then(patch.at).then(scrap.pose);
        let outline = Region { outer: lies.apply_all(&top.face_points(face)), holes: Vec::new() };
        things.push(Thing::Cloth { outline: outline.clone(), texture: Arc::clone(texture), to_print });
        cloths.push(ClothThere::new(&scrap.cloth, outline, false, print, to_print));
    }
    Some(cloths)
}
