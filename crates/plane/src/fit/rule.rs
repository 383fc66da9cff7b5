//! What the shift of a piece must obey at a given turn.
//!
//! Every rule is a half-plane for the shift `t`, and says how it changes as the piece turns
//! while the deciding corner stays the same: `normal(u) · t >= constant - k · u`, where `u` is
//! the turn as a unit vector. A wall of the cloth keeps its normal; a side of the piece takes it
//! along.

use crate::slack::HalfPlane;
use crate::{Point, Turn, Vec2};

/// One rule.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Rule<'a> {
    /// All of `body` must stay inside a fixed half-plane.
    Wall { wall: HalfPlane, body: &'a [Point] },
    /// All of `obstacle` must stay outside a side of the piece.
    Side { side: HalfPlane, obstacle: &'a [Point] },
}

/// A rule at one turn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RuleAt {
    pub(crate) plane: HalfPlane,
    pub(crate) constant: f64,
    pub(crate) k: Vec2,
    pub(crate) turns: bool,
}

impl Rule<'_> {
    pub(crate) fn at(&self, u: Turn) -> RuleAt {
        match *self {
            Self::Wall { wall, body } => {
                let seen = u.inverse().apply(wall.normal);
                let (p, reach) = lowest(body, seen);
                let n = wall.normal;
                RuleAt {
                    plane: HalfPlane { normal: n, at: wall.at - reach },
                    constant: wall.at,
                    k: Vec2::new(n.dot(p), p.cross(n)),
                    turns: false,
                }
            }
            Self::Side { side, obstacle } => {
                let normal = u.apply(side.normal);
                let (q, reach) = lowest(obstacle, -normal);
                let m = side.normal;
                RuleAt {
                    plane: HalfPlane { normal, at: -reach - side.at },
                    constant: -side.at,
                    k: -Vec2::new(m.dot(q), m.cross(q)),
                    turns: true,
                }
            }
        }
    }
}

/// The corner furthest against `normal`, and its place along it.
fn lowest(points: &[Point], normal: Vec2) -> (Vec2, f64) {
    let mut best = (Vec2::default(), f64::INFINITY);
    for p in points {
        let reach = normal.x * p.x + normal.y * p.y;
        if reach < best.1 {
            best = (p.to_vec2(), reach);
        }
    }
    best
}
