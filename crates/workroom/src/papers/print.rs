//! Papers to files: one by itself, or all as a booklet with a cover and contents.

use super::{Content, Paper, PapersWish};
use crate::asks::{AskError, Asked};
use crate::pictures::PictureFinder;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Fit, Format, Table, faces, pages};
use papers::press::{Book, Letters, Sheet, bind};
use std::collections::BTreeSet;
use std::sync::Arc;

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
        let sheets = match &paper.content {
            Content::Blocks(blocks) => pages(blocks, &format, letters),
            Content::Sheets(sheets) => sheets.clone(),
            Content::BlocksThenSheets(blocks, sheets) => {
                [pages(blocks, &format, letters), sheets.clone()].concat()
            }
        };
        self.bound(title, sheets, wish, letters)
    }

    /// Papers as one pattern for others: a cover, contents, then each in its order.
    ///
    /// # Errors
    /// No paper at all, or what the format's rules refuse.
    pub fn booklet(
        &mut self,
        head: &Head,
        made: &[Paper],
        wish: &PapersWish,
        letters: &Letters,
    ) -> Asked<Printed> {
        if made.is_empty() {
            return Err(AskError::NothingOnTable);
        }
        let title = wish.title_of(&head.quilt).to_owned();
        let cover = self.cover(head, wish)?;
        let mut format = Format { first_number: None, foot: String::new(), ..Format::new(wish.paper, "") };
        let mut sheets = pages(&cover, &format, letters);
        format = Format::new(wish.paper, title.clone());
        // The contents take one page; pages are counted from the cover.
        let mut at = sheets.len() + 2;
        let (mut bodies, mut rows) = (Vec::new(), Vec::new());
        for paper in made {
            let body = match &paper.content {
                Content::Blocks(blocks) => {
                    pages(blocks, &Format { first_number: Some(at), ..format.clone() }, letters)
                }
                Content::Sheets(sheets) => sheets.clone(),
                Content::BlocksThenSheets(blocks, sheets) => {
                    let first = Format { first_number: Some(at), ..format.clone() };
                    [pages(blocks, &first, letters), sheets.clone()].concat()
                }
            };
            rows.push(vec![paper.kind.title().to_owned(), paper.kind.about().to_owned(), at.to_string()]);
            at += body.len();
            bodies.extend(body);
        }
        let columns = vec![Column::words("", 3.0), Column::words("", 5.0), Column::numbers("Page", 1.0)];
        let contents = [Block::chapter("Contents"), Block::Table(Table { columns, rows })];
        sheets.extend(pages(&contents, &Format { first_number: Some(sheets.len() + 1), ..format }, letters));
        sheets.extend(bodies);
        self.bound(title, sheets, wish, letters)
    }

    /// The cover: title, picture, maker, words.
    fn cover(&mut self, head: &Head, wish: &PapersWish) -> Asked<Vec<Block>> {
        let tip = head.tip.ok_or(AskError::NothingOnTable)?;
        let front = self.draw(tip, None, crate::asks::DrawAsk::default())?;
        let mut blocks = vec![
            Block::Room(0.4),
            Block::set(faces::TITLE, wish.title_of(&head.quilt)),
            Block::Figure {
                alt: front.title.clone(),
                drawing: Arc::new(front),
                fit: Fit::Filling { height_in: 7.0 },
                caption: String::new(),
            },
        ];
        if !wish.words.is_empty() {
            blocks.push(Block::set(faces::SUBTITLE, &wish.words));
        }
        if !wish.maker.is_empty() {
            blocks.push(Block::set(faces::SUBTITLE, format!("Made by {}", wish.maker)));
        }
        Ok(blocks)
    }

    fn bound(
        &self,
        title: String,
        sheets: Vec<Sheet>,
        wish: &PapersWish,
        letters: &Letters,
    ) -> Asked<Printed> {
        let finder = PictureFinder::new(self);
        let pages = sheets.len();
        let book = Book { title, maker: wish.maker.clone(), sheets, inking: wish.inking };
        let pdf = bind(&book, letters, &|picture| finder.find(picture))?;
        Ok(Printed { pdf, pages, lost: finder.lost() })
    }
}
