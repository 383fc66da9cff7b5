//! Rows of basting thread both ways, the first through the centre, then outward by turns.

use super::super::choice::ThreadRows;
use super::super::problem::LayersProblem;
use super::{BastingPlan, With, centre, inside, spaced};
use crate::length::within;
use plane::{Point, Region, polygon};
use serde::Serialize;

/// One row of basting; an outline that turns inward can part it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Row {
    /// Where it begins, on the piece seen from the front.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
}

pub(super) fn rows(choice: &ThreadRows, outline: &[Point]) -> Result<BastingPlan, LayersProblem> {
    spaced(choice.spacing_in, choice.edge_in)?;
    let ratio = "from 1 to 5 inches of thread an inch of row";
    within("thread ratio of basting", choice.thread_ratio, [1.0, 5.0], ratio)?;
    let parts = inside(outline, choice.edge_in)?;
    let middle = centre(outline);
    let mut rows = across(&parts, middle.y, choice.spacing_in);
    let upright: Vec<Region> = parts.iter().map(swapped).collect();
    rows.extend(
        across(&upright, middle.x, choice.spacing_in)
            .into_iter()
            .map(|row| Row { from: swap(row.from), to: swap(row.to) }),
    );
    let rows_in: f64 = rows.iter().map(|row| row.from.distance(row.to)).sum();
    let thread_in = rows_in * choice.thread_ratio;
    let with = With::Thread { rows, rows_in, thread_in };
    Ok(BastingPlan { with, spacing_in: choice.spacing_in, edge_in: choice.edge_in })
}

/// A row on the very line that bounds the region is drawn in by this share of its distance from the
/// middle, so that it counts on both sides.
const DRAWN_IN: f64 = 1e-9;

/// Level rows, the one through `middle` first, then one above and one below by turns.
fn across(parts: &[Region], middle: f64, spacing_in: f64) -> Vec<Row> {
    let bounds = parts.iter().filter_map(|part| polygon::bounds(&part.outer));
    let (low, high) = bounds.fold((f64::MAX, f64::MIN), |(low, high), (l, h)| (low.min(l.y), high.max(h.y)));
    let steps = ((high - middle).max(middle - low) / spacing_in + DRAWN_IN).floor().max(0.0) as u32;
    let offsets = std::iter::once(0.0).chain((1..=steps).flat_map(|k| {
        let off = f64::from(k) * spacing_in * (1.0 - DRAWN_IN);
        [off, -off]
    }));
    offsets.flat_map(|off| parts.iter().flat_map(move |part| level(part, middle + off))).collect()
}

/// The parts of a level line inside a region, from the left.
fn level(region: &Region, y: f64) -> Vec<Row> {
    let rings = std::iter::once(&region.outer).chain(&region.holes);
    let mut crossings: Vec<f64> = rings
        .flat_map(|ring| polygon::edges(ring))
        .filter(|(a, b)| (a.y > y) != (b.y > y))
        .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
        .collect();
    crossings.sort_by(f64::total_cmp);
    let pairs = crossings.chunks_exact(2).filter(|pair| pair[1] > pair[0]);
    pairs.map(|pair| Row { from: Point::new(pair[0], y), to: Point::new(pair[1], y) }).collect()
}

fn swapped(region: &Region) -> Region {
    let ring = |ring: &Vec<Point>| ring.iter().map(|p| swap(*p)).collect();
    Region { outer: ring(&region.outer), holes: region.holes.iter().map(ring).collect() }
}

const fn swap(p: Point) -> Point {
    Point::new(p.y, p.x)
}
