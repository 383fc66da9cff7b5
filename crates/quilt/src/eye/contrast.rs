//! Colours side by side: edges that read, and hot spots.

use super::frame::Frame;
use super::prints::SEEN_IN;
use super::rank::median;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use super::shapes::Touch;

/// Below this difference in lightness L* an edge may get lost.
const LOST_LIGHTNESS: f64 = 5.0;

/// Below this CIEDE2000 it does, when its lightness is lost as well.
const LOST_DIFFERENCE: f64 = 8.0;

/// **Edges read.** Share of the length along which shapes touch where L* differs by less than 5 and
/// CIEDE2000 is under 8. Good: at most .15; poor: above .30 (common practice, no source).
pub(super) fn edges_read(frame: &Frame<'_>) -> Row {
    let shapes = &frame.piece.shapes;
    let is_lost = |touch: &&Touch| match (shapes.get(touch.one), shapes.get(touch.other)) {
        (Some(one), Some(other)) => {
            (one.lab.l - other.lab.l).abs() < LOST_LIGHTNESS
                && colour::difference(one.lab, other.lab) < LOST_DIFFERENCE
        }
        _ => false,
    };
    let touches = &frame.piece.touches;
    let all: f64 = touches.iter().map(|touch| touch.length_in).sum();
    let lost: f64 = touches.iter().filter(is_lost).map(|touch| touch.length_in).fold(0.0, |a, b| a + b);
    let share = if all > 0.0 { lost / all } else { 0.0 };
    let values = vec![Value::at_most("lost", share, 0.15, 0.30)];
    let words = format!("Along {} of the seams the colours are too near each other to read.", percent(share));
    let marks = touches.iter().filter(is_lost).map(|touch| EyeMark::Line(touch.from, touch.to)).collect();
    Row::new(Quality::EdgesRead, values, words, marks)
}

/// A shape's surroundings reach so far, over R.
const AROUND: f64 = 0.35;

/// A hot spot stands out so many times more than the middling shape.
const HOT: f64 = 2.5;

/// **Hot spots.** How much a shape stands out: CIEDE2000 between it and the mean, by area, of the
/// other shapes whose centroids lie within .35 R, times √a / R. Hot are those above 2.5 times the
/// median. Good: 2 to 4 of them, at least .6 R apart; poor: a single one, or two that touch; none
/// or too many is fair (common practice, no source).
pub(super) fn hot_spots(frame: &Frame<'_>) -> Row {
    let heat = heat(frame);
    let limit = HOT * median(&heat);
    let hot: Vec<usize> = (0..heat.len()).filter(|&i| limit > 1e-9 && heat[i] > limit).collect();
    let touching = frame
        .piece
        .touches
        .iter()
        .any(|t| t.length_in > SEEN_IN && hot.contains(&t.one) && hot.contains(&t.other));
    let apart = nearest(frame, &hot);
    let mut values = vec![Value::costing("how many", hot.len() as f64, cost_of_count(hot.len()))];
    if let Some(apart) = apart {
        let value = Value::at_least("apart", apart, 0.6, 0.0).mild();
        values.push(if touching { Value::costing("apart", apart, value.cost + 1.0) } else { value });
    }
    let words = match (hot.len(), apart) {
        (0, _) => "No piece stands out.".to_owned(),
        (1, _) => "A single piece stands out and holds the eye.".to_owned(),
        (n, _) if touching => format!("{n} pieces stand out, and two of them touch."),
        (n, apart) => {
            let apart = percent(apart.unwrap_or(0.0));
            format!("{n} pieces stand out; the nearest two are {apart} of the radius apart.")
        }
    };
    let marks = hot.iter().map(|&i| EyeMark::Point(frame.measures[i].centroid)).collect();
    Row::new(Quality::HotSpots, values, words, marks)
}

fn cost_of_count(count: usize) -> f64 {
    match count {
        0 => 0.5,
        1 => 1.5,
        2..=4 => 0.0,
        n => ((n - 4) as f64 / 4.0).min(1.0),
    }
}

/// How much each shape stands out.
fn heat(frame: &Frame<'_>) -> Vec<f64> {
    let reach = AROUND * frame.radius;
    let stands_out = |i: usize| {
        let own = &frame.measures[i];
        let others = (0..frame.measures.len())
            .filter(|&j| j != i && frame.measures[j].centroid.distance(own.centroid) <= reach)
            .map(|j| (frame.piece.shapes[j].lab, frame.measures[j].area));
        let around = colour::mean(others);
        let differs = around.map_or(0.0, |mean| colour::difference(frame.piece.shapes[i].lab, mean));
        differs * own.area.sqrt() / frame.radius
    };
    (0..frame.measures.len()).map(stands_out).collect()
}

/// Distance of the nearest two of these shapes, over R.
fn nearest(frame: &Frame<'_>, of: &[usize]) -> Option<f64> {
    let far =
        |i: usize, j: usize| frame.measures[i].centroid.distance(frame.measures[j].centroid) / frame.radius;
    let pairs = of.iter().enumerate().flat_map(|(k, &i)| of[k + 1..].iter().map(move |&j| far(i, j)));
    pairs.min_by(f64::total_cmp)
}
