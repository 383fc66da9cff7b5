//! A paper guide to the quilting: one page over which all lines are seen, with the start, the direction and
//! the changes of bobbin, and, where they are wished, tiles in true size to lay under or on the piece.
//!
//! Tiles overlap; where four of them meet each has the same cross, so that they can be laid on each other.

mod overview;
mod tiles;

pub(crate) use tiles::tile_name;

use crate::PaperProblem;
use crate::pdf::{Ink, pdf};
use plane::fill::Fill;
use plane::{Point, polygon};

/// Ink for the outline, the lines, and what is said of them.
const OUTLINE: Ink = Ink::plain([0.17, 0.14, 0.13], 0.02);
const LINES: Ink = Ink::plain([0.17, 0.14, 0.13], 0.008);
const FREE: Ink = Ink { colour: [0.45, 0.42, 0.4], width_in: 0.01, dash_in: Some([0.06, 0.04]) };
const MARKS: [f64; 3] = [0.64, 0.2, 0.17];
/// What of a page's edge stays empty: most printers can't reach it.
const MARGIN_IN: f64 = 0.5;
/// The most tiles: beyond that it is a pile of paper nobody lays out.
pub const MOST_TILES: usize = 400;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 millimetres.
    #[default]
    A4,
    /// 8 1/2 by 11 inches.
    Letter,
}

impl Paper {
    /// Width and height in inches.
    #[must_use]
    pub const fn size_in(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0 / 25.4, 297.0 / 25.4],
            Self::Letter => [8.5, 11.0],
        }
    }
}

/// What a guide tells.
#[derive(Clone, Debug)]
pub struct Guide<'a> {
    /// What it is about.
    pub title: &'a str,
    /// The piece's outline, raw.
    pub outline: &'a [Point],
    /// What is kept free of lines.
    pub free: &'a [Vec<Point>],
    /// The strokes in the order they are sewn.
    pub lines: &'a Fill,
    /// Where bobbins run out.
    pub changes: &'a [Point],
    /// Lengths, thread, time and cautions, a sentence each.
    pub notes: &'a [String],
}

/// The guide as PDF: the overview and, when `true_size` is wished, its tiles.
///
/// # Errors
/// An outline without room, or so large that its tiles would be more than [`MOST_TILES`].
pub fn guide(guide: &Guide<'_>, paper: Paper, true_size: bool) -> Result<Vec<u8>, PaperProblem> {
    let size = polygon::bounds(guide.outline).map(|(low, high)| high - low);
    if !size.is_some_and(|size| size.x > 0.0 && size.y > 0.0 && (size.x + size.y).is_finite()) {
        return Err(PaperProblem::NoOutline);
    }
    let tiles = if true_size { tiles::tiles(guide, paper)? } else { Vec::new() };
    let mut pages = vec![overview::overview(guide, paper, &tiles)];
    pages.extend(tiles.iter().map(|tile| tile.page(guide, paper)));
    Ok(pdf(guide.title, &pages))
}

/// A place on the piece as a place on a page.
#[derive(Clone, Copy, Debug)]
struct OnPage {
    /// What lies at the page's corner `to`.
    from: Point,
    to: Point,
    scale: f64,
}

impl OnPage {
    fn at(&self, p: Point) -> Point {
        self.to + (p - self.from) * self.scale
    }

    fn all(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|p| self.at(*p)).collect()
    }
}
