//! The paper of the measuring cards, which is no cloth.

use super::coarse::Coarse;
use super::mask::Mask;
use crate::Flat;
use crate::share::neighbours;
use plane::{Point, polygon};

/// The cells of the cards' paper, and those close round it, which most likely are bare table.
pub(super) fn paper(flat: &Flat, coarse: &Coarse, cards: &[Vec<Point>]) -> (Mask, Mask) {
    let mut paper = Mask::new(coarse.width, coarse.height);
    let mut round = Mask::new(coarse.width, coarse.height);
    for card in cards {
        let corners: Vec<Point> = card
            .iter()
            .map(|&p| {
                let px = flat.in_picture(p);
                Point::new(px.x / coarse.cell as f64, px.y / coarse.cell as f64)
            })
            .collect();
        mark(coarse, &corners, &mut paper, &mut round);
    }
    for (near, paper) in round.cells.iter_mut().zip(&paper.cells) {
        *near = *near && !paper;
    }
    (paper, round)
}

/// Marks one card, its corners in cells: the pattern with a module of white round it, and what
/// hangs together with it and is as white, up to so far.
fn mark(coarse: &Coarse, corners: &[Point], paper: &mut Mask, round: &mut Mask) {
    let Some(middle) = polygon::centroid(corners) else { return };
    let grown = |by: f64| -> Vec<Point> { corners.iter().map(|&p| middle + (p - middle) * by).collect() };
    let sure = cells_in(coarse, &grown(SURE));
    let rim = cells_in(coarse, &grown(SURE * 0.97));
    let farthest = grown(FARTHEST);
    let white = {
        let pattern = cells_in(coarse, &grown(1.0));
        let mut ring: Vec<[f32; 3]> =
            rim.iter().filter(|i| pattern.binary_search(i).is_err()).map(|&i| coarse.lab[i]).collect();
        ring.sort_by(|a, b| a[0].total_cmp(&b[0]));
        ring.get(ring.len() * 3 / 4).copied()
    };
    let mut front = sure;
    for &i in &front {
        paper.cells[i] = true;
    }
    let Some(white) = white else { return };
    while let Some(i) = front.pop() {
        for j in neighbours(i, coarse.width, coarse.height) {
            let place = Point::new((j % coarse.width) as f64 + 0.5, (j / coarse.width) as f64 + 0.5);
            let as_white = super::ground::distance(coarse.lab[j], white) < AS_WHITE;
            if !paper.cells[j] && as_white && polygon::contains(&farthest, place) {
                paper.cells[j] = true;
                front.push(j);
            }
        }
    }
    // The edge of the paper is half paper, half table.
    let whole = paper.clone();
    for i in cells_in(coarse, &farthest) {
        let (column, row) = ((i % coarse.width) as i64, (i / coarse.width) as i64);
        let beside = (-1..=1).any(|dx| (-1..=1).any(|dy| whole.at(column + dx, row + dy)));
        paper.cells[i] |= beside;
    }
    for i in cells_in(coarse, &grown(FARTHEST * 1.1)) {
        round.cells[i] = true;
    }
}

/// The cells whose middles lie in a polygon, in their order.
fn cells_in(coarse: &Coarse, corners: &[Point]) -> Vec<usize> {
    let Some((low, high)) = polygon::bounds(corners) else { return Vec::new() };
    let clamp = |v: f64, most: usize| v.clamp(0.0, most as f64) as usize;
    let mut cells = Vec::new();
    for row in clamp(low.y, coarse.height)..clamp(high.y + 1.0, coarse.height) {
        for column in clamp(low.x, coarse.width)..clamp(high.x + 1.0, coarse.width) {
            if polygon::contains(corners, Point::new(column as f64 + 0.5, row as f64 + 0.5)) {
                cells.push(row * coarse.width + column);
            }
        }
    }
    cells
}

/// The pattern and a module of eight all round, by how much more than the pattern.
const SURE: f64 = 1.25;
/// The paper goes no farther than this.
const FARTHEST: f64 = 2.2;
/// In OKLab.
const AS_WHITE: f32 = 0.06;
