//! Minutes and hours, by the maker's own rates: one set of them, for what a stage says of itself and for
//! the whole.
//!
//! The usual minutes are common practice, no source: put your own in.

use super::StageName;
use crate::length::{MeasureProblem, within};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A kind of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkKind {
    /// Cutting a piece; pieces.
    Cut,
    /// Sewing and pressing a seam by machine; inches.
    Seam,
    /// Setting a pin and taking it out again; pins.
    Pin,
    /// Basting by hand; inches.
    BasteByHand,
    /// Quilting by machine; inches of line.
    Quilt,
    /// Starting and ending a line; starts.
    Start,
    /// Winding a bobbin and putting it in; bobbins.
    Bobbin,
    /// Sewing binding on by machine; inches.
    BindByMachine,
    /// Stitching down by hand what lies ready: a binding, a sleeve; inches.
    HandStitch,
    /// Turning an edge under and sewing it down by hand; inches.
    TurnUnder,
    /// Back stitch by hand; inches of one row.
    StitchRow,
}

/// So much of a kind of work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Work {
    /// In which stage.
    pub stage: StageName,
    /// What.
    pub kind: WorkKind,
    /// How much, in the kind's unit.
    pub amount: f64,
}

/// A maker's own rates.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Rates {
    /// Minutes to choose, cut and place a piece.
    pub minutes_per_piece: f64,
    /// Minutes an inch of seam, pinned, sewn and pressed.
    pub minutes_per_seam_in: f64,
    /// Minutes a pin, in and out.
    pub minutes_per_pin: f64,
    /// Minutes an inch basted by hand.
    pub minutes_per_basted_in: f64,
    /// Minutes an inch of quilting line.
    pub minutes_per_quilted_in: f64,
    /// Minutes a start and stop.
    pub minutes_per_start: f64,
    /// Minutes a bobbin, wound and put in.
    pub minutes_per_bobbin: f64,
    /// Minutes an inch of binding sewn on by machine, strips cut and joined.
    pub minutes_per_bound_in: f64,
    /// Minutes an inch stitched down by hand.
    pub minutes_per_hand_in: f64,
    /// Minutes an inch of edge turned under and sewn down.
    pub minutes_per_turned_in: f64,
    /// Minutes an inch of one stitched row.
    pub minutes_per_row_in: f64,
    /// What an hour is worth, in the maker's money; nothing said when `None`.
    pub per_hour: Option<f64>,
}

impl Default for Rates {
    fn default() -> Self {
        Self {
            minutes_per_piece: 1.5,
            minutes_per_seam_in: 0.15,
            minutes_per_pin: 0.2,
            minutes_per_basted_in: 0.05,
            minutes_per_quilted_in: 0.025,
            minutes_per_start: 0.5,
            minutes_per_bobbin: 2.0,
            minutes_per_bound_in: 0.2,
            minutes_per_hand_in: 0.5,
            minutes_per_turned_in: 1.5,
            minutes_per_row_in: 1.0,
            per_hour: None,
        }
    }
}

impl Rates {
    /// Minutes for all of this work.
    #[must_use]
    pub fn minutes_of(&self, work: &[Work]) -> f64 {
        work.iter().map(|part| part.amount * self.minutes(part.kind)).sum()
    }

    /// Minutes for one of a kind of work.
    #[must_use]
    pub const fn minutes(&self, kind: WorkKind) -> f64 {
        match kind {
            WorkKind::Cut => self.minutes_per_piece,
            WorkKind::Seam => self.minutes_per_seam_in,
            WorkKind::Pin => self.minutes_per_pin,
            WorkKind::BasteByHand => self.minutes_per_basted_in,
            WorkKind::Quilt => self.minutes_per_quilted_in,
            WorkKind::Start => self.minutes_per_start,
            WorkKind::Bobbin => self.minutes_per_bobbin,
            WorkKind::BindByMachine => self.minutes_per_bound_in,
            WorkKind::HandStitch => self.minutes_per_hand_in,
            WorkKind::TurnUnder => self.minutes_per_turned_in,
            WorkKind::StitchRow => self.minutes_per_row_in,
        }
    }

    /// # Errors
    /// A rate that is below 0 or isn't a number.
    pub fn check(&self) -> Result<(), MeasureProblem> {
        let minutes = [
            ("time for a piece", self.minutes_per_piece),
            ("time for an inch of seam", self.minutes_per_seam_in),
            ("time for a pin", self.minutes_per_pin),
            ("time for an inch of basting", self.minutes_per_basted_in),
            ("time for an inch of quilting", self.minutes_per_quilted_in),
            ("time for a start", self.minutes_per_start),
            ("time for a bobbin", self.minutes_per_bobbin),
            ("time for an inch of binding", self.minutes_per_bound_in),
            ("time for an inch by hand", self.minutes_per_hand_in),
            ("time for an inch turned under", self.minutes_per_turned_in),
            ("time for an inch of a stitched row", self.minutes_per_row_in),
        ];
        for (what, found) in minutes {
            within(what, found, [0.0, 1000.0], "from 0 to 1000 minutes")?;
        }
        within("worth of an hour", self.per_hour.unwrap_or(0.0), [0.0, 1e6], "from 0 to 1,000,000")?;
        Ok(())
    }
}

/// Hours, stage by stage.
pub(super) fn hours(work: &[Work], rates: &Rates) -> BTreeMap<StageName, f64> {
    let mut hours = BTreeMap::new();
    for part in work {
        *hours.entry(part.stage).or_insert(0.0) += rates.minutes_of(std::slice::from_ref(part)) / 60.0;
    }
    hours
}
