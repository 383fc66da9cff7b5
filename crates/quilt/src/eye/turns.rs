//! Whether the piece turns the way that was wished.

use super::frame::Frame;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use super::shapes::SeamLine;
use crate::wish::Spiral;
use plane::Point;

/// A seam that runs more across than along the way out belongs to a piece that was added; the
/// others are joins inside a unit.
const ACROSS: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// **Turns, if a spiral is wished.** A seam that runs across the way out (at 45° or more to it) has
/// a clockwise and an anticlockwise end about the centre, and later seams cover them: a T-join. When
/// each piece is added clockwise of the one before, its seam's clockwise end is covered first. The
/// number is (clockwise first − anticlockwise first) / all seams with an end covered, taken in the
/// wished sense. Good: at least .5; poor: under .2 (common practice, no source; which end counts is
/// our reading of it).
pub(super) fn turns(frame: &Frame<'_>) -> Row {
    let wished = match frame.wish.spiral {
        Spiral::None => return Row::not_wished(Quality::Turns, "No spiral is wished."),
        Spiral::Clockwise => true,
        Spiral::Anticlockwise => false,
    };
    let firsts: Vec<(bool, Point)> =
        frame.piece.seams.iter().filter_map(|seam| covered_first(seam, frame.centre)).collect();
    let right = firsts.iter().filter(|(clockwise, _)| *clockwise == wished).count() as f64;
    let all = firsts.len() as f64;
    let share = if all > 0.0 { (2.0 * right - all) / all } else { 0.0 };
    let values = vec![Value::at_least("turns", share, 0.5, 0.2)];
    let words = format!("{} of the pieces follow on in the wished sense.", percent(right / all.max(1.0)));
    let wrong = firsts.iter().filter(|(clockwise, _)| *clockwise != wished);
    Row::new(Quality::Turns, values, words, wrong.map(|(_, at)| EyeMark::Point(*at)).collect())
}

/// Whether the end that was covered first is the clockwise one, and where it lies.
fn covered_first(seam: &SeamLine, centre: Point) -> Option<(bool, Point)> {
    let (out, along) = (seam.a.midpoint(seam.b) - centre, seam.b - seam.a);
    if out.cross(along).abs() < ACROSS * out.length() * along.length() {
        return None;
    }
    let [start, end] = seam.covered.map(|order| order.unwrap_or(u32::MAX));
    if start == end {
        return None;
    }
    let start_is_clockwise = out.cross(along) > 0.0;
    let start_first = start < end;
    Some((start_first == start_is_clockwise, if start_first { seam.a } else { seam.b }))
}
