//! Whether a top on the table is squared: four sides and four right corners, lying anyhow.

use super::problem::CentresProblem;
use plane::{Pose, Vec2};
use quilt::log::Mark;
use quilt::table::Top;

/// How far out of square a corner may be over the length of the shorter side at it: 1/32 inch, what
/// can be eased (common practice, no source).
const OUT_OF_SQUARE_IN: f64 = 1.0 / 32.0;

/// A rectangle on the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Square {
    /// Raw length of its lower edge, in inches.
    pub(crate) raw_width_in: f64,
    /// Raw length of its other edges, in inches.
    pub(crate) raw_height_in: f64,
    /// From the top's coordinates to those in which its lower left raw corner is the origin and its
    /// lower edge runs along x.
    pub(crate) upright: Pose,
}

impl Square {
    /// A top as a rectangle; the side that faces down most nearly is its lower edge.
    pub(crate) fn of(top: &Top, mark: Mark) -> Result<Self, CentresProblem> {
        let sides = top.sides();
        if sides.len() != 4 || sides.iter().any(|side| side.name().is_none()) {
            return Err(CentresProblem::NotSquared { top: mark, sides: sides.len(), out_in: 0.0 });
        }
        let lines: Vec<_> = sides.iter().filter_map(|side| top.line(side.bound)).collect();
        for (i, line) in lines.iter().enumerate() {
            let j = (i + 1) % 4;
            let shorter = sides[i].length_in().min(sides[j].length_in());
            let out_in = line.turn_cosine(lines[j]).abs() * shorter;
            if out_in > OUT_OF_SQUARE_IN {
                return Err(CentresProblem::NotSquared { top: mark, sides: 4, out_in });
            }
        }
        // The lower edge has its inside above it.
        let up = |i: usize| lines[i].normal.sin;
        let low = (0..4).max_by(|&a, &b| up(a).total_cmp(&up(b))).unwrap_or(0);
        let turn = lines[low].direction().inverse();
        let from = sides[low].from.to_vec2();
        Ok(Self {
            raw_width_in: sides[low].length_in(),
            raw_height_in: sides[(low + 1) % 4].length_in(),
            upright: Pose { turn, by: Vec2::new(0.0, 0.0) - turn.apply(from) },
        })
    }
}
