//! The shopping list: what lacks, what to buy, with room to tick.

use super::pad::Pad;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, GoodsNames, capital};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::Stroke;
use papers::flow::{Block, faces};
use plane::Region;
use serde_json::json;

/// A box to tick, in inches.
const BOX_IN: f64 = 0.16;

pub(super) fn shopping(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let report = room.enough(&head.quilt, &head.name, &room.shop()?, &room.habits()?.rates)?;
    let names = GoodsNames::of(room.stash()?).told_in(wish.unit());
    let mut blocks = vec![Block::chapter(PaperKind::Shopping.title()), Block::body(report.verdict())];
    let enough = &report.enough;
    if !enough.buy.is_empty() {
        blocks.push(Block::section("To buy"));
        blocks.extend(enough.buy.iter().map(|buy| {
            let least = if buy.at_least { "at least " } else { "" };
            ticked(capital(&names.named(&buy.goods)), format!("{least}{}", buy.words))
        }));
        if enough.buy.iter().any(|buy| buy.at_least) {
            blocks.push(Block::set(
                faces::SMALL,
                "At least: reckoned from an area. Pieces that don't lie side by side well take more.",
            ));
        }
    }
    let lacking: Vec<String> = enough
        .lines
        .iter()
        .filter(|line| line.short > 0.0)
        .map(|line| format!("{}.", capital(&names.short(line))))
        .collect();
    if !lacking.is_empty() {
        blocks.push(Block::section("What lacks"));
        blocks.push(Block::list(lacking.iter().cloned()));
    }
    blocks.push(Block::section("Look whether you have these"));
    blocks.extend(TOOLS.iter().map(|tool| ticked((*tool).to_owned(), String::new())));
    let facts = json!({ "verdict": report.verdict(), "buy": enough.buy, "lacks": lacking, "undecided": report.undecided });
    Ok(Paper { kind: PaperKind::Shopping, blocks, facts })
}

/// A line with a box to tick before it.
fn ticked(what: String, how_much: String) -> Block {
    let mut pad = Pad::at_scale(1.0);
    pad.closed(Region::rectangle(BOX_IN, BOX_IN).outer, Stroke::CutLine);
    let (what, how_much) = (Block::body(what), Block::body(how_much));
    Block::Beside(vec![(0.25, vec![pad.block("", "")]), (4.0, vec![what]), (1.6, vec![how_much])])
}

/// What no heap counts and every piece takes (common practice, no source).
pub(super) const TOOLS: [&str; 4] = [
    "A sharp blade for the rotary cutter, and a closed box for the old one",
    "New machine needles for piecing and for quilting",
    "Pins or clips, and a marker that washes out, tried on a scrap",
    "A pressing cloth",
];
