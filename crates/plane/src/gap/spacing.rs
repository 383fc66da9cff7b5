//! How far apart rows really are.
//!
//! Every so many inches along each stroke the nearest other row is looked for on either side: a
//! place of another stroke, or of the same one that is much further along the stroke
//! than across. It counts where it lies within 45 degrees of straight across and neither a wall
//! nor the row itself stands between.

use super::grid::{Grid, Segment, foot, squared_distance};
use crate::fill::Stroke;
use crate::{Point, READING, polygon};

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
    /// A place that has neither a row nor a wall within reach on a side, if there is one.
    pub alone_at: Option<Point>,
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
pub fn spacing(
    strokes: &[Stroke],
    walls: &[Segment],
    sides: Sides,
    every_in: f64,
    reach_in: f64,
) -> Option<RowSpacing> {
    let (segments, parts) = parts_of(strokes);
    let places: Vec<Point> = strokes.iter().flat_map(|s| s.points.iter().copied()).collect();
    let (low, high) = polygon::bounds(&places)?;
    let length: f64 = segments.iter().map(|(a, b)| a.distance(*b)).sum();
    let mean = (high.x - low.x) * (high.y - low.y) / length.max(1e-9);
    let grid = Grid::new(&segments, low, high, mean.clamp(reach_in / 40.0, reach_in.max(1e-3)));
    let wanted = [sides != Sides::Right, sides != Sides::Left];
    let mut found: Vec<Across> = Vec::with_capacity((length / every_in) as usize);
    let mut alone_at = None;
    for (i, part) in parts.iter().enumerate() {
        let (a, b) = segments[i];
        let long = a.distance(b);
        let mut at = (part.begins / every_in).ceil() * every_in - part.begins;
        while at < long {
            let from = a.lerp(b, at / long);
            let seen =
                look(&grid, &segments, &parts, (i, from), wanted.map(|w| if w { reach_in } else { 0.0 }));
            for (seen, _) in seen.into_iter().zip(wanted).filter(|(_, wanted)| *wanted) {
                match seen {
                    Seen::Row(to) if !walls.iter().any(|&wall| crosses((from, to), wall)) => {
                        found.push(Across { from, to, segment: i });
                    }
                    Seen::Nothing
                        if !walls.iter().any(|&wall| squared_distance(wall, from) < reach_in * reach_in) =>
                    {
                        alone_at = Some(from);
                    }
                    _ => {}
                }
            }
            at += every_in;
        }
    }
    summary(found, alone_at, |across| {
        behind_itself(&segments, &parts, across) || beside_a_wall(walls, &segments, across)
    })
}

/// From a place of a row straight across to the next row.
struct Across {
    from: Point,
    to: Point,
    segment: usize,
}

impl Across {
    fn width(&self) -> f64 {
        self.from.distance(self.to)
    }
}

/// Whether the row itself, a little further on or back, runs between a place and its neighbour,
/// as where it turns round the corner of a keep-out.
fn behind_itself(segments: &[Segment], parts: &[Part], across: &Across) -> bool {
    let line = (across.from.lerp(across.to, 1e-6), across.to);
    let near = |i: &usize| {
        (parts[*i].begins - parts[across.segment].begins).abs() < DIFFERENT * across.width()
            && parts[*i].stroke == parts[across.segment].stroke
    };
    let mut further = (across.segment + 1..segments.len()).take_while(near);
    let mut back = (0..across.segment).rev().take_while(near);
    further.any(|i| crosses(line, segments[i])) || back.any(|i| crosses(line, segments[i]))
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

/// Whether a wall lies nearer than the row, on the same side: the gap is one to the wall, as where
/// a last row ends before the row beside it does.
fn beside_a_wall(walls: &[Segment], segments: &[Segment], across: &Across) -> bool {
    let (a, b) = segments[across.segment];
    let side = |p: Point| (b - a).cross(p - across.from) > 0.0;
    walls.iter().any(|&wall| {
        let near = wall.0.lerp(wall.1, foot(wall, across.from));
        near.distance(across.from) < 0.95 * across.width() && side(near) == side(across.to)
    })
}

/// What is seen to one side of a row.
enum Seen {
    /// No row within reach.
    Nothing,
    /// The nearest row, more ahead or behind than across.
    Aslant,
    /// The nearest row, across.
    Row(Point),
}

/// The nearest place of another row to the left and to the right of `p` on segment `here`.
fn look(
    grid: &Grid,
    segments: &[Segment],
    parts: &[Part],
    (here, p): (usize, Point),
    reach: [f64; 2],
) -> [Seen; 2] {
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
            if part.stroke != parts[here].stroke || apart > DIFFERENT * squared.sqrt() + READING {
                best[side] = (squared, Some(place));
            }
        }
        best[0].0.max(best[1].0).sqrt()
    });
    best.map(|(_, place)| match place {
        None => Seen::Nothing,
        Some(place) if along.cross(place - p).abs() >= along.dot(place - p).abs() => Seen::Row(place),
        Some(_) => Seen::Aslant,
    })
}

/// Whether two pieces of line cross.
pub(crate) fn crosses((a, b): Segment, (c, d): Segment) -> bool {
    if a.x.min(b.x) > c.x.max(d.x)
        || a.x.max(b.x) < c.x.min(d.x)
        || a.y.min(b.y) > c.y.max(d.y)
        || a.y.max(b.y) < c.y.min(d.y)
    {
        return false;
    }
    let (u, v) = (b - a, d - c);
    u.cross(c - a) * u.cross(d - a) < 0.0 && v.cross(a - c) * v.cross(b - c) < 0.0
}

/// Least, median and most; `hidden` is asked only about what is much wider than usual.
fn summary(
    mut found: Vec<Across>,
    alone_at: Option<Point>,
    hidden: impl Fn(&Across) -> bool,
) -> Option<RowSpacing> {
    let by = |x: &Across, y: &Across| x.width().total_cmp(&y.width());
    let middle = found.len() / 2;
    let usual = found.get(middle).is_some().then(|| found.select_nth_unstable_by(middle, by).1.width())?;
    found.retain(|across| across.width() < 1.1 * usual || !hidden(across));
    let middle = found.len() / 2;
    let least = found.iter().min_by(|x, y| by(x, y))?;
    let most = found.iter().max_by(|x, y| by(x, y))?;
    let (least_in, least_at, most_in, most_at) = (least.width(), least.from, most.width(), most.from);
    let median_in = found.select_nth_unstable_by(middle, by).1.width();
    Some(RowSpacing { least_in, least_at, median_in, most_in, most_at, samples: found.len(), alone_at })
}
