//! The whole piece: front and back, its sizes, and what the eye check says, with pictures of where it looked.

use super::places::Places;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, DrawAsk};
use crate::quilts::Head;
use crate::workroom::Workroom;
use colour::Srgb;
use drawing::{Drawing, FrontOptions, Item, Paint, TextItem, front};
use papers::flow::{Block, Column, Fit, Table};
use papers::press::Face;
use plane::polygon;
use quilt::cloth::{Cloth, ClothId};
use quilt::eye::{Grade, Row};
use quilt::length::many;
use quilt::log::Mark;
use quilt::table::{Table as Tops, Top};
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Height of the figures of lengths on paper, in inches: 11 points.
const LENGTHS_IN: f64 = 11.0 / 72.0;
/// Weight of lines at true size on paper.
const WEIGHT: f64 = 0.4;
/// Room of the pictures of back and of sizes, and of one of what the eye check marks, in inches.
const SIZES_IN: [f64; 2] = [6.5, 3.85];
const MARKED_IN: [f64; 2] = [1.35, 1.0];
/// So many pictures of marks stand in a row.
const IN_A_ROW: usize = 4;

pub(super) fn overview(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let sewn = room.sewn_marks(head.sewn)?;
    let seen = room.draw(tip, Some(&sewn), DrawAsk::default())?;
    let back = room.draw(tip, Some(&sewn), DrawAsk { back: true, ..DrawAsk::default() })?;
    let table = room.table_at(tip)?;
    let cloths = room.every_cloth()?;
    let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
    let piece = Piece { table: &table, mark, top, cloths: &cloths };
    let (low, high) = polygon::bounds(&top.outline_points()).ok_or(AskError::NothingOnTable)?;
    let raw = [high.x - low.x, high.y - low.y];
    let patches = top.faces().len();
    let eye = room.eye(&head.quilt, tip)?;
    let judged = |row: &&Row| !matches!(row.grade, Grade::NotWished | Grade::TooSoon);
    let judged: Vec<&Row> = eye.check.rows.iter().filter(judged).collect();
    let told = |row: &&Row| [row.quality.label(), row.words.as_str(), row.grade.word()].map(str::to_owned);
    let rows: Vec<[String; 3]> = judged.iter().map(told).collect();
    let facts = json!({ "raw_in": raw, "patches": patches, "eye": rows });
    let sizes = format!(
        "{} raw, in {}, {}. The length of each side stands on the next page.",
        wish.size(raw, 8),
        many(top.sides().len(), "side", "sides"),
        many(patches, "piece that shows", "pieces that show"),
    );
    let mut blocks = vec![
        Block::chapter(PaperKind::Overview.title()),
        Block::figure(seen, 8.0, ""),
        Block::body(sizes),
        Block::NewPage,
        Block::section("Seen from behind"),
        Block::figure(back, SIZES_IN[1], "Mirrored, as you see it when you turn the piece over."),
        Block::section("Sizes"),
        filling(piece.sizes(wish)?, SIZES_IN[1], &format!("Each side of the top, raw, in {}.", wish.unit())),
        Block::NewPage,
        Block::section("The eye check"),
    ];
    blocks.extend(piece.where_it_looked(&judged)?);
    let columns = vec![
        Column::numbers("", 0.4),
        Column::words("What the eye checks", 2.2),
        Column::words("It is", 4.6),
        Column::words("", 0.8),
    ];
    let numbered = rows.iter().enumerate().map(|(i, row)| {
        let [quality, words, grade] = row.clone();
        vec![(i + 1).to_string(), quality, words, grade]
    });
    blocks.push(Block::Table(Table { columns, rows: numbered.collect() }));
    Ok(Paper { kind: PaperKind::Overview, blocks, facts })
}

fn filling(drawing: Drawing, height_in: f64, caption: &str) -> Block {
    let alt = drawing.title.clone();
    let fit = Fit::Filling { height_in };
    Block::Figure { drawing: Arc::new(drawing), alt, fit, caption: caption.to_owned() }
}

/// Inches on paper for one of the drawing, so that it fits a room.
fn scale(drawing: &Drawing, [wide, high]: [f64; 2]) -> f64 {
    (wide / drawing.width_in().max(1e-6)).min(high / drawing.height_in().max(1e-6))
}

struct Piece<'a> {
    table: &'a Tops,
    mark: Mark,
    top: &'a Top,
    cloths: &'a BTreeMap<ClothId, Cloth>,
}

impl Piece<'_> {
    fn flat(&self) -> Asked<Drawing> {
        let what = FrontOptions { flat: true, ..FrontOptions::default() };
        Ok(front(self.table, self.mark, self.cloths, &what)?)
    }

    /// The piece in flat colours, with the length of each side beside it.
    fn sizes(&self, wish: &PapersWish) -> Asked<Drawing> {
        let flat = self.flat()?;
        let room = SIZES_IN.map(|room| room - 6.0 * LENGTHS_IN);
        let on_paper = scale(&flat, room).max(1e-6);
        let size = LENGTHS_IN / on_paper;
        let mut places = Places::round(self.top.outline_points());
        let mut items = flat.items;
        for side in self.top.sides() {
            let middle = side.from.midpoint(side.to);
            let way = side.to - side.from;
            let out = -way.left() * (1.0 / way.length().max(1e-9));
            let text = TextItem::level(middle, size, wish.unit().figure(side.length_in(), 8));
            items.extend(places.words(middle, out, text));
        }
        let title = "The piece with the length of each side, raw".to_owned();
        Ok(Drawing::around(title, items, WEIGHT / on_paper, 0.03 / on_paper))
    }

    /// A small picture for each row that isn't good and has something to show, with the row's number.
    fn where_it_looked(&self, rows: &[&Row]) -> Asked<Vec<Block>> {
        let shown = (1..).zip(rows).filter(|(_, row)| !row.marks.is_empty() && row.grade != Grade::Good);
        let mut cells = Vec::new();
        for (no, row) in shown {
            let words = format!("{no}. {}", row.quality.label());
            let picture = filling(self.marked(row)?, MARKED_IN[1], "");
            cells.push((1.0, vec![picture, Block::set(Face::bold(10.0), words)]));
        }
        if cells.is_empty() {
            return Ok(Vec::new());
        }
        let mut blocks =
            vec![Block::body("In red: where it is worth a second look. Numbers are those of the table.")];
        while !cells.is_empty() {
            let mut row: Vec<_> = cells.drain(..IN_A_ROW.min(cells.len())).collect();
            row.resize(IN_A_ROW, (1.0, Vec::new()));
            blocks.push(Block::Beside(row));
        }
        Ok(blocks)
    }

    /// The piece paled, with the marks of a row.
    fn marked(&self, row: &Row) -> Asked<Drawing> {
        let mut flat = self.flat()?;
        let weight = WEIGHT / scale(&flat, MARKED_IN).max(1e-6);
        flat.weight = weight;
        flat.title = format!("What the eye check marks: {}", row.quality.label());
        flat.items.push(Item::fill(self.top.outline_points(), Paint::Colour(Srgb::new(255, 255, 255), 0.6)));
        flat.items.push(drawing::overlay(&row.marks, 1.6 * weight));
        Ok(flat)
    }
}
