//! The drift of colours from the centre outward.

use super::frame::{Frame, RINGS};
use super::rank::spearman;
use super::row::{Quality, Row, percent};
use super::scale::Value;
use crate::wish::place_on_path;
use colour::Lab;

/// **Drift, with sparks.** The place of a shape's colour on the wished path is that of the nearest
/// point in CIELAB on the line through the wished stops. Three numbers: Spearman's rank correlation
/// of r and that place, weighted by area; the share of shapes whose colour lies more than a ring's
/// width (a quarter of the path) from their own place; and CIEDE2000 between the mean colours of
/// neighbouring rings, of four of equal width, least and most. Good: at least .80, 3 to 10 % (none
/// is good where no sparks are wished), 5 to 18; poor: under .6, above 20 %, above 25 (common
/// practice, no source).
pub(super) fn drift(frame: &Frame<'_>) -> Row {
    let mut stops = frame.wish.drift.clone();
    stops.retain(|stop| stop.lab.is_finite() && stop.at.is_finite());
    stops.sort_by(|a, b| a.at.total_cmp(&b.at));
    if stops.len() < 2 {
        return Row::not_wished(Quality::Drift, "No drift of colours is wished.");
    }
    let places = frame.piece.shapes.iter().map(|shape| place_on_path(&stops, shape.lab).unwrap_or(0.0));
    let pairs: Vec<(f64, f64)> = frame.measures.iter().zip(places).map(|(m, place)| (m.r, place)).collect();
    let areas: Vec<f64> = frame.measures.iter().map(|m| m.area).collect();
    let order = spearman(&pairs, &areas);
    let is_off = |i: usize| (pairs[i].1 - pairs[i].0.min(1.0)).abs() > 1.0 / RINGS as f64;
    let off = (0..pairs.len()).filter(|&i| is_off(i)).count() as f64 / frame.count();
    let steps = ring_steps(frame);
    let (least, most) =
        (steps.iter().copied().fold(f64::MAX, f64::min), steps.iter().copied().fold(0.0, f64::max));
    let least = if steps.is_empty() { 0.0 } else { least };
    let fewest = if frame.wish.sparks > 0.0 { 0.03 } else { 0.0 };
    let values = vec![
        Value::at_least("order", order, 0.80, 0.60),
        Value::between("a ring off", off, [fewest, 0.10], [-0.06, 0.20]),
        Value::between("least step", least, [5.0, 18.0], [0.0, 25.0]),
        Value::between("most step", most, [5.0, 18.0], [0.0, 25.0]),
    ];
    let words = format!(
        "The colours follow the wished path at {order:.2} of 1; {} of the pieces are a ring off; from ring to ring the step is {least:.0} to {most:.0}.",
        percent(off)
    );
    Row::new(Quality::Drift, values, words, frame.outlines(is_off))
}

/// CIEDE2000 between the mean colours of each ring and the next one that isn't empty.
fn ring_steps(frame: &Frame<'_>) -> Vec<f64> {
    let means: Vec<Lab> = (0..RINGS)
        .filter_map(|ring| {
            let here = (0..frame.measures.len()).filter(|&i| frame.ring(i) == ring);
            colour::mean(here.map(|i| (frame.piece.shapes[i].lab, frame.measures[i].area)))
        })
        .collect();
    means.windows(2).map(|pair| colour::difference(pair[0], pair[1])).collect()
}
