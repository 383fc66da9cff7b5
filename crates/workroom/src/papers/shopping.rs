//! The shopping list: what lacks, what to buy, with room to tick.

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{Asked, GoodsNames};
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Table, faces};
use quilt::stage::enough::{Rates, Shop};
use serde_json::json;

/// A box to tick.
const BOX: &str = "\u{25a1}";

pub(super) fn shopping(room: &mut Workroom, head: &Head, _: &PapersWish) -> Asked<Paper> {
    let report = room.enough(&head.quilt, &head.name, &Shop::default(), &Rates::default())?;
    let names = GoodsNames::of(room.stash()?);
    let mut blocks = vec![Block::chapter(PaperKind::Shopping.title()), Block::body(report.verdict())];
    let enough = &report.enough;
    if !enough.buy.is_empty() {
        let columns =
            vec![Column::words("", 0.4), Column::words("What", 4.0), Column::words("How much", 2.0)];
        let rows = enough
            .buy
            .iter()
            .map(|buy| {
                let least = if buy.at_least { "at least " } else { "" };
                vec![BOX.to_owned(), capital(&names.named(&buy.goods)), format!("{least}{}", buy.words)]
            })
            .collect();
        blocks.push(Block::section("To buy"));
        blocks.push(Block::Table(Table { columns, rows }));
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
    blocks.push(Block::list(TOOLS.iter().map(|tool| format!("{BOX}  {tool}"))));
    let facts = json!({ "verdict": report.verdict(), "buy": enough.buy, "lacks": lacking, "undecided": report.undecided });
    Ok(Paper { kind: PaperKind::Shopping, content: Content::Blocks(blocks), facts })
}

/// What no heap counts and every piece takes (common practice, no source).
const TOOLS: [&str; 4] = [
    "A sharp blade for the rotary cutter, and a closed box for the old one",
    "New machine needles for piecing and for quilting",
    "Pins or clips, and a marker that washes out, tried on a scrap",
    "A pressing cloth",
];

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
