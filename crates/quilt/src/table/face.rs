//! The parts of a top: what shows of each patch, and the seams.

use crate::log::{Bound, End, Mark, Press};
use plane::Pose;

/// What shows of one patch.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// The step that laid the patch.
    pub patch: Mark,
    /// From the patch's coordinates to the top's.
    pub pose: Pose,
    pub(super) around: Vec<Bound>,
}

impl Face {
    /// The lines around it, counter-clockwise.
    #[must_use]
    pub fn around(&self) -> &[Bound] {
        &self.around
    }
}

/// One straight seam.
#[derive(Clone, Debug, PartialEq)]
pub struct Seam {
    /// Its place in the order of sewing, from 1.
    pub order: u32,
    /// Seam allowance in inches.
    pub allowance_in: f64,
    /// Which way it is pressed.
    pub press: Press,
    /// Length sewn, raw edge to raw edge less what is still open, in inches.
    pub sewn_in: f64,
    /// The lines it now ends at: the raw edges it ran to, or the seams and cuts that later crossed it.
    pub(super) ends: [Bound; 2],
    /// The seams that it crossed when it was sewn.
    pub crosses: Vec<crate::log::Name>,
    /// Where the sewing stopped short, and how much is still open, in inches.
    pub open: Option<(End, f64)>,
    /// The patch or unit that it added: the step that began it.
    pub added: Mark,
}

impl Seam {
    /// The lines it ends at now.
    #[must_use]
    pub const fn ends(&self) -> [Bound; 2] {
        self.ends
    }
}
