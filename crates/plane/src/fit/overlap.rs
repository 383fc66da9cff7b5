//! How a placed piece stands to the obstacles and the edge of its cloth.
//!
//! Two convex shapes are apart when one of their sides has the other wholly beyond it; the
//! distance beyond the best side is their separation in inches, negative when they overlap.

use super::prepared::{Convex, FitCloth, FitPiece};
use super::rule::Rule;
use crate::slack::HalfPlane;
use crate::{DECISION, Point, Pose, Region, Vec2, polygon};

/// A piece at its pose.
pub(crate) struct Placed {
    parts: Vec<PlacedPart>,
}

pub(crate) struct PlacedPart {
    points: Vec<Point>,
    sides: Vec<HalfPlane>,
    low: Point,
    high: Point,
}

impl PlacedPart {
    fn new(part: &Convex, pose: Pose) -> Option<Self> {
        let points = pose.apply_all(&part.points);
        let (low, high) = polygon::bounds(&points)?;
        let sides = part.sides.iter().map(|side| placed_side(*side, pose)).collect();
        Some(Self { points, sides, low, high })
    }
}

fn placed_side(side: HalfPlane, pose: Pose) -> HalfPlane {
    let normal = pose.turn.apply(side.normal);
    HalfPlane { normal, at: side.at + normal.dot(pose.by) }
}

impl Placed {
    pub(crate) fn new(piece: &FitPiece, pose: Pose) -> Self {
        Self { parts: piece.parts.iter().filter_map(|p| PlacedPart::new(p, pose)).collect() }
    }

    pub(crate) fn parts(&self) -> &[PlacedPart] {
        &self.parts
    }

    /// The part and the obstacle that overlap most, if any do by more than [`DECISION`].
    pub(crate) fn worst_overlap(&self, cloth: &FitCloth, piece: &FitPiece) -> Option<(usize, usize)> {
        debug_assert_eq!(self.parts.len(), piece.parts.len());
        let mut worst = (-DECISION, None);
        for (i, part) in self.parts.iter().enumerate() {
            for (j, obstacle) in cloth.obstacles.iter().enumerate() {
                let apart = separation(part, obstacle);
                if apart < worst.0 {
                    worst = (apart, Some((i, j)));
                }
            }
        }
        worst.1
    }

    /// Whether every part lies in the region, to within [`DECISION`]: no edge of the region
    /// enters a part, and the parts' middles are inside. Independent of hull and obstacles.
    pub(crate) fn lies_in(&self, region: &Region) -> bool {
        let rings = || std::iter::once(&region.outer).chain(&region.holes);
        self.parts.iter().all(|part| {
            polygon::centroid(&part.points).is_some_and(|c| region.contains(c))
                && rings().all(|ring| polygon::edges(ring).all(|(a, b)| edge_stays_out(part, a, b)))
        })
    }
}

fn boxes_apart(part: &PlacedPart, low: Point, high: Point) -> bool {
    part.high.x <= low.x || high.x <= part.low.x || part.high.y <= low.y || high.y <= part.low.y
}

fn separation(part: &PlacedPart, obstacle: &Convex) -> f64 {
    if boxes_apart(part, obstacle.low, obstacle.high) {
        return 0.0;
    }
    let beyond = |sides: &[HalfPlane], points: &[Point]| {
        sides.iter().map(|side| beyond(*side, points)).fold(f64::NEG_INFINITY, f64::max)
    };
    beyond(&obstacle.sides, &part.points).max(beyond(&part.sides, &obstacle.points))
}

/// How far all points lie beyond a side, on the side that is not its inside.
fn beyond(side: HalfPlane, points: &[Point]) -> f64 {
    points.iter().map(|p| side.at - side.normal.dot(p.to_vec2())).fold(f64::INFINITY, f64::min)
}

fn edge_stays_out(part: &PlacedPart, a: Point, b: Point) -> bool {
    let low = Point::new(a.x.min(b.x), a.y.min(b.y));
    let high = Point::new(a.x.max(b.x), a.y.max(b.y));
    if boxes_apart(part, low, high) {
        return true;
    }
    let Some(line) = crate::Line::through(a, b) else { return true };
    let plane = HalfPlane { normal: line.normal.vec(), at: line.at };
    let back = HalfPlane { normal: -plane.normal, at: -plane.at };
    beyond(plane, &part.points) >= -DECISION
        || beyond(back, &part.points) >= -DECISION
        || part.sides.iter().any(|side| beyond(*side, &[a, b]) >= -DECISION)
}

/// The rules of which one must hold to part the two, the one that is nearest to holding at
/// `pose` first.
pub(crate) fn parting<'a>(part: &'a Convex, obstacle: &'a Convex, pose: Pose) -> Vec<Rule<'a>> {
    let placed = pose.apply_all(&part.points);
    let mut rules: Vec<(f64, Rule<'a>)> = Vec::with_capacity(part.sides.len() + 8);
    for (side, _) in obstacle.sides.iter().zip(&obstacle.lid).filter(|(_, lid)| !**lid) {
        let wall = HalfPlane { normal: -side.normal, at: -side.at };
        rules.push((beyond(*side, &placed), Rule::Wall { wall, body: &part.points }));
    }
    for side in &part.sides {
        let apart = beyond(placed_side(*side, pose), &obstacle.points);
        rules.push((apart, Rule::Side { side: *side, obstacle: &obstacle.points }));
    }
    rules.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    rules.into_iter().map(|(_, rule)| rule).collect()
}

/// Between which distances along `along` (a unit vector) the moved part overlaps the obstacle.
pub(crate) fn beyond_moving(part: &PlacedPart, obstacle: &Convex, along: Vec2) -> Option<(f64, f64)> {
    let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut cut = |apart: f64, slope: f64| {
        // overlapping while apart + slope * distance < 0
        if slope.abs() < 1e-9 {
            if apart >= -DECISION / 2.0 {
                to = f64::NEG_INFINITY;
            }
        } else if slope > 0.0 {
            to = to.min(-apart / slope);
        } else {
            from = from.max(-apart / slope);
        }
    };
    for side in &obstacle.sides {
        cut(beyond(*side, &part.points), -side.normal.dot(along));
    }
    for side in &part.sides {
        cut(beyond(*side, &obstacle.points), side.normal.dot(along));
    }
    (to > from + DECISION).then_some((from, to))
}
