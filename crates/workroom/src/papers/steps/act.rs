//! What is done for a card, one thing after the other, as plain values: what is said of it is worded elsewhere.

use quilt::log::{Mark, Press};

/// A top as a card speaks of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Called {
    /// Its patches, by number.
    pub(super) patches: Vec<Mark>,
    /// The patch whose edge is meant, where it is one.
    pub(super) edge_of: Option<Mark>,
    /// Whether it is made of what this card cuts; otherwise it lies there from before.
    pub(super) is_new: bool,
}

/// Something that is done. Lengths are in inches.
#[derive(Clone, Debug)]
pub(super) enum Act {
    /// Patches of this card, or what has become of them, are sewn together before they are sewn on.
    Join { what: Called, to: Called, along_in: f64, seam_in: f64 },
    /// Sewn onto the piece along its red edge.
    Onto { what: Called, long_in: f64, seam_in: f64, slide: Option<Slide>, open_in: Option<f64> },
    /// A seam that was left open is closed.
    Close,
    /// Strips all round, with mitred corners.
    Frame { strips: usize, seam_in: f64 },
    /// The iron, after a seam onto the piece.
    Pressed(Press),
    /// What sticks out beside what was sewn on, at both its ends or at one.
    TrimEnds { both: bool },
    /// A cut across the piece: along which edge it begins and ends, how far along each, and of which patch that is.
    Trim { apart: bool, marks: Option<[(f64, Option<Mark>); 2]> },
    /// Nothing is sewn: edges were measured on the real piece.
    Measured,
    /// A part that isn't sewn on.
    Aside,
    /// The piece is turned, in words.
    Turned(String),
}

/// What the iron does to the seam of a step, and what is trimmed after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ironed {
    /// The card's number.
    pub(super) no: usize,
    /// Which way its seam is pressed.
    pub(super) way: Press,
    /// Whether both its ends are trimmed, or one; `None` where nothing sticks out.
    pub(super) both_ends: Option<bool>,
}

/// Off the middle, along the edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slide {
    /// How far, in inches.
    pub(super) by_in: f64,
    /// Whether towards the dot on the picture; otherwise away from it.
    pub(super) towards: bool,
}
