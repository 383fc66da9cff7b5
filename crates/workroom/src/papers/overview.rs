//! The whole piece: front and back, its sizes, and what the eye check says.

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, DrawAsk};
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Table};
use plane::polygon;
use quilt::eye::Grade;
use serde_json::json;

pub(super) fn overview(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let sewn = room.sewn_marks(head.sewn)?;
    let front = room.draw(tip, Some(&sewn), DrawAsk::default())?;
    let back = room.draw(tip, Some(&sewn), DrawAsk { back: true, ..DrawAsk::default() })?;
    let measured =
        room.draw(tip, Some(&sewn), DrawAsk { measures: true, flat: true, ..DrawAsk::default() })?;
    let table = room.table_at(tip)?;
    let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
    let outline = top.outline_points();
    let (low, high) = polygon::bounds(&outline).ok_or(AskError::NothingOnTable)?;
    let raw = [high.x - low.x, high.y - low.y];
    let patches = top.faces().len();
    let eye = room.eye(&head.quilt, tip)?;
    let rows: Vec<Vec<String>> = eye
        .check
        .rows
        .iter()
        .filter(|row| !matches!(row.grade, Grade::NotWished | Grade::TooSoon))
        .map(|row| vec![row.quality.label().to_owned(), row.words.clone(), row.grade.word().to_owned()])
        .collect();
    let facts = json!({ "raw_in": raw, "patches": patches, "eye": rows });
    let sizes = format!(
        "{} raw, {} pieces that show. Widths are measured on the drawing below.",
        wish.size(raw, 8),
        patches
    );
    let columns =
        vec![Column::words("What the eye checks", 2.0), Column::words("It is", 4.0), Column::words("", 1.0)];
    let blocks = vec![
        Block::chapter(PaperKind::Overview.title()),
        Block::figure(front, 7.6, ""),
        Block::body(sizes),
        Block::section("Seen from behind"),
        Block::figure(back, 7.2, "The back is mirrored, as you see it when you turn the piece over."),
        Block::section("Sizes"),
        Block::figure(measured, 7.2, "Each length says which size it is."),
        Block::section("The eye check"),
        Block::Table(Table { columns, rows }),
    ];
    Ok(Paper { kind: PaperKind::Overview, content: Content::Blocks(blocks), facts })
}
