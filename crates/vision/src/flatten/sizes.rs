//! Cards of two printings in one picture.

use super::agree::{allowance, worst_of_all};
use super::homography::Homography;
use super::lens::Frame;
use super::map::{Flattening, WhyLeftOut};
use super::{FlattenProblem, OTHER_SIDE};
use plane::Point;

/// Two printings lie together when as many others fit one other side.
pub(super) fn check(map: &Flattening, side_in: f64, all: usize) -> Result<(), FlattenProblem> {
    let others: Vec<f64> = map
        .left_out()
        .iter()
        .filter_map(|out| match out.why {
            WhyLeftOut::OtherSide { side_in } => Some(side_in),
            WhyLeftOut::NotFlat { .. } | WhyLeftOut::Blurred { .. } => None,
        })
        .collect();
    if others.len() >= 2 || (others.len() == 1 && all == 2) {
        let other_in = others.iter().sum::<f64>() / others.len() as f64;
        let (here, there) = (all - others.len(), others.len());
        return Err(FlattenProblem::TwoSizes { here, side_in, there, other_in });
    }
    Ok(())
}

/// Sides tried for the second of two cards, by the first's: from, to, and the share from one to the
/// next.
const TRIED: (f64, f64, f64) = (0.4, 2.5, 1.02);

/// Of two cards that don't fit one side: the side of the second that makes them lie flat together, if
/// there is one. Which of the two has the side that was told can't be known.
pub(super) fn of_two(cards: &[[Point; 4]], frame: &Frame, side_in: f64) -> Option<f64> {
    let [one, other] = *cards else { return None };
    let (from, to, step) = TRIED;
    let off = |ratio: f64| Some((worst_of_all(&[one, grown(&other, 1.0 / ratio)?], frame, side_in)?, ratio));
    let steps = ((to / from).ln() / step.ln()).ceil() as i32;
    let tried = (0..=steps).filter_map(|i| off(from * step.powi(i)));
    let (worst_px, ratio) = tried.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let alike = (ratio - 1.0).abs() <= OTHER_SIDE;
    (!alike && worst_px <= allowance(&other, frame)).then_some(ratio * side_in)
}

/// A card in the picture as if it had been printed so many times larger about its middle.
fn grown(card: &[Point; 4], by: f64) -> Option<[Point; 4]> {
    let square = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| Point::new(x, y));
    let map = Homography::through(square, *card)?;
    let mut larger = square;
    for corner in &mut larger {
        *corner = map.apply(Point::new(corner.x * by, corner.y * by))?;
    }
    Some(larger)
}
