//! A mitred border of one width on paper: what it adds, and how long its strips are cut.
//!
//! At a corner of inside angle A the outer edge gains `w cot(A/2)` on each side, so the outer
//! perimeter is `P + 2w Σ cot(Aᵢ/2)` and the border's area `P w + w² Σ cot(Aᵢ/2)`. A strip that
//! finishes w wide is cut `W = w + 2s` wide, and its long raw edge is the short one and
//! `W (cot(A₁/2) + cot(A₂/2))`.

use super::super::piece::Piece;
use super::super::strip_problem::StripProblem;
use super::super::strips::{Order, Strip, strips};
use plane::{grow_outline, polygon};
use serde::Serialize;

/// One strip of a mitred border.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MitredSide {
    /// Finished length of the outer edge, in inches.
    pub outer_in: f64,
    /// Cut length of the outer raw edge, in inches.
    pub cut_long_in: f64,
    /// Cut length of the inner raw edge, in inches.
    pub cut_short_in: f64,
    /// Angle off square of its end at the start of the side, in degrees.
    pub start_off_square_deg: f64,
    /// The same at the end of the side.
    pub end_off_square_deg: f64,
}

/// A mitred border on paper.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BorderSum {
    /// Finished length all round outside, in inches.
    pub outer_perimeter_in: f64,
    /// Finished area of the border in square inches.
    pub area_sq_in: f64,
    /// Cut width of the strips in inches.
    pub cut_wide_in: f64,
    /// Its sides in order.
    pub sides: Vec<MitredSide>,
}

/// The sums for a mitred border that finishes `width_in` wide round a piece given by its *finished*
/// outline, which must be convex.
///
/// # Errors
/// As [`super::plan`].
pub fn border_sum(finished: &Piece, width_in: f64, allowance_in: f64) -> Result<BorderSum, StripProblem> {
    let corners = finished.corners();
    let raw = Piece::of_outline(&grow_outline(&corners, allowance_in))?;
    let sewn_in = [width_in + allowance_in];
    let made = strips(&raw, &sewn_in, allowance_in, Order::Mitred, 0, allowance_in)?;
    let outer = grow_outline(&corners, width_in);
    let lengths = polygon::edges(&outer).map(|(a, b)| a.distance(b));
    let side = |(strip, outer_in): (&Strip, f64)| MitredSide {
        outer_in,
        cut_long_in: strip.cut_outer_in.max(strip.cut_inner_in),
        cut_short_in: strip.cut_outer_in.min(strip.cut_inner_in),
        start_off_square_deg: 90.0 - strip.start_deg,
        end_off_square_deg: 90.0 - strip.end_deg,
    };
    Ok(BorderSum {
        outer_perimeter_in: polygon::perimeter(&outer),
        area_sq_in: polygon::area(&outer) - polygon::area(&corners),
        cut_wide_in: width_in + 2.0 * allowance_in,
        sides: made.iter().zip(lengths).map(side).collect(),
    })
}
