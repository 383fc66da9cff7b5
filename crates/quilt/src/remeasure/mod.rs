//! What was really sewn against what was planned: a seen outline is laid on the planned one, its
//! edges are matched to the sides, and every difference is named.
//!
//! The seen outline comes from anywhere (a photograph, a tracing), at any turn and place, with any
//! number of corners. It is laid on as the least squares of its distance from the planned sides,
//! begun from every turn that brings an edge in line with a side; then each side takes the straight
//! line of what lies along it. Another turn that is nearly as good is told, since a regular
//! piece can be laid on in many ways.

mod lay;
mod sides;
mod square;

use crate::length::fraction;
use plane::{Line, Point, Pose, Turn};
use serde::Serialize;
use thiserror::Error;

pub use lay::MOST_OFF_IN;
pub use square::{CornerTurn, Pair, SeamBehind, Square, Stretched};

/// A difference that a maker would mend, in inches: a thirty-second.
const WORTH_SAYING_IN: f64 = 1.0 / 32.0;

/// A seen outline, laid on the planned one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Laid {
    /// The motion that lays what was seen on what was planned.
    pub pose: Pose,
    /// How far it lies from the planned sides, root of the mean square, in inches.
    pub off_in: f64,
    /// Each planned side, in order.
    pub sides: Vec<SideSeen>,
    /// Each corner: that at the start of the side with the same place in the order.
    pub corners: Vec<CornerSeen>,
    /// Another turn, in degrees from this one, by which it would lie nearly as well.
    pub rival_deg: Option<f64>,
}

/// One side as it was seen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SideSeen {
    /// The line that it really lies on, in the planned piece's place; nothing where too little of
    /// it was seen.
    pub line: Option<Line>,
    /// Its planned length, in inches.
    pub planned_in: f64,
    /// Its length as seen, in inches: between its crossings with its neighbours.
    pub seen_in: f64,
    /// How far what was seen strays from its straight line, at most, in inches.
    pub strays_in: f64,
    /// How far its middle lies outside the straight line between its ends, by the parabola of least
    /// squares through what was seen, in inches; negative where it is hollow.
    pub bows_in: f64,
}

/// One corner as it was seen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CornerSeen {
    /// Where it was planned.
    pub planned: Point,
    /// Where it is.
    pub seen: Point,
}

/// Why an outline can't be laid on a plan.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LayProblem {
    /// Fewer than three corners, or numbers that are none.
    #[error("an outline needs three corners at least")]
    NoOutline,
    /// Its area is another one.
    #[error(
        "the outline seen has {seen:.0} square inches, and the piece is planned with {planned:.0}: that is another piece, or part of it is hidden"
    )]
    OtherSize {
        /// Area seen, in square inches.
        seen: f64,
        /// Area planned, in square inches.
        planned: f64,
    },
    /// Its form is another one.
    #[error("the outline seen lies {} from the planned one at its best: that is another piece, or something was sewn that isn't in the log", fraction(*off_in, 16))]
    OtherForm {
        /// Distance, root of the mean square, in inches.
        off_in: f64,
    },
}

/// Lays an outline that was seen on the planned one. Both are polygons in inches, counter-clockwise.
/// A regular piece can be laid on in several ways: then the one turned nearest to `near` is taken,
/// which is no turn at all for a picture taken the way the drawing stands.
///
/// # Errors
/// No outline, another size, another form.
pub fn lay_on(planned: &[Point], seen: &[Point], near: Turn) -> Result<Laid, LayProblem> {
    let (pose, off_in, rival_deg) = lay::best(planned, seen, near)?;
    let here = pose.apply_all(seen);
    let found = sides::along(planned, &here);
    let (sides, corners) = sides::measured(planned, &found);
    Ok(Laid { pose, off_in, sides, corners, rival_deg })
}

impl Laid {
    /// What came out otherwise than planned, in sentences; `names` has each side's name, in order.
    #[must_use]
    pub fn differences(&self, names: &[String]) -> Vec<String> {
        let mut told = Vec::new();
        for (side, name) in self.sides.iter().zip(names) {
            let longer = side.seen_in - side.planned_in;
            if side.line.is_none() {
                told.push(format!("Side {name} can't be seen well enough: it stays as planned."));
            } else if longer.abs() >= WORTH_SAYING_IN {
                let which = if longer > 0.0 { "longer" } else { "shorter" };
                told.push(format!("Side {name} came out {} {which}.", fraction(longer.abs(), 32)));
            }
            if side.strays_in > 2.0 * WORTH_SAYING_IN {
                told.push(format!(
                    "Side {name} isn't straight: it strays by {}, as where cloth ripples or a trim is due.",
                    fraction(side.strays_in, 16)
                ));
            }
        }
        for (corner, name) in self.corners.iter().zip(names) {
            let off = corner.planned.distance(corner.seen);
            if off >= 2.0 * WORTH_SAYING_IN {
                told.push(format!("The corner where side {name} begins lies {} off.", fraction(off, 16)));
            }
        }
        told
    }
}
