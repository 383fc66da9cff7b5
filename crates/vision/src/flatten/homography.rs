//! A perspective map of the plane.

use plane::Point;

/// A perspective map: rows of a 3 by 3 matrix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Homography(pub(crate) [[f64; 3]; 3]);

/// Solves a square system by elimination with the largest pivots; None where it has no one answer.
pub(crate) fn eliminate(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let n = rows.len();
    for i in 0..n {
        let best = (i..n).max_by(|a, b| rows[*a][i].abs().total_cmp(&rows[*b][i].abs()))?;
        rows.swap(i, best);
        let pivot = rows[i].clone();
        if pivot[i].abs() < 1e-12 || pivot[i].is_nan() {
            return None;
        }
        for row in rows.iter_mut().skip(i + 1) {
            let share = row[i] / pivot[i];
            if share != 0.0 {
                for (cell, p) in row.iter_mut().zip(&pivot).skip(i) {
                    *cell -= share * p;
                }
            }
        }
    }
    let mut found = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|k| rows[i][k] * found[k]).sum();
        found[i] = (rows[i][n] - known) / rows[i][i];
    }
    found.iter().all(|x| x.is_finite()).then_some(found)
}

impl Homography {
    /// The map that takes four places to four places, no three of them in line.
    pub(crate) fn through(from: [Point; 4], to: [Point; 4]) -> Option<Self> {
        // Both are first brought to about one, around nought, or rounding would eat the small terms.
        let (a, b) = (Frame::of(&from), Frame::of(&to));
        let mut rows = Vec::with_capacity(8);
        for (p, q) in from.map(|p| a.to(p)).into_iter().zip(to.map(|q| b.to(q))) {
            rows.push(vec![p.x, p.y, 1.0, 0.0, 0.0, 0.0, -q.x * p.x, -q.x * p.y, q.x]);
            rows.push(vec![0.0, 0.0, 0.0, p.x, p.y, 1.0, -q.y * p.x, -q.y * p.y, q.y]);
        }
        let h = eliminate(rows)?;
        let map = Self([[h[0], h[1], h[2]], [h[3], h[4], h[5]], [h[6], h[7], 1.0]]);
        let map = b.back().after(&map).after(&a.there());
        // All four must lie on the same side of the horizon.
        let depths = from.map(|p| map.depth(p));
        let one_side = depths.iter().all(|d| *d > 0.0) || depths.iter().all(|d| *d < 0.0);
        one_side.then(|| map.scaled(if depths[0] < 0.0 { -1.0 } else { 1.0 }))
    }

    fn scaled(self, by: f64) -> Self {
        Self(self.0.map(|row| row.map(|cell| cell * by)))
    }

    /// Positive on the side of the horizon that is seen.
    pub(crate) fn depth(&self, p: Point) -> f64 {
        let [x, y, w] = self.0[2];
        x * p.x + y * p.y + w
    }

    /// Where a place comes to; None on and beyond the horizon.
    pub(crate) fn apply(&self, p: Point) -> Option<Point> {
        let depth = self.depth(p);
        let [a, b, _] = self.0;
        let to =
            Point::new((a[0] * p.x + a[1] * p.y + a[2]) / depth, (b[0] * p.x + b[1] * p.y + b[2]) / depth);
        (depth > 0.0 && to.is_finite()).then_some(to)
    }

    /// First `first`, then this.
    pub(crate) fn after(&self, first: &Self) -> Self {
        let (a, b) = (&self.0, &first.0);
        Self([0, 1, 2].map(|i| [0, 1, 2].map(|j| (0..3).map(|k| a[i][k] * b[k][j]).sum())))
    }

    /// The map back, positive in depth where this is.
    pub(crate) fn inverse(&self) -> Option<Self> {
        let m = &self.0;
        let minor = |i: usize, j: usize| {
            let (a, b, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
            m[a][c] * m[b][d] - m[a][d] * m[b][c]
        };
        let det: f64 = (0..3).map(|j| m[0][j] * minor(0, j)).sum();
        let back = Self([0, 1, 2].map(|i| [0, 1, 2].map(|j| minor(j, i) / det)));
        back.0.iter().flatten().all(|x| x.is_finite()).then_some(back)
    }
}

/// A shift and a scale that bring places to about one around nought.
struct Frame {
    middle: Point,
    scale: f64,
}

impl Frame {
    fn of(places: &[Point; 4]) -> Self {
        let middle = places[0].midpoint(places[2]).midpoint(places[1].midpoint(places[3]));
        let reach = places.iter().map(|p| p.distance(middle)).sum::<f64>() / 4.0;
        Self { middle, scale: 1.0 / reach.max(1e-300) }
    }

    fn to(&self, p: Point) -> Point {
        Point::ORIGIN + (p - self.middle) * self.scale
    }

    fn there(&self) -> Homography {
        let (s, m) = (self.scale, self.middle);
        Homography([[s, 0.0, -s * m.x], [0.0, s, -s * m.y], [0.0, 0.0, 1.0]])
    }

    fn back(&self) -> Homography {
        let (s, m) = (1.0 / self.scale, self.middle);
        Homography([[s, 0.0, m.x], [0.0, s, m.y], [0.0, 0.0, 1.0]])
    }
}

#[cfg(test)]
mod tests {
    use super::Homography;
    use plane::Point;

    /// Written by `cargo xtask refs homographies`; the first line says how.
    const TABLE: &str = include_str!("../../tests/data/homographies.csv");

    #[test]
    fn maps_are_the_exact_ones() {
        let mut seen = 0;
        for line in TABLE.lines().filter(|line| !line.starts_with('#')) {
            let numbers: Vec<f64> = line.split(',').map(|n| n.parse().unwrap()).collect();
            let place = |i: usize| Point::new(numbers[2 * i], numbers[2 * i + 1]);
            let from = [0, 1, 2, 3].map(place);
            let to = [4, 5, 6, 7].map(place);
            let map = Homography::through(from, to).unwrap();
            let went = map.apply(place(8)).unwrap();
            assert!(went.distance(place(9)) < 1e-9 * (1.0 + went.to_vec2().length()), "{line}: {went:?}");
            let back = map.inverse().unwrap().apply(went).unwrap();
            assert!(back.distance(place(8)) < 1e-9);
            seen += 1;
        }
        assert_eq!(seen, 200);
    }

    #[test]
    fn three_places_in_line_make_no_map() {
        let line = [0.0, 1.0, 2.0].map(|x| Point::new(x, x));
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(x, y)| Point::new(x, y));
        let bad = [line[0], line[1], line[2], Point::new(5.0, 0.0)];
        assert!(Homography::through(bad, square).is_none());
        assert!(Homography::through([Point::ORIGIN; 4], square).is_none());
    }

    #[test]
    fn nothing_is_seen_beyond_the_horizon() {
        let map = Homography([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, -0.1, 1.0]]);
        assert!(map.apply(Point::new(0.0, 9.0)).is_some());
        assert!(map.apply(Point::new(0.0, 10.0)).is_none());
        assert!(map.apply(Point::new(0.0, 11.0)).is_none());
    }
}
