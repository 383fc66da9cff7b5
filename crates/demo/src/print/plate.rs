//! The printing plate: how much of each ink lies where, before anybody decides on colours.
//!
//! One repeat as a grid of cells; every cell holds the share of each ink, the ground first, adding
//! up to 1. Shapes are given by their signed distance (negative inside, in inches) and come out
//! antialiased at any resolution. Painting wraps round the edges, so the repeat is seamless. All
//! positions pass through a slow warp, so that nothing is drawn with a ruler.

use crate::noise::Noise;
use plane::{Point, Vec2, polygon};

/// Most inks a print may have, its ground included.
pub(crate) const MOST_INKS: usize = 5;

/// How much of each ink lies where on one repeat.
#[derive(Clone, Debug)]
pub(crate) struct Plate {
    /// Width and height of the repeat.
    pub(crate) size_in: [f64; 2],
    /// Columns and rows.
    pub(crate) cells: [usize; 2],
    /// Shares of the inks, row by row from the top.
    pub(crate) shares: Vec<[f32; MOST_INKS]>,
    warp: Option<([Noise; 2], f64)>,
    wear: Option<(Noise, f64)>,
}

impl Plate {
    /// A plate with nothing but ground, at about so many cells an inch.
    pub(crate) fn new(size_in: [f64; 2], cells_per_in: f64) -> Self {
        let cells = size_in.map(|length| ((length * cells_per_in).round() as usize).max(1));
        let mut ground = [0.0; MOST_INKS];
        ground[0] = 1.0;
        Self { size_in, cells, shares: vec![ground; cells[0] * cells[1]], warp: None, wear: None }
    }

    /// From here on everything wobbles by about `by_in` over bumps of `bump_in`.
    pub(crate) fn wobble(&mut self, seed: u64, bump_in: f64, by_in: f64) {
        let noise = |which| Noise::new(seed ^ which, self.size_in, bump_in, 2);
        self.warp = Some(([noise(0x51), noise(0xa3)], by_in * 2.0));
    }

    /// From here on ink lies thinner in places, down to about 1 - `by`.
    pub(crate) fn wear(&mut self, seed: u64, bump_in: f64, by: f64) {
        self.wear = Some((Noise::new(seed ^ 0x77, self.size_in, bump_in, 3), by));
    }

    /// Width of a cell, in inches.
    pub(crate) fn cell_in(&self) -> f64 {
        self.size_in[0] / self.cells[0] as f64
    }

    /// Paints a shape given by its signed distance inside a box; what sticks out of the repeat
    /// comes in at the other side.
    pub(crate) fn paint(&mut self, ink: usize, around: (Point, Point), distance: impl Fn(Point) -> f64) {
        let sharp = 1.0 / self.cell_in();
        self.lay(ink, around, |p| (0.5 - distance(p) * sharp).clamp(0.0, 1.0));
    }

    /// Paints a filled outline.
    pub(crate) fn fill(&mut self, ink: usize, outline: &[Point]) {
        if let Some(around) = polygon::bounds(outline) {
            self.paint(ink, around, |p| outline_distance(outline, p));
        }
    }

    /// Paints a line with round ends whose width (in inches) runs evenly from `widths[0]` to
    /// `widths[1]`.
    pub(crate) fn stroke(&mut self, ink: usize, path: &[Point], widths: [f64; 2]) {
        let Some((low, high)) = polygon::bounds(path) else { return };
        let most = widths[0].max(widths[1]) / 2.0;
        let around = (low - Vec2::new(most, most), high + Vec2::new(most, most));
        let lengths: Vec<f64> = path.windows(2).map(|w| w[0].distance(w[1])).collect();
        let total: f64 = lengths.iter().sum::<f64>().max(1e-9);
        self.paint(ink, around, |p| {
            let (mut nearest, mut before) = (f64::INFINITY, 0.0);
            for (w, length) in path.windows(2).zip(&lengths) {
                let t = along(w[0], w[1], p);
                let share = (before + t * length) / total;
                let half = (widths[0] + (widths[1] - widths[0]) * share) / 2.0;
                nearest = nearest.min(p.distance(w[0].lerp(w[1], t)) - half);
                before += length;
            }
            nearest
        });
    }

    /// Paints a disc.
    pub(crate) fn disc(&mut self, ink: usize, centre: Point, radius_in: f64) {
        let reach = Vec2::new(radius_in, radius_in);
        self.paint(ink, (centre - reach, centre + reach), |p| p.distance(centre) - radius_in);
    }

    /// Lays ink over the whole repeat, as much as `amount` says for each place (0 to 1).
    pub(crate) fn wash(&mut self, ink: usize, amount: impl Fn(Point) -> f64) {
        let [width, height] = self.size_in;
        self.lay(ink, (Point::ORIGIN, Point::new(width, height)), amount);
    }

    /// Lays ink inside a box, as much as `amount` says for each place.
    fn lay(&mut self, ink: usize, around: (Point, Point), amount: impl Fn(Point) -> f64) {
        let [columns, rows] = self.cells;
        let [width, height] = self.size_in;
        let margin = self.warp.as_ref().map_or(0.0, |(_, by)| *by) + self.cell_in();
        let per_in = [columns as f64 / width, rows as f64 / height];
        let range = |low: f64, high: f64, per_in: f64, count: usize| {
            let first = ((low - margin) * per_in).floor() as i64;
            let last = ((high + margin) * per_in).ceil() as i64;
            // Never twice over the same cell.
            first..last.min(first + count as i64)
        };
        for row in range(around.0.y, around.1.y, per_in[1], rows) {
            for column in range(around.0.x, around.1.x, per_in[0], columns) {
                let centre = Point::new((column as f64 + 0.5) / per_in[0], (row as f64 + 0.5) / per_in[1]);
                let amount = amount(self.warped(centre)) * self.worn(centre);
                if amount > 0.0 {
                    let wrapped = |at: i64, count: usize| at.rem_euclid(count as i64) as usize;
                    let from_top = rows - 1 - wrapped(row, rows);
                    let cell = from_top * columns + wrapped(column, columns);
                    blend(&mut self.shares[cell], ink, amount.min(1.0) as f32);
                }
            }
        }
    }

    fn warped(&self, p: Point) -> Point {
        self.warp
            .as_ref()
            .map_or(p, |(noise, by)| p + Vec2::new(noise[0].at(p.x, p.y) * by, noise[1].at(p.x, p.y) * by))
    }

    fn worn(&self, p: Point) -> f64 {
        self.wear.as_ref().map_or(1.0, |(noise, by)| 1.0 - by * (0.4 + noise.at(p.x, p.y)).clamp(0.0, 1.0))
    }
}

/// Covers what lies there with so much of an ink.
fn blend(cell: &mut [f32; MOST_INKS], ink: usize, amount: f32) {
    for share in cell.iter_mut() {
        *share *= 1.0 - amount;
    }
    if let Some(share) = cell.get_mut(ink) {
        *share += amount;
    }
}

/// The share of the way from `a` to `b` at which `p` is nearest.
fn along(a: Point, b: Point, p: Point) -> f64 {
    let v = b - a;
    let square = v.dot(v);
    if square > 0.0 { (v.dot(p - a) / square).clamp(0.0, 1.0) } else { 0.0 }
}

/// Signed distance to a closed outline: negative inside, in inches.
fn outline_distance(outline: &[Point], p: Point) -> f64 {
    let nearest = polygon::edges(outline)
        .map(|(a, b)| p.distance(a.lerp(b, along(a, b, p))))
        .fold(f64::INFINITY, f64::min);
    if polygon::contains(outline, p) { -nearest } else { nearest }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(plate: &Plate, ink: usize) -> f64 {
        let sum: f64 = plate.shares.iter().map(|cell| f64::from(cell[ink])).sum();
        sum / plate.shares.len() as f64
    }

    #[test]
    fn a_disc_over_the_corner_keeps_its_area() {
        let mut plate = Plate::new([2.0, 2.0], 40.0);
        plate.disc(1, Point::ORIGIN, 0.5);
        let wanted = std::f64::consts::PI * 0.25 / 4.0;
        assert!((share(&plate, 1) - wanted).abs() < 0.002, "{} {wanted}", share(&plate, 1));
        assert!((share(&plate, 0) + share(&plate, 1) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn outlines_and_strokes_keep_their_areas() {
        let mut plate = Plate::new([3.0, 3.0], 40.0);
        let square = [(0.5, 0.5), (1.5, 0.5), (1.5, 1.5), (0.5, 1.5)].map(|(x, y)| Point::new(x, y));
        plate.fill(1, &square);
        plate.stroke(2, &[Point::new(0.5, 2.2), Point::new(2.5, 2.2)], [0.2, 0.2]);
        assert!((share(&plate, 1) - 1.0 / 9.0).abs() < 0.002);
        let wanted = (0.4 + std::f64::consts::PI * 0.01) / 9.0;
        assert!((share(&plate, 2) - wanted).abs() < 0.002);
    }

    #[test]
    fn what_is_as_large_as_the_repeat_covers_each_cell_once() {
        let mut plate = Plate::new([1.0, 1.0], 20.0);
        plate.wobble(3, 0.5, 0.1);
        plate.wash(1, |_| 0.5);
        assert!(plate.shares.iter().all(|cell| (cell[1] - 0.5).abs() < 1e-6));
    }
}
