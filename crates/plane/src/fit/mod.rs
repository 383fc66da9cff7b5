//! Does a piece fit into a cloth, and how: rigid motions, never mirrored.
//!
//! The piece is a simple counter-clockwise polygon, convex or not; the cloth a region with holes.
//! Touching is allowed, and an overlap of up to [`crate::DECISION`] inch counts as touching.
//! A yes is checked against the cloth's own outline before it is given. A no is a proof, unless
//! the search ran out of its budget, which [`try_fit`] tells apart as [`Fit::Unknown`]; that
//! takes an outline with many deep notches. Prepare what is asked about often:
//! [`FitCloth::new`], [`FitPiece::new`].

mod best;
mod flush;
mod overlap;
mod prepared;
mod rule;
mod search;
mod sweep;

pub use best::best_of;
pub use prepared::{FitCloth, FitPiece};
pub use search::Fit;

use crate::{Point, Pose, Region, Turn};
use overlap::Placed;
use search::Search;

/// Steps for one of many asks; one step costs some tenths of a microsecond. Asks among shapes of
/// 4 to 12 corners rarely take a tenth of it.
pub const BUDGET: u32 = 20_000;

/// Steps for a single ask that may take its time: at most about half a second.
pub const THOROUGH: u32 = 1_000_000;

/// How a print lets a piece be turned on its cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Turning {
    /// Any way round.
    Any,
    /// As given, or upside down.
    HalfTurns,
    /// Only as given.
    None,
}

/// A question: does the piece fit?
#[derive(Clone, Copy, Debug)]
pub struct FitAsk<'a> {
    /// The piece's corners, counter-clockwise, in inches.
    pub piece: &'a [Point],
    /// The cloth; flaws are holes.
    pub cloth: &'a Region,
    /// How the piece may be turned.
    pub turning: Turning,
    /// The turn that `turning` is relative to: the pose's turn is this, this or half a turn
    /// more, or anything.
    pub base: Turn,
    /// Extra inches outside each side of the piece; may be empty.
    pub margin: &'a [f64],
}

/// The first pose found at which the piece, with its margin, lies in the cloth; `None` also where
/// that could not be decided, which [`try_fit`] and [`best_fit`] tell apart.
#[must_use]
pub fn fits(ask: &FitAsk) -> Option<Pose> {
    let piece = FitPiece::new(ask.piece, ask.margin)?;
    let cloth = FitCloth::new(ask.cloth)?;
    try_fit(&piece, &cloth, ask.turning, ask.base, THOROUGH).pose()
}

/// A pose that leaves the rest of the cloth in one useful part as far as possible: the piece
/// lies along an edge or in a corner, and what remains has few parts and much room.
#[must_use]
pub fn best_fit(ask: &FitAsk) -> Fit {
    match (FitPiece::new(ask.piece, ask.margin), FitCloth::new(ask.cloth)) {
        (Some(piece), Some(cloth)) => best::best_within(&piece, &cloth, ask.turning, ask.base, THOROUGH),
        _ => Fit::No,
    }
}

/// Whether a prepared piece fits a prepared cloth, with at most `budget` steps of search.
#[must_use]
pub fn try_fit(piece: &FitPiece, cloth: &FitCloth, turning: Turning, base: Turn, budget: u32) -> Fit {
    if cloth.summary.forbids(&piece.summary).is_some() {
        return Fit::No;
    }
    let mut search = Search::new(piece, cloth, budget);
    let found = match turning {
        Turning::None => search.at(base),
        Turning::HalfTurns => search.at(base).or_else(|| search.at(base.opposite())),
        Turning::Any => at_any_turn(&mut search, piece, cloth),
    };
    match found {
        Some(pose) if lies_in(piece, cloth, pose) => Fit::Yes(back(piece, cloth, pose)),
        None if !search.is_exhausted() => Fit::No,
        Some(_) | None => Fit::Unknown,
    }
}

/// Tries the piece along the cloth's two longest sides before every turn is searched.
fn at_any_turn(search: &mut Search, piece: &FitPiece, cloth: &FitCloth) -> Option<Pose> {
    let along = flush::longest_sides(&piece.hull.points).next().unwrap_or(Turn::NONE);
    let mut first = None;
    for side in flush::longest_sides(&cloth.hull.points).take(2) {
        let turn = side.then(along.inverse());
        first = first.or(Some(turn));
        if let Some(pose) = search.at(turn) {
            return Some(pose);
        }
    }
    search.all_round(first.unwrap_or(Turn::NONE))
}

/// Whether the piece at a centred pose lies in the cloth. On a convex cloth the search's own
/// rules say the same.
fn lies_in(piece: &FitPiece, cloth: &FitCloth, pose: Pose) -> bool {
    cloth.is_convex() || Placed::new(piece, pose).lies_in(&cloth.region)
}

/// From centred coordinates to the caller's.
fn back(piece: &FitPiece, cloth: &FitCloth, pose: Pose) -> Pose {
    Pose { turn: pose.turn, by: pose.by + cloth.middle - pose.turn.apply(piece.middle) }
}

/// Whether a piece at a pose lies in the cloth, to within [`crate::DECISION`].
#[must_use]
pub fn lies_within(piece: &[Point], cloth: &Region, pose: Pose) -> bool {
    FitPiece::new(piece, &[]).is_some_and(|piece| {
        let centred = Pose { turn: pose.turn, by: pose.by + pose.turn.apply(piece.middle) };
        Placed::new(&piece, centred).lies_in(cloth)
    })
}
