//! How much each quality counts in the total cost. Frozen: figures reported with other weights
//! can't be compared. The gates of the table count double.

use super::{EyeCheck, Quality};
use crate::eye::scale::MOST_COST;

/// The weight of a quality.
#[must_use]
pub const fn weight(quality: Quality) -> f64 {
    match quality {
        Quality::NoLogCabin | Quality::NoBars | Quality::Wedges | Quality::PrintsRest => 2.0,
        Quality::Round
        | Quality::FirstInTheMiddle
        | Quality::NoSideAhead
        | Quality::SizeInStep
        | Quality::NoLongLine
        | Quality::Balance
        | Quality::Drift
        | Quality::EdgesRead
        | Quality::HotSpots
        | Quality::DirectionsMixed
        | Quality::Turns => 1.0,
    }
}

/// The total cost: 0 is perfect. Each row costs the sum over its numbers, 0 at good and 1 at poor,
/// at most 3, times its weight.
#[must_use]
pub fn total_cost(check: &EyeCheck) -> f64 {
    check
        .rows
        .iter()
        .map(|row| weight(row.quality) * row.values.iter().map(|v| v.cost).sum::<f64>().min(MOST_COST))
        .sum()
}
