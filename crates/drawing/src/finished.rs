//! The finished piece, front and back, as far as its stages are known.
//!
//! The piece ends where its edge does: at the bound outline, or at the finished one of a facing;
//! before that, at the raw one. Seams are drawn as the thin ditches they are, since here thread is
//! what is seen. Of the wishes `flat`, `ground`, `measures` (the size of the whole), `allowance_in`
//! and `denominator` count; the rest is for a piece in work.

use crate::looks::Looks;
use crate::quilted::{Side, quilting};
use crate::scene::Scene;
use crate::shows::Seen;
use crate::stages::{Figured, Stages};
use crate::{Drawing, DrawingProblem, FrontOptions, Item, Shape, Stroke, Tag, TextItem};
use crate::{backing, edged, figured, front, hung};
use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::Mark;
use quilt::stage::binding::FinishPlan;
use quilt::stage::figure::FigureOrder;
use quilt::table::{Face, Table};
use std::collections::BTreeMap;

/// The front of the piece begun by step `top`: its prints, quilting, figure and binding.
///
/// # Errors
/// When there is no such top on the table.
pub fn finished_front(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
    stages: &Stages<'_>,
) -> Result<Drawing, DrawingProblem> {
    let what = bare(what);
    let looks = Looks::of(cloths);
    let scene = Scene::of(table, top, &looks, &what)?;
    let outline = outline(&scene, stages);
    let mut items: Vec<Item> = Vec::new();
    if let Some(hung) = &stages.hanging {
        items.extend(hung::tabs(&looks, hung, what.flat));
    }
    let mut within = vec![patches(&scene, false)];
    let figure = |order| move |figured: &&Figured<'_>| figured.order == order;
    let draw = |figured: &Figured<'_>| figured::figure(&looks, figured, what.flat);
    within.extend(stages.figure.as_ref().filter(figure(FigureOrder::BeforeQuilting)).map(draw));
    within.extend(stages.quilting.as_ref().map(|quilted| quilting(quilted, Side::Front, scene.weight)));
    within.extend(stages.figure.as_ref().filter(figure(FigureOrder::AfterQuilting)).map(draw));
    items.extend(whole(&scene, stages, Side::Front, &outline, within));
    items.extend(size(&scene, &outline, stages));
    Ok(front::page(&scene, format!("Front of the finished piece begun by step {top}"), items))
}

/// The back of the piece, turned over from left to right: its backing (or, before there is one, the
/// wrong side of the top), the quilting in the thread below, binding or facing, sleeve and label.
///
/// # Errors
/// When there is no such top on the table.
pub fn finished_back(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
    stages: &Stages<'_>,
) -> Result<Drawing, DrawingProblem> {
    let what = bare(what);
    let looks = Looks::of(cloths);
    let scene = Scene::of(table, top, &looks, &what)?;
    let outline = outline(&scene, stages);
    let mut within = match &stages.backing {
        Some(backed) => vec![backing::backing(&looks, backed, &outline, what.flat)],
        None => vec![patches(&scene, true)],
    };
    within.extend(stages.quilting.as_ref().map(|quilted| quilting(quilted, Side::Back, scene.weight)));
    let mut items = whole(&scene, stages, Side::Back, &outline, within);
    items.extend(stages.hanging.as_ref().map(|hung| hung::hanging(&looks, hung, what.flat)));
    items.extend(size(&scene, &outline, stages));
    let title = format!("Back of the finished piece begun by step {top}");
    let back = Drawing::around(title, items, scene.weight, 0.5 * scene.weight).turned_over();
    Ok(if what.ground { back.on_calico() } else { back })
}

/// The wishes that count for a finished piece.
fn bare(what: &FrontOptions) -> FrontOptions {
    FrontOptions {
        flat: what.flat,
        photographed: what.photographed.clone(),
        ground: what.ground,
        measures: what.measures,
        allowance_in: what.allowance_in,
        denominator: what.denominator,
        unit: what.unit,
        ..FrontOptions::default()
    }
}

fn outline(scene: &Scene<'_>, stages: &Stages<'_>) -> Vec<Point> {
    let edge = stages.edge.as_ref().and_then(|edge| edged::outline(edge.plan));
    edge.unwrap_or_else(|| scene.top.outline_points())
}

/// What lies within the outline, cut off there, with its edge over it.
fn whole(
    scene: &Scene<'_>,
    stages: &Stages<'_>,
    side: Side,
    outline: &[Point],
    within: Vec<Item>,
) -> Vec<Item> {
    let clip = Some(Region { outer: outline.to_vec(), holes: Vec::new() });
    let piece = Item::new(Shape::Group { clip, items: within }).tagged(Tag::class("piece"));
    let edge = stages.edge.as_ref().and_then(|edge| edged::edge(scene.looks, edge, side, scene.what.flat));
    let rim = Item::closed(outline.to_vec(), Stroke::CutLine);
    [Some(piece), edge, Some(rim)].into_iter().flatten().collect()
}

/// All patches with their seams.
fn patches(scene: &Scene<'_>, wrong_side: bool) -> Item {
    let seen = Seen { wrong_side, flat: scene.what.flat };
    let patch = |face: &Face| {
        let region = Region { outer: scene.face_outline(face), holes: Vec::new() };
        let items = front::patch_shows(scene, face, &region, seen);
        let tag = Tag::class("patch").with("patch", face.patch);
        Item::new(Shape::Group { clip: None, items }).tagged(tag)
    };
    let mut items: Vec<Item> = scene.top.faces().values().map(patch).collect();
    let ends = scene.top.seams().iter().filter_map(|(name, seam)| scene.seam_ends(*name, seam));
    items.extend(ends.map(|(a, b)| Item::line(vec![a, b], Stroke::Leader)));
    Item::group("patches", items)
}

/// Width and height of the whole, under the piece.
fn size(scene: &Scene<'_>, outline: &[Point], stages: &Stages<'_>) -> Option<Item> {
    let (lo, hi) = polygon::bounds(outline).filter(|_| scene.what.measures)?;
    let word = match stages.edge.as_ref().map(|edge| edge.plan) {
        Some(FinishPlan::Bound(_)) => "bound",
        Some(FinishPlan::Faced(_)) => "finished",
        None => "raw",
    };
    let length = |inches: f64| scene.what.length(inches);
    let words = format!("{word} {} × {}", length(hi.x - lo.x), length(hi.y - lo.y));
    let letters = 0.3 * scene.weight;
    let at = Point::new(f64::midpoint(lo.x, hi.x), lo.y - 1.4 * letters);
    let text = TextItem { bold: true, ..TextItem::level(at, letters, words) };
    Some(Item::text(text).tagged(Tag::class("size")))
}
