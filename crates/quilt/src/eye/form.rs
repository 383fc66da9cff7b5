//! The form of the pieces: no bars, wedges rather than strips, and a size that grows in step.

use super::frame::Frame;
use super::rank::{mean_and_sd, median};
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use plane::{Point, Vec2, polygon};

/// A shape with less than this of width over diameter is a bar. A square has .71, a bar of one to
/// four .24.
const BAR: f64 = 0.25;

/// Two long sides that meet at less than this make a strip, in degrees.
const STRIP_DEG: f64 = 12.0;

/// **No bars.** Least width over diameter, m / D: the share of the area in shapes under .25, the
/// median, and the least. Good: at most .15, at least .40, at least .15; poor: a share above .30
/// (common practice, no source). A gate.
pub(super) fn no_bars(frame: &Frame<'_>) -> Row {
    let is_bar = |i: usize| frame.measures[i].stoutness < BAR;
    let barred = frame.measures.iter().filter(|m| m.stoutness < BAR).map(|m| m.area).fold(0.0, |a, b| a + b)
        / frame.area;
    let all: Vec<f64> = frame.measures.iter().map(|m| m.stoutness).collect();
    let (middle, least) = (median(&all), all.iter().copied().fold(1.0, f64::min));
    let values = vec![
        Value::at_most("bars", barred, 0.15, 0.30),
        Value::at_least("median", middle, 0.40, 0.0).mild(),
        Value::at_least("least", least, 0.15, 0.0).mild(),
    ];
    let words = format!(
        "Bars make up {} of the piece; the middling shape is {middle:.2} as wide as long, the thinnest {least:.2}.",
        percent(barred)
    );
    Row::new(Quality::NoBars, values, words, frame.outlines(is_bar))
}

/// **Wedges, not strips.** Share of the shapes whose two longest sides lie on lines that meet at
/// 12° or more. Good: at least .65; poor: under .50 (common practice, no source). A gate.
pub(super) fn wedges(frame: &Frame<'_>) -> Row {
    let is_wedge = |i: usize| long_sides_meet_deg(&frame.piece.shapes[i].points) >= STRIP_DEG;
    let share = (0..frame.measures.len()).filter(|&i| is_wedge(i)).count() as f64 / frame.count();
    let values = vec![Value::at_least("wedges", share, 0.65, 0.50)];
    let words =
        format!("{} of the pieces are wedges; the rest have two long sides side by side.", percent(share));
    Row::new(Quality::Wedges, values, words, frame.outlines(|i| !is_wedge(i)))
}

/// The angle between the lines of the two longest sides, 0 to 90 degrees.
fn long_sides_meet_deg(points: &[Point]) -> f64 {
    let mut sides: Vec<Vec2> = polygon::edges(points).map(|(a, b)| b - a).collect();
    sides.sort_by(|a, b| b.length().total_cmp(&a.length()));
    match sides[..] {
        [a, b, ..] => a.cross(b).abs().atan2(a.dot(b).abs()).to_degrees(),
        _ => 0.0,
    }
}

/// **Size grows in step.** The slope of ln √a on r by least squares, and the standard deviation
/// about it. Good: .8 to 1.8, and .20 to .40; poor: a slope under .4 or above 2.2 (common practice,
/// no source).
pub(super) fn size_in_step(frame: &Frame<'_>) -> Row {
    let points: Vec<(f64, f64)> = frame.measures.iter().map(|m| (m.r, m.area.sqrt().ln())).collect();
    let (slope, rests) = fitted(&points);
    let sd = mean_and_sd(&rests).1;
    let values = vec![
        Value::between("slope", slope, [0.8, 1.8], [0.4, 2.2]),
        Value::between("scatter", sd, [0.20, 0.40], [0.0, 0.80]).mild(),
    ];
    let words = format!(
        "From the centre to the rim the pieces get {:.1} times as wide, give or take {}.",
        slope.exp(),
        percent(sd.exp_m1())
    );
    let odd = |i: usize| rests[i].abs() > 2.0 * sd;
    let marks: Vec<EyeMark> = frame.outlines(odd);
    Row::new(Quality::SizeInStep, values, words, marks)
}

/// Slope of the line of least squares, and how far each point lies above it.
fn fitted(points: &[(f64, f64)]) -> (f64, Vec<f64>) {
    let n = points.len().max(1) as f64;
    let (x, y) = (points.iter().map(|p| p.0).sum::<f64>() / n, points.iter().map(|p| p.1).sum::<f64>() / n);
    let xx: f64 = points.iter().map(|p| (p.0 - x) * (p.0 - x)).sum();
    let xy: f64 = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    let slope = if xx > 1e-12 { xy / xx } else { 0.0 };
    (slope, points.iter().map(|p| p.1 - y - slope * (p.0 - x)).collect())
}
