//! A picture of the piece or of a unit, with what is sewn or cut marked on it.
//!
//! Lines and letters are as large as they must be on paper, whatever the scale: each picture is told the room
//! that it will have.

use crate::asks::Asked;
use crate::papers::places::Places;
use colour::Srgb;
use drawing::{Drawing, FrontOptions, Item, Paint, Stroke, TextItem, front};
use plane::{Point, Region, Vec2, largest_disc, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Mark, Name};
use quilt::table::Table;
use std::collections::BTreeMap;

/// Weight of lines at true size on paper.
pub(super) const WEIGHT: f64 = 0.4;
/// Height of letters on paper, in inches: 11 points.
pub(super) const LETTERS_IN: f64 = 11.0 / 72.0;
/// Half the width of the mark on an edge on paper, in inches.
pub(super) const MARKED_IN: f64 = 0.025;

/// What is shown of a top.
#[derive(Debug, Default)]
pub(super) struct Shown {
    /// Edges to sew.
    pub(super) edges: Vec<Name>,
    /// Ends of edges that the words speak of.
    pub(super) dots: Vec<Point>,
    /// What stands beside such ends, where several steps speak of them.
    pub(super) at_dots: Vec<(Point, String)>,
    /// Cuts; several are numbered.
    pub(super) cuts: Vec<[Point; 2]>,
    /// Patches to point out, and what is written on each.
    pub(super) patches: Vec<(Mark, String)>,
    /// Patches that have their number and are not pointed out.
    pub(super) named: Vec<Mark>,
    /// Lines along which something has been sewn.
    pub(super) seams: Vec<[Point; 2]>,
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
        highlights: shown.patches.iter().map(|(patch, _)| *patch).collect(),
        ..FrontOptions::default()
    };
    let mut drawing = front(table, top, cloths, &what)?;
    let scale = scale(drawing.width_in(), drawing.height_in(), room_in);
    drawing.weight = WEIGHT / scale;
    let mut items = Vec::new();
    // Words lie over everything else.
    let mut written = Vec::new();
    if let Some(found) = table.top(top) {
        for side in
            found.sides().iter().filter(|side| side.name().is_some_and(|name| shown.edges.contains(&name)))
        {
            items.extend(broad(side.from, side.to, MARKED_IN / scale));
        }
        let outline = found.outline_points();
        let inner = polygon::centroid(&outline).unwrap_or_default();
        let size = LETTERS_IN / scale;
        let mut places = Places::round(outline);
        for face in found.faces().values() {
            let named = || shown.named.contains(&face.patch).then(|| face.patch.to_string());
            let pointed = shown.patches.iter().find(|(patch, _)| *patch == face.patch);
            let words = pointed.map(|(_, words)| words.clone()).or_else(named);
            let corners = found.face_points(face);
            let (Some(words), Some(middle)) = (words, polygon::centroid(&corners)) else { continue };
            if words.is_empty() {
                continue;
            }
            if pointed.is_none() {
                let at = if polygon::contains(&corners, middle) {
                    middle
                } else {
                    let region = Region { outer: corners, holes: Vec::new() };
                    largest_disc(&region, 0.05).map_or(middle, |disc| disc.centre)
                };
                written.push(label(at, size, words));
            } else if polygon::least_width(&corners) > drawing::words_width_in(&words, size).max(size) {
                written.push(label(middle, size, words));
            } else {
                // Too narrow for its words: they stand outside.
                let out = furthest(&corners, inner).unwrap_or(middle) - inner;
                let out = out * (1.0 / out.length().max(1e-9));
                let text = TextItem { bold: true, ..TextItem::level(middle, size, words) };
                written.extend(places.words(middle + out * (0.5 * size), out, text));
            }
        }
        for (at, words) in &shown.at_dots {
            let radius = 3.0 * MARKED_IN / scale;
            places.keep(&[*at - Vec2::new(radius, radius), *at + Vec2::new(radius, radius)]);
            let out = (*at - inner) * (1.0 / at.distance(inner).max(1e-9));
            let text = TextItem { bold: true, ..TextItem::level(*at, size, words.clone()) };
            written.extend(places.words(*at + out * radius, out, text));
        }
        if let [_, _, ..] = shown.cuts.as_slice() {
            for (no, [from, to]) in (1..).zip(&shown.cuts) {
                let middle = from.midpoint(*to);
                let out = (middle - inner) * (1.0 / middle.distance(inner).max(1e-9));
                let text = TextItem { bold: true, ..TextItem::level(middle, size, no.to_string()) };
                written.extend(places.words(middle, out, text));
            }
        }
    }
    items.extend(shown.cuts.iter().flat_map(|[from, to]| blade(*from, *to, MARKED_IN / scale)));
    items.extend(shown.seams.iter().flat_map(|[from, to]| broad(*from, *to, MARKED_IN / scale)));
    items.extend(shown.dots.iter().flat_map(|at| dot(*at, 3.0 * MARKED_IN / scale)));
    let items = [drawing.items, items, written].concat();
    Ok(Drawing::around(drawing.title, items, drawing.weight, MARKED_IN / scale))
}

pub(super) fn scale(wide: f64, high: f64, [room_wide, room_high]: [f64; 2]) -> f64 {
    (room_wide / wide.max(1e-6)).min(room_high / high.max(1e-6)).max(1e-3)
}

/// The line of a cut: black on white, so that it is seen on any cloth.
fn blade(from: Point, to: Point, half_in: f64) -> [Item; 2] {
    let along = to - from;
    let across = along.left() * (half_in / along.length().max(1e-9));
    let band = |share: f64| {
        let by = across * share;
        vec![from - by, to - by, to + by, from + by]
    };
    let paint = |grey: u8| Paint::solid(Srgb::new(grey, grey, grey));
    [Item::fill(band(1.0), paint(255)), Item::fill(band(0.4), paint(0))]
}

/// A line as broad as several strokes of the mark: an edge to sew.
pub(super) fn broad(from: Point, to: Point, half_in: f64) -> Vec<Item> {
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

pub(super) fn label(at: Point, size_in: f64, words: String) -> Item {
    Item::text(TextItem { bold: true, rim: true, ..TextItem::level(at, size_in, words) })
}

fn furthest(points: &[Point], from: Point) -> Option<Point> {
    points.iter().copied().max_by(|a, b| a.distance(from).total_cmp(&b.distance(from)))
}
