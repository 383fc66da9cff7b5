//! A figure sewn on top: its layers in their cloth, lines of stitches, stems and knots.
//!
//! A layer whose place on its cloth is settled shows that part of the cloth; any other shows the mean
//! colour, since nobody knows yet which part it will be.

use crate::ink::UNKNOWN;
use crate::looks::Looks;
use crate::overlay::circle;
use crate::quilted::stitched;
use crate::shows::{Seen, shows};
use crate::stages::Figured;
use crate::{Item, Paint, Placement, Shape, Stroke, Tag, ThreadItem};
use colour::Srgb;
use plane::{Point, Region, fill};
use quilt::cloth::ClothId;
use quilt::stage::figure::{CutFrom, FigureLine, FigurePatch, LineKind};

/// A stitch of a stitched line, in inches: about 1/8, as in the rates of the hand.
const STITCH_IN: f64 = 0.125;
/// How far a folded edge throws its shade, in inches.
const SHADE_IN: f64 = 0.02;

/// The figure, shape by shape, the lowest first: a stem is tucked under the layers above it.
pub(crate) fn figure(looks: &Looks<'_>, figured: &Figured<'_>, flat: bool) -> Item {
    let plan = figured.plan;
    let mut items = Vec::new();
    for shape in &figured.drawn.shapes {
        let layers = plan.patches.iter().zip(&plan.cut_from).filter(|(patch, _)| patch.shape == shape.id);
        items.extend(layers.map(|(patch, from)| layer(looks, patch, from, flat)));
        let lines = plan.lines.iter().filter(|line| line.shape == shape.id);
        items.extend(lines.map(|line| stitches(looks, line)));
    }
    Item::group("figure", items)
}

fn layer(looks: &Looks<'_>, patch: &FigurePatch, from: &CutFrom, flat: bool) -> Item {
    let region = &patch.finished;
    let mut items = vec![edge(region)];
    items.extend(match (patch.cloth, from) {
        (Some(cloth), CutFrom::Fits(pose)) => {
            let seen = Seen { wrong_side: false, flat };
            shows(looks, cloth, Placement::moved(pose.inverse()), region, seen)
        }
        (cloth, _) => vec![Item::new(Shape::Fill { region: region.clone(), paint: colour(looks, cloth) })],
    });
    let rings = std::iter::once(&region.outer).chain(&region.holes);
    items.extend(rings.map(|ring| Item::closed(ring.clone(), Stroke::Leader)));
    Item::group("layer", items).tagged(Tag::class("layer").with("shape", &patch.shape))
}

/// The shade that a folded edge throws on what lies under it.
fn edge(region: &Region) -> Item {
    let rings = std::iter::once(&region.outer).chain(&region.holes);
    let strokes = rings.map(|ring| fill::Stroke::closed(ring.clone())).collect();
    let width_in = SHADE_IN / 2.0;
    Item::new(Shape::Thread(ThreadItem {
        strokes,
        colour: crate::INK,
        width_in,
        dash_in: None,
        shade_in: SHADE_IN,
    }))
}

fn colour(looks: &Looks<'_>, cloth: Option<ClothId>) -> Paint {
    cloth.map_or(Paint::solid(UNKNOWN), |cloth| looks.paint(cloth, false))
}

fn stitches(looks: &Looks<'_>, line: &FigureLine) -> Item {
    let paint = colour(looks, line.cloth);
    let of = match paint {
        Paint::Colour(colour, _) => colour,
        Paint::Calico => UNKNOWN,
    };
    let item = match line.kind {
        LineKind::Stitched { rows } => Item::new(Shape::Thread(side_by_side(line, rows, of))),
        LineKind::BiasStem { finished_in, .. } => Item::new(Shape::Thread(ThreadItem {
            width_in: finished_in,
            dash_in: None,
            shade_in: SHADE_IN,
            ..stitched(vec![fill::Stroke::open(line.points.clone())], of, STITCH_IN)
        })),
        LineKind::Knot => match line.points.first() {
            Some(at) => Item::fill(circle(*at, line.drawn_width_in / 2.0, 16), paint),
            None => Item::group("", Vec::new()),
        },
    };
    item.tagged(Tag::class("figure-line").with("shape", &line.shape))
}

/// Rows of stitches that together are as wide as the shape was drawn.
fn side_by_side(line: &FigureLine, rows: u32, colour: Srgb) -> ThreadItem {
    let row_in = line.drawn_width_in / f64::from(rows.max(1));
    let off = |row: u32| (f64::from(row) - f64::from(rows.saturating_sub(1)) / 2.0) * row_in;
    let strokes = (0..rows).map(|row| fill::Stroke::open(beside(&line.points, off(row)))).collect();
    let one = stitched(strokes, colour, STITCH_IN);
    // Rows that lie close fill the shape with thread: their stitches can't be told apart.
    let dash_in = one.dash_in.filter(|_| rows < 2);
    // The thread of hand stitches is thicker; rows cover what was drawn, one by itself no more than that.
    let width_in = if rows < 2 { (1.5 * one.width_in).min(row_in) } else { row_in };
    ThreadItem { width_in, dash_in, ..one }
}

/// The points of a line, each moved to the left by so much.
fn beside(points: &[Point], by_in: f64) -> Vec<Point> {
    let n = points.len();
    let moved = |i: usize| {
        let along = points[(i + 1).min(n - 1)] - points[i.saturating_sub(1)];
        let length = along.length();
        if length > 0.0 { points[i] + along.left() * (by_in / length) } else { points[i] }
    };
    (0..n).map(moved).collect()
}
