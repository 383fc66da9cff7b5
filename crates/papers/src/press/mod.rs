//! Pages bound to one PDF: true size, type embedded, bookmarks, and a reading order for those who listen.
//!
//! A [`Sheet`] is a value: a size and parts in reading order, in inches from its lower left corner, y up.
//! [`bind`] turns sheets into a file; the same sheets give the same bytes. The format (ISO 32000, and
//! ISO 14289-1 for what is read aloud) is written by a library; what stands where is settled here.

mod bind;
mod fractions;
mod held;
mod letters;
mod pen;
mod pictures;
mod plain;
mod shorten;
mod tags;

pub use bind::{Book, bind};
pub(crate) use letters::POINTS_PER_IN;
pub use letters::{Face, Laid, Letters, Side};
pub use pen::Inking;

use drawing::{Drawing, Stroke};
use plane::Point;
use std::sync::Arc;

/// A page.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Width and height in inches.
    pub size_in: [f64; 2],
    /// What stands on it, in reading order.
    pub parts: Vec<Part>,
}

/// Something on a page.
#[derive(Clone, Debug)]
pub enum Part {
    /// Words, the top left corner of their room at a place.
    Words {
        /// What they are to a reader.
        role: Role,
        /// Top left corner of their room.
        at: Point,
        /// The words on their lines.
        words: Laid,
    },
    /// A drawing.
    Figure {
        /// What it shows, for those who can't see it; none where words beside it say so already.
        alt: Option<String>,
        /// Where the lower left corner of the drawing's own page lies.
        at: Point,
        /// Inches on the page for an inch of the drawing; 1 is true size.
        scale: f64,
        /// The drawing. Only what lies on its page is seen.
        drawing: Arc<Drawing>,
    },
    /// A line that guides the eye and says nothing: rules, frames.
    Rule {
        /// Its points.
        points: Vec<Point>,
        /// How it is drawn, at weight 1.
        stroke: Stroke,
    },
    /// A ground under what follows: a share of ink from 0 to 1, very pale.
    Ground {
        /// Its corners.
        points: Vec<Point>,
        /// Colour.
        colour: colour::Srgb,
    },
    /// What belongs together for a reader.
    Group {
        /// What it is.
        role: GroupRole,
        /// Its parts.
        parts: Vec<Part>,
    },
    /// What every page has: running heads, page numbers. It is not read aloud.
    Furniture(Vec<Part>),
}

/// What words are to a reader.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Role {
    /// A paragraph, or a part of one.
    #[default]
    Words,
    /// A heading, 1 the highest.
    Heading {
        /// Its level, from 1.
        level: u8,
        /// Its bookmark, where it has one.
        mark: Option<String>,
    },
    /// What is said of a figure.
    Caption,
}

/// What belongs together for a reader.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupRole {
    /// A part of a page with something to say of its own: a card.
    Section,
    /// A table; its parts are rows.
    Table,
    /// A row; its parts are cells.
    Row,
    /// The head of a column.
    Head,
    /// A cell.
    Cell,
    /// A list; its parts are items.
    List,
    /// An item of a list.
    Item,
}

impl Sheet {
    /// Whether a chapter of this title begins on it.
    #[must_use]
    pub fn has_chapter(&self, title: &str) -> bool {
        self.parts.iter().any(|part| part.has_chapter(title))
    }
}

impl Part {
    fn has_chapter(&self, title: &str) -> bool {
        match self {
            Self::Words { role: Role::Heading { level: 1, mark }, .. } => mark.as_deref() == Some(title),
            Self::Group { parts, .. } => parts.iter().any(|part| part.has_chapter(title)),
            _ => false,
        }
    }

    /// The same part, moved.
    #[must_use]
    pub fn moved(self, by: plane::Vec2) -> Self {
        let all = |parts: Vec<Self>| parts.into_iter().map(|part| part.moved(by)).collect();
        match self {
            Self::Words { role, at, words } => Self::Words { role, at: at + by, words },
            Self::Figure { alt, at, scale, drawing } => Self::Figure { alt, at: at + by, scale, drawing },
            Self::Rule { points, stroke } => {
                Self::Rule { points: points.into_iter().map(|p| p + by).collect(), stroke }
            }
            Self::Ground { points, colour } => {
                Self::Ground { points: points.into_iter().map(|p| p + by).collect(), colour }
            }
            Self::Group { role, parts } => Self::Group { role, parts: all(parts) },
            Self::Furniture(parts) => Self::Furniture(all(parts)),
        }
    }
}
