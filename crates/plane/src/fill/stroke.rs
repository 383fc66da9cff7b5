//! What a fill consists of: strokes, sewn one after the other.

use crate::Point;
use serde::{Deserialize, Serialize};

/// How far a straight piece may stray from the curve that it stands for, in inches.
pub const CHORD_ERROR: f64 = 1.0 / 64.0;

/// A line sewn without a stop.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Stroke {
    /// Its places in sewing order, in inches. A closed stroke doesn't repeat the first one.
    pub points: Vec<Point>,
    /// Whether it returns from the last place to the first.
    #[serde(default)]
    pub closed: bool,
}

impl Stroke {
    /// An open stroke.
    #[must_use]
    pub const fn open(points: Vec<Point>) -> Self {
        Self { points, closed: false }
    }

    /// A stroke that returns to where it began.
    #[must_use]
    pub const fn closed(points: Vec<Point>) -> Self {
        Self { points, closed: true }
    }

    /// Its straight pieces in sewing order.
    pub fn segments(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let back = (self.closed && self.points.len() > 1)
            .then(|| (self.points[self.points.len() - 1], self.points[0]));
        self.points.windows(2).map(|w| (w[0], w[1])).chain(back)
    }

    /// Length in inches.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.segments().map(|(a, b)| a.distance(b)).sum()
    }
}

/// Strokes in sewing order. Each begins with a start and ends with a stop.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Fill {
    /// The strokes.
    pub strokes: Vec<Stroke>,
}

impl Fill {
    /// How many times sewing starts (and as many times stops).
    #[must_use]
    pub const fn starts(&self) -> usize {
        self.strokes.len()
    }

    /// Length of all strokes, in inches, without the ways between them.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.strokes.iter().map(Stroke::length).sum()
    }
}
