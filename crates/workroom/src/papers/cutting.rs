//! The cutting plan on paper: each cloth with its pieces numbered in the order of cutting, what is to be bought, and
//! what has no place.

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::cutting::{CutPiece, CuttingPlan, CuttingWish};
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Table};
use papers::press::Inking;
use serde_json::json;

/// How high a cloth is drawn at most, in inches.
const CLOTH_HIGH_IN: f64 = 4.6;
/// The same for a cloth from which only a few pieces are cut.
const FEW_HIGH_IN: f64 = 2.4;
/// So many are few.
const FEW: usize = 2;

pub(super) fn cutting(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let plan = room.cutting(&head.quilt, &head.name, &CuttingWish::default(), &mut |_| true)?;
    cutting_of(room, &plan, wish)
}

/// A cutting plan as a paper.
pub(super) fn cutting_of(room: &mut Workroom, plan: &CuttingPlan, wish: &PapersWish) -> Asked<Paper> {
    let length = |inches: f64| wish.length(inches, 8);
    let flat = wish.inking == Inking::Saving;
    let mut blocks = vec![
        Block::chapter(PaperKind::Cutting.title()),
        Block::body(plan.summary()),
        Block::body(
            "Each cloth is seen from its right side. Lay the ruler along the long cuts first, in the order of their \
             letters; then cut the pieces in the order of their numbers. Arrows run along the lengthwise threads.",
        ),
    ];
    for cloth in &plan.cloths {
        let drawing = room.draw_cutting(cloth, flat)?;
        let high = if cloth.pieces.len() <= FEW { FEW_HIGH_IN } else { CLOTH_HIGH_IN };
        blocks.push(Block::Together(vec![
            Block::section(format!("No. {}, {}", cloth.no, cloth.name)),
            Block::figure(drawing, high, ""),
            Block::body(cloth.words(&length)),
        ]));
        blocks.push(Block::Table(table(&cloth.pieces, wish)));
    }
    for buy in &plan.to_buy {
        blocks.push(Block::Together(vec![
            Block::section(format!("To buy: {}", buy.name)),
            Block::figure(
                buy.drawing(),
                CLOTH_HIGH_IN,
                "The selvages lie along the upper and the lower edge.",
            ),
            Block::body(buy.words(&length)),
        ]));
        blocks.push(Block::Table(table(&buy.pieces, wish)));
    }
    if !plan.no_place.is_empty() {
        blocks.push(Block::section("Without a place"));
        blocks.push(Block::list(plan.no_place.iter().map(|piece| format!("{}: {}", piece.name, piece.why))));
    }
    Ok(Paper { kind: PaperKind::Cutting, content: Content::Blocks(blocks), facts: json!(plan) })
}

/// The pieces of a cloth by their numbers.
fn table(pieces: &[CutPiece], wish: &PapersWish) -> Table {
    let row = |piece: &CutPiece| {
        let [long, wide] = piece.size_in();
        let note = if piece.by_its_edges { "along its edges" } else { "" };
        vec![piece.no.to_string(), piece.name.clone(), wish.size([long, wide], 8), note.to_owned()]
    };
    Table {
        columns: vec![
            Column::numbers("No.", 0.6),
            Column::words("For", 2.6),
            Column::words("Cut, over all", 2.4),
            Column::words("", 1.4),
        ],
        rows: pieces.iter().map(row).collect(),
    }
}
