//! The pictures of a card: the piece with the edge to sew marked, and a scrap with its cut.
//!
//! Lines and letters are as large as they must be on paper, whatever the scale: each picture is told the room
//! that it will have.

use super::scraps::CutOut;
use crate::asks::Asked;
use crate::papers::PapersWish;
use colour::Srgb;
use drawing::{ClothOptions, Drawing, FrontOptions, Item, Paint, Stroke, TextItem, cloth_drawing, front};
use plane::{Point, Region, Vec2, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Mark, Name};
use quilt::marks::{MarkOn, letter, lettered, point_of};
use quilt::table::Table;
use std::collections::BTreeMap;

/// Weight of lines at true size on paper.
const WEIGHT: f64 = 0.4;
/// Height of letters on paper, in inches: 11 points.
const LETTERS_IN: f64 = 0.153;
/// Half the width of the mark on an edge on paper, in inches.
const MARKED_IN: f64 = 0.025;

/// What is shown of a top.
#[derive(Debug, Default)]
pub(super) struct Shown {
    /// Edges to sew.
    pub(super) edges: Vec<Name>,
    /// The end of an edge that the words speak of.
    pub(super) dot: Option<Point>,
    /// Cuts.
    pub(super) cuts: Vec<[Point; 2]>,
    /// Patches to point out, by number.
    pub(super) patches: Vec<Mark>,
}

/// A top as it lies, in a room of so many inches on paper.
pub(super) fn top(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    shown: &Shown,
    room_in: [f64; 2],
) -> Asked<Drawing> {
    let what = FrontOptions {
        trims: shown.cuts.clone(),
        highlights: shown.patches.clone(),
        ..FrontOptions::default()
    };
    let mut drawing = front(table, top, cloths, &what)?;
    let scale = scale(drawing.width_in(), drawing.height_in(), room_in);
    drawing.weight = WEIGHT / scale;
    let mut items = Vec::new();
    if let Some(found) = table.top(top) {
        for side in
            found.sides().iter().filter(|side| side.name().is_some_and(|name| shown.edges.contains(&name)))
        {
            items.extend(broad(side.from, side.to, MARKED_IN / scale));
        }
        for face in found.faces().values().filter(|face| shown.patches.contains(&face.patch)) {
            let corners = found.face_points(face);
            let size = LETTERS_IN / scale;
            if let Some(middle) = polygon::centroid(&corners)
                && polygon::least_width(&corners) > 1.2 * size
            {
                items.push(label(middle, size, face.patch.to_string()));
            }
        }
    }
    items.extend(shown.dot.into_iter().flat_map(|at| dot(at, 3.0 * MARKED_IN / scale)));
    Ok(Drawing { items: [drawing.items, items].concat(), ..drawing })
}

/// A scrap with what is cut from it: the rest paled, the ruler's lines with their numbers, and the marks that
/// are measured along its edges.
pub(super) fn scrap(
    cut: &CutOut,
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
    room_in: [f64; 2],
) -> Option<Drawing> {
    let held = cut.scrap.as_ref()?;
    let (low, high) = polygon::bounds(&held.outline.outer)?;
    let beside = 5.0 * LETTERS_IN;
    let scale = scale(high.x - low.x, high.y - low.y, room_in.map(|room| (room - beside).max(0.5)));
    let size = LETTERS_IN / scale;
    let base = cloth_drawing(held, cloths, &ClothOptions { grain: false, ..ClothOptions::default() });
    let mut items = base.items;
    let rest = Region { outer: held.outline.outer.clone(), holes: vec![cut.outline.clone()] };
    items.push(Item::new(drawing::Shape::Fill {
        region: rest,
        paint: Paint::Colour(Srgb::new(255, 255, 255), 0.55),
    }));
    items.push(Item::closed(cut.outline.clone(), Stroke::Outline));
    let corners = lettered(&held.outline);
    let mut edges: Vec<usize> = Vec::new();
    for line in &cut.ruler.lines {
        for (mark, towards) in [(line.from, line.on[0]), (line.to, line.on[1])] {
            let Some(at) = point_of(mark, &corners) else { continue };
            items.push(Item::line(vec![at, towards], Stroke::Leader));
            edges.push(mark.edge);
            items.push(beside_edge(&corners, mark, size, wish.length(mark.at_in, 8)));
        }
        let middle = line.on[0].midpoint(line.on[1]);
        items.push(label(middle, size, line.no.to_string()));
    }
    edges.sort_unstable();
    edges.dedup();
    items.extend(edges.into_iter().flat_map(|edge| edge_name(&corners, edge, size)));
    let title = format!("{}: how patch {} is cut from it", cut.name, cut.patch);
    let drawing = Drawing::around(title, items, WEIGHT / scale, 0.05 / scale);
    Some(drawing)
}

fn scale(wide: f64, high: f64, [room_wide, room_high]: [f64; 2]) -> f64 {
    (room_wide / wide.max(1e-6)).min(room_high / high.max(1e-6)).max(1e-3)
}

/// A line as broad as several strokes of the mark.
fn broad(from: Point, to: Point, half_in: f64) -> Vec<Item> {
    let along = to - from;
    let across = along.left() * (half_in / along.length().max(1e-9));
    let at = |share: f64| Item::line(vec![from + across * share, to + across * share], Stroke::Mark);
    vec![at(-1.0), at(-0.5), at(0.0), at(0.5), at(1.0)]
}

fn dot(at: Point, radius: f64) -> Vec<Item> {
    let ring = |radius: f64| {
        let corner = |i: u32| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 24.0).sin_cos();
            at + Vec2::new(cos, sin) * radius
        };
        Item::closed((0..24).map(corner).collect(), Stroke::Mark)
    };
    (1..=4).map(|share| ring(radius * f64::from(share) / 4.0)).collect()
}

fn label(at: Point, size_in: f64, words: String) -> Item {
    Item::text(TextItem { bold: true, rim: true, ..TextItem::level(at, size_in, words) })
}

/// The way out of the cloth from one of its edges.
fn out_of(corners: &[Point], edge: usize) -> Option<(Point, Vec2, Vec2)> {
    let (from, to) = (*corners.get(edge)?, *corners.get((edge + 1) % corners.len())?);
    let length = from.distance(to);
    let along = (to - from) * (1.0 / length.max(1e-9));
    Some((from, along, -along.left()))
}

/// A measure outside an edge, where its mark is; near a corner it stands further out, beyond the letters.
fn beside_edge(corners: &[Point], mark: MarkOn, size_in: f64, words: String) -> Item {
    let at = point_of(mark, corners).unwrap_or_default();
    let out = out_of(corners, mark.edge).map_or(Vec2::default(), |(_, _, out)| out);
    let wide = drawing::words_width_in(&words, size_in);
    let ends = [mark.edge, (mark.edge + 1) % corners.len().max(1)]
        .map(|i| corners.get(i).map_or(0.0, |p| p.distance(at)));
    let beyond = if ends[0].min(ends[1]) < 2.2 * size_in { 1.6 * size_in } else { 0.0 };
    let reach = beyond + 0.35 * size_in + (out.x.abs() * wide + out.y.abs() * size_in) / 2.0;
    Item::text(TextItem { rim: true, ..TextItem::level(at + out * reach, size_in, words) })
}

/// The letter of an edge at its start, with the way its marks are counted.
fn edge_name(corners: &[Point], edge: usize, size_in: f64) -> Vec<Item> {
    let Some((from, along, out)) = out_of(corners, edge) else { return Vec::new() };
    let tail = from + out * (0.45 * size_in) + along * (0.2 * size_in);
    let tip = tail + along * (1.5 * size_in);
    let head = |side: f64| tip - along * (0.4 * size_in) + along.left() * (side * 0.3 * size_in);
    let letter_at = from + out * (1.25 * size_in) + along * (0.7 * size_in);
    vec![
        Item::line(vec![tail, tip], Stroke::CutLine),
        Item::line(vec![head(1.0), tip, head(-1.0)], Stroke::CutLine),
        label(letter_at, 1.1 * size_in, letter(edge)),
    ]
}
