//! A paper guide to the quilting: all lines over the outline, with the starts, the direction and the changes
//! of bobbin, what is to be told of them, and, where they are wished, tiles in true size to lay under or on
//! the piece.

mod lines;

use crate::flow::{Block, Fit, faces};
use crate::tiles::tiles;
use crate::{Paper, PaperProblem};
use drawing::Drawing;
use plane::fill::Fill;
use plane::{Point, polygon};
use std::sync::Arc;

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

/// The guide as blocks: the overview, its notes and, when `true_size` is wished, its tiles.
///
/// # Errors
/// An outline without room, or so large that its tiles would be more than [`crate::MOST_TILES`].
pub fn guide(guide: &Guide<'_>, paper: Paper, true_size: bool) -> Result<Vec<Block>, PaperProblem> {
    let size = polygon::bounds(guide.outline).map(|(low, high)| high - low);
    if !size.is_some_and(|size| size.x > 0.0 && size.y > 0.0 && (size.x + size.y).is_finite()) {
        return Err(PaperProblem::NoOutline);
    }
    let plain = lines::true_size(guide);
    let tiles = if true_size { tiles(&plain, paper)? } else { Vec::new() };
    let (drawn, scale) = lines::overview(guide, &tiles, paper);
    let mut blocks = vec![figure(drawn, scale), Block::list(guide.notes.iter().cloned())];
    if let Some((first, rest)) = tiles.split_first() {
        let count = rest.len() + 1;
        let words = if rest.is_empty() {
            "The next page shows it in true size.".to_owned()
        } else {
            format!(
                "The next {count} pages are the tiles of the drawing above, from {} on. Lay cross on cross and glue them.",
                first.name()
            )
        };
        blocks.push(Block::body(words));
    }
    blocks.extend(tiles.iter().map(|tile| Block::Page(Arc::new(tile.sheet(&plain, guide.title, paper)))));
    Ok(blocks)
}

fn figure(drawn: Drawing, scale: f64) -> Block {
    let size = if scale < 1.0 {
        format!("Drawn 1 to {:.2}: so many times as large on the piece.", 1.0 / scale)
    } else {
        "True size.".to_owned()
    };
    let said = "A dot is a start, an arrow the direction, a ring with a number a change of bobbin.";
    Block::Together(vec![
        Block::Figure {
            alt: drawn.title.clone(),
            drawing: Arc::new(drawn),
            fit: Fit::Scale(scale),
            caption: String::new(),
        },
        Block::set(faces::CAUTION, format!("{size} {said}")),
    ])
}
