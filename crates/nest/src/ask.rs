//! What is asked, and what is answered.

use plane::{Point, Pose, Region, Turn};

/// How a piece may be turned on a cloth.
#[derive(Clone, Debug, PartialEq)]
pub enum Turns {
    /// Any way round.
    Any,
    /// One of these, from the piece's coordinates to the cloth's.
    Only(Vec<Turn>),
}

impl Turns {
    /// One turn and no other: a print with a top.
    #[must_use]
    pub fn just(turn: Turn) -> Self {
        Self::Only(vec![turn])
    }

    /// A turn, or upside down: the straight grain, or stripes.
    #[must_use]
    pub fn half(turn: Turn) -> Self {
        Self::Only(vec![turn, turn.opposite()])
    }

    /// A turn and its quarters: lengthwise or crosswise threads.
    #[must_use]
    pub fn quarters(turn: Turn) -> Self {
        Self::Only(vec![turn, turn.left(), turn.opposite(), turn.left().opposite()])
    }
}

/// A cloth that a piece may be cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// Which, from 0 among the cloths asked.
    pub cloth: usize,
    /// How the piece may be turned there.
    pub turns: Turns,
    /// How much less it is liked than the best, in the unit of the cloths' cost; 0 for the best.
    pub dislike: f64,
}

/// A piece to be cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it is called, for messages.
    pub name: String,
    /// Its corners, counter-clockwise, as cut.
    pub outline: Vec<Point>,
    /// What it may be cut from.
    pub from: Vec<Source>,
    /// How bad the spots are that it may lie over, from 0, none at all: what is seen on a face spoils no back.
    pub tolerates: u8,
}

/// A place on a cloth that some pieces may lie over and others not: faded, stained, thin.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Its corners, counter-clockwise.
    pub outline: Vec<Point>,
    /// How bad it is: a piece that tolerates as much may lie over it.
    pub badness: u8,
}

/// What it costs to cut from a cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Price {
    /// So much as soon as it is cut into.
    Whole(f64),
    /// So much for each inch along x, up to the last that is cut: a length off the bolt.
    ByLength(f64),
}

/// A cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct Cloth {
    /// What it is called, for messages.
    pub name: String,
    /// The parts of it that may be cut: flaws and what is taken already are off.
    pub parts: Vec<Region>,
    /// Where only pieces may lie that tolerate it.
    pub spots: Vec<Spot>,
    /// Direction of its lengthwise threads.
    pub grain: Turn,
    /// What cutting from it costs.
    pub price: Price,
}

/// Room that is left, in inches, each from 0 to 2.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// Between pieces: what the blade takes, and what it needs.
    pub between_in: f64,
    /// To the edge of the cloth, its holes and flaws.
    pub edge_in: f64,
}

/// How long it is sought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Rounds of taking out and putting back.
    pub rounds: u32,
    /// Places tried for a piece on a cloth.
    pub samples: u32,
    /// Where chance begins.
    pub seed: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Self { rounds: 400, samples: 400, seed: 1 }
    }
}

/// Pieces, cloths, and how.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ask {
    /// What is to be cut.
    pub pieces: Vec<Piece>,
    /// From what.
    pub cloths: Vec<Cloth>,
    /// What is left between.
    pub room: Room,
    /// How long it is sought.
    pub effort: Effort,
}

/// A piece with its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Which piece, from 0.
    pub piece: usize,
    /// On which cloth, from 0.
    pub cloth: usize,
    /// In which of its parts, from 0.
    pub part: usize,
    /// From the piece's coordinates to the cloth's.
    pub at: Pose,
}

/// A piece without a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftOver {
    /// Which piece, from 0.
    pub piece: usize,
    /// When it fits none of its cloths even by itself: the cloth that comes nearest, and by how many inches its
    /// longest side would have to be shorter, at the same proportions (found by trying: a little less may do).
    pub too_large: Option<(usize, f64)>,
}

/// Where the pieces lie.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Those that have a place, by piece.
    pub placed: Vec<Placed>,
    /// Those that have none, by piece.
    pub left_over: Vec<LeftOver>,
    /// What the opened cloths cost.
    pub cost: f64,
}

impl Answer {
    /// The cloths that are cut into, in their order.
    #[must_use]
    pub fn opened(&self) -> Vec<usize> {
        let mut opened: Vec<usize> = self.placed.iter().map(|placed| placed.cloth).collect();
        opened.sort_unstable();
        opened.dedup();
        opened
    }
}
