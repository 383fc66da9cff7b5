//! Echoes: rows that repeat a shape outward, or the outline inward.
//!
//! Rows are exactly one spacing apart, but where those from opposite sides meet the last ones may be
//! closer to each other.

use super::offset_rows::{Corners, inward_rows, offset_row};
use super::spacing::number;
use super::{Fill, FillProblem, Ground, Spacing, Stroke, Wobble};
use crate::gap::{first_crossing, grid::squared_distance};
use crate::{Point, Region, Turn, Vec2, polygon};
use serde::{Deserialize, Serialize};

/// No more rows than this are laid about a shape.
const MOST_ROWS: usize = 2000;

/// Wobble dies down towards corners that turn by more than this.
const CORNER_COSINE: f64 = 0.98;

/// Echoes of a shape.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Echoes {
    /// The shape whose outline is repeated outward; without one, the ground's outline is repeated
    /// inward.
    #[serde(default)]
    pub of: Option<Region>,
    /// Distance of rows.
    pub spacing: Spacing,
    /// Distance of the first row from the shape, in inches; by default half a spacing.
    #[serde(default)]
    pub first_in: Option<f64>,
    /// How many rows at most; all that find room by default.
    #[serde(default)]
    pub rows: Option<usize>,
    /// Corners of outward rows.
    #[serde(default)]
    pub corners: Corners,
    /// Each row begins in this direction from the shape's middle, counter-clockwise from the right.
    #[serde(default)]
    pub start_deg: f64,
    /// Whether rows are sewn clockwise.
    #[serde(default)]
    pub clockwise: bool,
    /// A hand's wobble; it dies down towards corners.
    #[serde(default)]
    pub wobble: Option<Wobble>,
}

/// Lays echoes over the ground.
///
/// # Errors
/// Numbers that make no sense, a wobble beyond the bounds, a shape that is no sound region.
pub fn echoes(ground: &Ground, choice: &Echoes) -> Result<Fill, FillProblem> {
    let spacing = choice.spacing;
    spacing.check(ground)?;
    spacing.check_wobble(choice.wobble, spacing.wish_in)?;
    let first = choice.first_in.unwrap_or(spacing.wish_in / 2.0);
    number("the first row's distance", first, 0.0, 1000.0)?;
    number("the start direction in degrees", choice.start_deg, -3600.0, 3600.0)?;
    let most = choice.rows.unwrap_or(usize::MAX);
    let distance = |row: usize| first + spacing.wish_in * row as f64;
    let rows = match &choice.of {
        Some(shape) => {
            let shape = Region::try_new(shape.outer.clone(), Vec::new()).map_err(FillProblem::Shape)?;
            outward(ground, &shape.outer, distance, most, choice.corners)
        }
        None => inward(&ground.outline.outer, distance, most, choice.corners),
    };
    let from = choice.of.as_ref().map_or(&ground.outline.outer, |shape| &shape.outer);
    let middle = polygon::centroid(from).unwrap_or(from[0]);
    let start = Turn::from_degrees(choice.start_deg).vec();
    let mut strokes = Vec::new();
    for (number, ring) in rows.into_iter().enumerate() {
        let ring = begun(ring, middle, start, choice.clockwise);
        strokes.extend(ground.clip(&wobbled(ring, choice.wobble, number as i64)));
    }
    Ok(Fill { strokes })
}

fn inward(
    outline: &[Point],
    distance: impl Fn(usize) -> f64,
    most: usize,
    corners: Corners,
) -> Vec<Vec<Point>> {
    let (low, high) = polygon::bounds(outline).unwrap_or_default();
    let room = (high.x - low.x).min(high.y - low.y) / 2.0;
    let distances: Vec<f64> = (0..most).map(&distance).take_while(|&inches| inches < room).collect();
    if let Some(rows) = inward_rows(outline, &distances) {
        return rows;
    }
    let rows = distances.iter().map(|&inches| offset_row(outline, -inches, corners));
    rows.take_while(|rows| !rows.is_empty()).flatten().collect()
}

fn outward(
    ground: &Ground,
    shape: &[Point],
    distance: impl Fn(usize) -> f64,
    most: usize,
    corners: Corners,
) -> Vec<Vec<Point>> {
    let corner_distance = |p: &Point| {
        polygon::edges(shape).map(|side| squared_distance(side, *p)).fold(f64::INFINITY, f64::min)
    };
    let all = ground.open().iter().flat_map(|part| &part.outer);
    let farthest = all.map(corner_distance).fold(0.0, f64::max).sqrt();
    let most = most.min(MOST_ROWS);
    let distances = (0..most).map(distance).take_while(|&inches| inches <= farthest);
    distances.flat_map(|inches| offset_row(shape, inches, corners)).collect()
}

/// The ring begun where it lies furthest in the start direction's half-line, turned as asked.
fn begun(mut ring: Vec<Point>, middle: Point, start: Vec2, clockwise: bool) -> Vec<Point> {
    let ahead = |(a, b): (Point, Point)| {
        let (before, after) = (start.cross(a - middle), start.cross(b - middle));
        let share = before / (before - after);
        let at = a.lerp(b, share);
        ((before > 0.0) != (after > 0.0) && start.dot(at - middle) > 0.0).then_some(at)
    };
    let found = polygon::edges(&ring).enumerate().find_map(|(i, side)| Some((i, ahead(side)?)));
    if let Some((i, at)) = found {
        ring.rotate_left(i + 1);
        if ring.last() != Some(&at) && ring.first() != Some(&at) {
            ring.insert(0, at);
        }
    }
    if clockwise {
        ring.reverse();
        ring.rotate_right(1);
    }
    ring
}

/// The ring as a hand would follow it; even where the wobble would bring it across itself.
fn wobbled(ring: Vec<Point>, wobble: Option<Wobble>, row: i64) -> Stroke {
    let Some(wobble) = wobble else { return Stroke::closed(ring) };
    let swung = Stroke::closed(swing(&ring, &wobble, row));
    if first_crossing(std::slice::from_ref(&swung)).is_some() { Stroke::closed(ring) } else { swung }
}

fn swing(ring: &[Point], wobble: &Wobble, row: i64) -> Vec<Point> {
    let n = ring.len();
    let unit = |a: Point, b: Point| (b - a) * (1.0 / a.distance(b).max(1e-300));
    let sides: Vec<(Point, Point)> = polygon::edges(ring).collect();
    let bends: Vec<bool> = (0..n)
        .map(|i| {
            let (before, after) = (sides[(i + n - 1) % n], sides[i]);
            i == 0 || unit(before.0, before.1).dot(unit(after.0, after.1)) < CORNER_COSINE
        })
        .collect();
    let begins: Vec<f64> = sides
        .iter()
        .scan(0.0, |along, (a, b)| {
            let here = *along;
            *along += a.distance(*b);
            Some(here)
        })
        .collect();
    let whole = polygon::perimeter(ring);
    let corners: Vec<f64> = (0..n).filter(|&i| bends[i]).map(|i| begins[i]).chain([whole]).collect();
    let mut out = Vec::with_capacity(n);
    for (i, &(a, b)) in sides.iter().enumerate() {
        let long = a.distance(b);
        let steps = (long / wobble.step()).ceil().max(1.0) as usize;
        let outward = unit(a, b).left() * -1.0;
        for k in 0..steps {
            let along = begins[i] + long * k as f64 / steps as f64;
            let next = corners.partition_point(|&corner| corner < along);
            let after = corners.get(next).map_or(0.0, |corner| corner - along);
            let before = next.checked_sub(1).map_or(0.0, |last| along - corners[last]);
            let fade = (after.min(before) / (0.5 * wobble.wave_in)).min(1.0);
            out.push(a.lerp(b, k as f64 / steps as f64) + outward * (fade * wobble.at(row, along)));
        }
    }
    out
}
