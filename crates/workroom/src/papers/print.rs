//! A paper to a file.

use super::{Paper, PapersWish, cautions};
use crate::asks::Asked;
use crate::pictures::PictureFinder;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Format, pages};
use papers::press::{Book, Letters, Sheet, bind};
use std::collections::BTreeSet;

/// A file of papers.
#[derive(Clone, Debug)]
pub struct Printed {
    /// Its bytes.
    pub pdf: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// Pictures that are missing from the workroom or damaged: their cloth is drawn without them.
    pub lost: BTreeSet<String>,
}

impl Workroom {
    /// One paper as PDF.
    ///
    /// # Errors
    /// What the format's rules refuse.
    pub fn print(&self, head: &Head, paper: &Paper, wish: &PapersWish, letters: &Letters) -> Asked<Printed> {
        let title = format!("{}: {}", wish.title_of(&head.quilt), paper.kind.title());
        let format = Format::new(wish.paper, title.clone());
        self.bound(title, pages(&blocks(paper, wish, true), &format, letters), wish, letters)
    }

    pub(super) fn bound(
        &self,
        title: String,
        sheets: Vec<Sheet>,
        wish: &PapersWish,
        letters: &Letters,
    ) -> Asked<Printed> {
        let finder = PictureFinder::new(self);
        let pages = sheets.len();
        let book = Book { title, maker: wish.words.maker.clone(), sheets, inking: wish.inking };
        let pdf = bind(&book, letters, &|picture| finder.find(picture))?;
        Ok(Printed { pdf, pages, lost: finder.lost() })
    }
}

/// What stands on a paper: under its title the maker's own words, and what is heeded while it lies there. In a
/// booklet cautions have a place of their own.
pub(super) fn blocks(paper: &Paper, wish: &PapersWish, cautions: bool) -> Vec<Block> {
    let mut blocks = paper.blocks.clone();
    let title = blocks.iter().position(|block| matches!(block, Block::Heading { level: 1, .. }));
    let under = title.map_or(0, |title| title + 1);
    let heeded = cautions::of(paper.kind);
    if cautions && !heeded.is_empty() {
        blocks.insert(under, Block::Caution(heeded));
    }
    if let Some(words) = wish.words.of(paper.kind) {
        blocks.insert(under, Block::body(words));
    }
    blocks
}
