//! The rounds of a piece as it was sewn: how many seams each patch lies from the first.
//!
//! Round 0 is the first patch. A patch lies one round further out than the innermost patch that it has a seam
//! in common with. Patches that meet only at a corner aren't neighbours: they share less than a sixteenth of
//! an inch of seam. What isn't sewn to the rest is in no round.

use crate::log::{Bound, Name};
use crate::table::Top;
use plane::polygon;
use std::collections::{BTreeMap, BTreeSet};

/// Less seam in common than this is a corner, in inches.
const CORNER_IN: f64 = 1.0 / 16.0;

/// The faces of a top by round, the first patch alone in the first of them.
#[must_use]
pub fn rounds(top: &Top) -> Vec<Vec<Name>> {
    let beside = neighbours(top);
    let first = top.faces().iter().min_by_key(|(name, face)| (face.patch, **name)).map(|(name, _)| *name);
    let mut known: BTreeSet<Name> = first.into_iter().collect();
    let mut found: Vec<Vec<Name>> = Vec::new();
    let mut round: Vec<Name> = first.into_iter().collect();
    while !round.is_empty() {
        let next: BTreeSet<Name> = round
            .iter()
            .filter_map(|name| beside.get(name))
            .flatten()
            .copied()
            .filter(|name| !known.contains(name))
            .collect();
        known.extend(&next);
        found.push(round);
        round = next.into_iter().collect();
    }
    found
}

/// Which faces each face has a seam in common with.
#[must_use]
pub fn neighbours(top: &Top) -> BTreeMap<Name, BTreeSet<Name>> {
    // The stretches of each seam line that faces lie along.
    let mut along: BTreeMap<Name, Vec<(Name, f64, f64)>> = BTreeMap::new();
    for (name, face) in top.faces() {
        let corners = top.face_points(face);
        if corners.len() != face.around().len() {
            continue;
        }
        for (bound, (a, b)) in face.around().iter().zip(polygon::edges(&corners)) {
            if let (Bound::Seam(seam), Some(line)) = (bound, top.line(*bound)) {
                let (a, b) = (line.along(a), line.along(b));
                along.entry(*seam).or_default().push((*name, a.min(b), a.max(b)));
            }
        }
    }
    let mut beside: BTreeMap<Name, BTreeSet<Name>> = BTreeMap::new();
    for stretches in along.values() {
        for (i, (one, from, to)) in stretches.iter().enumerate() {
            for (other, start, end) in stretches.iter().skip(i + 1) {
                if one != other && to.min(*end) - from.max(*start) > CORNER_IN {
                    beside.entry(*one).or_default().insert(*other);
                    beside.entry(*other).or_default().insert(*one);
                }
            }
        }
    }
    beside
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::ClothId;
    use crate::log::{Mark, Press, Sewing, Step};
    use crate::table::Table;
    use plane::{Pose, Region};

    fn lay(width: f64, height: f64) -> Step {
        Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: Region::rectangle(width, height).outer }
    }

    fn join(onto: Name, with: Name) -> Step {
        Step::Sew(Sewing::Join {
            onto,
            with,
            slide_in: 0.0,
            allowance_in: 0.25,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        })
    }

    /// A square with strips on its right, on top of both, and on the right of all: the last strip lies
    /// along the first strip's far side and the second's end, never along the square.
    #[test]
    fn a_strip_beside_a_strip_lies_in_the_next_round() {
        let side = |mark, no| Name::new(Mark(mark), no);
        let steps = [
            lay(3.0, 3.0),
            lay(2.0, 3.0),
            join(side(1, 1), side(2, 3)),
            lay(5.0, 2.0),
            join(side(1, 2), side(4, 0)),
            lay(2.0, 6.0),
            join(side(2, 1), side(6, 3)),
        ];
        let mut table = Table::new();
        for (mark, step) in (1..).zip(&steps) {
            table.apply(Mark(mark), step).unwrap_or_else(|problem| panic!("step {mark}: {problem}"));
        }
        let (_, top) = table.piece().unwrap();
        let patches =
            |round: &Vec<Name>| -> Vec<u32> { round.iter().map(|name| top.faces()[name].patch.0).collect() };
        let found: Vec<Vec<u32>> = rounds(top).iter().map(patches).collect();
        assert_eq!(found, vec![vec![1], vec![2, 4], vec![6]]);
    }
}
