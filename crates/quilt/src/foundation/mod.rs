//! Sewing onto paper: which pieces can be sewn one at a time, and into which sections the rest is split.
//!
//! Pieces and straight seams are a hypergraph: a node for each piece, and for each seam an edge that holds all
//! pieces along it. A piece that lies in one edge only, alone on its side of it, can be sewn last; plucking such
//! pieces until one is left gives the order reversed, and what can't be plucked to the end can't be sewn one
//! piece at a time (Leake, Bernstein, Davis, Agrawala, "A Mathematical Foundation for Foundation Paper
//! Pieceable Quilts", ACM Trans. Graph. 40(4), 2021). Plucking one piece never keeps another from being
//! plucked, so the choice among them is free.
//!
//! What is left is split along straight seams into sections; where no seam runs through, one is sewn in part
//! and closed later. Inches; outlines run counter-clockwise. Pieces are named by their place in what was given.

mod cuts;
mod pieces;
mod search;
mod sections;

pub use pieces::Pieces;
pub use sections::{Joining, Section, Sections, Sewn, sections};

use plane::Point;

/// The way of a straight seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// One end.
    pub from: Point,
    /// The other.
    pub to: Point,
}

impl Stretch {
    /// Its length in inches.
    #[must_use]
    pub fn length_in(self) -> f64 {
        self.from.distance(self.to)
    }
}
