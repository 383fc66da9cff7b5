//! What can stand on a page.

use super::Face;
use crate::press::{Sheet, Side};
use drawing::Drawing;
use std::sync::Arc;

/// Something that comes next.
#[derive(Clone, Debug)]
pub enum Block {
    /// A heading; a chapter begins a page and has a bookmark, a section has a bookmark under it.
    Heading {
        /// 1 for a chapter, 2 for a section, 3 for less.
        level: u8,
        /// What it says.
        words: String,
    },
    /// A paragraph.
    Words {
        /// In which type.
        face: Face,
        /// What it says.
        words: String,
    },
    /// A list with dots, or with numbers from 1.
    List {
        /// In which type.
        face: Face,
        /// Whether the items are counted.
        counted: bool,
        /// What they say.
        items: Vec<String>,
    },
    /// A table.
    Table(Table),
    /// A drawing.
    Figure {
        /// The drawing.
        drawing: Arc<Drawing>,
        /// What it shows, for those who can't see it.
        alt: String,
        /// How large.
        fit: Fit,
        /// What is said under it; empty for nothing.
        caption: String,
    },
    /// Blocks beside each other: a share of the width each, and what stands there.
    Beside(Vec<(f64, Vec<Block>)>),
    /// Items in so many columns of one width: down the first, then the next, then on the next page. No item is
    /// torn.
    Columns {
        /// How many columns.
        count: usize,
        /// The items, each of blocks under each other.
        items: Vec<Vec<Block>>,
    },
    /// Blocks that aren't torn apart over two pages.
    Together(Vec<Block>),
    /// The same in a frame.
    Framed(Vec<Block>),
    /// What must be heeded where work can hurt: in a frame with a bar of the accent.
    Caution(Vec<String>),
    /// Room, in inches.
    Room(f64),
    /// What follows begins a page.
    NewPage,
    /// A page as it is, in true size; inside of other blocks it isn't shown.
    Page(Arc<Sheet>),
}

/// How large a drawing is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fit {
    /// As large as the room is wide, no higher than so many inches, and never above true size.
    Within {
        /// In inches.
        height_in: f64,
    },
    /// As large as the room is wide and so many inches high, above true size too.
    Filling {
        /// In inches.
        height_in: f64,
    },
    /// Inches on paper for an inch of the drawing.
    Scale(f64),
}

/// A table.
#[derive(Clone, Debug, Default)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows; a cell that is missing is empty.
    pub rows: Vec<Vec<String>>,
}

/// A column.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Its share of the width.
    pub share: f64,
    /// Where its words stand.
    pub side: Side,
}

impl Column {
    /// A column of words.
    #[must_use]
    pub fn words(head: impl Into<String>, share: f64) -> Self {
        Self { head: head.into(), share, side: Side::Start }
    }

    /// A column of numbers.
    #[must_use]
    pub fn numbers(head: impl Into<String>, share: f64) -> Self {
        Self { side: Side::End, ..Self::words(head, share) }
    }
}

impl Block {
    /// A chapter.
    #[must_use]
    pub fn chapter(words: impl Into<String>) -> Self {
        Self::Heading { level: 1, words: words.into() }
    }

    /// A section.
    #[must_use]
    pub fn section(words: impl Into<String>) -> Self {
        Self::Heading { level: 2, words: words.into() }
    }

    /// A paragraph of running words.
    #[must_use]
    pub fn body(words: impl Into<String>) -> Self {
        Self::Words { face: super::faces::BODY, words: words.into() }
    }

    /// A paragraph in some type.
    #[must_use]
    pub fn set(face: Face, words: impl Into<String>) -> Self {
        Self::Words { face, words: words.into() }
    }

    /// A list with dots.
    #[must_use]
    pub fn list(items: impl IntoIterator<Item = String>) -> Self {
        Self::List { face: super::faces::BODY, counted: false, items: items.into_iter().collect() }
    }

    /// A drawing as wide as the room, no higher than so many inches, at most true size.
    #[must_use]
    pub fn figure(drawing: Drawing, height_in: f64, caption: impl Into<String>) -> Self {
        let alt = drawing.title.clone();
        let fit = Fit::Within { height_in };
        Self::Figure { drawing: Arc::new(drawing), alt, fit, caption: caption.into() }
    }
}
