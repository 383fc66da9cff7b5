//! What a proposal is to be bent to: its depth, its tilt, a cloth that must be in it, its pieces.

use super::asks::{cloth_of, length};
use grow::Bend;
use serde::Deserialize;
use utoipa::ToSchema;
use workroom::asks::{AskError, Asked};

/// Least and most finished depth that can be meant, in inches.
const DEPTHS_IN: [f64; 2] = [0.25, 24.0];
/// The most that an outer edge can turn from its side, in degrees.
const MOST_TILT_DEG: f64 = 45.0;
/// The most pieces of a unit.
const MOST_PIECES: usize = 12;

/// What proposals are bent to; what isn't named stays open.
#[derive(Deserialize, ToSchema)]
pub(crate) struct BendView {
    /// Finished depth, as a maker writes it.
    depth: Option<String>,
    /// How far the outer edge turns from the side, in degrees, counter-clockwise.
    tilt: Option<f64>,
    /// A cloth that must be in it.
    cloth: Option<String>,
    /// How many pieces it has.
    pieces: Option<usize>,
}

/// The bend, if one is asked for.
///
/// # Errors
/// A number outside its limits, or a cloth that has no such name.
pub(super) fn bend_of(asked: Option<&BendView>) -> Asked<Bend> {
    let Some(asked) = asked else { return Ok(Bend::default()) };
    let wrong = |what: String, hint: String| Err(AskError::Nonsense { what, hint });
    let depth_in = asked.depth.as_deref().map(length).transpose()?;
    let [least, most] = DEPTHS_IN;
    if let Some(depth) = depth_in.filter(|depth| !(least..=most).contains(depth)) {
        let hint = format!("Say a finished depth from {least} to {most} inches.");
        return wrong(format!("a piece can't be {depth} inches deep"), hint);
    }
    if let Some(tilt) = asked.tilt.filter(|tilt| !(-MOST_TILT_DEG..=MOST_TILT_DEG).contains(tilt)) {
        let hint = format!("Say a tilt from -{MOST_TILT_DEG} to {MOST_TILT_DEG} degrees.");
        return wrong(format!("an outer edge can't be tilted by {tilt} degrees"), hint);
    }
    if let Some(pieces) = asked.pieces.filter(|pieces| !(1..=MOST_PIECES).contains(pieces)) {
        return wrong(format!("a unit can't have {pieces} pieces"), format!("Say 1 to {MOST_PIECES}."));
    }
    let cloth = asked.cloth.as_deref().map(cloth_of).transpose()?;
    Ok(Bend { cloth, depth_in, tilt_deg: asked.tilt, pieces: asked.pieces })
}
