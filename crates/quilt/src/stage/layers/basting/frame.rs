//! Loading a frame: which edge lies along the rollers, how often it is moved on, the clamps.

use super::super::backing::Backing;
use super::super::choice::{Frame, SeamRun};
use super::super::problem::LayersProblem;
use super::{BastingPlan, With};
use crate::length::{fraction, round_up};
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
    };
    Ok(in_words(loading, back))
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

fn in_words(loading: Loading, back: &Backing) -> BastingPlan {
    let edge = if loading.width_along_rollers { "width" } else { "length" };
    let along = fraction(round_up(loading.along_rollers_in, 8), 8);
    let seams = back.seams().map_or(0, |pieced| pieced.joins.len());
    let seam = match seams {
        0 => "",
        1 => ", its seam level with them",
        _ => ", its seams level with them",
    };
    let Loading { advances, clamps_a_side, .. } = loading;
    BastingPlan {
        with: With::Frame(loading),
        steps: vec![
            format!(
                "Fix the back to the rollers by its {edge}, {along} inches{seam}, square and evenly taut."
            ),
            "Float the batting and the top on it, and baste along the first edge.".to_owned(),
            format!(
                "Clamp the back at both sides, {clamps_a_side} clamps a side, firm but not stretched; move on \
                 {advances} times."
            ),
        ],
        cautions: vec![
            "No pins: the layers are held by the rollers and the clamps.".to_owned(),
            "Keep the clamps clear of the foot, and hair and sleeves clear of the rollers.".to_owned(),
        ],
    }
}
