//! What is to be filled: an outline less what is kept free, and how lines are cut off at its edge.

use super::{FillProblem, Stroke};
use crate::{Point, Region, difference, polygon};

/// An outline less its keep-outs. Its edges, outline and keep-outs alike, are *walls*.
#[derive(Clone, Debug)]
pub struct Ground {
    pub(super) outline: Region,
    open: Vec<Region>,
    walls: Vec<Wall>,
}

/// A side of the open ground.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wall {
    pub(super) from: Point,
    pub(super) to: Point,
    /// Which ring it belongs to.
    pub(super) ring: usize,
    /// Where it begins on that ring, in inches from the ring's first corner.
    pub(super) begins: f64,
}

/// A place where a line meets a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) ring: usize,
    /// Inches along the ring.
    pub(super) along: f64,
}

/// A part of a line that lies in the open.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) points: Vec<Point>,
    /// Where it comes in, unless it begins in the open.
    pub(super) from: Option<Spot>,
    /// Where it goes out, unless it ends in the open.
    pub(super) to: Option<Spot>,
}

impl Ground {
    /// The ground inside `outline` (holes are kept free) and outside all `keep_outs`.
    ///
    /// # Errors
    /// [`FillProblem::Outline`] or [`FillProblem::KeepOut`] when a shape isn't a sound region,
    /// [`FillProblem::NothingLeft`] when the keep-outs cover everything.
    pub fn try_new(outline: &Region, keep_outs: &[Region]) -> Result<Self, FillProblem> {
        let checked = |region: &Region| Region::try_new(region.outer.clone(), region.holes.clone());
        let outline = checked(outline).map_err(FillProblem::Outline)?;
        let mut kept_free = Vec::with_capacity(keep_outs.len());
        for (i, keep_out) in keep_outs.iter().enumerate() {
            kept_free
                .push(checked(keep_out).map_err(|problem| FillProblem::KeepOut { number: i + 1, problem })?);
        }
        let open =
            if kept_free.is_empty() { vec![outline.clone()] } else { difference(&outline, &kept_free) };
        if open.is_empty() {
            return Err(FillProblem::NothingLeft);
        }
        let walls = walls_of(&open);
        Ok(Self { outline, open, walls })
    }

    /// The open parts: disjoint, keep-outs as holes or bites.
    #[must_use]
    pub fn open(&self) -> &[Region] {
        &self.open
    }

    /// Open area in square inches.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.open.iter().map(Region::area).sum()
    }

    /// Whether a place lies in the open.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        self.walls.iter().fold(false, |inside, wall| {
            let (a, b) = (wall.from, wall.to);
            let spans = (a.y > p.y) != (b.y > p.y);
            inside ^ (spans && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
        })
    }

    /// Distance from a place to the nearest edge, in inches.
    #[must_use]
    pub fn distance_to_edge(&self, p: Point) -> f64 {
        let squared = |wall: &Wall| crate::gap::grid::squared_distance((wall.from, wall.to), p);
        self.walls.iter().map(squared).fold(f64::INFINITY, f64::min).sqrt()
    }

    /// Distance from a place to the farthest corner, in inches.
    pub(super) fn reach(&self, from: Point) -> f64 {
        self.walls.iter().map(|wall| wall.from.distance(from)).fold(0.0, f64::max)
    }

    /// The corners passed on the way along a ring from one spot to another, in the ring's order.
    pub(super) fn way_along(&self, from: Spot, to: Spot) -> Vec<Point> {
        let ring = || self.walls.iter().filter(|wall| wall.ring == from.ring);
        let whole: f64 = ring().map(|wall| wall.from.distance(wall.to)).sum();
        let ahead = |along: f64| (along - from.along).rem_euclid(whole);
        let mut passed: Vec<(f64, Point)> = ring().map(|wall| (ahead(wall.begins), wall.from)).collect();
        passed.retain(|&(at, _)| at > 0.0 && at < ahead(to.along));
        passed.sort_by(|a, b| a.0.total_cmp(&b.0));
        passed.into_iter().map(|(_, corner)| corner).collect()
    }

    /// The edges of the open ground; without keep-outs and holes, those of the outline alone.
    #[must_use]
    pub fn edges(&self, with_keep_outs: bool) -> Vec<(Point, Point)> {
        if with_keep_outs {
            self.walls.iter().map(|wall| (wall.from, wall.to)).collect()
        } else {
            polygon::edges(&self.outline.outer).collect()
        }
    }

    pub(super) fn walls(&self) -> &[Wall] {
        &self.walls
    }

    /// The parts of a line that lie in the open, in order.
    pub(super) fn pieces(&self, line: &[Point]) -> Vec<Piece> {
        let mut pieces = Vec::new();
        let Some(&first) = line.first() else { return pieces };
        let mut inside = self.contains(first);
        let mut piece = Piece { points: if inside { vec![first] } else { Vec::new() }, from: None, to: None };
        let mut crossings = Vec::new();
        for step in line.windows(2) {
            let (a, b) = (step[0], step[1]);
            self.crossings(a, b, &mut crossings);
            for (i, &(share, spot)) in crossings.iter().enumerate() {
                let next = crossings.get(i + 1).map_or(1.0, |&(share, _)| share);
                let at = a.lerp(b, share);
                let goes_in = self.contains(a.lerp(b, f64::midpoint(share, next)));
                if inside && !goes_in {
                    piece.points.push(at);
                    piece.to = Some(spot);
                    pieces.push(std::mem::replace(
                        &mut piece,
                        Piece { points: Vec::new(), from: None, to: None },
                    ));
                } else if !inside && goes_in {
                    piece.points.push(at);
                    piece.from = Some(spot);
                }
                inside = goes_in;
            }
            if inside {
                piece.points.push(b);
            }
        }
        if piece.points.len() > 1 {
            pieces.push(piece);
        }
        for piece in &mut pieces {
            piece.points.dedup();
        }
        pieces.retain(|piece| piece.points.len() > 1);
        pieces
    }

    /// The parts of a stroke in the open; what lies wholly inside stays closed.
    pub(super) fn clip(&self, stroke: &Stroke) -> Vec<Stroke> {
        let mut line = stroke.points.clone();
        if stroke.closed {
            line.extend(stroke.points.first());
        }
        let mut pieces = self.pieces(&line);
        if stroke.closed && !pieces.is_empty() && pieces[0].from.is_none() {
            if pieces.len() == 1 && pieces[0].to.is_none() {
                return vec![stroke.clone()];
            }
            if let Some(last) = pieces.pop_if(|last| last.to.is_none()) {
                let mut points = last.points;
                points.extend(pieces[0].points.iter().skip(1));
                pieces[0].points = points;
            }
        }
        pieces.into_iter().map(|piece| Stroke::open(piece.points)).collect()
    }

    /// Where the piece from `a` to `b` crosses walls, as shares of the way, in order.
    fn crossings(&self, a: Point, b: Point, found: &mut Vec<(f64, Spot)>) {
        found.clear();
        let (low_x, high_x) = (a.x.min(b.x), a.x.max(b.x));
        let (low_y, high_y) = (a.y.min(b.y), a.y.max(b.y));
        let along = b - a;
        for wall in &self.walls {
            let (c, d) = (wall.from, wall.to);
            if c.x.min(d.x) > high_x || c.x.max(d.x) < low_x || c.y.min(d.y) > high_y || c.y.max(d.y) < low_y
            {
                continue;
            }
            let (left, right) = (along.cross(c - a), along.cross(d - a));
            let (before, after) = ((d - c).cross(a - c), (d - c).cross(b - c));
            if (left >= 0.0) == (right >= 0.0)
                || before == after
                || (before > 0.0 && after > 0.0)
                || (before < 0.0 && after < 0.0)
            {
                continue;
            }
            let along = wall.begins + c.distance(d) * left / (left - right);
            found.push((before / (before - after), Spot { ring: wall.ring, along }));
        }
        found.sort_by(|x, y| x.0.total_cmp(&y.0));
    }
}

fn walls_of(open: &[Region]) -> Vec<Wall> {
    let mut walls = Vec::new();
    let rings = open.iter().flat_map(|part| std::iter::once(&part.outer).chain(&part.holes));
    for (ring, corners) in rings.enumerate() {
        let mut begins = 0.0;
        for (from, to) in polygon::edges(corners) {
            walls.push(Wall { from, to, ring, begins });
            begins += from.distance(to);
        }
    }
    walls
}
