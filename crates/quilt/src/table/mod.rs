//! What lies on the table after a path of steps: tops, their faces, seams and free sides.
//!
//! A top is one table of named lines. Corners are crossings of two named lines and are never
//! stored, so faces that name the same line meet exactly, before and after any line is moved.
//! Outlines and faces run counter-clockwise.

mod apply;
mod boxes;
mod clip;
mod cut;
mod face;
mod finished;
mod frame;
mod measure;
mod pruned;
mod replay;
mod sew;
mod sound;
mod top;

pub use face::{Face, Seam};
pub use replay::{Halt, replay, replay_bytes};
pub use top::{Side, Top};

use crate::cloth::ClothId;
use crate::log::{Mark, Stage};
use plane::{Point, Pose};
use std::collections::BTreeMap;

/// What was cut for one patch. Never changes after it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// The cloth it was cut from.
    pub cloth: ClothId,
    /// From the patch's coordinates to the cloth's.
    pub at: Pose,
    /// What was cut, in the patch's coordinates.
    pub cut: Vec<Point>,
}

/// A part of one patch that was trimmed away.
#[derive(Clone, Debug, PartialEq)]
pub struct OffcutPart {
    /// The step that laid the patch.
    pub patch: Mark,
    /// What was trimmed off, in the patch's coordinates.
    pub piece: Vec<Point>,
    /// Where the patch lay when it was trimmed, from patch to top coordinates.
    pub pose: Pose,
}

/// What one trim took off: one part for each patch it went through, with the seams between.
#[derive(Clone, Debug, PartialEq)]
pub struct Offcut {
    /// The step that trimmed.
    pub by: Mark,
    /// Its parts.
    pub parts: Vec<OffcutPart>,
}

/// Everything on the table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    tops: BTreeMap<Mark, Top>,
    patches: BTreeMap<Mark, Patch>,
    offcuts: Vec<Offcut>,
    stages: Vec<Stage>,
    seams_sewn: u32,
}

impl Table {
    /// An empty table.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The tops on the table, by the step that began them.
    #[must_use]
    pub const fn tops(&self) -> &BTreeMap<Mark, Top> {
        &self.tops
    }

    /// One top.
    #[must_use]
    pub fn top(&self, mark: Mark) -> Option<&Top> {
        self.tops.get(&mark)
    }

    /// The piece: the top with the most patches, the oldest of equals.
    #[must_use]
    pub fn piece(&self) -> Option<(Mark, &Top)> {
        self.tops
            .iter()
            .max_by_key(|(mark, top)| (top.faces().len(), std::cmp::Reverse(**mark)))
            .map(|(mark, top)| (*mark, top))
    }

    /// What was cut for each patch, by the step that laid it.
    #[must_use]
    pub const fn patches(&self) -> &BTreeMap<Mark, Patch> {
        &self.patches
    }

    /// What was trimmed off, in order.
    #[must_use]
    pub fn offcuts(&self) -> &[Offcut] {
        &self.offcuts
    }

    /// Decisions about later stages, in order.
    #[must_use]
    pub fn stages(&self) -> &[Stage] {
        &self.stages
    }

    /// The top that has a free side of this name.
    #[must_use]
    pub fn top_with_side(&self, side: crate::log::Name) -> Option<Mark> {
        self.tops.iter().find(|(_, top)| top.has_side(side)).map(|(mark, _)| *mark)
    }
}
