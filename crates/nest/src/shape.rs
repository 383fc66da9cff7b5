//! A piece ready for asking: grown by half the blade's room, and as the engine sees it.

use crate::engine;
use crate::problem::NestProblem;
use jagua_rs::geometry::primitives::SPolygon;
use plane::{Point, READING, Region, Turn, Vec2, polygon};

/// How far an outline is drawn in for the engine, so that what touches is free, in inches.
pub(crate) const TOUCH_IN: f64 = READING / 2.0;

/// A piece's shape.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    /// The piece's corners with its room, round the middle of its box.
    pub(crate) outline: Vec<Point>,
    /// From the piece's coordinates to those of `outline`: where its middle lies.
    pub(crate) middle: Vec2,
    /// Area of the piece itself, in square inches.
    pub(crate) area: f64,
    /// From its middle to its furthest corner.
    pub(crate) reach: f64,
    /// Directions of its sides.
    pub(crate) sides: Vec<(usize, Turn)>,
    /// How bad the spots are that it may lie over.
    pub(crate) tolerates: u8,
    /// As the engine sees it.
    pub(crate) engine: SPolygon,
}

impl Shape {
    pub(crate) fn new(
        name: &str,
        piece: &[Point],
        tolerates: u8,
        between_in: f64,
    ) -> Result<Self, NestProblem> {
        let too_fine = || NestProblem::TooFine { name: name.to_owned() };
        let (low, high) = polygon::bounds(piece).ok_or_else(too_fine)?;
        let middle = low.midpoint(high).to_vec2();
        let ring = |points: Vec<Point>| -> Vec<Point> { points.into_iter().map(|p| p - middle).collect() };
        let grown =
            if between_in > 0.0 { plane::grow_outline(piece, between_in / 2.0) } else { piece.to_vec() };
        let grown = crate::plain::larger(&grown);
        let drawn_in =
            plane::offset(&Region { outer: grown.clone(), holes: Vec::new() }, -TOUCH_IN, plane::MITRE_LIMIT);
        let largest =
            drawn_in.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())).ok_or_else(too_fine)?;
        let engine = engine::shape(&ring(largest.outer)).ok_or_else(too_fine)?;
        let outline = ring(grown);
        let sides = polygon::edges(&outline).enumerate();
        let sides = sides.filter_map(|(i, (a, b))| Some((i, Turn::towards(b - a)?))).collect();
        let reach = outline.iter().map(|p| p.to_vec2().length()).fold(0.0, f64::max);
        Ok(Self { middle, area: polygon::area(piece), reach, sides, tolerates, engine, outline })
    }

    /// Its corners at a turn.
    pub(crate) fn turned(&self, turn: Turn) -> Vec<Vec2> {
        self.outline.iter().map(|p| turn.apply(p.to_vec2())).collect()
    }
}
