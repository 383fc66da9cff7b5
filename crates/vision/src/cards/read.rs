//! Reading the cells of what may be a card.

use super::family::{self, CELLS};
use super::grey::Grey;
use crate::flatten::homography::Homography;
use plane::{Point, polygon};

/// What a reading gave.
pub(super) struct Reading {
    pub(super) no: u16,
    /// Corners in the pattern's own order.
    pub(super) corners: [Point; 4],
    pub(super) wrong: u32,
}

/// Of a card that is hidden in part a cell counts whose middle shows with so much around it, in cells.
const ABOUT: f64 = 0.3;

/// Share of the border's cells that must be black.
const BORDER: f64 = 0.85;

/// Brightness over the card as it falls off: `a + b x + c y`, by least squares.
fn slope(samples: &[(f64, f64, f64)]) -> Option<impl Fn(f64, f64) -> f64 + use<>> {
    let n = samples.len() as f64;
    let mean = |of: &dyn Fn(&(f64, f64, f64)) -> f64| samples.iter().map(of).sum::<f64>() / n;
    let (mx, my, mv) = (mean(&|s| s.0), mean(&|s| s.1), mean(&|s| s.2));
    let sum = |of: &dyn Fn(f64, f64, f64) -> f64| {
        samples.iter().map(|s| of(s.0 - mx, s.1 - my, s.2 - mv)).sum::<f64>()
    };
    let (xx, xy, yy) = (sum(&|x, _, _| x * x), sum(&|x, y, _| x * y), sum(&|_, y, _| y * y));
    let (xv, yv) = (sum(&|x, _, v| x * v), sum(&|_, y, v| y * v));
    let det = xx * yy - xy * xy;
    let (b, c) = ((xv * yy - yv * xy) / det, (yv * xx - xv * xy) / det);
    (mv.is_finite() && b.is_finite() && c.is_finite()).then_some(move |x, y| mv + b * (x - mx) + c * (y - my))
}

/// The pattern's corners: lower left, lower right, upper right, upper left, y down, in cells.
pub(super) const SQUARE: [Point; 4] =
    [Point::new(0.0, 8.0), Point::new(8.0, 8.0), Point::new(8.0, 0.0), Point::new(0.0, 0.0)];

/// The card within four corners, which run anticlockwise as seen. Where `shows` is told, only what lies
/// in it is read.
pub(super) fn read(grey: &Grey, corners: [Point; 4], shows: Option<&[Point]>) -> Option<Reading> {
    let map = Homography::through(SQUARE, corners)?;
    let light = |x: f64, y: f64| {
        let p = map.apply(Point::new(x, y))?;
        let light = grey.light(p.x, p.y).map(f64::sqrt)?;
        let Some(shows) = shows else { return Some(light) };
        // All of the cell about it must show; the margin does where the border beside it does.
        let (x, y) = (x.clamp(0.5, 7.5), y.clamp(0.5, 7.5));
        let shown = [(-ABOUT, -ABOUT), (ABOUT, -ABOUT), (ABOUT, ABOUT), (-ABOUT, ABOUT)]
            .into_iter()
            .filter_map(|(right, down)| map.apply(Point::new(x + right, y + down)))
            .all(|near| polygon::contains(shows, near));
        shown.then_some(light)
    };
    let (mut white, mut black) = (Vec::new(), Vec::new());
    for i in 0..CELLS {
        let a = i as f64 + 0.5;
        for (x, y) in [(a, -0.5), (a, 8.5), (-0.5, a), (8.5, a)] {
            white.extend(light(x, y).map(|v| (x, y, v)));
        }
        for (x, y) in [(a, 0.5), (a, 7.5), (0.5, a), (7.5, a)] {
            black.extend(light(x, y).map(|v| (x, y, v)));
        }
    }
    let (least_white, least_black) = if shows.is_some() { (16, 16) } else { (24, 32) };
    if white.len() < least_white || black.len() < least_black {
        return None;
    }
    let (white, dark) = (slope(&white)?, slope(&black)?);
    let middle = |x: f64, y: f64| (white(x, y) + dark(x, y)) / 2.0;
    if white(4.0, 4.0) - dark(4.0, 4.0) < 0.06 {
        return None;
    }
    let right = black.iter().filter(|(x, y, v)| *v < middle(*x, *y)).count();
    if (right as f64) < BORDER * black.len() as f64 {
        return None;
    }
    let (mut code, mut read) = (0_u64, 0_u64);
    for (column, row) in family::places() {
        let (x, y) = (column as f64 + 0.5, row as f64 + 0.5);
        let cell = light(x, y);
        code = code << 1 | u64::from(cell.is_some_and(|cell| cell > middle(x, y)));
        read = read << 1 | u64::from(cell.is_some());
    }
    let (no, quarters, wrong) = family::recognise(code, read)?;
    let corners = [0, 1, 2, 3].map(|i| corners[(i + 4 - quarters) % 4]);
    Some(Reading { no, corners, wrong })
}
