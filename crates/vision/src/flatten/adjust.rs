//! The map, the lens and the cards' places on the table together, by damped least squares
//! (Levenberg and Marquardt) on the corners in the picture.
//!
//! Unknown are the eight numbers of the map from table to picture, those of the lens, and of every card
//! but the first its place and turn; the first lies at the origin, which says where the table is.
//! The lens is held near one that doesn't bend, as lenses are, so that few cards have an answer too.

use super::homography::{Homography, eliminate};
use super::lens::{Frame, Lens, NUMBERS};
use plane::{Point, Vec2};

/// Numbers of a lens are nought, give or take so much: bends, then lean.
const LENS_SD: [f64; NUMBERS] = [0.06, 0.01, 0.0006, 0.0006];
/// Numbers of the map.
pub(super) const MAP: usize = 8;
/// Numbers that are common to all cards.
pub(super) const COMMON: usize = MAP + NUMBERS;

/// A corner's likely error, in pixels, for weighing the bend and for what is not known otherwise.
pub(super) const CORNER_SD: f64 = 0.04;

/// The map and where the cards lie.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    /// From the table, in inches and y up, to the straightened picture.
    pub(super) down: Homography,
    pub(super) lens: Lens,
    /// Each card's lower left corner, and its turn in radians.
    pub(super) places: Vec<(Point, f64)>,
}

fn heading(radians: f64) -> Vec2 {
    Vec2::new(radians.cos(), radians.sin())
}

/// The corners of a card at a place.
fn square(place: (Point, f64), side: f64) -> [Point; 4] {
    let along = heading(place.1) * side;
    let (a, up) = (place.0, along.left());
    [a, a + along, a + along + up, a + up]
}

/// The place that fits four corners on the table best.
pub(super) fn place(corners: &[Point; 4], side: f64) -> (Point, f64) {
    let [a, b, c, d] = *corners;
    let along = (b - a) + (c - d) - ((d - a) + (c - b)).left();
    let turn = along.y.atan2(along.x);
    let half = heading(turn) * (side / 2.0);
    let middle = a.midpoint(c).midpoint(b.midpoint(d));
    (middle - half - half.left(), turn)
}

/// A lens is believed up to so many times what lenses commonly bend.
const BELIEVED: f64 = 8.0;

impl Layout {
    /// Whether a lens may be so: few cards that don't fit would be made to by any bend at all.
    pub(super) fn is_believed(&self) -> bool {
        self.lens.numbers().iter().zip(LENS_SD).all(|(x, sd)| x.abs() <= BELIEVED * sd)
    }

    /// From a map of the straightened picture to the table.
    pub(super) fn from_map(
        up: &Homography,
        lens: Lens,
        cards: &[&[Point; 4]],
        frame: &Frame,
        side: f64,
    ) -> Option<Self> {
        let places = cards.iter().map(|card| {
            let mut on_table = [Point::ORIGIN; 4];
            for (to, px) in on_table.iter_mut().zip(card.iter()) {
                *to = up.apply(frame.straight(*px, lens))?;
            }
            Some(place(&on_table, side))
        });
        let mut places = places.collect::<Option<Vec<_>>>()?;
        // The first card comes to the origin.
        let (shift, turn) = *places.first()?;
        let (x, y) = (shift.x, shift.y);
        let t = heading(turn);
        let rigid = Homography([[t.x, -t.y, x], [t.y, t.x, y], [0.0, 0.0, 1.0]]);
        for p in &mut places {
            let v = p.0 - shift;
            *p = (Point::new(v.dot(t), v.dot(t.left())), p.1 - turn);
        }
        let down = up.inverse()?.after(&rigid);
        let w = down.0[2][2];
        (w > 0.0).then(|| Self { down: Homography(down.0.map(|row| row.map(|c| c / w))), lens, places })
    }

    fn shifted(&self, by: &[f64]) -> Self {
        let mut next = self.clone();
        let cells = next.down.0.iter_mut().flatten();
        for (cell, step) in cells.take(MAP).zip(by) {
            *cell += step;
        }
        next.lens = next.lens.shifted(std::array::from_fn(|i| by[MAP + i]));
        for (place, step) in next.places.iter_mut().skip(1).zip(by[COMMON..].chunks_exact(3)) {
            *place = (place.0 + Vec2::new(step[0], step[1]), place.1 + step[2]);
        }
        next
    }

    /// Where a place on the table comes to in the picture, in pixels.
    pub(super) fn to_picture(&self, inch: Point, frame: &Frame) -> Option<Point> {
        let px = frame.bent(self.down.apply(inch)?, self.lens);
        px.is_finite().then_some(px)
    }

    /// By how much a card's corners lie off in the picture, in pixels.
    pub(super) fn off(
        &self,
        card: usize,
        corners: &[Point; 4],
        frame: &Frame,
        side: f64,
    ) -> Option<[Vec2; 4]> {
        off(self, self.places[card], corners, frame, side)
    }
}

/// By how much the corners of a card at a place lie off in the picture.
pub(super) fn off(
    map: &Layout,
    place: (Point, f64),
    corners: &[Point; 4],
    frame: &Frame,
    side: f64,
) -> Option<[Vec2; 4]> {
    let mut offs = [Vec2::default(); 4];
    for ((off, inch), px) in offs.iter_mut().zip(square(place, side)).zip(corners) {
        *off = map.to_picture(inch, frame)? - *px;
    }
    Some(offs)
}

/// A system of equations for the next step, and how far off things are now.
struct Normal {
    rows: Vec<Vec<f64>>,
    cost: f64,
}

pub(super) fn cost(layout: &Layout, cards: &[&[Point; 4]], frame: &Frame, side: f64) -> f64 {
    let corners = cards.iter().enumerate().map(|(i, card)| {
        layout.off(i, card, frame, side).map_or(f64::INFINITY, |offs| offs.iter().map(|v| v.dot(*v)).sum())
    });
    let lens = layout.lens.numbers().iter().zip(LENS_SD).map(|(x, sd)| (x / sd).powi(2)).sum::<f64>();
    corners.sum::<f64>() / (CORNER_SD * CORNER_SD) + lens
}

/// A step of an unknown for its slopes: about a thousandth of a pixel.
fn probe(unknown: usize, frame: &Frame, side: f64) -> f64 {
    let tiny = 1e-3 / frame.half;
    match unknown {
        2 | 5 | MAP..COMMON => tiny,
        0..MAP => tiny / side,
        _ if (unknown - COMMON) % 3 == 2 => 1e-4,
        _ => 1e-4 * side,
    }
}

fn normal(layout: &Layout, cards: &[&[Point; 4]], frame: &Frame, side: f64) -> Option<Normal> {
    let n = COMMON + 3 * (cards.len() - 1);
    let mut rows = vec![vec![0.0; n + 1]; n];
    for (i, card) in cards.iter().enumerate() {
        let base = layout.off(i, card, frame, side)?;
        let own = if i == 0 { 0..0 } else { COMMON + 3 * (i - 1)..COMMON + 3 * i };
        let touched: Vec<usize> = (0..COMMON).chain(own).collect();
        let mut slopes = Vec::with_capacity(touched.len());
        for unknown in &touched {
            let h = probe(*unknown, frame, side);
            let mut step = vec![0.0; n];
            step[*unknown] = h;
            let ahead = layout.shifted(&step).off(i, card, frame, side)?;
            step[*unknown] = -h;
            let back = layout.shifted(&step).off(i, card, frame, side)?;
            slopes.push([0, 1, 2, 3].map(|c| (ahead[c] - back[c]) * (0.5 / h)));
        }
        for (a, u) in touched.iter().zip(&slopes) {
            for (b, v) in touched.iter().zip(&slopes) {
                rows[*a][*b] += (0..4).map(|c| u[c].dot(v[c])).sum::<f64>() / (CORNER_SD * CORNER_SD);
            }
            rows[*a][n] -= (0..4).map(|c| u[c].dot(base[c])).sum::<f64>() / (CORNER_SD * CORNER_SD);
        }
    }
    for (i, (x, sd)) in layout.lens.numbers().into_iter().zip(LENS_SD).enumerate() {
        rows[MAP + i][MAP + i] += 1.0 / (sd * sd);
        rows[MAP + i][n] -= x / (sd * sd);
    }
    Some(Normal { rows, cost: cost(layout, cards, frame, side) })
}

/// Improves a layout until nothing changes, in at most `rounds`.
pub(super) fn adjust(
    mut layout: Layout,
    cards: &[&[Point; 4]],
    frame: &Frame,
    side: f64,
    rounds: usize,
) -> Option<Layout> {
    let mut damping = 1e-3;
    for _ in 0..rounds {
        let here = normal(&layout, cards, frame, side)?;
        let mut better = None;
        for _ in 0..8 {
            let step = scaled_solve(&here.rows, damping)?;
            let next = layout.shifted(&step);
            let there = cost(&next, cards, frame, side);
            if there <= here.cost {
                better = Some((next, there));
                damping = (damping * 0.1).max(1e-12);
                break;
            }
            damping *= 10.0;
        }
        let Some((next, there)) = better else { break };
        layout = next;
        if here.cost - there < 1e-9 * (1.0 + here.cost) {
            break;
        }
    }
    Some(layout)
}

/// Scales the unknowns alike, damps, solves.
fn scaled_solve(rows: &[Vec<f64>], damping: f64) -> Option<Vec<f64>> {
    let n = rows.len();
    let scale: Vec<f64> = (0..n).map(|i| 1.0 / rows[i][i].max(1e-300).sqrt()).collect();
    let scaled = (0..n).map(|i| {
        let mut row: Vec<f64> = (0..n).map(|j| rows[i][j] * scale[i] * scale[j]).collect();
        row[i] += damping;
        row.push(rows[i][n] * scale[i]);
        row
    });
    let solved = eliminate(scaled.collect())?;
    Some(solved.iter().zip(&scale).map(|(x, s)| x * s).collect())
}

/// How the common numbers may vary together, for corners that are off by [`CORNER_SD`].
pub(super) fn covariance(
    layout: &Layout,
    cards: &[&[Point; 4]],
    frame: &Frame,
    side: f64,
) -> Option<[[f64; COMMON]; COMMON]> {
    let system = normal(layout, cards, frame, side)?;
    let n = system.rows.len();
    let mut all = [[0.0; COMMON]; COMMON];
    for (column, unit) in (0..COMMON).enumerate() {
        let mut rows = system.rows.clone();
        for (i, row) in rows.iter_mut().enumerate() {
            row[n] = if i == unit { 1.0 } else { 0.0 };
        }
        let solved = scaled_solve(&rows, 0.0)?;
        for (row, x) in all.iter_mut().zip(&solved) {
            row[column] = *x;
        }
    }
    Some(all)
}
