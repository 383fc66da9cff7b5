//! The collision engine, and all that is known of it here. Its numbers have seven digits, so outlines are asked about
//! round a middle of their own.

use crate::shape::Shape;
use jagua_rs::collision_detection::hazards::filter::NoFilter;
use jagua_rs::collision_detection::hazards::{Hazard, HazardEntity};
use jagua_rs::collision_detection::{CDEConfig, CDEngine};
use jagua_rs::geometry::fail_fast::SPSurrogateConfig;
use jagua_rs::geometry::geo_enums::GeoPosition;
use jagua_rs::geometry::geo_traits::TransformableFrom;
use jagua_rs::geometry::primitives::{Point as EnginePoint, Rect, SPolygon};
use jagua_rs::geometry::{DTransformation, Transformation};
use plane::{Point, Region, Turn, Vec2, polygon};
use std::sync::Arc;

/// Discs by which most collisions are found at once.
const DISCS: SPSurrogateConfig = SPSurrogateConfig {
    n_pole_limits: [(32, 0.0), (12, 0.75), (6, 0.9)],
    ff_pole_area_ratio: 0.5,
    n_ff_piers: 0,
};

/// What may be in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Thing {
    Outside,
    Hole(usize),
    Piece(usize),
}

impl HazardEntity for Thing {
    fn scope(&self) -> GeoPosition {
        match self {
            Self::Outside => GeoPosition::Exterior,
            Self::Hole(_) | Self::Piece(_) => GeoPosition::Interior,
        }
    }

    fn is_dynamic(&self) -> bool {
        matches!(self, Self::Piece(_))
    }
}

/// An outline as the engine takes it; `None` when it takes none such.
fn polygon_of(points: &[Point]) -> Option<SPolygon> {
    let mut corners: Vec<EnginePoint> = Vec::with_capacity(points.len());
    for p in points {
        let corner = EnginePoint(p.x as f32, p.y as f32);
        if corners.last() != Some(&corner) {
            corners.push(corner);
        }
    }
    while corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    SPolygon::new(corners).ok()
}

/// A piece's outline as the engine takes it.
pub(crate) fn shape(points: &[Point]) -> Option<SPolygon> {
    let mut shape = polygon_of(points)?;
    shape.generate_surrogate(DISCS).ok()?;
    Some(shape)
}

/// What lies on one part of a cloth.
#[derive(Clone, Debug)]
pub(crate) struct Collisions {
    engine: CDEngine<Thing>,
    middle: Vec2,
}

impl Collisions {
    /// An empty part; `None` when the engine can't take its outline.
    pub(crate) fn new(region: &Region) -> Option<Self> {
        let (low, high) = polygon::bounds(&region.outer)?;
        let middle = low.midpoint(high).to_vec2();
        let ring = |points: &[Point]| polygon_of(&points.iter().map(|&p| p - middle).collect::<Vec<_>>());
        let mut things = vec![Hazard::new(Thing::Outside, Arc::new(ring(&region.outer)?))];
        for (i, hole) in region.holes.iter().enumerate() {
            // A hole that is nothing at the engine's digits hinders nothing.
            if let Some(hole) = ring(hole) {
                things.push(Hazard::new(Thing::Hole(i), Arc::new(hole)));
            }
        }
        let half = (0.5 * (high.x - low.x).max(high.y - low.y) * 1.01 + 0.01) as f32;
        let frame = Rect::try_new(-half, -half, half, half).ok()?;
        let config = CDEConfig { quadtree_depth: 5, cd_threshold: 16, item_surrogate_config: DISCS };
        Some(Self { engine: CDEngine::new(frame, things, config), middle })
    }

    fn transformation(&self, turn: Turn, by: Vec2) -> Transformation {
        let by = by - self.middle;
        let angle = turn.sin.atan2(turn.cos) as f32;
        DTransformation::new(angle, (by.x as f32, by.y as f32)).compose()
    }

    /// Whether a shape with its middle at `by` touches nothing. `room` is any copy of the shape's own outline.
    pub(crate) fn is_free(&self, shape: &Shape, room: &mut SPolygon, turn: Turn, by: Vec2) -> bool {
        let there = self.transformation(turn, by);
        if self.engine.detect_surrogate_collision(shape.engine.surrogate(), &there, &NoFilter) {
            return false;
        }
        room.transform_from(&shape.engine, &there);
        !self.engine.detect_poly_collision(room, &NoFilter)
    }

    pub(crate) fn put(&mut self, piece: usize, shape: &Shape, turn: Turn, by: Vec2) {
        let mut placed = shape.engine.clone();
        placed.transform_from(&shape.engine, &self.transformation(turn, by));
        self.engine.register_hazard(Hazard::new(Thing::Piece(piece), Arc::new(placed)));
    }

    pub(crate) fn take(&mut self, piece: usize) {
        if self.engine.haz_key(&Thing::Piece(piece)).is_some() {
            self.engine.deregister_hazard_by_entity(Thing::Piece(piece));
        }
    }
}
