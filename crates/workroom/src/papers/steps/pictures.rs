//! The pictures of a card, and the room that they have.

use super::card::Card;
use super::scrap::Marking;
use super::{draw, scrap};
use crate::asks::Asked;
use crate::papers::PapersWish;
use drawing::Drawing;
use papers::flow::{Block, Fit};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::Mark;
use quilt::table::{Table, Top};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What all cards have in common.
#[derive(Clone, Copy)]
pub(super) struct Page<'a> {
    pub(super) wish: &'a PapersWish,
    pub(super) cloths: &'a BTreeMap<ClothId, Cloth>,
    /// The seam that is sewn when a card says nothing else.
    pub(super) usual_seam_in: f64,
}

/// The pictures of a card.
pub(super) struct Pictures {
    /// Of the piece, each with what it shows: as it was, what is sewn on, and as it becomes.
    pub(super) pieces: Vec<(Drawing, &'static str)>,
    pub(super) scraps: Vec<Scrap>,
}

/// A scrap that patches are cut from.
pub(super) struct Scrap {
    /// Places of the patches among the cuts of the card; the first is drawn.
    pub(super) cuts: Vec<usize>,
    pub(super) drawing: Drawing,
}

/// How large the pictures of a card are, in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    pub(super) piece_in: [f64; 2],
    pub(super) scrap_in: [f64; 2],
    pub(super) marking: Marking,
}

pub(super) fn pictures(
    card: &Card,
    before: &Table,
    after: &Table,
    room: Room,
    page: &Page,
) -> Asked<Pictures> {
    let Room { piece_in, scrap_in, marking } = room;
    let wish = page.wish;
    let shown = draw::Shown {
        edges: card.edges.clone(),
        dots: card.dot.into_iter().collect(),
        cuts: card.trims.clone(),
        seams: card.open.into_iter().collect(),
        named: card.measured_along(),
        ..draw::Shown::default()
    };
    let new = || draw::Shown {
        patches: card.cuts.iter().map(|cut| (cut.patch, cut.patch.to_string())).collect(),
        ..draw::Shown::default()
    };
    let draw =
        |table: &Table, top: Mark, shown: &draw::Shown| draw::top(table, top, page.cloths, shown, piece_in);
    let mut pieces = Vec::new();
    // A first seam has no piece yet to lie on: what there is then is what it makes.
    let lies = card.begun.as_ref().unwrap_or(before);
    if let Some(top) = card.top.filter(|top| lies.top(*top).is_some()) {
        pieces.push((draw(lies, top, &shown)?, "The piece so far"));
    }
    if let Some(part) = &card.part {
        let edges = vec![part.edge];
        let (shown, caption) = if part.is_unit {
            (draw::Shown { edges, ..new() }, "The unit, sewn together")
        } else {
            (draw::Shown { edges, ..draw::Shown::default() }, "The part that is sewn on")
        };
        pieces.push((draw(&part.table, part.top, &shown)?, caption));
    }
    let made = card.top.or_else(|| {
        let patch = card.cuts.first()?.patch;
        let holds = |top: &Top| top.faces().values().any(|face| face.patch == patch);
        after.tops().iter().find(|(_, top)| holds(top)).map(|(mark, _): (&Mark, _)| *mark)
    });
    // A small card shows what becomes of the piece only where nothing else does.
    let is_shown = !wish.small_cards || pieces.is_empty() || card.apart.is_some();
    for top in made.into_iter().chain(card.apart).filter(|top| is_shown && after.top(*top).is_some()) {
        let caption = if card.apart.is_some() { "One part" } else { "When it is done" };
        let caption = if Some(top) == card.apart { "The other part" } else { caption };
        pieces.push((draw(after, top, &new())?, caption));
    }
    Ok(Pictures { pieces, scraps: scraps(card, page, marking, scrap_in) })
}

/// The scraps of a card, those of which equal patches are cut once.
pub(super) fn scraps(card: &Card, page: &Page, marking: Marking, room_in: [f64; 2]) -> Vec<Scrap> {
    let mut scraps: Vec<Scrap> = Vec::new();
    if page.wish.by_template {
        return scraps;
    }
    for (i, (cut, size)) in card.cuts.iter().zip(&card.sizes_in).enumerate() {
        let Some(cloth) = &cut.scrap else { continue };
        let same = |scrap: &&mut Scrap| {
            let first = scrap.cuts.first().copied().unwrap_or(i);
            card.cuts.get(first).and_then(|cut| cut.scrap.as_ref()).is_some_and(|other| other.id == cloth.id)
                && card.sizes_in.get(first) == Some(size)
        };
        match scraps.iter_mut().find(same) {
            Some(scrap) => scrap.cuts.push(i),
            None => {
                let drawing = scrap::scrap(cut, marking, page.cloths, page.wish, room_in);
                scraps.extend(drawing.map(|drawing| Scrap { cuts: vec![i], drawing }));
            }
        }
    }
    scraps
}

/// How many scraps have a picture on a card: those that [`scraps`] gives.
pub(super) fn count(card: &Card, page: &Page) -> usize {
    if page.wish.by_template {
        return 0;
    }
    let mut known = Vec::new();
    for (cut, size) in card.cuts.iter().zip(&card.sizes_in) {
        let key = cut.scrap.as_ref().map(|cloth| (cloth.id, *size));
        if key.is_some() && !known.contains(&key) {
            known.push(key);
        }
    }
    known.len()
}

/// What stands with the picture of a scrap: the patches, the cloth, and how much is enough.
pub(super) fn from_scrap(card: &Card, scrap: &Scrap, page: &Page) -> Option<[String; 2]> {
    let first = *scrap.cuts.first()?;
    let (cut, size) = (card.cuts.get(first)?, *card.sizes_in.get(first)?);
    let marks: Vec<String> =
        scrap.cuts.iter().filter_map(|i| card.cuts.get(*i)).map(|cut| cut.patch.to_string()).collect();
    let each = if marks.len() > 1 { "each, side by side, " } else { "" };
    let marks = marks.join(", ");
    if page.wish.small_cards {
        let no = cut.no.map_or_else(String::new, |no| format!(" ({no})"));
        let each = if each.is_empty() { "" } else { "each " };
        return Some([
            format!("{marks}: {}{no}", cut.name),
            format!("{each}{}", super::says::at_least(size, page.wish)),
        ]);
    }
    Some([
        format!("{marks}: {}", super::says::from(cut)),
        format!("{each}{}", super::says::at_least(size, page.wish)),
    ])
}

/// A picture in its room.
pub(super) fn figure(drawing: Drawing, height_in: f64, caption: &str) -> Block {
    let alt = drawing.title.clone();
    let fit = Fit::Filling { height_in };
    Block::Figure { drawing: Arc::new(drawing), alt, fit, caption: caption.to_owned() }
}

/// Blocks beside each other, so many in a row; the last row keeps the places of those above.
pub(super) fn rows(cells: Vec<Vec<Block>>, wide: usize) -> Vec<Block> {
    let several = cells.len() > wide;
    let mut rows = Vec::new();
    let mut row = Vec::new();
    for cell in cells {
        row.push((1.0, cell));
        if row.len() == wide {
            rows.push(Block::Beside(std::mem::take(&mut row)));
        }
    }
    if !row.is_empty() {
        if several {
            row.resize(wide, (1.0, Vec::new()));
        }
        rows.push(Block::Beside(row));
    }
    rows
}
