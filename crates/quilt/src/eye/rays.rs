//! Rays from the first patch outward, and how many seams each crosses.

use super::frame::Frame;
use super::rank::mean_and_sd;
use super::ring::radius_along;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use plane::{Point, Vec2, polygon};

/// How many rays.
const RAYS: usize = 48;

/// **No side runs ahead.** Seams crossed on 48 rays from the first patch's centroid to the outline:
/// standard deviation over mean. Good: at most .15; poor: above .25 (common practice, no source).
pub(super) fn no_side_ahead(frame: &Frame<'_>) -> Row {
    let counts = crossings(frame);
    let (mean, sd) = mean_and_sd(&counts);
    let spread = if mean > 0.0 { sd / mean } else { 0.0 };
    let (most, least) =
        (counts.iter().copied().fold(0.0, f64::max), counts.iter().copied().fold(f64::MAX, f64::min));
    let values = vec![Value::at_most("spread", spread, 0.15, 0.25)];
    let words = format!(
        "From the first patch out there are {least:.0} to {most:.0} seams to cross: they differ by {}.",
        percent(spread)
    );
    Row::new(Quality::NoSideAhead, values, words, farthest_ray(frame, &counts))
}

/// **No log-cabin.** Mean of the same crossings over √(N/π), which is how many a piece of evenly
/// stout shapes has. Good: at most 1.7; poor: above 2.2 (common practice, no source). A gate.
pub(super) fn no_log_cabin(frame: &Frame<'_>) -> Row {
    let counts = crossings(frame);
    let ranks = mean_and_sd(&counts).0 / (frame.count() / std::f64::consts::PI).sqrt();
    let values = vec![Value::at_most("ranks", ranks, 1.7, 2.2)];
    let words = format!("Going outward the pieces lie {ranks:.2} times as close as chunky pieces would.");
    Row::new(Quality::NoLogCabin, values, words, farthest_ray(frame, &counts))
}

fn ray(i: usize) -> Vec2 {
    // Half a step off the axes, so that rays miss what is laid out square.
    let angle = std::f64::consts::TAU * (i as f64 + 0.5) / RAYS as f64;
    Vec2::new(angle.cos(), angle.sin())
}

fn origin(frame: &Frame<'_>) -> Point {
    frame.measures.get(frame.piece.first).map_or(frame.centre, |m| m.centroid)
}

/// Seams crossed on each ray. A ray enters and leaves every shape on its way but the first, which
/// it only leaves.
fn crossings(frame: &Frame<'_>) -> Vec<f64> {
    let from = origin(frame);
    let mut met = [0_u32; RAYS];
    for shape in &frame.piece.shapes {
        for (i, met) in met.iter_mut().enumerate() {
            *met += hits(&shape.points, from, ray(i));
        }
    }
    met.iter().map(|&met| f64::from(met.saturating_sub(1) / 2)).collect()
}

/// How often a ray meets an outline.
fn hits(points: &[Point], from: Point, direction: Vec2) -> u32 {
    let meets = |&(a, b): &(Point, Point)| {
        let (u, v) = (direction.cross(a - from), direction.cross(b - from));
        (u > 0.0) != (v > 0.0) && direction.dot(a.lerp(b, u / (u - v)) - from) > 0.0
    };
    u32::try_from(polygon::edges(points).filter(meets).count()).unwrap_or(u32::MAX)
}

/// The ray with the most crossings, as far as the outline.
fn farthest_ray(frame: &Frame<'_>, counts: &[f64]) -> Vec<EyeMark> {
    let most = (0..counts.len()).max_by(|&i, &j| counts[i].total_cmp(&counts[j]).then(j.cmp(&i)));
    let from = origin(frame);
    let line = |i: usize| {
        let direction = ray(i);
        EyeMark::Line(from, from + direction * radius_along(&frame.piece.outline, from, direction))
    };
    most.map(line).into_iter().collect()
}
