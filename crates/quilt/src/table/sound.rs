//! What every outline must be: neighbouring sides turn by 1° or more, and no side comes twice.
//!
//! Sides nearer to one line than that have a corner that slides along both, or none at all; they
//! are one side and must bear one name. Only corners that a step makes are asked about: those of a
//! patch as it was cut, and those of older steps, stay as they are.

use super::top::pairs;
use crate::log::{Bound, End, Mark};
use crate::problem::{Place, Problem, Rule};
use plane::{Line, Point};

/// Sine of the least turn between neighbouring sides: 1 degree.
const LEAST_TURN: f64 = 0.017_452_406_437_283_51;

/// Least turn in degrees, for the message.
const LEAST_TURN_DEG: f64 = 1.0;

/// Whether an outline may be what a step leaves. `known` are the outlines it was made from.
///
/// # Errors
/// The first side that runs on in line from the one before, or that would come twice.
pub(super) fn outline(
    around: &[Bound],
    known: &[&[Bound]],
    line: impl Fn(Bound) -> Option<Line>,
) -> Result<(), Problem> {
    for (before, bound) in pairs(around) {
        if known.iter().any(|old| pairs(old).any(|pair| pair == (before, bound))) {
            continue;
        }
        let place = Place::Side(bound.name(), Some(End::Start));
        let (Some(a), Some(b)) = (line(before), line(bound)) else {
            return Err(Problem::at(Rule::Nonsense, place));
        };
        if a.turn_sine(b).abs() < LEAST_TURN {
            let measured_in = a.turn_sine(b).abs().asin().to_degrees();
            return Err(Problem { rule: Rule::InLine, place, measured_in, limit_in: LEAST_TURN_DEG });
        }
    }
    let twice = |(i, bound): &(usize, &Bound)| matches!(bound, Bound::Raw(_)) && around[..*i].contains(bound);
    match around.iter().enumerate().find(twice) {
        Some((_, bound)) => Err(Problem::at(Rule::CutScatters, Place::Side(bound.name(), None))),
        None => Ok(()),
    }
}

/// Whether all corners of what shows of a patch exist.
///
/// # Errors
/// The patch, when two neighbouring lines around it don't cross.
pub(super) fn corners_exist(around: &[Bound], corners: &[Point], patch: Mark) -> Result<(), Problem> {
    if around.len() < 3 || corners.len() == around.len() {
        Ok(())
    } else {
        Err(Problem::at(Rule::InLine, Place::Patch(patch)))
    }
}
