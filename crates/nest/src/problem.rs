//! What can't be asked, in a maker's words.

use crate::ask::{Ask, Room};
use plane::{Region, RegionProblem, polygon};
use thiserror::Error;

/// The most pieces that are taken at once.
const MOST_PIECES: usize = 5_000;
/// The most room, in inches.
const MOST_ROOM_IN: f64 = 2.0;
/// The longest cloth or piece, in inches: 100 yards and some.
const LONGEST_IN: f64 = 4_000.0;

/// What is wrong with a question.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NestProblem {
    /// Nothing to cut.
    #[error("there is nothing to cut: name at least one piece")]
    NoPieces,
    /// Nothing to cut from.
    #[error("there is no cloth to cut from: add cloth, or let more of it be used")]
    NoCloth,
    /// More than is taken at once.
    #[error(
        "{count} pieces are too many at once: plan at most {MOST_PIECES}, one part of the work after the other"
    )]
    TooMany {
        /// How many.
        count: usize,
    },
    /// A piece whose outline is none.
    #[error("piece {piece}: {why}")]
    Piece {
        /// What it is called.
        piece: String,
        /// What is wrong.
        why: RegionProblem,
    },
    /// A cloth whose outline is none.
    #[error("cloth {cloth}: {why}")]
    Cloth {
        /// What it is called.
        cloth: String,
        /// What is wrong.
        why: RegionProblem,
    },
    /// A cloth or piece too long for the sums.
    #[error(
        "{name} is {long_in:.0} inches long: the longest that is planned is {LONGEST_IN} inches; cut it in lengths first"
    )]
    TooLong {
        /// Its name.
        name: String,
        /// Its length.
        long_in: f64,
    },
    /// A piece that names a cloth that isn't there.
    #[error(
        "piece {piece} is to come from cloth number {cloth} of {count}: name one of those that are there"
    )]
    NoSuchCloth {
        /// What it is called.
        piece: String,
        /// The number, from 1.
        cloth: usize,
        /// How many there are.
        count: usize,
    },
    /// Room that makes no sense.
    #[error("room of {found} inches is not from 0 to {MOST_ROOM_IN}: name what the blade takes, as in 1/8")]
    Room {
        /// What was asked.
        found: f64,
    },
    /// A cost that makes no sense.
    #[error("{name} has a cost that is no number from 0 up: name one, its area for instance")]
    Cost {
        /// Whose.
        name: String,
    },
    /// What the collision engine can't take.
    #[error(
        "{name} has an outline too fine to be planned with: leave out corners nearer to each other than 1/100 inch"
    )]
    TooFine {
        /// Whose.
        name: String,
    },
}

/// Checks a question.
///
/// # Errors
/// The first thing that is wrong.
pub(crate) fn check(ask: &Ask) -> Result<(), NestProblem> {
    if ask.pieces.is_empty() {
        return Err(NestProblem::NoPieces);
    }
    if ask.cloths.is_empty() {
        return Err(NestProblem::NoCloth);
    }
    if ask.pieces.len() > MOST_PIECES {
        return Err(NestProblem::TooMany { count: ask.pieces.len() });
    }
    ask.room.check()?;
    for cloth in &ask.cloths {
        let (crate::Price::Whole(cost) | crate::Price::ByLength(cost)) = cloth.price;
        if !(0.0..=1e12).contains(&cost) {
            return Err(NestProblem::Cost { name: cloth.name.clone() });
        }
        for part in &cloth.parts {
            Region::try_new(part.outer.clone(), part.holes.clone())
                .map_err(|why| NestProblem::Cloth { cloth: cloth.name.clone(), why })?;
            short_enough(&cloth.name, part)?;
        }
        for spot in &cloth.spots {
            Region::try_new(spot.outline.clone(), Vec::new())
                .map_err(|why| NestProblem::Cloth { cloth: cloth.name.clone(), why })?;
        }
    }
    for piece in &ask.pieces {
        let region = Region::try_new(piece.outline.clone(), Vec::new())
            .map_err(|why| NestProblem::Piece { piece: piece.name.clone(), why })?;
        short_enough(&piece.name, &region)?;
        for source in &piece.from {
            if source.cloth >= ask.cloths.len() {
                let (cloth, count) = (source.cloth + 1, ask.cloths.len());
                return Err(NestProblem::NoSuchCloth { piece: piece.name.clone(), cloth, count });
            }
            if !(0.0..=1e12).contains(&source.dislike) {
                return Err(NestProblem::Cost { name: piece.name.clone() });
            }
        }
    }
    Ok(())
}

impl Room {
    /// Checks what is asked of room.
    ///
    /// # Errors
    /// Room that makes no sense.
    pub fn check(self) -> Result<(), NestProblem> {
        match [self.between_in, self.edge_in].into_iter().find(|found| !(0.0..=MOST_ROOM_IN).contains(found))
        {
            Some(found) => Err(NestProblem::Room { found }),
            None => Ok(()),
        }
    }
}

fn short_enough(name: &str, region: &Region) -> Result<(), NestProblem> {
    let (low, high) = polygon::bounds(&region.outer).unwrap_or_default();
    let long_in = (high.x - low.x).max(high.y - low.y);
    if long_in > LONGEST_IN {
        return Err(NestProblem::TooLong { name: name.to_owned(), long_in });
    }
    Ok(())
}
