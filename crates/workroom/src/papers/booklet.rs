//! All papers as one pattern for others: cover, contents, then each in its order.

use super::cover::Cover;
use super::print::{Printed, blocks};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, DrawAsk};
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Format, Table, pages};
use papers::press::{Letters, Sheet};
use plane::polygon;
use quilt::length::many;

impl Workroom {
    /// Papers as one pattern for others.
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
        let cover = self.cover(head, wish, letters)?;
        let format = Format::new(wish.paper, title.clone());
        let row = |paper: &Paper, at: usize| {
            let title = paper.title().unwrap_or(paper.kind.title());
            vec![title.to_owned(), paper.kind.about().to_owned(), at.to_string()]
        };
        // Pages are counted from the cover. What must be heeded stands beside the contents: before everything else.
        let (cautions, chapters): (Vec<&Paper>, Vec<&Paper>) =
            made.iter().partition(|paper| paper.kind == PaperKind::Cautions);
        let second = Format { first_number: Some(2), ..format.clone() };
        let contents = |rows: Vec<Vec<String>>| {
            let columns = vec![Column::words("", 3.0), Column::words("", 5.0), Column::numbers("Page", 1.0)];
            let mut contents = vec![Block::chapter("Contents"), Block::Table(Table { columns, rows })];
            let below = cautions.iter().flat_map(|paper| blocks(paper, wish, false));
            contents.extend(below.filter(|block| !matches!(block, Block::Heading { level: 1, .. })));
            pages(&contents, &second, letters)
        };
        // Contents are as long whatever the numbers are: one page, more on small paper.
        let first = 2 + contents(made.iter().map(|paper| row(paper, 2)).collect()).len();
        let all: Vec<Block> = chapters.iter().flat_map(|paper| blocks(paper, wish, false)).collect();
        let body =
            pages(&all, &Format { first_number: Some(first), chapters_share: true, ..format }, letters);
        let mut rows: Vec<Vec<String>> = cautions.iter().map(|paper| row(paper, first - 1)).collect();
        rows.extend(chapters.iter().map(|paper| {
            let title = paper.title().unwrap_or(paper.kind.title());
            let at = body.iter().position(|sheet| sheet.has_chapter(title));
            row(paper, first + at.unwrap_or_default())
        }));
        let mut all: Vec<Sheet> = vec![cover];
        all.extend(contents(rows));
        all.extend(body);
        self.bound(title, all, wish, letters)
    }

    fn cover(&mut self, head: &Head, wish: &PapersWish, letters: &Letters) -> Asked<Sheet> {
        let tip = head.tip.ok_or(AskError::NothingOnTable)?;
        let front = self.draw(tip, None, DrawAsk::default())?;
        let table = self.table_at(tip)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let (low, high) = polygon::bounds(&top.outline_points()).ok_or(AskError::NothingOnTable)?;
        let size = wish.size([high.x - low.x, high.y - low.y], 4);
        let line = format!("About {size}; {}", many(top.faces().len(), "piece", "pieces"));
        Ok(Cover { title: wish.title_of(&head.quilt), line, front, wish }.sheet(letters))
    }
}
