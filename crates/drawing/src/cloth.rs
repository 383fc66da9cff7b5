//! One cloth in true size: its picture, its edge, its flaws, its grain, and what is to be cut
//! from it.

use crate::back::arrow;
use crate::cutting::{self, Beside};
use crate::display::weight_for;
use crate::ink::MADDER;
use crate::looks::Looks;
use crate::shows::{Seen, shows};
use crate::{
    Drawing, Item, Paint, Placement, Shape, Stroke, Tag, TextItem, fraction, words_in_lines, words_width_in,
};
use colour::Srgb;
use plane::{Point, Region, Turn, depth_inside, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::marks::{Ruler, letter};
use std::collections::BTreeMap;

/// How heavy pens are where the scale on the paper is known.
const PAPER_WEIGHT: f64 = 0.6;
/// The least and the largest height of a number there, in inches: 10 and 14 points.
const NUMBER_IN: [f64; 2] = [10.0 / 72.0, 14.0 / 72.0];

/// A shape that is cut from a cloth, or planned to be.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedCut {
    /// Its outline in the cloth's coordinates.
    pub outline: Vec<Point>,
    /// What it is called; may be empty.
    pub label: String,
    /// Whether it has been decided: a plain line instead of chalk.
    pub cut: bool,
}

/// What a drawing of a cloth shows.
#[derive(Clone, Debug, PartialEq)]
pub struct ClothOptions {
    /// Its name and size, and the names of planned cuts.
    pub labels: bool,
    /// The names of planned cuts alone, as large as they have room.
    pub numbers: bool,
    /// Straight cuts right through that come first, in their order: they get letters.
    pub long_cuts: Vec<[Point; 2]>,
    /// Inches on the paper for an inch of the cloth, where that is settled: pens, numbers and letters are then as
    /// large as they are read, and numbers of planned cuts no smaller than can be read.
    pub scale: Option<f64>,
    /// Mean colours instead of the picture.
    pub flat: bool,
    /// The direction of the lengthwise threads.
    pub grain: bool,
    /// From its wrong side: mirrored and paler.
    pub wrong_side: bool,
    /// Calico under the drawing.
    pub ground: bool,
    /// What is to be cut from it.
    pub cuts: Vec<PlannedCut>,
    /// The letters of its edges and the numbers of the ruler's lines, as the words for cutting have them.
    pub letters: bool,
    /// The lengths of its edges, and how far along them the ruler's marks lie.
    pub lengths: bool,
    /// The lines of the ruler.
    pub rulers: Vec<Ruler>,
    /// Lengths are given to the nearest 1 over this of an inch.
    pub denominator: u32,
}

impl Default for ClothOptions {
    fn default() -> Self {
        Self {
            labels: false,
            numbers: false,
            long_cuts: Vec::new(),
            scale: None,
            flat: false,
            grain: true,
            wrong_side: false,
            ground: false,
            cuts: Vec::new(),
            letters: false,
            lengths: false,
            rulers: Vec::new(),
            denominator: 8,
        }
    }
}

/// One cloth in true size, in its own coordinates. `cloths` are those it may be pieced from.
#[must_use]
pub fn cloth_drawing(cloth: &Cloth, cloths: &BTreeMap<ClothId, Cloth>, what: &ClothOptions) -> Drawing {
    let (lo, hi) = polygon::bounds(&cloth.outline.outer).unwrap_or_default();
    let on_paper = what.scale.filter(|scale| *scale > 0.0).map(|scale| PAPER_WEIGHT / scale);
    let weight = on_paper.unwrap_or_else(|| weight_for(hi.x - lo.x, hi.y - lo.y));
    let seen = Seen { wrong_side: what.wrong_side, flat: what.flat };
    let looks = Looks::with(cloths, cloth);
    let mut items = shows(&looks, cloth.id, Placement::STAY, &cloth.outline, seen);
    items.extend(cloth.flaws.iter().flat_map(flaw));
    items.push(edge(cloth));
    let (mut letters, size) = (Vec::new(), letter_size(what, weight));
    let mut taken: Vec<Point> = what.cuts.iter().filter_map(|cut| polygon::centroid(&cut.outline)).collect();
    for (no, cut) in what.long_cuts.iter().enumerate() {
        let parts = within(*cut, &cloth.outline);
        let begins = parts.first().copied().unwrap_or(*cut);
        let lines = parts.into_iter().map(|part| Item::line(part.to_vec(), Stroke::Mark)).collect();
        items.push(Item::group("long-cut", lines));
        let at = letter_place(begins, &cloth.outline, size, &taken);
        taken.push(at);
        letters.push((no, at));
    }
    items.extend(what.cuts.iter().map(|cut| planned(cut, what, weight)));
    let beside = Beside { letters: what.letters, lengths: what.lengths };
    items.extend(cutting::rulers(&cloth.outline, &what.rulers, beside, what.denominator, weight));
    items.extend(cutting::edges(&cloth.outline, beside, what.denominator, weight));
    if what.grain {
        items.extend(grain(cloth, &what.cuts, (lo, hi)));
    }
    items.extend(letters.into_iter().map(|(no, at)| cut_letter(no, at, size)));
    if what.labels {
        items.push(name(cloth, what, (lo, hi), weight));
    }
    let tag = Tag::class("whole-cloth").with("cloth", cloth.id);
    let whole = Item::new(Shape::Group { clip: None, items }).tagged(tag);
    let drawing = Drawing::around(cloth.name.clone(), vec![whole], weight, 0.25 * weight);
    let drawing = if what.wrong_side { drawing.turned_over() } else { drawing };
    if what.ground { drawing.on_calico() } else { drawing }
}

/// The edge of the cloth and of its holes; chalk when the size is only about right.
fn edge(cloth: &Cloth) -> Item {
    let stroke = if cloth.about { Stroke::Chalk } else { Stroke::CutLine };
    let rings = std::iter::once(&cloth.outline.outer).chain(&cloth.outline.holes);
    Item::group("edge", rings.map(|ring| Item::closed(ring.clone(), stroke)).collect())
}

/// A place that must not be used: paled, and marked.
fn flaw(region: &Region) -> Vec<Item> {
    let paint = Paint::Colour(Srgb::new(255, 255, 255), 0.55);
    let fill = Item::new(Shape::Fill { region: region.clone(), paint });
    vec![fill.tagged(Tag::class("flaw")), Item::closed(region.outer.clone(), Stroke::Mark)]
}

fn planned(cut: &PlannedCut, what: &ClothOptions, weight: f64) -> Item {
    let stroke = if cut.cut { Stroke::CutLine } else { Stroke::Chalk };
    let mut items = Vec::new();
    if what.numbers {
        // On a busy print a line alone is hard to see.
        let region = Region { outer: cut.outline.clone(), holes: Vec::new() };
        let paint = Paint::Colour(Srgb::new(255, 255, 255), 0.4);
        items.push(Item::new(Shape::Fill { region, paint }));
    }
    items.push(Item::closed(cut.outline.clone(), stroke));
    if (what.labels || what.numbers)
        && !cut.label.is_empty()
        && let Some(middle) = polygon::centroid(&cut.outline)
    {
        let room = polygon::least_width(&cut.outline) / words_width_in(&cut.label, 1.0).max(1.0);
        let size = match (what.numbers, what.scale) {
            (true, Some(scale)) => (0.6 * room).clamp(NUMBER_IN[0] / scale, NUMBER_IN[1] / scale),
            (true, None) => (0.6 * room).min(1.6 * weight),
            (false, _) => 0.3 * weight,
        };
        let text = TextItem::level(middle, size, cut.label.as_str());
        items.push(Item::text(TextItem { rim: true, bold: what.numbers, ..text }));
    }
    Item::group("planned", items)
}

/// How large the letter of a straight cut is, in weights: where pens have the paper's weight, and otherwise.
const LETTER: [f64; 2] = [0.26, 0.5];

fn letter_size(what: &ClothOptions, weight: f64) -> f64 {
    weight * if what.scale.is_some() { LETTER[0] } else { LETTER[1] }
}

/// Where the letter of a straight cut stands: off the edge where the cut begins, clear of the edge; beside the cut where
/// it begins inside the cloth. Of the places that there are it is the first that is clear of what is `taken`, or else
/// the clearest.
fn letter_place([from, to]: [Point; 2], cloth: &Region, size: f64, taken: &[Point]) -> Point {
    let Some(along) = Turn::towards(to - from) else { return from };
    let nearest = polygon::edges(&cloth.outer).min_by(|a, b| off(from, *a).total_cmp(&off(from, *b)));
    let edge = nearest.filter(|edge| off(from, *edge) < 0.3 * size).and_then(|(a, b)| Turn::towards(b - a));
    let places: Vec<Point> = match edge {
        // The outline runs with the cloth on its left.
        Some(edge) => {
            let out = edge.left().vec() * -1.0;
            [0.0, 1.3, -1.3].map(|aside| from + out * size + edge.vec() * (aside * size)).to_vec()
        }
        None => [0.6, 1.8, 3.0, 4.2]
            .iter()
            .flat_map(|on| [0.8, -0.8].map(|aside| (*on, aside)))
            .map(|(on, aside)| from + along.vec() * (on * size) + along.left().vec() * (aside * size))
            .collect(),
    };
    let room = |p: &Point| taken.iter().map(|other| other.distance(*p)).fold(f64::INFINITY, f64::min);
    let clear = places.iter().find(|p| room(p) > 1.4 * size);
    clear.or_else(|| places.iter().max_by(|a, b| room(a).total_cmp(&room(b)))).copied().unwrap_or(from)
}

/// The parts of a straight line that lie on the cloth, in their order.
fn within([from, to]: [Point; 2], cloth: &Region) -> Vec<[Point; 2]> {
    let way = to - from;
    let rings = std::iter::once(&cloth.outer).chain(&cloth.holes);
    let mut at: Vec<f64> = rings
        .flat_map(|ring| polygon::edges(ring))
        .filter_map(|(a, b)| {
            let (side, across) = (b - a, way.cross(b - a));
            let (share, on) = ((a - from).cross(side) / across, (a - from).cross(way) / across);
            (across != 0.0 && (0.0..=1.0).contains(&on) && share > 0.0 && share < 1.0).then_some(share)
        })
        .chain([0.0, 1.0])
        .collect();
    at.sort_by(f64::total_cmp);
    let mut parts: Vec<[f64; 2]> = Vec::new();
    for pair in at.windows(2) {
        let &[begin, end] = pair else { continue };
        if end - begin < 1e-9
            || depth_inside(cloth, from.lerp(to, f64::midpoint(begin, end))) < -plane::READING
        {
            continue;
        }
        match parts.last_mut() {
            Some([_, last]) if begin - *last < 1e-9 => *last = end,
            _ => parts.push([begin, end]),
        }
    }
    parts.into_iter().map(|[begin, end]| [from.lerp(to, begin), from.lerp(to, end)]).collect()
}

/// From a point to an edge.
fn off(p: Point, (a, b): (Point, Point)) -> f64 {
    let (way, long) = (b - a, a.distance(b));
    let share = if long > 0.0 { ((p - a).dot(way) / (long * long)).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(a.lerp(b, share))
}

fn cut_letter(no: usize, at: Point, size: f64) -> Item {
    let text = TextItem { colour: MADDER, ..TextItem::level(at, size, letter(no)) };
    Item::group("long-cut", vec![Item::text(TextItem { bold: true, rim: true, ..text })])
}

/// How many places are tried each way for the arrow of the grain.
const TRIED: u32 = 9;

/// A two-headed arrow along the lengthwise threads, where nothing is cut if there is room for it.
fn grain(cloth: &Cloth, cuts: &[PlannedCut], (lo, hi): (Point, Point)) -> Option<Item> {
    let middle = polygon::centroid(&cloth.outline.outer)?;
    let size_in = (hi.x - lo.x).min(hi.y - lo.y);
    let half = (size_in * 0.16).min(0.75);
    let cut: Vec<Region> =
        cuts.iter().map(|cut| Region { outer: cut.outline.clone(), holes: Vec::new() }).collect();
    let free = |p: Point| {
        let outside = cut.iter().map(|region| -depth_inside(region, p));
        outside.fold(depth_inside(&cloth.outline, p), f64::min)
    };
    let share = |i: u32| f64::from(i) / f64::from(TRIED + 1);
    let places = (1..=TRIED).flat_map(|i| (1..=TRIED).map(move |j| (share(i), share(j))));
    let places = places.map(|(x, y)| Point::new(lo.x + (hi.x - lo.x) * x, lo.y + (hi.y - lo.y) * y));
    let best = places.map(|p| (free(p), p)).max_by(|a, b| a.0.total_cmp(&b.0));
    let (at, half) = match best.filter(|(room, _)| !cuts.is_empty() && *room > 0.4 * half) {
        Some((room, at)) => (at, half.min(room)),
        None => (middle, half),
    };
    let mut lines = arrow(at, cloth.grain, half);
    lines.extend(arrow(at, cloth.grain.opposite(), half));
    Some(Item::group("grain", lines))
}

/// Its name and raw size under it.
fn name(cloth: &Cloth, what: &ClothOptions, (lo, hi): (Point, Point), weight: f64) -> Item {
    let length = |inches: f64| fraction(inches, what.denominator);
    let about = if cloth.about { "about" } else { "raw" };
    let size = format!("{about} {} × {}", length(hi.x - lo.x), length(hi.y - lo.y));
    let letters = 0.5 * weight;
    let middle = f64::midpoint(lo.x, hi.x);
    // Below the edge's own words, where there are some.
    let below = if what.letters || what.lengths { lo.y - 0.6 * weight } else { lo.y };
    let line =
        |row: f64, words: &str| TextItem::level(Point::new(middle, below - letters * row), letters, words);
    // A strip set is called by all its strips: its name goes on in further lines.
    let room = (hi.x - lo.x).max(12.0 * letters);
    let names = words_in_lines(&cloth.name, room, letters);
    let rows = names.len() as f64;
    let mut items: Vec<Item> = (0_u32..)
        .zip(&names)
        .map(|(row, words)| TextItem { bold: true, ..line(1.0 + 1.15 * f64::from(row), words) })
        .map(Item::text)
        .collect();
    items.push(Item::text(line(1.0 + 1.15 * rows, &size)));
    Item::group("words", items)
}
