//! The last word on an answer: exact sums of `plane`, which share nothing with the search.

use crate::ask::{Answer, Ask, Placed, Turns};
use plane::{Point, READING, Region, Turn, difference, intersection, polygon};

/// What is wrong with an answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// A piece reaches outside the part it lies on, by so many square inches.
    Outside(usize, f64),
    /// Two pieces overlap, by so many square inches.
    Overlap(usize, usize, f64),
    /// A piece lies over a spot that it does not tolerate, by so many square inches.
    Spoiled(usize, f64),
    /// A piece lies on a cloth, or at a turn, that it must not.
    NotAllowed(usize),
}

impl Fault {
    /// The piece that has to go.
    pub(crate) const fn piece(self) -> usize {
        match self {
            Self::Outside(piece, _)
            | Self::Spoiled(piece, _)
            | Self::Overlap(_, piece, _)
            | Self::NotAllowed(piece) => piece,
        }
    }
}

/// Everything that is wrong with an answer. What overlaps no deeper than [`READING`] along an edge only touches.
#[must_use]
pub fn faults(ask: &Ask, answer: &Answer) -> Vec<Fault> {
    let mut found = Vec::new();
    let cut = |placed: &Placed| {
        let piece = ask.pieces.get(placed.piece)?;
        Some(Region { outer: placed.at.apply_all(&piece.outline), holes: Vec::new() })
    };
    let touch = |outline: &[Point]| READING * polygon::perimeter(outline);
    let cuts: Vec<Option<Region>> = answer.placed.iter().map(cut).collect();
    for (i, (placed, cut)) in answer.placed.iter().zip(&cuts).enumerate() {
        let part = ask.cloths.get(placed.cloth).and_then(|cloth| cloth.parts.get(placed.part));
        let (Some(cut), Some(part), true) = (cut, part, is_allowed(ask, placed)) else {
            found.push(Fault::NotAllowed(placed.piece));
            continue;
        };
        let outside: f64 = difference(cut, std::slice::from_ref(part)).iter().map(Region::area).sum();
        if outside > touch(&cut.outer) {
            found.push(Fault::Outside(placed.piece, outside));
        }
        let spoiled = spoiled(ask, placed, cut);
        if spoiled > touch(&cut.outer) {
            found.push(Fault::Spoiled(placed.piece, spoiled));
        }
        for (other, before) in answer.placed[..i].iter().zip(&cuts) {
            let (true, Some(before)) = (other.cloth == placed.cloth, before) else { continue };
            let shared: f64 = intersection(before, cut).iter().map(Region::area).sum();
            if shared > touch(&cut.outer) {
                found.push(Fault::Overlap(other.piece, placed.piece, shared));
            }
        }
    }
    found
}

/// How much of a placed piece lies over spots that it does not tolerate, in square inches.
fn spoiled(ask: &Ask, placed: &Placed, cut: &Region) -> f64 {
    let bad = ask.cloths[placed.cloth].spots.iter();
    let bad = bad.filter(|spot| spot.badness > ask.pieces[placed.piece].tolerates);
    let bad: Vec<Region> =
        bad.map(|spot| Region { outer: spot.outline.clone(), holes: Vec::new() }).collect();
    if bad.is_empty() {
        return 0.0;
    }
    cut.area() - difference(cut, &bad).iter().map(Region::area).sum::<f64>()
}

/// Whether a piece may lie on that cloth at that turn.
pub(crate) fn is_allowed(ask: &Ask, placed: &Placed) -> bool {
    let source = ask.pieces[placed.piece].from.iter().find(|source| source.cloth == placed.cloth);
    source.is_some_and(|source| match &source.turns {
        Turns::Any => true,
        Turns::Only(turns) => turns.iter().any(|&turn| same(turn, placed.at.turn)),
    })
}

fn same(a: Turn, b: Turn) -> bool {
    (a.vec() - b.vec()).length() < 1e-9
}
