//! Catching up: what was sewn since the last step, read from one picture of the piece, proposed as
//! steps that the maker confirms or corrects.
//!
//! It reads patches that each cover one whole side and are trimmed in line with the neighbours. Where
//! no such patches lead back to the piece as it is known, nothing is proposed: then the piece can be
//! looked at anew, as one patch with its picture.

mod look;
mod sew;

pub(crate) use sew::CutFrom;

use plane::{Line, Point, Pose};
use quilt::catch_up::SeenCut;
use quilt::cloth::ClothId;
use quilt::length::fraction;
use quilt::log::Name;
use serde::Serialize;

/// A patch that was seen on the piece and is in no step yet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PatchSeen {
    /// The side that it was sewn to; where that is a side of an earlier patch seen here, none.
    pub onto: Option<Name>,
    /// The earlier patch seen here whose outer side it was sewn to, counted from 0.
    pub onto_seen: Option<usize>,
    /// What shows of it, in the inches of the plan.
    pub outline: Vec<Point>,
    /// The same on the table, in inches.
    pub on_table: Vec<Point>,
    /// How long its seam is and how deep it shows when it has been sewn, in inches.
    pub size_in: [f64; 2],
    /// The cloths it may be of, likest first; at most three.
    pub guesses: Vec<Guess>,
    /// How dark the ditch of its seam is, as a logarithm of light: under 0.05 is faint.
    pub ditch: f64,
    /// What should be looked at twice, a sentence each.
    pub doubts: Vec<String>,
    /// Its outer raw edge, in the inches of the plan.
    #[serde(skip)]
    outer: Line,
    /// What was cut for it.
    #[serde(skip)]
    cut: SeenCut,
}

/// A cloth that a patch may be of.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Guess {
    /// Which.
    pub cloth: ClothId,
    /// Its number in the heap.
    pub no: u32,
    /// Its name.
    pub name: String,
    /// How like it is, 0 to 1: for ranking.
    pub like: f64,
}

/// What a picture tells of what was sewn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CaughtUp {
    /// The patches, in an order in which they can have been sewn; none when the piece is as it is known.
    pub patches: Vec<PatchSeen>,
    /// How far the corners of the known piece lie from where they should, root of the mean square, in inches.
    pub off_in: f64,
    /// Where the outline came out otherwise than these patches make it, a sentence each: it is measured
    /// when they are taken in.
    pub differences: Vec<String>,
    /// The motion that lays the table on the plan.
    pub pose: Pose,
    /// The raw outline on the table, in inches.
    #[serde(skip)]
    raw: Vec<Point>,
}

/// A cloth less like a patch than this is not taken for its own unless the maker says so. A guess: in a
/// small rendered picture a patch's own cloth came out at 0.003, behind a stranger at 0.037.
const LIKE_ENOUGH: f64 = 0.01;

impl CaughtUp {
    /// The piece's raw outline on the table, in inches.
    pub(crate) fn raw(&self) -> &[Point] {
        &self.raw
    }
}

impl PatchSeen {
    /// The cloth it is taken to be of when the maker says nothing else; none when no cloth of the heap
    /// looks like it.
    #[must_use]
    pub fn likest(&self) -> Option<&Guess> {
        self.guesses.first().filter(|guess| guess.like >= LIKE_ENOUGH)
    }

    /// From the inches of what was cut to the plan's.
    pub(crate) const fn lies(&self) -> Pose {
        self.cut.lies
    }

    /// What was cut for it, about, in its own inches.
    pub(crate) fn cut(&self) -> &[Point] {
        &self.cut.cut
    }

    /// What it was sewn to, in words.
    #[must_use]
    pub fn side(&self) -> String {
        match (self.onto, self.onto_seen) {
            (Some(name), _) => format!("side {name}"),
            (None, Some(no)) => format!("patch {}", no + 1),
            (None, None) => "a side that has no name".to_owned(),
        }
    }

    /// How large it is and what it was sewn to, in words.
    #[must_use]
    pub fn told(&self) -> String {
        let [long, deep] = self.size_in.map(|size| fraction(size, 8));
        format!("sewn to {}, {long} long, {deep} deep as it shows", self.side())
    }
}

impl CaughtUp {
    /// A sentence for each patch, with its doubts.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let told = |(i, patch): (usize, &PatchSeen)| {
            let or = |guess: &Guess| format!("No. {} ({})", guess.no, guess.name);
            let (first, others) = match patch.likest() {
                Some(first) => (or(first), &patch.guesses[1..]),
                None => ("no cloth of the heap that looks like it".to_owned(), &patch.guesses[..]),
            };
            let others: Vec<String> = others.iter().map(or).collect();
            let others =
                if others.is_empty() { String::new() } else { format!(", or else {}", others.join(" or ")) };
            let doubts: String = patch.doubts.iter().map(|doubt| format!(" {doubt}")).collect();
            format!("Patch {}, {}: {first}{others}.{doubts}", i + 1, patch.told())
        };
        self.patches.iter().enumerate().map(told).collect()
    }
}
