//! A facing: strips sewn on and turned wholly to the back, the other finish for odd shapes.
//!
//! Nothing of it shows on the front, and the piece ends at the seam line: it gets a seam smaller on
//! every side. Strips are folded in half lengthwise, sewn on side by side, and their ends trimmed to
//! the neighbouring sides. At an inside corner a strip goes on into the cloth, so that the two meet.

use super::corner::{half_cotangent, inside_angles};
use super::{BindingChoice, BindingProblem, corner, room, supply};
use crate::length::within;
use crate::sums;
use plane::{Point, polygon};
use serde::Serialize;

/// One strip of a facing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FacingStrip {
    /// For which side, from 1.
    pub side: usize,
    /// How long to cut it.
    pub cut_length_in: f64,
    /// How many lengths of cloth that takes, joined straight.
    pub lengths: u32,
}

/// A facing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FacingPlan {
    /// How wide every strip is cut.
    pub cut_width_in: f64,
    /// How deep it lies on the back, from the finished edge.
    pub depth_finished_in: f64,
    /// The strips, one for each side.
    pub strips: Vec<FacingStrip>,
    /// The outline of the finished piece.
    pub finished_outline: Vec<Point>,
    /// Cloth for the strips, in square inches, as cut.
    pub area_cut_in2: f64,
}

/// The facing of a trimmed, raw outline.
pub(super) fn face(
    choice: &BindingChoice,
    outline: &[Point],
    seam_in: f64,
) -> Result<FacingPlan, BindingProblem> {
    let must = "from 1/4 to 20 inches; cut the facing wider or narrower";
    let depth = within("depth of the facing", choice.facing_width_in / 2.0 - seam_in, [0.25, 20.0], must)?;
    let angles = inside_angles(outline);
    let (_, curves) = corner::corners(outline, choice, depth);
    super::check_curves(choice, &curves)?;
    room::check_necks(outline, &angles, depth + seam_in)?;
    let beyond = |i: usize| {
        let angle = angles[i % angles.len()];
        if angle > 180.0 { (depth + seam_in) * half_cotangent(angle).abs() } else { 0.0 }
    };
    let mut strips = Vec::with_capacity(outline.len());
    for (i, (a, b)) in polygon::edges(outline).enumerate() {
        let cut_length_in = a.distance(b) + beyond(i) + beyond(i + 1);
        let lengths = sums::panels_across(cut_length_in, choice.usable_in, seam_in)?;
        strips.push(FacingStrip { side: i + 1, cut_length_in, lengths });
    }
    // Strips at hand are joined straight into one and cut for the sides.
    let long = strips.iter().map(|strip| strip.cut_length_in).sum();
    supply::check_at_hand(choice, long, 2.0 * seam_in)?;
    let area_cut_in2 = strips.iter().map(|strip| strip.cut_length_in * choice.facing_width_in).sum();
    Ok(FacingPlan {
        cut_width_in: choice.facing_width_in,
        depth_finished_in: depth,
        strips,
        finished_outline: room::inner_edge(outline, &angles, seam_in),
        area_cut_in2,
    })
}
