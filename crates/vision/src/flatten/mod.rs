//! From the cards in a picture to the table in true size.
//!
//! Cards of one known side lie anywhere, at any turn, on one flat surface. One perspective and the
//! lens's bend are solved that make all of them squares of their side. A card that won't
//! fit (curled, half covered, of another printing) is left out and named. The answer knows how far it
//! can be trusted, and where.

mod adjust;
mod agree;
pub(crate) mod homography;
mod lens;
mod map;
mod problem;
mod sizes;
mod start;
mod trust;

use crate::Card;
use agree::Agreed;
use lens::Frame;
pub use map::{Flattening, LeftOut, WhyLeftOut, Window};
use plane::Point;
pub use problem::FlattenProblem;
pub use trust::HOLDS;

/// Most the camera may be tilted from looking straight down, in degrees.
pub const STEEPEST_DEG: f64 = 63.0;
/// Fewest pixels an inch.
pub const FEWEST_PER_IN: f64 = 18.0;
/// Most blur, as a share of a card's cells.
const MOST_BLUR: f64 = 0.38;
/// Least light of white paper, of 1.
const LEAST_LIGHT: f64 = 0.03;
/// A side this much off is of another printing, where nothing else is wrong.
const OTHER_SIDE: f64 = 0.025;

/// The map from a picture to the table, from the cards found in it.
///
/// `side_in` is the side of a card's black square in inches, `size_px` the picture's width and height.
///
/// # Errors
/// When there are no cards, or they don't agree on one flat table, or are of two sizes, or the picture
/// is too steep, blurred, dark, or taken from too far.
pub fn flatten(cards: &[Card], side_in: f64, size_px: [u32; 2]) -> Result<Flattening, FlattenProblem> {
    if !(side_in.is_finite() && side_in > 0.0) {
        return Err(FlattenProblem::NoSide);
    }
    let sound = |card: &&Card| card.corners.iter().all(|p| p.is_finite());
    let mut cards: Vec<Card> = cards.iter().filter(sound).copied().collect();
    // A cloth may be printed with markers: the largest are enough, and the work is bounded.
    if cards.len() > MOST_CARDS {
        cards.sort_by(|a, b| across_px(b).total_cmp(&across_px(a)));
        cards.truncate(MOST_CARDS);
    }
    check_light(&cards, side_in)?;
    let (cards, blurred): (Vec<Card>, Vec<Card>) =
        cards.into_iter().partition(|card| sharpness(card) <= MOST_BLUR);
    let frame = Frame::of(size_px);
    let corners: Vec<[Point; 4]> = cards.iter().map(|card| card.corners).collect();
    let not_flat = || match sizes::of_two(&corners, &frame, side_in) {
        Some(other_in) => FlattenProblem::TwoSizes { here: 1, side_in, there: 1, other_in },
        None => FlattenProblem::NotFlat { cards: cards.len(), off_px: worst(&corners, &frame, side_in) },
    };
    let agreed = agree::agree(&corners, &frame, side_in).ok_or_else(not_flat)?;
    let mut map = Flattening::new(&cards, &agreed, frame, side_in, size_px).ok_or_else(not_flat)?;
    sizes::check(&map, side_in, cards.len())?;
    // Where as many don't agree, nothing says which of them lie flat.
    let too_few =
        if cards.len() > 3 { agreed.members.len() * 2 <= cards.len() } else { agreed.members.len() < 2 };
    if cards.len() > 1 && too_few {
        return Err(not_flat());
    }
    if map.tilt_deg() > STEEPEST_DEG {
        return Err(FlattenProblem::TooSteep { tilt_deg: map.tilt_deg(), most_deg: STEEPEST_DEG });
    }
    map.leave_out_blurred(&blurred);
    Ok(map)
}

/// More cards than this are not looked at.
const MOST_CARDS: usize = 24;

/// How large a card is in the picture: the sum of its diagonals in pixels.
fn across_px(card: &Card) -> f64 {
    let [a, b, c, d] = card.corners;
    a.distance(c) + b.distance(d)
}

/// A card's blur as a share of its cells.
fn sharpness(card: &Card) -> f64 {
    card.blur_px / (card.side_px() / 8.0)
}

/// How far corners lie off when all cards are taken as they are.
fn worst(corners: &[[Point; 4]], frame: &Frame, side_in: f64) -> f64 {
    let alone = agree::agree(&corners[..1], frame, side_in);
    let off = |agreed: &Agreed| {
        corners
            .iter()
            .filter_map(|card| agree::distance(&agreed.layout, card, frame, side_in))
            .fold(0.0, f64::max)
    };
    alone.as_ref().map_or(0.0, off)
}

/// Whether there are cards, and enough light, sharpness and size to measure by.
fn check_light(cards: &[Card], side_in: f64) -> Result<(), FlattenProblem> {
    let most = |of: &dyn Fn(&Card) -> f64| cards.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    let least = |of: &dyn Fn(&Card) -> f64| cards.iter().map(of).fold(f64::INFINITY, f64::min);
    if cards.is_empty() {
        return Err(FlattenProblem::NoCard);
    }
    let white = most(&|card| card.white);
    if white < LEAST_LIGHT {
        return Err(FlattenProblem::TooDark { percent: 100.0 * white });
    }
    let per_in = most(&|card| card.side_px() / side_in);
    if per_in < FEWEST_PER_IN {
        return Err(FlattenProblem::TooFar { per_in, least: FEWEST_PER_IN });
    }
    if least(&sharpness) > MOST_BLUR {
        return Err(FlattenProblem::TooBlurred { blur_px: least(&|card| card.blur_px) });
    }
    Ok(())
}
