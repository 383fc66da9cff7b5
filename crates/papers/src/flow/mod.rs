//! Blocks of words, tables and figures on pages, one after the other.
//!
//! A [`Block`] says what comes next and never where: [`pages`] sets blocks in the room of a [`Format`], breaks
//! pages where it hurts least, repeats the heads of tables, and gives each page its number.

mod block;
mod columns;
mod pages;
mod set;
mod table;

pub use block::{Block, Column, Fit, Table};
pub use pages::{Format, pages};

use crate::press::Face;

/// The types of a page, so that all papers speak with one voice.
pub mod faces {
    use super::Face;
    use drawing::{INK, MADDER};

    /// The title of a booklet.
    pub const TITLE: Face = Face::bold(34.0);
    /// What stands under it.
    pub const SUBTITLE: Face = Face::plain(15.0);
    /// A chapter.
    pub const CHAPTER: Face = Face::bold(21.0);
    /// A section.
    pub const SECTION: Face = Face::bold(14.0);
    /// Running words.
    pub const BODY: Face = Face::plain(11.0);
    /// What is read from beside the machine.
    pub const AT_ARMS_LENGTH: Face = Face::plain(14.0);
    /// A number that the eye looks for.
    pub const NUMBER: Face = Face::bold(26.0).coloured(MADDER);
    /// Heads of columns, captions, page numbers.
    pub const SMALL: Face = Face::plain(9.0);
    /// The same, bold.
    pub const SMALL_BOLD: Face = Face { bold: true, ..Face::plain(9.0) };
    /// Cautions.
    pub const CAUTION: Face = Face { colour: INK, ..Face::plain(10.0) };
}
