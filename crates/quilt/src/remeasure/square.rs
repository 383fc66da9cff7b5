//! Whether a piece lies square and flat, as far as its outline tells: opposite sides, diagonals, corners,
//! edges that bow, and edges that are longer than the seam behind them allows.
//!
//! Everything is held against the plan: sides and diagonals must agree that were planned alike, a
//! corner must have the angle that it was planned with. Cloth that stands up from the table isn't seen from
//! above; what an outline can tell is that an edge no longer fits what it is sewn to. Lengths that
//! differ by no more than 1/16 inch agree, as for squaring up (common practice, no source). Inches and degrees.

use super::Laid;
use crate::length::fraction;
use crate::log::Name;
use plane::{Line, Point};
use serde::Serialize;

/// How far lengths may differ and still agree, in inches.
const AGREE_IN: f64 = 1.0 / 16.0;

/// A corner that is off by less isn't told, in degrees: it takes an edge of 5 inches 1/16 off.
const CORNER_DEG: f64 = 0.75;

/// A seam that runs across the piece behind one of its sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamBehind {
    /// Its name.
    pub seam: Name,
    /// The places of the two sides that it ends on, in the order of the sides.
    pub ends: [usize; 2],
    /// The line that it was planned on.
    pub line: Line,
}

/// What an outline tells of a piece's squareness and flatness. Sides and corners are named by their places
/// in the order of the sides; a corner by that of the side that begins there.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Square {
    /// Opposite sides that were planned alike.
    pub opposite: Vec<Pair>,
    /// Diagonals from corner to opposite corner that were planned alike.
    pub diagonals: Vec<Pair>,
    /// Every corner.
    pub corners: Vec<CornerTurn>,
    /// How far the middle of each side lies outside the straight line between its ends; negative where it
    /// is hollow.
    pub bows_in: Vec<f64>,
    /// Sides that are longer than the seam behind them allows.
    pub stretched: Vec<Stretched>,
}

/// Two lengths that were planned alike.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pair {
    /// The sides, or the corners that the diagonals begin at.
    pub which: [usize; 2],
    /// Their lengths as seen.
    pub seen_in: [f64; 2],
}

/// The angle inside a corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CornerTurn {
    /// As planned.
    pub planned_deg: f64,
    /// As seen.
    pub seen_deg: f64,
}

/// A side that is longer than the seam behind it allows.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stretched {
    /// The side.
    pub side: usize,
    /// The seam behind it.
    pub seam: Name,
    /// By how much it grew more than the seam did.
    pub by_in: f64,
}

impl Pair {
    fn differ_in(&self) -> f64 {
        (self.seen_in[0] - self.seen_in[1]).abs()
    }
}

impl Laid {
    /// Whether the piece lies square and flat. `behind` are the seams that run from one side of it to
    /// another.
    #[must_use]
    pub fn square(&self, behind: &[SeamBehind]) -> Square {
        let (n, corners) = (self.corners.len(), &self.corners);
        let half = n / 2;
        let paired = n % 2 == 0 && n >= 4;
        let pairs =
            |planned: &dyn Fn(usize) -> f64, seen: &dyn Fn(usize) -> f64, apart: usize, count: usize| {
                (0..count)
                    .map(|i| [i, i + apart])
                    .filter(|[i, j]| paired && (planned(*i) - planned(*j)).abs() <= AGREE_IN)
                    .map(|which| Pair { which, seen_in: which.map(seen) })
                    .collect::<Vec<_>>()
            };
        let across = |at: &dyn Fn(usize) -> Point, i: usize| at(i % n).distance(at((i + half) % n));
        let planned = |i: usize| corners[i].planned;
        let seen = |i: usize| corners[i].seen;
        let angles = |at: &dyn Fn(usize) -> Point, i: usize| {
            let (before, here, after) = (at((i + n - 1) % n), at(i), at((i + 1) % n));
            let (out, back) = (after - here, before - here);
            out.cross(back).atan2(out.dot(back)).to_degrees().rem_euclid(360.0)
        };
        Square {
            opposite: pairs(&|i| self.sides[i].planned_in, &|i| self.sides[i].seen_in, half, half),
            diagonals: pairs(&|i| across(&planned, i), &|i| across(&seen, i), 1, half.saturating_sub(1)),
            corners: (0..n)
                .map(|i| CornerTurn { planned_deg: angles(&planned, i), seen_deg: angles(&seen, i) })
                .collect(),
            bows_in: self.sides.iter().map(|side| side.bows_in).collect(),
            stretched: (0..n).filter_map(|side| self.stretched(side, behind)).collect(),
        }
    }

    /// Whether a side grew more than the nearest seam that runs behind it from neighbour to neighbour.
    fn stretched(&self, side: usize, behind: &[SeamBehind]) -> Option<Stretched> {
        let n = self.corners.len();
        let beside = [(side + n - 1) % n, (side + 1) % n];
        let corner = |i: usize| self.corners[i % n];
        let planned = |i: usize| Line::through(corner(i).planned, corner(i + 1).planned);
        // Neighbours that weren't seen stay where they were planned and say nothing.
        let seen = |i: usize| self.sides[i].line;
        self.sides[side].line?;
        let middle = corner(side).planned.midpoint(corner(side + 1).planned);
        let chord = |line: Line, of: &dyn Fn(usize) -> Option<Line>| {
            let [a, b] = beside.map(|i| of(i).and_then(|other| line.crossing(other)));
            Some(a?.distance(b?))
        };
        let across = behind.iter().filter(|seam| {
            let [a, b] = seam.ends;
            [a, b] == beside || [b, a] == beside
        });
        let nearest = across
            .min_by(|a, b| a.line.inside_by(middle).abs().total_cmp(&b.line.inside_by(middle).abs()))?;
        let grew = self.sides[side].seen_in - self.sides[side].planned_in;
        let seam_grew = chord(nearest.line, &seen)? - chord(nearest.line, &planned)?;
        let by_in = grew - seam_grew;
        (by_in > AGREE_IN).then_some(Stretched { side, seam: nearest.seam, by_in })
    }
}

impl Square {
    /// What doesn't agree, in sentences; `names` has each side's name, in order. Empty when all does.
    #[must_use]
    pub fn words(&self, names: &[String]) -> Vec<String> {
        let n = names.len();
        let name = |i: usize| &names[i % n.max(1)];
        let mut told = Vec::new();
        for pair in self.opposite.iter().filter(|pair| pair.differ_in() > AGREE_IN) {
            told.push(format!(
                "Sides {} and {} lie opposite and were planned alike; they differ by {}.",
                name(pair.which[0]),
                name(pair.which[1]),
                fraction(pair.differ_in(), 16)
            ));
        }
        let worst = self.diagonals.iter().max_by(|a, b| a.differ_in().total_cmp(&b.differ_in()));
        if let Some(pair) = worst.filter(|pair| pair.differ_in() > AGREE_IN) {
            told.push(format!(
                "The diagonals differ by {}: the piece leans.",
                fraction(pair.differ_in(), 16)
            ));
        }
        for (i, corner) in self.corners.iter().enumerate() {
            if (corner.seen_deg - corner.planned_deg).abs() >= CORNER_DEG {
                told.push(format!(
                    "The corner between sides {} and {} has {:.1} degrees; {:.1} were planned.",
                    name(i + n.saturating_sub(1)),
                    name(i),
                    corner.seen_deg,
                    corner.planned_deg
                ));
            }
        }
        for (i, bow) in self.bows_in.iter().enumerate().filter(|(_, bow)| bow.abs() > AGREE_IN) {
            let (which, why) = if *bow > 0.0 {
                ("bows out", "it is fuller than its ends, and may ripple or stand up")
            } else {
                ("is hollow", "it is drawn in, as by a tight seam or stitches")
            };
            told.push(format!(
                "Side {} {which} by {} in its middle: {why}.",
                name(i),
                fraction(bow.abs(), 16)
            ));
        }
        for side in &self.stretched {
            told.push(format!(
                "Side {} is {} longer than the ends of seam {} behind it allow: its edge is stretched, and ripples when the next piece is sewn to it.",
                name(side.side),
                fraction(side.by_in, 16),
                side.seam
            ));
        }
        told
    }
}
