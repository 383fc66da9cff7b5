//! The collision engine, and all that is known of it here. Its numbers have seven digits, so outlines are asked about
//! round a middle of their own.

use crate::shape::Shape;
use jagua_rs::collision_detection::hazards::collector::BasicHazardCollector;
use jagua_rs::collision_detection::hazards::filter::HazardFilter;
use jagua_rs::collision_detection::hazards::{HazKey, Hazard, HazardEntity};
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
pub(crate) enum Thing {
    /// All round the part.
    Outside,
    /// A hole of it, or a spot, and how bad: nothing tolerates a hole.
    Bad(usize, u16),
    /// Another piece.
    Piece(usize),
}

/// How bad a hole is: worse than any spot.
const HOLE: u16 = 1 + u8::MAX as u16;

impl HazardEntity for Thing {
    fn scope(&self) -> GeoPosition {
        match self {
            Self::Outside => GeoPosition::Exterior,
            Self::Bad(..) | Self::Piece(_) => GeoPosition::Interior,
        }
    }

    fn is_dynamic(&self) -> bool {
        matches!(self, Self::Piece(_))
    }
}

/// What was met while asking; any will do, it is kept for speed.
pub(crate) type Met = BasicHazardCollector<Thing>;

/// What is in nobody's way: spots up to this bad, and the piece itself.
struct Tolerated(u8, Option<usize>);

impl HazardFilter<Thing> for Tolerated {
    fn is_irrelevant(&self, _: HazKey, thing: &Thing) -> bool {
        match *thing {
            Thing::Outside => false,
            Thing::Bad(_, badness) => badness <= u16::from(self.0),
            Thing::Piece(piece) => self.1 == Some(piece),
        }
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
    bad: Vec<Arc<SPolygon>>,
    pieces: Vec<Option<Arc<SPolygon>>>,
    pub(crate) middle: Vec2,
}

impl Collisions {
    /// An empty part with its spots and how bad they are; `None` when the engine can't take its outline.
    pub(crate) fn new(region: &Region, spots: &[(Vec<Point>, u8)]) -> Option<Self> {
        let (low, high) = polygon::bounds(&region.outer)?;
        let middle = low.midpoint(high).to_vec2();
        let ring = |points: &[Point]| -> Vec<Point> { points.iter().map(|&p| p - middle).collect() };
        let mut things = vec![Hazard::new(Thing::Outside, Arc::new(polygon_of(&ring(&region.outer))?))];
        let holes = region.holes.iter().map(|hole| (hole, HOLE));
        let spots = spots.iter().map(|(outline, badness)| (outline, u16::from(*badness)));
        let mut bad = Vec::new();
        for (outline, badness) in holes.chain(spots) {
            let mut outline = ring(outline);
            if polygon::area(&outline) < 0.0 {
                outline.reverse();
            }
            // What is nothing at the engine's digits hinders nothing.
            if let Some(outline) = shape(&outline) {
                let outline = Arc::new(outline);
                things.push(Hazard::new(Thing::Bad(bad.len(), badness), Arc::clone(&outline)));
                bad.push(outline);
            }
        }
        let half = (0.5 * (high.x - low.x).max(high.y - low.y) * 1.01 + 0.01) as f32;
        let frame = Rect::try_new(-half, -half, half, half).ok()?;
        let config = CDEConfig { quadtree_depth: 5, cd_threshold: 16, item_surrogate_config: DISCS };
        Some(Self { engine: CDEngine::new(frame, things, config), bad, pieces: Vec::new(), middle })
    }

    fn transformation(&self, turn: Turn, by: Vec2) -> Transformation {
        let by = by - self.middle;
        let angle = turn.sin.atan2(turn.cos) as f32;
        DTransformation::new(angle, (by.x as f32, by.y as f32)).compose()
    }

    /// Whether a shape with its middle at `by` touches nothing. `room` is any copy of the shape's own outline.
    pub(crate) fn is_free(&self, shape: &Shape, room: &mut SPolygon, turn: Turn, by: Vec2) -> bool {
        let (there, tolerated) = (self.transformation(turn, by), Tolerated(shape.tolerates, None));
        if self.engine.detect_surrogate_collision(shape.engine.surrogate(), &there, &tolerated) {
            return false;
        }
        room.transform_from(&shape.engine, &there);
        !self.engine.detect_poly_collision(room, &tolerated)
    }

    /// Tells each thing that a piece would lie in, with the piece's own outline there and that of the thing where it
    /// has one, both about the part's middle, until `seen` has seen enough.
    pub(crate) fn each(
        &self,
        shape: &Shape,
        piece: usize,
        (room, met): (&mut SPolygon, &mut Met),
        turn: Turn,
        by: Vec2,
        seen: &mut dyn FnMut(Thing, &SPolygon, Option<&SPolygon>) -> bool,
    ) {
        let (there, tolerated) = (self.transformation(turn, by), Tolerated(shape.tolerates, Some(piece)));
        room.transform_from(&shape.engine, &there);
        let room = &*room;
        met.clear();
        let mut told = |thing: Thing| {
            let other = match thing {
                Thing::Outside => None,
                Thing::Bad(bad, _) => Some(&*self.bad[bad]),
                Thing::Piece(piece) => self.pieces[piece].as_deref(),
            };
            seen(thing, room, other)
        };
        // Most are found by a few discs.
        if !self.engine.collect_surrogate_collisions_until(room, &tolerated, met, &mut told) {
            let _ = self.engine.collect_poly_collisions_until(room, &tolerated, met, told);
        }
    }

    pub(crate) fn put(&mut self, piece: usize, shape: &Shape, turn: Turn, by: Vec2) {
        let mut placed = shape.engine.clone();
        placed.transform_from(&shape.engine, &self.transformation(turn, by));
        let placed = Arc::new(placed);
        self.engine.register_hazard(Hazard::new(Thing::Piece(piece), Arc::clone(&placed)));
        if self.pieces.len() <= piece {
            self.pieces.resize(piece + 1, None);
        }
        self.pieces[piece] = Some(placed);
    }

    pub(crate) fn take(&mut self, piece: usize) {
        if self.pieces.get_mut(piece).and_then(Option::take).is_some() {
            self.engine.deregister_hazard_by_entity(Thing::Piece(piece));
        }
    }
}
