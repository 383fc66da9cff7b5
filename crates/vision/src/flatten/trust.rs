//! How far a map from picture to table can be trusted, and where.
//!
//! The corners' errors go through the map's equations into the map's numbers, and from there into
//! any length (Gauss's law of the propagation of errors). What is not in it: a table that isn't flat, a
//! lens that bends in other ways, a side told wrong.

use super::adjust::{COMMON, MAP};
use super::homography::Homography;
use super::lens::NUMBERS;
use super::map::{Flattening, Window};
use plane::{Point, Vec2};

/// A length may be off by this share, in all likelihood, where the map holds.
pub const HOLDS: f64 = 0.005;

/// Places looked at across a picture.
const ACROSS: usize = 24;

impl Flattening {
    /// The length on the table between two places of the picture, when one of the map's numbers is
    /// moved.
    fn length_if(&self, a: Point, b: Point, number: usize, by: f64) -> Option<f64> {
        let mut down = self.down.0;
        let mut lens = [0.0; NUMBERS];
        match down.iter_mut().flatten().take(MAP).nth(number) {
            Some(cell) => *cell += by,
            None => lens[number - MAP] = by,
        }
        let up = Homography(down).inverse()?;
        let lens = self.lens.shifted(lens);
        let place = |px| up.apply(self.frame.straight(px, lens));
        Some(place(a)?.distance(place(b)?))
    }

    /// Likely error (standard deviation), in inches, of the length on the table between two places of
    /// the picture. Infinite beyond the horizon.
    #[must_use]
    pub fn length_doubt_in(&self, a: Point, b: Point) -> f64 {
        let mut slopes = [0.0; COMMON];
        for (number, slope) in slopes.iter_mut().enumerate() {
            let h = 0.01 * self.covariance[number][number].max(1e-24).sqrt();
            let pair = (self.length_if(a, b, number, h), self.length_if(a, b, number, -h));
            let (Some(more), Some(less)) = pair else { return f64::INFINITY };
            *slope = (more - less) / (2.0 * h);
        }
        let variance: f64 = slopes
            .iter()
            .zip(&self.covariance)
            .map(|(s, row)| s * row.iter().zip(&slopes).map(|(c, t)| c * t).sum::<f64>())
            .sum();
        if variance.is_finite() { variance.max(0.0).sqrt() } else { f64::INFINITY }
    }

    /// Likely error of short lengths at a place of the picture, as a share of them, in the worst of
    /// four directions.
    #[must_use]
    pub fn doubt_at(&self, px: Point) -> f64 {
        let arm = 0.01 * self.frame.half;
        let directions = [(1.0, 0.0), (0.7, 0.7), (0.0, 1.0), (-0.7, 0.7)];
        let doubts = directions.map(|(x, y)| {
            let (a, b) = (px - Vec2::new(x, y) * arm, px + Vec2::new(x, y) * arm);
            let length = self.to_table(a).distance(self.to_table(b));
            if length.is_finite() && length > 0.0 {
                self.length_doubt_in(a, b) / length
            } else {
                f64::INFINITY
            }
        });
        doubts.into_iter().fold(0.0, f64::max)
    }

    /// Whether lengths at a place of the picture are likely right to [`HOLDS`].
    #[must_use]
    pub fn holds_at(&self, px: Point) -> bool {
        self.doubt_at(px) <= HOLDS
    }

    /// A grid of places over the picture, each in the middle of its part.
    fn places(&self) -> impl Iterator<Item = Point> + use<> {
        let [width, height] = self.size_px.map(f64::from);
        let down = ((ACROSS as f64 * height / width).round() as usize).clamp(1, 2 * ACROSS);
        (0..down).flat_map(move |j| {
            (0..ACROSS).map(move |i| {
                Point::new(width * (i as f64 + 0.5) / ACROSS as f64, height * (j as f64 + 0.5) / down as f64)
            })
        })
    }

    /// The share of the picture, 0 to 1, in which lengths are likely right to [`HOLDS`].
    #[must_use]
    pub fn share_that_holds(&self) -> f64 {
        let (holds, all) =
            self.places().fold((0_u32, 0_u32), |(n, all), p| (n + u32::from(self.holds_at(p)), all + 1));
        f64::from(holds) / f64::from(all.max(1))
    }

    /// The part of the table that the picture shows with enough pixels to be measured: at least a third
    /// of those at the cards.
    #[must_use]
    pub fn field(&self) -> Window {
        let most = self.used().iter().map(|card| self.pixels_per_in(card.middle())).fold(0.0, f64::max);
        let [width, height] = self.size_px.map(f64::from);
        let seen = (0..=ACROSS)
            .flat_map(|i| (0..=ACROSS).map(move |j| (i, j)))
            .map(|(i, j)| Point::new(width * i as f64 / ACROSS as f64, height * j as f64 / ACROSS as f64));
        let cards = self.used().iter().flat_map(|card| card.corners);
        let near = seen.filter(|px| self.pixels_per_in(*px) >= most / 3.0).chain(cards);
        let nothing =
            (Point::new(f64::INFINITY, f64::INFINITY), Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY));
        let (low, high) =
            near.map(|px| self.to_table(px)).filter(|p| p.is_finite()).fold(nothing, |(low, high), p| {
                (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
            });
        Window { low, high }
    }
}
