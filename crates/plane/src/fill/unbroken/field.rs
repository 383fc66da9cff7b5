//! The height over which the rows of an unbroken spiral are level lines.
//!
//! Everything is seen from the centre, which is the origin. The height is 0 on the first circle
//! and the number of rows on the outline. Near the circle it rises evenly with the radius; further out it is the
//! greatest of the heights that the sides of the outline's hull give, each rising evenly
//! from circle to side; between, the one passes into the other, so the rows begin as circles and
//! end as the outline.
//!
//! An *obstacle* (a keep-out, or a notch of the outline) has one height all round. Near it the
//! height may differ from that by no more than its distance over a row: rows run straight up to
//! a keep-out, follow its edge as offset rows to either side, and come back. This is a clamp
//! between two cones, so it changes nothing where there is room enough.

use crate::gap::grid::foot;
use crate::{Point, Vec2, polygon};

/// Height and how it rises, in rows and rows an inch.
#[derive(Clone, Copy, Debug)]
pub(super) struct Height {
    pub(super) rows: f64,
    pub(super) rise: Vec2,
}

/// A side of the hull, seen from the centre.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    /// Outward, of unit length.
    pub(super) normal: Vec2,
    /// Distance of the side from the centre.
    pub(super) reach: f64,
}

/// Something that rows flow round.
#[derive(Clone, Debug)]
pub(super) struct Obstacle {
    pub(super) corners: Vec<Point>,
    /// Whether rows pass it on both sides; not so a notch.
    pub(super) free: bool,
    pub(super) middle: Point,
    radius: f64,
    /// Its height in rows.
    pub(super) level: f64,
    /// Distance of rows beside it, in inches.
    pub(super) step: f64,
}

impl Obstacle {
    /// A keep-out inside the outline `edge`. One that is no further from it than `close` inches has
    /// no room for a row between, and is passed like a notch.
    pub(super) fn new(corners: Vec<Point>, edge: &[Point], close: f64) -> Self {
        let free = super::plot::between(&corners, edge) > close;
        Self { free, ..Self::notch(corners) }
    }

    /// A notch, which belongs to the outline.
    pub(super) fn notch(corners: Vec<Point>) -> Self {
        let middle = polygon::bounds(&corners).map_or(Point::ORIGIN, |(low, high)| low.midpoint(high));
        let radius = corners.iter().map(|c| c.distance(middle)).fold(0.0, f64::max);
        Self { corners, free: false, middle, radius, level: 0.0, step: 1.0 }
    }

    /// Signed distance, negative inside, and its direction.
    pub(super) fn distance(&self, p: Point) -> (f64, Vec2) {
        let (mut best, mut off, mut side, mut inside) =
            (f64::INFINITY, Vec2::default(), Vec2::default(), false);
        let mut a = self.corners[self.corners.len() - 1];
        for &b in &self.corners {
            let v = p - a.lerp(b, foot((a, b), p));
            let squared = v.dot(v);
            if squared < best {
                (best, off, side) = (squared, v, b - a);
            }
            if (a.y > p.y) != (b.y > p.y) {
                inside ^= p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y);
            }
            a = b;
        }
        if best < 1e-18 {
            return (0.0, side.left() * (-1.0 / side.length().max(1e-300)));
        }
        let length = best.sqrt();
        if inside { (-best.sqrt(), off * (-1.0 / length)) } else { (best.sqrt(), off * (1.0 / length)) }
    }
}

/// The height over the whole ground.
#[derive(Clone, Debug)]
pub(super) struct Field {
    /// Radius of the first circle.
    pub(super) first: f64,
    /// Radius at which circles have become the outline's shape.
    pub(super) shaped: f64,
    pub(super) rows: f64,
    pub(super) sides: Vec<Side>,
    pub(super) obstacles: Vec<Obstacle>,
    /// Rows an inch on the first circle.
    pub(super) even: f64,
}

impl Field {
    pub(super) fn at(&self, p: Point) -> Height {
        let mut height = self.plain(p);
        for obstacle in &self.obstacles {
            // A notch only lifts: everything in it lies beyond the outline.
            let over = obstacle.free && height.rows >= obstacle.level;
            let sign = if over { 1.0 } else { -1.0 };
            let away = sign * (height.rows - obstacle.level) * obstacle.step;
            if p.distance(obstacle.middle) - obstacle.radius >= away.max(0.0) {
                continue;
            }
            let (distance, direction) = obstacle.distance(p);
            if away > distance {
                height.rows = obstacle.level + sign * distance / obstacle.step;
                height.rise = direction * (sign / obstacle.step);
            }
        }
        height
    }

    /// The height without obstacles.
    pub(super) fn plain(&self, p: Point) -> Height {
        let v = p.to_vec2();
        let r = v.length().max(1e-9);
        let (mut shaped, mut rise) = (f64::NEG_INFINITY, Vec2::default());
        for side in &self.sides {
            let per_inch = self.rows / (side.reach - self.first);
            let rows = (side.normal.dot(v) - self.first) * per_inch;
            if rows > shaped {
                (shaped, rise) = (rows, side.normal * per_inch);
            }
        }
        if r >= self.shaped {
            return Height { rows: shaped, rise };
        }
        let outward = v * (1.0 / r);
        let round = (r - self.first) * self.even;
        if r <= self.first {
            return Height { rows: round, rise: outward * self.even };
        }
        let full = self.shaped / (self.shaped - self.first);
        let share = full * (1.0 - self.first / r);
        let share_rise = full * self.first / (r * r);
        let rise = outward * ((1.0 - share) * self.even + (shaped - round) * share_rise) + rise * share;
        Height { rows: round + (shaped - round) * share, rise }
    }
}
