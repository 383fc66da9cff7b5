//! A strip set: strips sewn together side by side.
//!
//! Set coordinates: x along the strips from 0 to the length, y across them; the first strip's raw
//! edge lies at y = 0. With allowance s, a strip w wide shows w − 2s between two others and w − s
//! at the outside; the set is Σw − 2s(n − 1) high.

use super::pieced::pieced;
use plane::{Point, Pose, Region, Vec2};
use quilt::cloth::{Cloth, Kind, Part};
use thiserror::Error;

/// One strip: a rectangle from (0, 0) to (length, width) in its own coordinates.
#[derive(Clone, Copy, Debug)]
pub struct Strip<'a> {
    /// The cloth it is cut from.
    pub cloth: &'a Cloth,
    /// From the strip's coordinates to the cloth's.
    pub at: Pose,
    /// Its cut width in inches.
    pub width_in: f64,
}

/// Why strips can't be sewn into a set.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum StripSetProblem {
    /// It takes two.
    #[error("a strip set takes at least 2 strips, not {0}")]
    TooFew(usize),
    /// A strip that the seams would use up.
    #[error("strip {strip} is {width_in} wide; with seams of {allowance_in} nothing of it would show")]
    TooNarrow {
        /// Which strip, counted from 1.
        strip: usize,
        /// Its cut width in inches.
        width_in: f64,
        /// The seam allowance in inches.
        allowance_in: f64,
    },
    /// A length or allowance that makes no sense.
    #[error("a length of {length_in} in with seams of {allowance_in} in makes no strip set")]
    Nonsense {
        /// The length in inches.
        length_in: f64,
        /// The seam allowance in inches.
        allowance_in: f64,
    },
}

/// Sews strips of one length side by side, in order. The cloth's id is still to be given.
///
/// # Errors
/// Fewer than two strips, or one that its seams would use up.
pub fn strip_set(strips: &[Strip<'_>], length_in: f64, allowance_in: f64) -> Result<Cloth, StripSetProblem> {
    if strips.len() < 2 {
        return Err(StripSetProblem::TooFew(strips.len()));
    }
    let sound = length_in.is_finite() && length_in > 0.0 && allowance_in.is_finite() && allowance_in >= 0.0;
    if !sound {
        return Err(StripSetProblem::Nonsense { length_in, allowance_in });
    }
    let last = strips.len() - 1;
    let mut below_in = 0.0;
    let mut parts = Vec::with_capacity(strips.len());
    for (i, strip) in strips.iter().enumerate() {
        let seams = f64::from(u8::from(i > 0)) + f64::from(u8::from(i < last));
        let shows_in = strip.width_in - seams * allowance_in;
        if !(shows_in.is_finite() && shows_in > plane::READING) {
            let width_in = strip.width_in;
            return Err(StripSetProblem::TooNarrow { strip: i + 1, width_in, allowance_in });
        }
        let from = below_in + if i > 0 { allowance_in } else { 0.0 };
        let shows = rectangle(length_in, from, from + shows_in);
        let in_set = Pose { by: Vec2::new(0.0, below_in), ..Pose::STAY };
        let pose = strip.at.inverse().then(in_set);
        parts.push((strip.cloth, Part { cloth: strip.cloth.id, pose, shows }));
        below_in += strip.width_in - 2.0 * allowance_in;
    }
    let height_in = below_in + 2.0 * allowance_in;
    let outline = Region { outer: rectangle(length_in, 0.0, height_in), holes: Vec::new() };
    Ok(Cloth { kind: Kind::StripSet, ..pieced(outline, &parts) })
}

fn rectangle(length_in: f64, from: f64, to: f64) -> Vec<Point> {
    [(0.0, from), (length_in, from), (length_in, to), (0.0, to)].map(|(x, y)| Point::new(x, y)).to_vec()
}
