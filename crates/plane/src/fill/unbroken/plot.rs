//! The ground as the spiral sees it: from the centre, turned so that it starts to the right and
//! runs counter-clockwise.

use super::field::{Field, Obstacle, Side};
use super::{FillProblem, Ground, UnbrokenSpiral, number};
use crate::gap::grid::{Segment, squared_distance};
use crate::{Line, Point, Region, Turn, Vec2, difference, intersection, polygon};

/// From the caller's places to the plot's and back.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    centre: Point,
    turn: Turn,
    mirrored: bool,
}

impl Frame {
    pub(super) fn enter(&self, p: Point) -> Point {
        let v = self.turn.inverse().apply(p - self.centre);
        Point::new(v.x, if self.mirrored { -v.y } else { v.y })
    }

    pub(super) fn leave(&self, p: Point) -> Point {
        self.centre + self.turn.apply(Vec2::new(p.x, if self.mirrored { -p.y } else { p.y }))
    }

    fn ring(&self, ring: &[Point]) -> Vec<Point> {
        let mut ring: Vec<Point> = ring.iter().map(|&p| self.enter(p)).collect();
        if polygon::area(&ring) < 0.0 {
            ring.reverse();
        }
        ring
    }
}

/// What the spiral is laid over.
pub(super) struct Plot {
    pub(super) frame: Frame,
    /// Sides, obstacles and first circle; the number of rows is still open.
    pub(super) field: Field,
    /// The outline.
    pub(super) edge: Vec<Point>,
    /// Its sides and those of the keep-outs.
    pub(super) walls: Vec<Segment>,
    /// Mean distance of the sides from the centre.
    pub(super) mean: f64,
    /// Distance of the edge in the start direction.
    pub(super) ahead: f64,
    /// A stroke longer than this has lost its way.
    pub(super) most_length: f64,
}

impl Plot {
    pub(super) fn new(ground: &Ground, choice: &UnbrokenSpiral) -> Result<Self, FillProblem> {
        let UnbrokenSpiral { centre, spacing, least_radius_in: first, .. } = *choice;
        spacing.check(ground)?;
        number("the first circle's radius", first, 0.0, 1000.0)?;
        number("the start direction in degrees", choice.start_deg.unwrap_or(0.0), -3600.0, 3600.0)?;
        spacing.check_wobble(choice.wobble, spacing.wish_in)?;
        let [part] = ground.open() else { return Err(FillProblem::Parted { parts: ground.open().len() }) };
        if !(centre.is_finite() && ground.contains(centre)) {
            return Err(FillProblem::CentreOutside { at: centre });
        }
        let room = ground.distance_to_edge(centre);
        if room < first + spacing.least_in {
            return Err(FillProblem::CentreTooTight { at: centre, radius: first, room });
        }
        let keep_outs = merged(&part.holes, spacing.wish_in);
        let start = choice.start_deg.unwrap_or_else(|| free_direction(centre, &keep_outs));
        let frame = Frame { centre, turn: Turn::from_degrees(start), mirrored: choice.clockwise };
        let edge = frame.ring(&part.outer);
        let hull = polygon::hull(&edge);
        let sides: Vec<Side> = polygon::edges(&hull).filter_map(|(a, b)| Side::through(a, b)).collect();
        let nearest = sides.iter().map(|side| side.reach).fold(f64::INFINITY, f64::min);
        let mut obstacles: Vec<Obstacle> = keep_outs
            .iter()
            .map(|ring| Obstacle::new(frame.ring(ring), &edge, 0.5 * spacing.wish_in))
            .collect();
        obstacles.extend(notches(&hull, &edge));
        let shaped = (11.0 * first.max(spacing.wish_in / 2.0)).min(0.7 * nearest);
        let walls =
            ground.walls().iter().map(|wall| (frame.enter(wall.from), frame.enter(wall.to))).collect();
        Ok(Self {
            frame,
            field: Field { first, shaped: shaped.max(first * 1.5), rows: 0.0, even: 0.0, sides, obstacles },
            walls,
            mean: 2.0 * polygon::area(&hull) / polygon::perimeter(&hull),
            ahead: ahead(&edge),
            edge,
            most_length: 2.0 * ground.area() / spacing.wish_in + 1000.0,
        })
    }

    pub(super) fn farthest(&self) -> f64 {
        self.field.sides.iter().map(|side| side.reach).fold(0.0, f64::max)
    }

    /// Farthest over nearest side.
    pub(super) fn sides_ratio(&self) -> f64 {
        let sides = self.field.sides.iter().map(|side| side.reach);
        let edges = polygon::edges(&self.edge).map(|side| squared_distance(side, Point::ORIGIN).sqrt());
        self.farthest() / sides.chain(edges).fold(f64::INFINITY, f64::min)
    }
}

impl Side {
    fn through(a: Point, b: Point) -> Option<Self> {
        let line = Line::through(a, b)?;
        Some(Self { normal: -line.normal.vec(), reach: -line.at })
    }
}

/// What lies between an outline and its hull.
fn notches(hull: &[Point], edge: &[Point]) -> Vec<Obstacle> {
    if polygon::is_convex(edge, 1e-9) {
        return Vec::new();
    }
    let plain = |outer: &[Point]| Region { outer: outer.to_vec(), holes: Vec::new() };
    let notches = difference(&plain(hull), &[plain(edge)]);
    notches.into_iter().map(|notch| Obstacle::notch(opened(&notch.outer, hull))).collect()
}

/// A notch whose mouth is moved far out, so that only its inner sides count.
fn opened(notch: &[Point], hull: &[Point]) -> Vec<Point> {
    let far = 2.0 * polygon::diameter(hull);
    let lines: Vec<Line> = polygon::edges(hull).filter_map(|(a, b)| Line::through(a, b)).collect();
    let on = |line: &&Line, p: Point| line.inside_by(p).abs() < 1e-7;
    let mut out = Vec::with_capacity(notch.len() + 2);
    for (a, b) in polygon::edges(notch) {
        out.push(a);
        if let Some(mouth) = lines.iter().find(|line| on(line, a) && on(line, b)) {
            let (outward, along) = (mouth.normal.vec() * -far, mouth.unit() * far);
            let along = if along.dot(b - a) > 0.0 { along } else { -along };
            out.extend([a + outward - along, b + outward + along]);
        }
    }
    out
}

/// Hulls of the keep-outs, those less than `apart` from each other as one.
fn merged(holes: &[Vec<Point>], apart: f64) -> Vec<Vec<Point>> {
    let mut hulls: Vec<Vec<Point>> = holes.iter().map(|hole| polygon::hull(hole)).collect();
    while let Some((i, j)) = too_near(&hulls, apart) {
        let other = hulls.remove(j);
        hulls[i].extend(other);
        hulls[i] = polygon::hull(&hulls[i]);
    }
    hulls
}

fn too_near(hulls: &[Vec<Point>], apart: f64) -> Option<(usize, usize)> {
    let plain = |outer: &Vec<Point>| Region { outer: outer.clone(), holes: Vec::new() };
    (0..hulls.len()).flat_map(|j| (0..j).map(move |i| (i, j))).find(|&(i, j)| {
        between(&hulls[i], &hulls[j]) < apart
            || !intersection(&plain(&hulls[i]), &plain(&hulls[j])).is_empty()
    })
}

/// Least distance between the sides of two rings.
pub(super) fn between(a: &[Point], b: &[Point]) -> f64 {
    let one_way = |from: &[Point], to: &[Point]| {
        let squared =
            from.iter().flat_map(|&p| polygon::edges(to).map(move |side| squared_distance(side, p)));
        squared.fold(f64::INFINITY, f64::min)
    };
    one_way(a, b).min(one_way(b, a)).sqrt()
}

/// The direction, in degrees, furthest from all keep-outs; 0 without any.
fn free_direction(centre: Point, keep_outs: &[Vec<Point>]) -> f64 {
    let directions: Vec<f64> =
        keep_outs.iter().flatten().filter_map(|&p| Turn::towards(p - centre)).map(Turn::to_degrees).collect();
    let clearance = |degrees: f64| {
        let off = |other: &f64| (degrees - other).rem_euclid(360.0);
        directions.iter().map(|other| off(other).min(360.0 - off(other))).fold(360.0, f64::min)
    };
    (0..72)
        .map(|i| f64::from(i) * 5.0)
        .fold(0.0, |best, next| if clearance(next) > clearance(best) { next } else { best })
}

/// How far the edge lies ahead of the centre, to the right.
fn ahead(edge: &[Point]) -> f64 {
    polygon::edges(edge)
        .filter(|(a, b)| (a.y > 0.0) != (b.y > 0.0))
        .map(|(a, b)| a.x + (b.x - a.x) * a.y / (a.y - b.y))
        .fold(0.0, f64::max)
}
