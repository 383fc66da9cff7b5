//! From a polygon to a rectangle by large corners, sewn on and trimmed.
//!
//! Every side that doesn't lie on the rectangle gets a piece, in turn: in line with its neighbours
//! where they are still raw, and half an inch beyond the rectangle elsewhere, so that the trim makes
//! it true. Where one side faces a corner of the rectangle its piece is a triangle; where several do,
//! each after the first runs on over the one before. The rectangle's sides lie on the straight grain.

use super::SquareProblem;
use super::goal::Target;
use crate::cloth::{Cloth, ClothId};
use crate::log::{Mark, Name, Press, Sewing, Step};
use crate::stage::cutting::{Lie, place_all};
use crate::stage::piece::Piece;
use plane::{DECISION, Line, Point, Pose, READING, clip_half_plane, polygon};
use serde::Serialize;

/// How far corners reach beyond the rectangle before they are trimmed, in inches.
const BEYOND_IN: f64 = 0.5;

/// One corner piece.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CornerPiece {
    /// Which side it is sewn to, from 0.
    pub side: usize,
    /// The shape it is cut to, in its own coordinates, x along the sewn edge.
    pub cut: Vec<Point>,
    /// Cut size along and across the straight grain, in inches.
    pub cut_size_in: [f64; 2],
    /// Whether the cloth has room for it; `None` when no cloth was named.
    pub has_room: Option<bool>,
}

/// The pieces with the steps that sew them on.
pub(super) struct Corners {
    pub(super) pieces: Vec<CornerPiece>,
    pub(super) steps: Vec<Step>,
}

pub(super) fn corners(
    piece: &Piece,
    target: &Target,
    cloth: Option<&Cloth>,
    allowance_in: f64,
    first: Mark,
) -> Result<Corners, SquareProblem> {
    let on_target = |line: &Line| {
        let beside = |own: &Line| own.turn_cosine(*line) > 1.0 - 1e-9 && (own.at - line.at).abs() < READING;
        target.lines.iter().any(beside)
    };
    let mut raw: Vec<Option<Line>> = piece.sides.iter().map(|side| Some(side.line)).collect();
    let beyond: Vec<Line> = target.lines.iter().map(|line| line.inward(-BEYOND_IN)).collect();
    let big = crate::stage::strips::corners_of(&beyond);
    let grain = target.lines[0].direction();
    let (mut shapes, mut lies, mut sides) = (Vec::new(), Vec::new(), Vec::new());
    for (i, side) in piece.sides.iter().enumerate().filter(|(_, side)| !on_target(&side.line)) {
        raw[i] = None;
        let edge = side.line.inward(2.0 * allowance_in).reversed();
        let around = std::iter::once(edge).chain(raw.iter().copied().flatten());
        let placed = around.fold(big.clone(), |kept, line| clip_half_plane(&kept, line, DECISION));
        let sewn = polygon::edges(&placed)
            .position(|(a, b)| [a, b].iter().all(|&p| edge.inside_by(p).abs() < 1e-6))
            .ok_or(SquareProblem::NoCorner { side: i + 1 })?;
        let placed: Vec<Point> = (0..placed.len()).map(|k| placed[(sewn + k) % placed.len()]).collect();
        let lies_at = Pose::carrying(edge.direction(), Point::ORIGIN, placed[0]);
        shapes.push(lies_at.inverse().apply_all(&placed));
        let own_grain = lies_at.turn.inverse().then(grain);
        let base = own_grain.inverse().then(cloth.map_or(plane::Turn::NONE, |cloth| cloth.grain));
        lies.push((own_grain, Lie { base, half_turns: true }));
        sides.push(i);
    }
    let bases: Vec<Lie> = lies.iter().map(|lie| lie.1).collect();
    let places = cloth.map(|cloth| place_all(&shapes, &bases, cloth));
    let mut made = Corners { pieces: Vec::new(), steps: Vec::new() };
    for (k, &side) in sides.iter().enumerate() {
        let place = places.as_ref().map(|places| places[k]);
        let at = place.flatten().unwrap_or(Pose::STAY);
        let laid = Mark(first.0 + made.steps.len() as u32);
        let cloth = cloth.map_or(ClothId(0), |cloth| cloth.id);
        made.steps.push(Step::Lay { cloth, at, cut: shapes[k].clone() });
        made.steps.push(Step::Sew(Sewing::Join {
            onto: piece.sides[side].name,
            with: Name::new(laid, 0),
            slide_in: 0.0,
            allowance_in,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        }));
        let level: Vec<Point> =
            Pose { turn: lies[k].0.inverse(), by: plane::Vec2::default() }.apply_all(&shapes[k]);
        let (lo, hi) = polygon::bounds(&level).unwrap_or_default();
        made.pieces.push(CornerPiece {
            side,
            cut: shapes[k].clone(),
            cut_size_in: [hi.x - lo.x, hi.y - lo.y],
            has_room: place.map(|place| place.is_some()),
        });
    }
    Ok(made)
}
