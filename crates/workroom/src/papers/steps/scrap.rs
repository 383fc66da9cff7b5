//! A scrap with what is cut from it: the rest paled, the ruler's lines as arrows the way the blade runs, and the
//! marks that are measured along its edges.

use super::draw::{LETTERS_IN, MARKED_IN, WEIGHT, broad, label, scale};
use super::scraps::CutOut;
use crate::papers::places::Places;
use crate::papers::{Hand, PapersWish};
use colour::Srgb;
use drawing::{ClothOptions, Drawing, Item, Paint, Shape, Stroke, TextItem, cloth_drawing};
use plane::{Point, Region, Vec2, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::marks::{MarkOn, RulerLine, letter, point_of};
use std::collections::BTreeMap;

/// Height of figures that stand alone, on paper, in inches: 10 points.
const PLAIN_IN: f64 = 10.0 / 72.0;
/// How often the scale is tried anew, so that cloth and words together fill the room.
const TRIES: usize = 4;
/// A mark nearer than this to its corner is the corner, in inches.
const AT_CORNER_IN: f64 = 1.0 / 16.0;

/// How a scrap is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Marking {
    /// With the letters of its edges and the numbers of the lines, for words that speak of them.
    Lettered,
    /// With figures and arrows alone.
    Plain,
    /// With the patch alone, for cutting by eye.
    Bare,
}

/// The picture, in a room of so many inches on paper; letters are of one size on paper, whatever the scale.
pub(super) fn scrap(
    cut: &CutOut,
    marking: Marking,
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
    room_in: [f64; 2],
) -> Option<Drawing> {
    let held = cut.scrap.as_ref()?;
    let (low, high) = polygon::bounds(&held.outline.outer)?;
    let size_in = if marking == Marking::Plain { PLAIN_IN } else { LETTERS_IN };
    let beside = if marking == Marking::Bare { 0.0 } else { 4.0 * size_in };
    let mut on_paper = scale(high.x - low.x, high.y - low.y, room_in.map(|room| (room - beside).max(0.5)));
    let ground = Ground::new(cut, held, cloths);
    let asked = Asked { cut, marking, wish, size_in };
    let mut drawing = ground.drawing(asked, on_paper);
    for _ in 0..TRIES {
        let fits = scale(drawing.width_in(), drawing.height_in(), room_in);
        if (fits / on_paper - 1.0).abs() < 0.02 {
            break;
        }
        on_paper = fits;
        drawing = ground.drawing(asked, on_paper);
    }
    Some(drawing)
}

/// What is drawn, and how.
#[derive(Clone, Copy)]
struct Asked<'a> {
    cut: &'a CutOut,
    marking: Marking,
    wish: &'a PapersWish,
    size_in: f64,
}

/// What doesn't change with the scale.
struct Ground {
    items: Vec<Item>,
    corners: Vec<Point>,
}

impl Ground {
    fn new(cut: &CutOut, held: &Cloth, cloths: &BTreeMap<ClothId, Cloth>) -> Self {
        let base = cloth_drawing(held, cloths, &ClothOptions { grain: false, ..ClothOptions::default() });
        let mut items = base.items;
        let region = Region { outer: held.outline.outer.clone(), holes: vec![cut.outline.clone()] };
        let paint = Paint::Colour(Srgb::new(255, 255, 255), 0.6);
        items.push(Item::new(Shape::Fill { region, paint }));
        Self { items, corners: quilt::marks::lettered(&held.outline) }
    }

    fn drawing(&self, Asked { cut, marking, wish, size_in }: Asked<'_>, on_paper: f64) -> Drawing {
        let size = size_in / on_paper;
        let lettered = marking == Marking::Lettered;
        let corners = &self.corners;
        let mut items = self.items.clone();
        items.push(Item::closed(cut.outline.clone(), Stroke::Outline));
        items.extend(cut.edge().into_iter().flat_map(|[from, to]| broad(from, to, MARKED_IN / on_paper)));
        let title = format!("{}: how patch {} is cut from it", cut.name, cut.patch);
        if marking == Marking::Bare {
            return Drawing::around(title, items, WEIGHT / on_paper, 0.03 / on_paper);
        }
        let mut places = Places::round(corners.clone());
        let mut marks: Vec<MarkOn> = Vec::new();
        for line in &cut.ruler.lines {
            for (mark, towards) in [(line.from, line.on[0]), (line.to, line.on[1])] {
                if let Some(at) = point_of(mark, corners) {
                    items.push(Item::line(vec![at, towards], Stroke::CutLine));
                    marks.push(mark);
                }
            }
            let [from, to] = match wish.hand {
                Hand::Right => line.on,
                Hand::Left => [line.on[1], line.on[0]],
            };
            items.extend(head(to, to - from, 0.55 * size));
        }
        if lettered {
            items.extend(numbers(&cut.ruler.lines, size));
        }
        let told = |mark: &&MarkOn| lettered || mark.at_in >= AT_CORNER_IN;
        let mut edges: Vec<usize> = marks.iter().filter(told).map(|mark| mark.edge).collect();
        edges.sort_unstable();
        edges.dedup();
        let arrows: Vec<[Point; 2]> = edges.iter().filter_map(|edge| arrow(corners, *edge, size)).collect();
        for [tail, tip] in &arrows {
            items.push(Item::line(vec![*tail, *tip], Stroke::CutLine));
            items.extend(head(*tip, *tip - *tail, 0.4 * size));
            places.keep(&[*tail, *tip]);
        }
        for (edge, [tail, tip]) in edges.iter().zip(&arrows).filter(|_| lettered) {
            let out = out_of(corners, *edge).map_or(Vec2::default(), |(_, out)| out);
            let words = TextItem { bold: true, ..TextItem::level(*tail, 1.1 * size, letter(*edge)) };
            items.extend(places.words(tail.midpoint(*tip), out, words));
        }
        marks.retain(|mark| mark.at_in >= AT_CORNER_IN);
        marks.sort_by(|a, b| a.edge.cmp(&b.edge).then(a.at_in.total_cmp(&b.at_in)));
        let words = |mark: &MarkOn| wish.unit().figure(mark.at_in, 8);
        marks.dedup_by(|a, b| a.edge == b.edge && words(a) == words(b));
        for mark in &marks {
            let Some((at, out)) = point_of(*mark, corners).zip(out_of(corners, mark.edge)) else { continue };
            let text = TextItem { rim: true, ..TextItem::level(at, size, words(mark)) };
            items.extend(places.words(at, out.1, text));
        }
        Drawing::around(title, items, WEIGHT / on_paper, 0.03 / on_paper)
    }
}

/// The numbers of cuts, each on its own; where there is no room, beside it. None lies on another.
fn numbers(lines: &[RulerLine], size: f64) -> Vec<Item> {
    let mut taken: Vec<Point> = Vec::new();
    let mut items = Vec::new();
    for line in lines {
        let [from, to] = line.on;
        let along = to - from;
        let across = along.left() * (1.0 / along.length().max(1e-9));
        let on = [0.5, 0.35, 0.65, 0.2, 0.8].map(|share| from.lerp(to, share));
        let beside = [-0.9, 0.9, -1.6, 1.6].map(|by| from.midpoint(to) + across * (by * size));
        let is_long = along.length() > 1.5 * size;
        let tried = on.into_iter().filter(|_| is_long).chain(beside);
        let is_free = |at: &Point| taken.iter().all(|other| other.distance(*at) > 1.1 * size);
        let at = tried.clone().find(is_free).or_else(|| tried.last());
        if let Some(at) = at {
            taken.push(at);
            items.push(label(at, size, line.no.to_string()));
        }
    }
    items
}

/// The way along an edge, and out of the cloth.
fn out_of(corners: &[Point], edge: usize) -> Option<(Vec2, Vec2)> {
    let (from, to) = (*corners.get(edge)?, *corners.get((edge + 1) % corners.len())?);
    let along = (to - from) * (1.0 / from.distance(to).max(1e-9));
    Some((along, -along.left()))
}

/// At the start of an edge, the way its marks are counted; no longer than the edge.
fn arrow(corners: &[Point], edge: usize, size_in: f64) -> Option<[Point; 2]> {
    let (along, out) = out_of(corners, edge)?;
    let from = *corners.get(edge)?;
    let long = from.distance(*corners.get((edge + 1) % corners.len())?);
    let tail = from + out * (0.4 * size_in);
    Some([tail, tail + along * (1.3 * size_in).min(0.9 * long)])
}

/// The head of an arrow.
fn head(tip: Point, way: Vec2, size_in: f64) -> Option<Item> {
    let length = way.length();
    if length < 1e-9 {
        return None;
    }
    let along = way * (1.0 / length);
    let barb = |side: f64| tip - along * size_in + along.left() * (side * 0.4 * size_in);
    Some(Item::line(vec![barb(1.0), tip, barb(-1.0)], Stroke::Outline))
}
