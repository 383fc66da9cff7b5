//! Whether there is room for a binding: on short sides, and where two sides lie near each other.

use super::BindingProblem;
use super::corner::half_cotangent;
use crate::sums::LAP_IN;
use plane::{Point, Region, RegionProblem, polygon};

/// Refuses a side that the folds at its ends use up: `deep (cot A1/2 + cot A2/2)` on the back. Of several
/// it tells the tightest.
pub(super) fn check_sides(
    outline: &[Point],
    angles: &[f64],
    deep_in: f64,
    [seam_in, thickness_in]: [f64; 2],
) -> Result<(), BindingProblem> {
    let short = polygon::edges(outline).enumerate().filter_map(|(i, (a, b))| {
        let (length_in, folds) =
            (a.distance(b), half_cotangent(angles[i]) + half_cotangent(angles[(i + 1) % angles.len()]));
        let needs_in = deep_in * folds;
        (needs_in > length_in).then(|| (i + 1, length_in, needs_in, length_in / folds - LAP_IN))
    });
    // What is advised for the tightest side does for the others.
    match short.min_by(|a, b| a.3.total_cmp(&b.3)) {
        None => Ok(()),
        Some((side, length_in, needs_in, most_finished_in)) => Err(BindingProblem::ShortSide {
            side,
            length_in,
            needs_in,
            most_finished_in,
            seam_in,
            thickness_in,
        }),
    }
}

/// Refuses an outline on whose back the finishes of two sides meet.
pub(super) fn check_necks(outline: &[Point], angles: &[f64], deep_in: f64) -> Result<(), BindingProblem> {
    let inner = inner_edge(outline, angles, deep_in);
    let n = outline.len();
    let runs_back = |i: &usize| {
        let next = (i + 1) % n;
        (outline[next] - outline[*i]).dot(inner[next] - inner[*i]) < 0.0
    };
    if let Some(used_up) = (0..n).find(runs_back) {
        // What lies at both its ends has met.
        let (first, second) = ((used_up + n - 1) % n + 1, (used_up + 1) % n + 1);
        return Err(BindingProblem::Neck { first, second, deep_in });
    }
    match Region::try_new(inner, Vec::new()) {
        Err(RegionProblem::SidesCross { first, second, .. }) => {
            Err(BindingProblem::Neck { first, second, deep_in })
        }
        _ => Ok(()),
    }
}

/// The line `deep_in` inside every side, corner by corner; it crosses itself where there is no room.
pub(super) fn inner_edge(outline: &[Point], angles: &[f64], deep_in: f64) -> Vec<Point> {
    let n = outline.len();
    (0..n)
        .map(|i| {
            let along = outline[(i + 1) % n] - outline[i];
            let unit = along * (1.0 / along.length());
            outline[i] + unit * (deep_in * half_cotangent(angles[i])) + unit.left() * deep_in
        })
        .collect()
}
