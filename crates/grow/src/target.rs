//! Where growing should end, and how large pieces should be on the way.

use crate::search::Goal;
use crate::size;
use crate::split::sharpest_deg;
use plane::{Point, Vec2, polygon};
use quilt::wish::{Towards, Wish};
use std::sync::Arc;

/// The wished outline about the centre of the first patch, finished, and the wished sizes.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    /// Its sides: outward direction and distance from the centre.
    facing: Arc<[(Vec2, f64)]>,
    /// Radius of the circle of the same area.
    pub(crate) radius: f64,
    /// Its corners, about the centre.
    pub(crate) outline: Arc<[Point]>,
    sizes: [f64; 2],
    /// A side has arrived when less than this is missing, in inches: whatever the pieces are fitted
    /// to, so that growing and its end agree.
    arrived_in: f64,
    /// Sides wished.
    pub(crate) sides: usize,
    /// How many sparks there will be: the wished share of the pieces, rounded down, and one at least
    /// when any are wished.
    pub(crate) sparks: usize,
    /// The turn at its sharpest corner, in degrees.
    pub(crate) sharpest_turn_deg: f64,
}

impl Target {
    /// The target of a wish.
    pub(crate) fn new(wish: &Wish, goal: Goal, turn_deg: f64) -> Self {
        let mut outline = match &wish.towards {
            Towards::Polygon(points) if points.len() > 2 => points.clone(),
            Towards::Rectangle { width_in, height_in } => {
                let (x, y) = (width_in / 2.0, height_in / 2.0);
                [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y)).to_vec()
            }
            Towards::Round { sides } => regular(usize::from(*sides).clamp(3, 12), wish.across_in, turn_deg),
            Towards::Polygon(_) | Towards::Free => regular(7, wish.across_in, turn_deg),
        };
        if let (Goal::DriftEnd, Some(last)) = (goal, wish.drift.last()) {
            let share = last.at.clamp(0.1, 1.0);
            outline.iter_mut().for_each(|p| *p = Point::new(p.x * share, p.y * share));
        }
        let radius = (polygon::area(&outline) / std::f64::consts::PI).sqrt();
        let sides = outline.len();
        let facing = polygon::edges(&outline)
            .filter_map(|(a, b)| plane::Line::through(a, b))
            .map(|line| (-line.normal.vec(), line.inside_by(Point::ORIGIN)))
            .collect();
        let sizes = wish.piece_in;
        let sharpest_turn_deg = 180.0 - sharpest_deg(&outline);
        let target = Self {
            facing,
            radius,
            outline: outline.into(),
            sizes,
            arrived_in: ARRIVED * sizes[1],
            sides,
            sparks: 0,
            sharpest_turn_deg,
        };
        let pieces = match goal {
            Goal::Pieces(n) | Goal::SizeWith(n) => n as f64,
            Goal::Size | Goal::DriftEnd => target.pieces(),
        };
        Self { sparks: sparks(wish, pieces), ..target }
    }

    /// The same target with sizes such that `pieces` more fill what is left beyond `area`.
    pub(crate) fn fitted(&self, area: f64, pieces: usize) -> Self {
        let filled = (area / (std::f64::consts::PI * self.radius * self.radius)).sqrt();
        let scale = (self.pieces_beyond(filled) / pieces.max(1) as f64).sqrt().clamp(0.75, 1.35);
        Self { sizes: self.sizes.map(|size| size * scale), ..self.clone() }
    }

    /// Finished distance from the centre at which a side facing `outward` should end.
    pub(crate) fn reach(&self, outward: Vec2) -> f64 {
        if size::is_cut(self) {
            // What is cut from it must lie inside: so far as its corner furthest out.
            return self.outline.iter().map(|p| outward.dot(p.to_vec2())).fold(0.0, f64::max);
        }
        self.nearest(outward).map_or(self.radius, |side| side.1)
    }

    /// How far a direction is turned from that in which the nearest side faces, in degrees.
    pub(crate) fn askew_deg(&self, outward: Vec2) -> f64 {
        self.nearest(outward)
            .map_or(0.0, |(facing, _)| facing.cross(outward).atan2(facing.dot(outward)).to_degrees().abs())
    }

    /// The side of the target that faces most nearly the same way.
    fn nearest(&self, outward: Vec2) -> Option<(Vec2, f64)> {
        self.facing.iter().copied().max_by(|a, b| a.0.dot(outward).total_cmp(&b.0.dot(outward)))
    }

    /// Share of the way from the centre to the rim, 0 to about 1, of a place relative to the
    /// centre.
    pub(crate) fn share(&self, from_centre: Vec2) -> f64 {
        let most = self
            .facing
            .iter()
            .map(|(outward, reach)| outward.dot(from_centre) / reach.max(1e-6))
            .fold(0.0, f64::max);
        most.min(1.2)
    }

    /// Wished finished size of a piece at a share of the way, in inches.
    pub(crate) fn size(&self, share: f64) -> f64 {
        let [inner, outer] = self.sizes;
        inner * (outer / inner).powf(share.clamp(0.0, 1.0))
    }

    /// How many pieces of the wished sizes fill the target, about.
    pub(crate) fn pieces(&self) -> f64 {
        self.pieces_beyond(0.0)
    }

    /// The same, of the part of the target beyond a share of the way.
    fn pieces_beyond(&self, share: f64) -> f64 {
        const RINGS: usize = 64;
        let width = (1.0 - share).max(0.0) / RINGS as f64;
        (0..RINGS)
            .map(|i| {
                let at = share + (i as f64 + 0.5) * width;
                let ring = std::f64::consts::TAU * at * self.radius * self.radius * width;
                ring / (USED * self.size(at).powi(2))
            })
            .sum()
    }

    /// Finished depth of the next course for a side `done` of `reach` inches away from the centre:
    /// a whole number of courses fills the way. `None` when the side has arrived.
    pub(crate) fn course(&self, done: f64, reach: f64) -> Option<Course> {
        let left = reach - done;
        if left < self.arrived_in {
            return None;
        }
        let (mut at, mut steps) = (done, Vec::new());
        while at < reach {
            let size = self.size(at / reach);
            steps.push(size);
            at += size;
        }
        let over = at - reach;
        if steps.len() > 1 && over > steps[steps.len() - 1] / 2.0 {
            steps.pop();
        }
        let sum: f64 = steps.iter().sum();
        let depth = steps[0] * left / sum;
        Some(Course { depth, left: steps.len(), way: left, next: self.size((done + depth) / reach) })
    }
}

/// More sparks than this would touch one another.
const MOST_SPARKS: usize = 24;

fn sparks(wish: &Wish, pieces: f64) -> usize {
    if wish.sparks > 0.0 { ((wish.sparks * pieces) as usize).clamp(1, MOST_SPARKS) } else { 0 }
}

/// The area of a piece over the square of its wished size, as it comes out.
const USED: f64 = 0.86;

/// What is planned for a side.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Course {
    /// Finished depth of the next piece, in inches.
    pub(crate) depth: f64,
    /// Courses left, this one included.
    pub(crate) left: usize,
    way: f64,
    next: f64,
}

impl Course {
    /// Whether a piece so deep leaves room for a whole course after it, or for none.
    pub(crate) fn allows(&self, depth: f64) -> bool {
        let rest = self.way - depth;
        rest.abs() < 0.06 * self.way.max(1.0) || rest > 0.62 * self.next
    }
}

/// A side has arrived when less than this share of the largest piece is missing.
const ARRIVED: f64 = 0.3;

/// A regular polygon with the area of a circle `across` wide.
fn regular(sides: usize, across: f64, turn_deg: f64) -> Vec<Point> {
    let step = std::f64::consts::TAU / sides as f64;
    let circle = std::f64::consts::PI * across * across / 4.0;
    let radius = (circle / (sides as f64 / 2.0 * step.sin())).sqrt();
    (0..sides)
        .map(|i| {
            let angle = turn_deg.to_radians() + step * i as f64;
            Point::new(radius * angle.cos(), radius * angle.sin())
        })
        .collect()
}
