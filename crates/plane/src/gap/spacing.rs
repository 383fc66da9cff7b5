//! How far apart rows really are.
//!
//! Every so many inches along each stroke the nearest other row is looked for on either side: a
//! place of another stroke, or of the same one that is much further along the stroke
//! than across. It counts where it lies within 45 degrees of straight across and no wall
//! stands between.

use super::grid::{Grid, Segment, foot};
use crate::fill::Stroke;
use crate::{Point, polygon};

/// Which neighbours are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// Both.
    Both,
    /// Only what lies to the left of the way one sews.
    Left,
    /// Only what lies to the right: the next row outward of a counter-clockwise spiral.
    Right,
}

/// Distances of rows in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowSpacing {
    /// The least.
    pub least_in: f64,
    /// Where that is.
    pub least_at: Point,
    /// As many are less as more.
    pub median_in: f64,
    /// The most.
    pub most_in: f64,
    /// Where that is.
    pub most_at: Point,
    /// How many were measured.
    pub samples: usize,
}

/// Two places of one stroke are different rows when it is further than this many times as far along it as across.
const DIFFERENT: f64 = std::f64::consts::PI * 0.75;

struct Part {
    stroke: u32,
    begins: f64,
    whole: f64,
}

/// Row distances every `every_in` inches of the strokes, out to `reach_in`; `None` where no
/// stroke has a neighbour. `walls` are edges of keep-outs and outline.
#[must_use]
pub fn spacing(strokes: &[Stroke], walls: &[Segment], sides: Sides, every_in: f64, reach_in: f64) -> Option<RowSpacing> {
    let (segments, parts) = parts_of(strokes);
    let places: Vec<Point> = strokes.iter().flat_map(|s| s.points.iter().copied()).collect();
    let (low, high) = polygon::bounds(&places)?;
    let length: f64 = segments.iter().map(|(a, b)| a.distance(*b)).sum();
    let mean = (high.x - low.x) * (high.y - low.y) / length.max(1e-9);
    let grid = Grid::new(&segments, low, high, mean.clamp(reach_in / 40.0, reach_in.max(1e-3)));
    let mut found: Vec<(f64, Point)> = Vec::with_capacity((length / every_in) as usize);
    let wanted = [sides != Sides::Right, sides != Sides::Left];
    for (i, part) in parts.iter().enumerate() {
        let (a, b) = segments[i];
        let long = a.distance(b);
        let mut at = (part.begins / every_in).ceil() * every_in - part.begins;
        while at < long {
            let p = a.lerp(b, at / long);
            for side in look(&grid, &segments, &parts, (i, p), wanted.map(|w| if w { reach_in } else { 0.0 })) {
                if let Some(other) = side.filter(|&other| !walls.iter().any(|&wall| crosses((p, other), wall))) {
                    found.push((p.distance(other), p));
                }
            }
            at += every_in;
        }
    }
    summary(found)
}

fn parts_of(strokes: &[Stroke]) -> (Vec<Segment>, Vec<Part>) {
    let (mut segments, mut parts) = (Vec::new(), Vec::new());
    for (number, stroke) in strokes.iter().enumerate() {
        let (whole, mut begins) = (if stroke.closed { stroke.length() } else { f64::INFINITY }, 0.0);
        for (a, b) in stroke.segments().filter(|(a, b)| a != b) {
            segments.push((a, b));
            parts.push(Part { stroke: number as u32, begins, whole });
            begins += a.distance(b);
        }
    }
    (segments, parts)
}

/// The nearest place of another row to the left and to the right of `p` on segment `here`.
fn look(
    grid: &Grid,
    segments: &[Segment],
    parts: &[Part],
    (here, p): (usize, Point),
    reach: [f64; 2],
) -> [Option<Point>; 2] {
    let (a, b) = segments[here];
    let along = (b - a) * (1.0 / a.distance(b));
    let at = parts[here].begins + a.distance(p);
    let mut best = reach.map(|reach| (reach * reach, None));
    grid.outward(p, reach[0].max(reach[1]), |item| {
        let (segment, part) = (segments[item as usize], &parts[item as usize]);
        let share = foot(segment, p);
        let place = segment.0.lerp(segment.1, share);
        let v = place - p;
        let (squared, across) = (v.dot(v), along.cross(v));
        let side = usize::from(across < 0.0);
        if squared < best[side].0 && across.abs() > 0.2 * along.dot(v).abs() {
            let apart = (part.begins + segment.0.distance(segment.1) * share - at).abs();
            let apart = apart.min(part.whole - apart);
            if part.stroke != parts[here].stroke || apart * apart > DIFFERENT * DIFFERENT * squared {
                best[side] = (squared, Some(place));
            }
        }
        best[0].0.max(best[1].0).sqrt()
    });
    best.map(|(_, place)| place.filter(|&place| along.cross(place - p).abs() >= along.dot(place - p).abs()))
}

/// Whether two pieces of line cross.
pub(crate) fn crosses((a, b): Segment, (c, d): Segment) -> bool {
    if a.x.min(b.x) > c.x.max(d.x) || a.x.max(b.x) < c.x.min(d.x) || a.y.min(b.y) > c.y.max(d.y) || a.y.max(b.y) < c.y.min(d.y) {
        return false;
    }
    let (u, v) = (b - a, d - c);
    u.cross(c - a) * u.cross(d - a) < 0.0 && v.cross(a - c) * v.cross(b - c) < 0.0
}

fn summary(mut found: Vec<(f64, Point)>) -> Option<RowSpacing> {
    let middle = found.len() / 2;
    let by = |x: &(f64, Point), y: &(f64, Point)| x.0.total_cmp(&y.0);
    let &(least_in, least_at) = found.iter().min_by(|x, y| by(x, y))?;
    let &(most_in, most_at) = found.iter().max_by(|x, y| by(x, y))?;
    let median_in = found.select_nth_unstable_by(middle, by).1.0;
    Some(RowSpacing { least_in, least_at, median_in, most_in, most_at, samples: found.len() })
}
