//! The way a strip goes round: positions along it, from corner to corner.

use super::corner::{Corner, Way};
use plane::Point;
use serde::Serialize;

/// A place on the edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Spot {
    /// Which side, from 1.
    pub side: usize,
    /// How far from the start of the side, along the raw edge.
    pub along_in: f64,
    /// Where.
    pub at: Point,
}

/// All round the edge once, from the first corner. A side is as long as its raw edge and half of
/// what its corners take extra.
pub(super) struct Course {
    corners: Vec<Corner>,
    /// Where each side starts; one more at the end.
    starts: Vec<f64>,
}

impl Course {
    pub(super) fn new(corners: &[Corner]) -> Self {
        let n = corners.len();
        let mut starts = vec![0.0];
        for (i, corner) in corners.iter().enumerate() {
            let next = &corners[(i + 1) % n];
            let side = corner.at.distance(next.at) + (corner.extra_in + next.extra_in) / 2.0;
            starts.push(starts[i] + side);
        }
        Self { corners: corners.to_vec(), starts }
    }

    /// Length all round.
    pub(super) fn net_in(&self) -> f64 {
        self.starts.last().copied().unwrap_or_default()
    }

    /// Where a corner lies.
    pub(super) fn corner_in(&self, corner: usize) -> f64 {
        self.starts[corner]
    }

    /// Corners that a join keeps away from: all but those in a curve.
    pub(super) fn hard(&self) -> Vec<usize> {
        (0..self.corners.len()).filter(|&i| self.corners[i].way != Way::Curve).collect()
    }

    /// Corners at which the sides are bound apart.
    pub(super) fn apart(&self) -> Vec<usize> {
        (0..self.corners.len()).filter(|&i| self.corners[i].way == Way::Apart).collect()
    }

    /// The longest stretch between two hard corners: where it starts, and how long it is.
    pub(super) fn longest(&self) -> (f64, f64) {
        let hard = self.hard();
        let net = self.net_in();
        let stretch = |k: usize| {
            let (from, to) = (self.corner_in(hard[k]), self.corner_in(hard[(k + 1) % hard.len()]));
            (from, if to > from { to - from } else { to - from + net })
        };
        let longer = |a: (f64, f64), b: (f64, f64)| if b.1 > a.1 + 1e-9 { b } else { a };
        (0..hard.len()).map(stretch).reduce(longer).unwrap_or((0.0, net))
    }

    /// The place at a distance from the first corner; past the end it goes on round.
    pub(super) fn spot(&self, distance_in: f64) -> Spot {
        let distance = distance_in.rem_euclid(self.net_in().max(f64::MIN_POSITIVE));
        let n = self.corners.len();
        let side = self.starts.partition_point(|&start| start <= distance).clamp(1, n) - 1;
        let (from, to) = (&self.corners[side], &self.corners[(side + 1) % n]);
        let edge = from.at.distance(to.at);
        let along_in = (distance - self.starts[side] - from.extra_in / 2.0).clamp(0.0, edge);
        let at = from.at.lerp(to.at, if edge > 0.0 { along_in / edge } else { 0.0 });
        Spot { side: side + 1, along_in, at }
    }
}
