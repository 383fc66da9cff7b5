//! Prints that rest before they come again.

use super::frame::{Frame, RINGS};
use super::row::{EyeMark, Quality, Row};
use super::scale::Value;
use super::shapes::{Shape, Touch};
use std::collections::BTreeMap;

/// Shapes that touch for no longer than this don't touch to the eye, in inches.
pub(super) const SEEN_IN: f64 = 1.0 / 8.0;

/// A print's largest gap on a ring may be so many times the even one.
const GAP: f64 = 1.6;

/// **Prints rest.** The same print never touches itself (patches of one print with more than 1/8
/// inch of seam between them), and where it comes k times on a ring, k at least 2, of four of equal
/// width, its largest gap there is at most 1.6 × 360/k degrees. Good: all; poor: any touch; uneven
/// gaps alone are fair (common practice, no source). A gate.
pub(super) fn prints_rest(frame: &Frame<'_>) -> Row {
    let shapes = &frame.piece.shapes;
    let same = |touch: &&Touch| match (shapes.get(touch.one), shapes.get(touch.other)) {
        (Some(one), Some(other)) => {
            touch.length_in > SEEN_IN && one.patch != other.patch && one.same_print(other)
        }
        _ => false,
    };
    let touching: Vec<&Touch> = frame.piece.touches.iter().filter(same).collect();
    let count = touching.len() as f64;
    let gap = widest_gap(frame);
    let values = vec![
        Value::costing("touching", count, if touching.is_empty() { 0.0 } else { 1.0 + 0.25 * count }),
        Value::at_most("widest gap", gap, GAP, 2.0 * GAP).mild(),
    ];
    let words = match touching.len() {
        0 if gap <= GAP => "No print touches itself, and each comes round evenly.".to_owned(),
        0 => format!(
            "No print touches itself, but one stays away for {gap:.1} times the even gap on its ring."
        ),
        1 => "One print touches itself.".to_owned(),
        n => format!("Prints touch themselves in {n} places."),
    };
    let marks = touching.iter().map(|touch| EyeMark::Line(touch.from, touch.to)).collect();
    Row::new(Quality::PrintsRest, values, words, marks)
}

/// The widest gap of any print on any ring, over the even gap of 360/k degrees; 0 when no print
/// comes twice on a ring.
fn widest_gap(frame: &Frame<'_>) -> f64 {
    let mut angles: BTreeMap<(usize, (bool, u64)), Vec<f64>> = BTreeMap::new();
    for (i, shape) in frame.piece.shapes.iter().enumerate() {
        let from_centre = frame.measures[i].centroid - frame.centre;
        let angle = from_centre.y.atan2(from_centre.x).to_degrees();
        let ring = frame.ring(i).min(RINGS - 1);
        angles.entry((ring, print_of(shape))).or_default().push(angle);
    }
    let repeated = angles.into_values().filter(|angles| angles.len() > 1);
    repeated.map(|angles| largest_gap(&angles) * angles.len() as f64 / 360.0).fold(0.0, f64::max)
}

/// The print, or the cloth where the print isn't known.
fn print_of(shape: &Shape) -> (bool, u64) {
    shape.print.map_or((false, shape.cloth.0), |print| (true, print))
}

/// The largest gap between angles round the circle, in degrees.
fn largest_gap(angles: &[f64]) -> f64 {
    let mut sorted = angles.to_vec();
    sorted.sort_by(f64::total_cmp);
    let round = sorted.first().zip(sorted.last()).map_or(0.0, |(first, last)| first + 360.0 - last);
    sorted.windows(2).map(|pair| pair[1] - pair[0]).fold(round, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_gap_goes_round_the_circle() {
        assert_eq!(largest_gap(&[-170.0, 170.0]), 340.0);
        assert_eq!(largest_gap(&[0.0, 90.0, -90.0]), 180.0);
    }
}
