//! Loading a frame: which edge lies along the rollers, how often it is moved on, the clamps.

use super::super::backing::Backing;
use super::super::choice::{Frame, SeamRun};
use super::super::problem::LayersProblem;
use super::{BastingPlan, With};
use serde::Serialize;

/// How the layers are loaded.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Loading {
    /// Whether the back's width, and not its length, lies along the rollers.
    pub width_along_rollers: bool,
    /// The edge along the rollers, cut.
    pub along_rollers_in: f64,
    /// How much is rolled up, cut.
    pub rolled_in: f64,
    /// How often it must be moved on.
    pub advances: u32,
    /// Clamps at each side, at every advance.
    pub clamps_a_side: u32,
    /// Seams of the back, level with the rollers.
    pub seams: usize,
}

pub(super) fn frame(frame: &Frame, back: &Backing) -> Result<BastingPlan, LayersProblem> {
    let width_along_rollers = along_rollers(frame, back)?;
    let (width, length) = (back.rectangle.width_in, back.rectangle.length_in);
    let (along_rollers_in, rolled_in) = if width_along_rollers { (width, length) } else { (length, width) };
    let loading = Loading {
        width_along_rollers,
        along_rollers_in,
        rolled_in,
        advances: (rolled_in / frame.opening_in - 1e-9).ceil().max(1.0) as u32 - 1,
        clamps_a_side: (frame.opening_in / frame.clamp_spacing_in - 1e-9).ceil().max(1.0) as u32 + 1,
        seams: back.seams().map_or(0, |pieced| pieced.joins.len()),
    };
    Ok(BastingPlan { with: With::Frame(loading), spacing_in: 0.0, edge_in: 0.0 })
}

/// A seam lies along the rollers; without one, the longer edge that they take, which is moved on
/// less often (common practice, no source).
fn along_rollers(frame: &Frame, back: &Backing) -> Result<bool, LayersProblem> {
    let (width, length) = (back.rectangle.width_in, back.rectangle.length_in);
    let fits = |edge: f64| frame.roller_in.is_none_or(|rollers| edge <= rollers + 1e-9);
    let width_along = match back.seams().filter(|pieced| !pieced.joins.is_empty()) {
        Some(pieced) => pieced.seams == SeamRun::Across,
        None => (width >= length && fits(width)) || !fits(length),
    };
    let edge = if width_along { width } else { length };
    match frame.roller_in {
        Some(roller_in) if !fits(edge) => Err(LayersProblem::Rollers { needs_in: edge, roller_in }),
        _ => Ok(width_along),
    }
}
