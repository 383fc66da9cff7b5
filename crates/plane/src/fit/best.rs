//! Among the ways to lay a piece on a cloth, one that spoils the cloth least.
//!
//! Candidates are the poses with a side of the piece along a side of the cloth, pushed to a
//! stop ([`super::flush`]). They are ranked by how much of the piece's outline runs along the
//! cloth's edge; for the best few the rest of the cloth is really computed and judged by its
//! largest part.

use super::flush::{cloth_lines, longest_sides, stops_along};
use super::prepared::{FitCloth, FitPiece};
use super::{BUDGET, Fit, Turning, back, lies_in, try_fit};
use crate::{Line, Point, Pose, Region, Turn, largest_disc, polygon, remainder};

/// So many sides of the cloth, the longest, are tried.
const SIDES: usize = 12;
/// For so many candidates the remainder is computed.
const JUDGED: usize = 6;
/// Distance within which the piece's outline runs along the cloth's edge, in inches.
const ALONG: f64 = 1e-6;

/// [`super::best_fit`] for a prepared piece and cloth, with [`BUDGET`] where no candidate does.
#[must_use]
pub fn best_of(piece: &FitPiece, cloth: &FitCloth, turning: Turning, base: Turn) -> Option<Pose> {
    best_within(piece, cloth, turning, base, BUDGET).pose()
}

/// The best pose, or the first one that a search of so many steps finds.
pub(super) fn best_within(
    piece: &FitPiece,
    cloth: &FitCloth,
    turning: Turning,
    base: Turn,
    budget: u32,
) -> Fit {
    if cloth.summary.forbids(&piece.summary).is_some() {
        return Fit::No;
    }
    let mut candidates: Vec<(f64, Pose)> = flush_poses(piece, cloth, turning, base)
        .into_iter()
        .map(|pose| (share_along(piece, cloth, pose), pose))
        .collect();
    candidates.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut judged: Vec<(f64, Pose)> = Vec::with_capacity(JUDGED);
    for (share, pose) in candidates {
        if judged.len() == JUDGED {
            break;
        }
        let known = judged.iter().any(|(_, other)| same(*other, pose));
        if !known && lies_in_hull(piece, cloth, pose) && lies_in(piece, cloth, pose) {
            judged.push((share, pose));
        }
    }
    let best = judged
        .into_iter()
        .map(|(share, pose)| (usefulness_of_rest(piece, cloth, pose) + 0.1 * share, pose))
        .reduce(|best, next| if next.0 > best.0 { next } else { best });
    if let Some((_, pose)) = best {
        return Fit::Yes(back(piece, cloth, pose));
    }
    try_fit(piece, cloth, turning, base, budget)
}

fn flush_poses(piece: &FitPiece, cloth: &FitCloth, turning: Turning, base: Turn) -> Vec<Pose> {
    let mut found = Vec::new();
    for line in cloth_lines(cloth).into_iter().take(SIDES) {
        match turning {
            Turning::Any => {
                for side in longest_sides(&piece.hull.points).take(SIDES) {
                    let turn = line.direction().then(side.inverse());
                    stops_along(piece, cloth, line, turn, &mut found);
                }
            }
            Turning::HalfTurns => {
                stops_along(piece, cloth, line, base, &mut found);
                stops_along(piece, cloth, line, base.opposite(), &mut found);
            }
            Turning::None => stops_along(piece, cloth, line, base, &mut found),
        }
    }
    found
}

fn same(a: Pose, b: Pose) -> bool {
    (a.by - b.by).length() < ALONG && (a.turn.vec() - b.turn.vec()).length() < ALONG
}

/// The candidates keep inside the hull by construction; this is for rounding.
fn lies_in_hull(piece: &FitPiece, cloth: &FitCloth, pose: Pose) -> bool {
    piece.hull.points.iter().all(|&p| {
        let at = pose.apply(p).to_vec2();
        cloth.hull.sides.iter().all(|side| side.normal.dot(at) - side.at >= -crate::DECISION)
    })
}

/// The share of the piece's outline that runs along the edge of the cloth.
fn share_along(piece: &FitPiece, cloth: &FitCloth, pose: Pose) -> f64 {
    let placed = pose.apply_all(&piece.hull.points);
    let rings = || std::iter::once(&cloth.region.outer).chain(&cloth.region.holes);
    let mut along = 0.0;
    for (a, b) in polygon::edges(&placed) {
        let Some(line) = Line::through(a, b) else { continue };
        let (from, to) = (line.along(a), line.along(b));
        for (c, d) in rings().flat_map(|ring| polygon::edges(ring)) {
            if line.inside_by(c).abs() < ALONG && line.inside_by(d).abs() < ALONG {
                let (s, t) = (line.along(c), line.along(d));
                along += (to.min(s.max(t)) - from.max(s.min(t))).max(0.0);
            }
        }
    }
    along / polygon::perimeter(&placed)
}

/// Up to 2 when the rest is as good as the cloth was, less for every further part.
fn usefulness_of_rest(piece: &FitPiece, cloth: &FitCloth, pose: Pose) -> f64 {
    let outline: Vec<Point> = piece.outline.iter().map(|&p| p - piece.middle).collect();
    let rest = remainder(&cloth.region, &pose.apply_all(&outline));
    let total: f64 = rest.iter().map(Region::area).sum();
    let largest = rest.iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    let Some(largest) = largest.filter(|_| total > 0.0) else { return 2.0 };
    let tolerance = cloth.summary.diameter / 64.0;
    let radius = largest_disc(largest, tolerance).map_or(0.0, |disc| disc.radius);
    let parts = rest.len() as f64;
    radius / cloth.summary.disc.radius.max(radius) + largest.area() / total - 0.15 * (parts - 1.0)
}
