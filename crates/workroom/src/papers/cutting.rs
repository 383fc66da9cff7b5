//! The cutting plan on paper: each cloth with its pieces numbered in the order of cutting, what is to be bought, and
//! what has no place.
//!
//! Scraps stand in two columns, all at one scale as far as they have room, so that a small one looks small. Lengths
//! stand across the page. A picture is never torn from its pieces, and equal pieces are told once.

use super::{Paper, PaperKind, PapersWish, cut_list};
use crate::asks::Asked;
use crate::cutting::{CutCloth, CuttingPlan, CuttingWish};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::Drawing;
use papers::flow::{Block, Fit, Format, faces};
use papers::press::Inking;
use serde_json::json;
use std::sync::Arc;

/// Inches on the paper for an inch of a scrap, where there is room.
const SCRAP_SCALE: f64 = 0.26;
/// The most room that the picture of a scrap takes, in inches.
const SCRAP_ROOM_IN: [f64; 2] = [1.75, 1.9];
/// A cloth longer than this is drawn across the page.
const LENGTH_IN: f64 = 20.0;
/// How high a length is drawn at most, in inches.
const LENGTH_HIGH_IN: f64 = 3.0;
/// A length so many times as wide as it is high has its list under it, otherwise beside it.
const WIDE: f64 = 1.9;
/// The share of the page that its picture has then.
const PICTURE_SHARE: f64 = 0.6;
/// Room beside a picture for the letters of straight cuts, in inches.
const LETTERS_IN: f64 = 0.25;

pub(super) fn cutting(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let plan = room.cutting(&head.quilt, &head.name, &CuttingWish::default(), &mut |_| true)?;
    cutting_of(room, &plan, wish)
}

/// A cutting plan as a paper.
pub(super) fn cutting_of(room: &mut Workroom, plan: &CuttingPlan, wish: &PapersWish) -> Asked<Paper> {
    let mut blocks = vec![
        Block::chapter(PaperKind::Cutting.title()),
        Block::body(plan.summary(wish.unit())),
        Block::body(
            "Every cloth is seen from its right side. Red lines come first: long straight cuts, no further than they are drawn, \
             in the order of their letters. Then the pieces, in the order of their numbers, each along its own edges. \
             Sizes are over all. Arrows run along the lengthwise threads.",
        ),
    ];
    let (mut scraps, mut lengths) = (Vec::new(), Vec::new());
    for cloth in &plan.cloths {
        let size = room.cutting_size(cloth)?;
        if size[0].max(size[1]) <= LENGTH_IN {
            scraps.push(scrap(room, cloth, size, wish)?);
        } else {
            lengths.push(length(room, cloth, size, wish)?);
        }
    }
    if !scraps.is_empty() {
        blocks.push(Block::section("Scraps"));
        blocks.push(Block::Columns { count: 2, items: scraps });
    }
    if !lengths.is_empty() {
        blocks.push(Block::section("Lengths"));
        blocks.extend(lengths);
    }
    if !plan.to_buy.is_empty() {
        blocks.push(Block::section("To buy"));
    }
    for buy in &plan.to_buy {
        let size = buy.shown_in().map(|[from, to]| to - from);
        let scale = scale_of(size, room_of(size, wish));
        let words = format!("{} {}", buy.bought(wish.unit()), buy.selvages());
        let title = format!("{}, to buy", buy.name);
        let lines = cut_list::lines(&buy.pieces, wish);
        blocks.push(long(size, title, buy.drawing(Some(scale)), scale, (lines, words)));
    }
    let told = |inches: f64| wish.length(inches, 8);
    let sections = [
        ("To sew", plan.to_sew.iter().map(|set| set.words(&told)).collect()),
        ("Nearer than asked", plan.too_near_words(&told)),
        ("Offcuts would do", plan.elsewhere_words()),
    ];
    for (title, words) in sections {
        let words: Vec<String> = words;
        if !words.is_empty() {
            blocks.push(Block::section(title));
            blocks.push(Block::list(words));
        }
    }
    if !plan.joined.is_empty() {
        let up = |inches: f64| wish.up(inches, 8);
        blocks.push(Block::section("Joined of bits"));
        blocks.push(Block::list(plan.joined.iter().map(|strip| strip.words(&up))));
    }
    if !plan.no_place.is_empty() {
        blocks.push(Block::section("Without a place"));
        blocks.push(Block::list(plan.no_place.iter().map(|piece| format!("{}: {}", piece.name, piece.why))));
    }
    Ok(Paper { kind: PaperKind::Cutting, blocks, facts: json!(plan) })
}

/// How large something of this size can be drawn in a room.
fn scale_of([wide, high]: [f64; 2], [room, most]: [f64; 2]) -> f64 {
    (room / wide.max(1e-6)).min(most / high.max(1e-6)).min(1.0)
}

/// Room for a length: across the page, or beside its list.
fn room_of(size: [f64; 2], wish: &PapersWish) -> [f64; 2] {
    let across = Format::new(wish.paper, "").width_in();
    let wide = if is_wide(size) { across } else { PICTURE_SHARE * across };
    [wide - 2.0 * LETTERS_IN, LENGTH_HIGH_IN]
}

fn is_wide([wide, high]: [f64; 2]) -> bool {
    wide >= WIDE * high
}

fn figure(drawing: Drawing, scale: f64) -> Block {
    let alt = drawing.title.clone();
    Block::Figure { drawing: Arc::new(drawing), alt, fit: Fit::Scale(scale), caption: String::new() }
}

/// A scrap: its picture, and what is cut from it beside that.
fn scrap(room: &mut Workroom, cloth: &CutCloth, size: [f64; 2], wish: &PapersWish) -> Asked<Vec<Block>> {
    let scale = scale_of(size, SCRAP_ROOM_IN.map(|inches| inches - LETTERS_IN)).min(SCRAP_SCALE);
    let drawing = room.draw_cutting(cloth, wish.inking == Inking::Saving, Some(scale))?;
    let mut lines = cut_list::lines(&cloth.pieces, wish);
    lines.push(cloth.left(&|inches| wish.unit().down(inches, 8)));
    let told = lines.into_iter().map(|line| Block::set(faces::CAUTION, line)).collect();
    Ok(vec![
        Block::Heading { level: 3, words: format!("No. {}, {}", cloth.no, cloth.name) },
        Block::Beside(vec![(0.54, vec![figure(drawing, scale)]), (0.46, told)]),
    ])
}

/// A length across the page.
fn length(room: &mut Workroom, cloth: &CutCloth, size: [f64; 2], wish: &PapersWish) -> Asked<Block> {
    let scale = scale_of(size, room_of(size, wish));
    let drawing = room.draw_cutting(cloth, wish.inking == Inking::Saving, Some(scale))?;
    let title = format!("No. {}, {}", cloth.no, cloth.name);
    let left = cloth.left(&|inches| wish.unit().down(inches, 8));
    Ok(long(size, title, drawing, scale, (cut_list::lines(&cloth.pieces, wish), left)))
}

/// A wide picture with its pieces under it, or a high one with its pieces beside it.
fn long(
    size: [f64; 2],
    title: String,
    drawing: Drawing,
    scale: f64,
    (lines, more): (Vec<String>, String),
) -> Block {
    let heading = Block::Heading { level: 3, words: title };
    let said = |words: String| Block::set(faces::CAUTION, words);
    let picture = figure(drawing, scale);
    let mut told: Vec<Block> = lines.into_iter().chain([more]).map(said).collect();
    if is_wide(size) {
        let rest = told.split_off(told.len().div_ceil(2));
        let under = Block::Beside(vec![(0.5, told), (0.5, rest)]);
        Block::Together(vec![heading, picture, under])
    } else {
        let beside = Block::Beside(vec![(PICTURE_SHARE, vec![picture]), (1.0 - PICTURE_SHARE, told)]);
        Block::Together(vec![heading, beside])
    }
}
