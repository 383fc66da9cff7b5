//! A first map from picture to table, in closed form, good enough to be improved from.
//!
//! Areas on a plane seen in perspective shrink with the third power of the distance to the plane's
//! horizon, so the cards' areas in the picture give the horizon by least squares. With the horizon
//! sent away each card is a parallelogram, and what is left is an even stretch: three numbers, to
//! which each card gives three equations (two sides of known length, at right angles).

use super::homography::{Homography, eliminate};
use plane::Point;

/// Weight of each card's own perspective beside the areas: it says little, but is all there is
/// with one card, and across the line through two.
const OWN: f64 = 0.02;

/// Doubled area of a card, positive when it runs anticlockwise with y down.
fn doubled_area(c: &[Point; 4]) -> f64 {
    -(c[2] - c[0]).cross(c[3] - c[1])
}

fn middle(c: &[Point; 4]) -> Point {
    c[0].midpoint(c[2]).midpoint(c[1].midpoint(c[3]))
}

/// Least squares over a few unknowns: rows of coefficients with the wanted value last.
fn least_squares(rows: &[Vec<f64>]) -> Option<Vec<f64>> {
    let n = rows.first()?.len() - 1;
    let normal = (0..n).map(|i| (0..=n).map(|j| rows.iter().map(|row| row[i] * row[j]).sum()).collect());
    eliminate(normal.collect())
}

/// The horizon `a x + b y + 1`, positive where the cards are.
fn horizon(cards: &[&[Point; 4]], square: [Point; 4]) -> Option<(f64, f64)> {
    let mut rows = Vec::new();
    let mean = cards.iter().map(|c| doubled_area(c)).sum::<f64>() / cards.len() as f64;
    for card in cards {
        let size = (doubled_area(card) / mean).cbrt();
        let m = middle(card);
        if size <= 0.0 || !size.is_finite() {
            return None;
        }
        // scale · (1 + a x + b y) = size, unknown scale, scale · a, scale · b
        rows.push(vec![1.0, m.x, m.y, size]);
        // The card's own horizon, as far as it shows.
        let [_, _, [x, y, w]] = Homography::through(square, **card)?.inverse()?.0;
        let near = w + x * m.x + y * m.y;
        let reach = (doubled_area(card) / 2.0).sqrt();
        rows.push(vec![0.0, OWN * reach, 0.0, OWN * reach * size * x / near]);
        rows.push(vec![0.0, 0.0, OWN * reach, OWN * reach * size * y / near]);
    }
    let found = least_squares(&rows)?;
    Some((found[1] / found[0], found[2] / found[0]))
}

/// A map from the straightened picture (y down) to the table (inches, y up, anyhow shifted and turned),
/// from the corners of square cards whose corners run anticlockwise as seen.
pub(super) fn first(cards: &[&[Point; 4]], side_in: f64) -> Option<Homography> {
    let s = side_in;
    let square = [Point::new(0.0, 0.0), Point::new(s, 0.0), Point::new(s, s), Point::new(0.0, s)];
    if let [only] = cards {
        return Homography::through(square, **only)?.inverse();
    }
    let (a, b) = horizon(cards, square)?;
    let away = Homography([[1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [a, b, 1.0]]);
    let mut rows = Vec::new();
    for card in cards {
        let c = card.iter().map(|p| away.apply(*p)).collect::<Option<Vec<Point>>>()?;
        let u = ((c[1] - c[0]) + (c[2] - c[3])) * (0.5 / s);
        let v = ((c[3] - c[0]) + (c[2] - c[1])) * (0.5 / s);
        let weight = 1.0 / (u.dot(u) + v.dot(v));
        for (p, q, wanted) in [(u, u, 1.0), (v, v, 1.0), (u, v, 0.0)] {
            let row = [p.x * q.x, p.x * q.y + p.y * q.x, p.y * q.y, wanted];
            rows.push(row.map(|cell| cell * weight).to_vec());
        }
    }
    let m = least_squares(&rows)?;
    // The stretch as an upper triangle whose square is m.
    let p = m[0].sqrt();
    let q = m[1] / p;
    let r = (m[2] - q * q).sqrt();
    if !(p > 0.0 && r > 0.0) {
        return None;
    }
    Some(Homography([[p, q, 0.0], [0.0, r, 0.0], [0.0, 0.0, 1.0]]).after(&away))
}
