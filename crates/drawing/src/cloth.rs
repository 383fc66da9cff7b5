//! One cloth in true size: its picture, its edge, its flaws, its grain, and what is to be cut
//! from it.

use crate::back::arrow;
use crate::cutting::{self, Beside};
use crate::display::weight_for;
use crate::looks::Looks;
use crate::shows::{Seen, shows};
use crate::{
    Drawing, Item, Paint, Placement, Shape, Stroke, Tag, TextItem, fraction, words_in_lines, words_width_in,
};
use colour::Srgb;
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::marks::{Ruler, letter};
use std::collections::BTreeMap;

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
    let weight = weight_for(hi.x - lo.x, hi.y - lo.y);
    let seen = Seen { wrong_side: what.wrong_side, flat: what.flat };
    let looks = Looks::with(cloths, cloth);
    let mut items = shows(&looks, cloth.id, Placement::STAY, &cloth.outline, seen);
    items.extend(cloth.flaws.iter().flat_map(flaw));
    items.push(edge(cloth));
    items.extend(what.long_cuts.iter().enumerate().map(|(no, cut)| long_cut(no, *cut, weight)));
    items.extend(what.cuts.iter().map(|cut| planned(cut, what, weight)));
    let beside = Beside { letters: what.letters, lengths: what.lengths };
    items.extend(cutting::rulers(&cloth.outline, &what.rulers, beside, what.denominator, weight));
    items.extend(cutting::edges(&cloth.outline, beside, what.denominator, weight));
    if what.grain {
        items.extend(grain(cloth, (hi.x - lo.x).min(hi.y - lo.y)));
    }
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
        let size = if what.numbers { (0.6 * room).min(1.6 * weight) } else { 0.3 * weight };
        let text = TextItem::level(middle, size, cut.label.as_str());
        items.push(Item::text(TextItem { rim: true, bold: what.numbers, ..text }));
    }
    Item::group("planned", items)
}

/// A straight cut right through, with its letter beyond its beginning.
fn long_cut(no: usize, [from, to]: [Point; 2], weight: f64) -> Item {
    let mut items = vec![Item::line(vec![from, to], Stroke::Mark)];
    if let Some(along) = Turn::towards(from - to) {
        let text = TextItem::level(from + along.vec() * (0.35 * weight), 0.5 * weight, letter(no));
        items.push(Item::text(TextItem { bold: true, rim: true, ..text }));
    }
    Item::group("long-cut", items)
}

/// A two-headed arrow along the lengthwise threads.
fn grain(cloth: &Cloth, size_in: f64) -> Option<Item> {
    let middle = polygon::centroid(&cloth.outline.outer)?;
    let half = (size_in * 0.16).min(0.75);
    let mut lines = arrow(middle, cloth.grain, half);
    lines.extend(arrow(middle, cloth.grain.opposite(), half));
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
