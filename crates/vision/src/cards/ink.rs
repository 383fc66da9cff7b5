//! How much wider a card's black looks than it is.
//!
//! Ink runs, too much light eats into black, and a camera's own curve shifts every edge between black
//! and white towards one of them. The pattern itself tells: the border's inner edge, where white cells
//! lie behind it, must be one cell from the outer. If the border looks wider by so much, then the
//! square's outer edges lie too far out by half of it.

use super::Sighting;
use super::family::{CELLS, pattern};
use super::grey::Grey;
use super::read::{Reading, SQUARE};
use crate::Card;
use crate::flatten::homography::Homography;
use plane::Point;

/// Smallest cell that can be measured within, in pixels, and by the blur.
const SMALLEST_PX: f64 = 5.0;
const SMALLEST_BLURS: f64 = 4.5;
/// Most a border may swell, in cells; beyond, something else is wrong.
const MOST: f64 = 0.2;
/// Samples across an edge, half a cell to either side.
const SAMPLES: usize = 13;

/// Where the light changes along a short way, as a share of it: where the light summed up equals
/// that of a sharp step.
fn edge(light: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let mut values = [0.0; SAMPLES];
    for (i, value) in values.iter_mut().enumerate() {
        *value = light(i as f64 / (SAMPLES - 1) as f64)?;
    }
    let (first, last) = ((values[0] + values[1]) / 2.0, (values[SAMPLES - 2] + values[SAMPLES - 1]) / 2.0);
    let ends = (values[0] + values[SAMPLES - 1]) / 2.0;
    let mean = (values.iter().sum::<f64>() - ends) / (SAMPLES - 1) as f64;
    let share = (last - mean) / (last - first);
    ((last - first).abs() > 0.02 && (0.0..1.0).contains(&share)).then_some(share)
}

fn median(values: &mut [f64]) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}

/// A card's shortest cell, in pixels.
fn cell_px(corners: &[Point; 4]) -> f64 {
    let sides = (0..4).map(|i| corners[i].distance(corners[(i + 1) % 4]));
    sides.fold(f64::MAX, f64::min) / CELLS as f64
}

/// By how many pixels the black looks too wide on each side; None where cells are too small or too
/// blurred to tell.
pub(super) fn swollen(grey: &Grey, card: &Reading, blur_px: f64) -> Option<f64> {
    let cells = pattern(card.no)?;
    let map = Homography::through(SQUARE, card.corners)?;
    let cell_px = cell_px(&card.corners);
    if cell_px < SMALLEST_PX || cell_px < SMALLEST_BLURS * blur_px {
        return None;
    }
    let light = |x: f64, y: f64| {
        let p = map.apply(Point::new(x, y))?;
        grey.light(p.x, p.y)
    };
    let size = CELLS as f64;
    let (mut outer, mut inner) = (Vec::new(), Vec::new());
    for side in 0..4 {
        // Along the side by `a`, inwards by `d`, both in cells.
        let place = |a: f64, d: f64| match side {
            0 => (a, d),
            1 => (size - d, a),
            2 => (a, size - d),
            _ => (d, a),
        };
        for cell in 1..CELLS - 1 {
            let (x, y) = place(cell as f64 + 0.5, 1.5);
            if cells[y as usize][x as usize] {
                continue;
            }
            for part in [0.25, 0.375, 0.5, 0.625, 0.75] {
                let across = |line: f64| {
                    edge(|share| {
                        let (x, y) = place(cell as f64 + part, line - 0.5 + share);
                        light(x, y)
                    })
                };
                if let (Some(out), Some(inn)) = (across(0.0), across(1.0)) {
                    outer.push(out);
                    inner.push(inn);
                }
            }
        }
    }
    if inner.len() < 30 {
        return None;
    }
    // Swollen by s cells on each side, the square measures 8 + 2s: in its own measure the border is
    // (1 + 2s) · 8 / (8 + 2s) wide, which is about 1 + 1.75 s.
    let swollen = (median(&mut inner)? - median(&mut outer)?) / 1.75;
    (swollen.abs() <= MOST).then_some(swollen * cell_px)
}

/// The corners of a card whose black looks too wide by so many pixels, put right.
fn shrunk(corners: [Point; 4], swollen_px: f64) -> Option<[Point; 4]> {
    let map = Homography::through(SQUARE, corners)?;
    let swollen = swollen_px / cell_px(&corners);
    let size = CELLS as f64;
    let inset = swollen * size / (size + 2.0 * swollen);
    let towards = |v: f64| if v > 1.0 { v - inset } else { v + inset };
    let mut right = corners;
    for (corner, square) in right.iter_mut().zip(SQUARE) {
        *corner = map.apply(Point::new(towards(square.x), towards(square.y)))?;
    }
    Some(right)
}

/// Readings this near to the middle one are of one cause, in pixels, and so many blurs more.
const ALIKE_PX: f64 = 0.06;
const ALIKE_BLURS: f64 = 0.04;

/// A reading this far from that of two or more others, in pixels, is of a lamp's reflection, which
/// bends the corners too.
const UNLIKE_PX: f64 = 0.25;

/// Puts the corners of all cards right, by what was read of each. One ink and one camera made them all:
/// what they say together is surer than what each says, and serves cards that say nothing. A card that
/// says something else is believed alone; if it says something quite else than the others, its corners
/// can't be believed, and it is only named.
pub(super) fn put_right(cards: Vec<(Card, Option<f64>)>) -> (Vec<Card>, Vec<Sighting>) {
    let told: Vec<f64> = cards.iter().filter_map(|(_, swollen)| *swollen).collect();
    let middle = median(&mut told.clone());
    let alike = |card: &Card, swollen: f64| {
        middle.is_some_and(|m| (swollen - m).abs() <= ALIKE_PX + ALIKE_BLURS * card.blur_px)
    };
    let agreed = cards.iter().filter_map(|(card, swollen)| swollen.filter(|s| alike(card, *s)));
    let (sum, count) = agreed.fold((0.0, 0.0), |(sum, count), s| (sum + s, count + 1.0));
    let common = if count > 0.0 { sum / count } else { 0.0 };
    let unlike = |(_, swollen): &(Card, Option<f64>)| {
        count >= 2.0 && swollen.is_some_and(|s| (s - common).abs() > UNLIKE_PX)
    };
    let (unlike, cards): (Vec<_>, Vec<_>) = cards.into_iter().partition(unlike);
    let named = |(card, _): (Card, Option<f64>)| Sighting { no: card.no, at_px: card.middle() };
    let right = |(mut card, swollen): (Card, Option<f64>)| {
        let own = swollen.filter(|s| !alike(&card, *s)).unwrap_or(common);
        if let Some(corners) = shrunk(card.corners, own) {
            (card.corners, card.swollen_px) = (corners, own);
        }
        card
    };
    (cards.into_iter().map(right).collect(), unlike.into_iter().map(named).collect())
}
