//! A large card: a page for each, to read at arm's length beside the machine.
//!
//! Its pictures are as large as its words leave room for. How high words will be is reckoned from their letters,
//! rather too high than too low, so that a card never runs onto a second page.

use super::card::Card;
use super::pictures::{Page, Pictures, Room, count, figure, from_scrap, rows};
use super::scrap::Marking;
use super::{says, title};
use papers::flow::{Block, Format, faces};
use papers::press::Face;

/// Words of a large card.
pub(super) const WORDS: Face = faces::AT_ARMS_LENGTH;
/// What stands with a scrap.
const BESIDE: Face = Face::plain(13.0);
/// The number and the title.
const HEAD_IN: f64 = 0.85;
/// A caption, and what is between one row and the next.
const BETWEEN_IN: f64 = 0.36;
/// No picture is higher than this; scraps are at least so high before the piece is drawn larger than its least.
const MOST_IN: f64 = 3.8;
const LEAST_SCRAP_IN: f64 = 1.7;
const LEAST_PIECE_IN: f64 = 1.4;
/// Width of a letter as a share of its size, rather wide (measured on the papers' type: .45).
const LETTER: f64 = 0.5;
/// With so many scraps the ruler's lines are told by their pictures alone.
const MANY: usize = 3;

/// The room of its pictures.
pub(super) fn room(card: &Card, page: &Page) -> Room {
    let format = Format::new(page.wish.paper, "");
    let wide = format.width_in();
    let said = said(card, page);
    let left = format.height_in() - HEAD_IN - high_in(&said, WORDS, wide - 0.4);
    let scraps = count(card, page);
    let marking = if scraps < MANY { Marking::Lettered } else { Marking::Plain };
    let across = across(scraps);
    let cell = column_in(wide, across);
    if card.part.is_none() && card.apart.is_none() && card.cuts.len() <= 1 {
        // Piece and finished piece beside each other, the scrap beside its words under them.
        let rows = if scraps == 0 { 1.0 } else { 2.0 };
        let high = (left / rows - BETWEEN_IN).min(MOST_IN);
        return Room { piece_in: [column_in(wide, 2), high], scrap_in: [cell, high], marking };
    }
    let rows = scraps.div_ceil(across) as f64;
    let words = high_in(&beside_longest(card, page), BESIDE, cell);
    let third = column_in(wide, 3);
    let piece =
        (left - BETWEEN_IN - rows * (LEAST_SCRAP_IN + words + BETWEEN_IN)).clamp(LEAST_PIECE_IN, third);
    let scrap = if rows > 0.0 { (left - piece - BETWEEN_IN) / rows - words - BETWEEN_IN } else { 0.0 };
    Room { piece_in: [third, piece], scrap_in: [cell, scrap.clamp(0.8, MOST_IN)], marking }
}

/// How many scraps stand in a row.
const fn across(scraps: usize) -> usize {
    match scraps {
        3 | 6 => 3,
        4 | 7 | 8 => 4,
        5 => 5,
        _ => 2,
    }
}

/// Width of one of several columns.
fn column_in(wide: f64, count: usize) -> f64 {
    (wide - 0.22 * (count - 1) as f64) / count as f64
}

/// About how high words are in a room so wide.
fn high_in(items: &[String], face: Face, wide_in: f64) -> f64 {
    let size = face.size_pt / 72.0;
    let a_line = (wide_in / (LETTER * size)).floor().max(8.0);
    let lines: f64 = items.iter().map(|words| (words.chars().count() as f64 / a_line).ceil()).sum();
    lines * size * face.leading + items.len() as f64 * 0.22 * size
}

/// What is done, one after the other; what is cut is told with its picture where it has one.
fn said(card: &Card, page: &Page) -> Vec<String> {
    let mut said = says::doing(card, page.wish);
    let shown = count(card, page);
    match card.cuts.as_slice() {
        [] => {}
        cuts if shown > 0 && cuts.iter().all(|cut| cut.scrap.is_some()) => {
            let marks: Vec<_> = cuts.iter().map(|cut| cut.patch).collect();
            let picture = if shown == 1 { "its picture shows" } else { "the pictures show" };
            said.insert(0, format!("Cut {} as {picture}.", says::patches(&marks)));
        }
        _ => {
            said.splice(0..0, says::cutting(card, page.wish));
        }
    }
    said
}

/// What stands with the scrap of which most is said.
fn beside_longest(card: &Card, page: &Page) -> Vec<String> {
    let of = |i: usize| {
        let from = card.cuts.get(i).map(says::from).unwrap_or_default();
        vec![format!("{from} 000"), "at least 00 0/0 by 00 0/0".to_owned(), ruled(card, i, page)]
    };
    let all = (0..card.cuts.len()).map(of);
    all.max_by_key(|words| words.iter().map(|words| words.chars().count()).sum::<usize>()).unwrap_or_default()
}

/// The ruler's lines of a cut, where they are told in words.
fn ruled(card: &Card, cut: usize, page: &Page) -> String {
    let lines = card.rulers.get(cut).filter(|_| count(card, page) < MANY);
    lines.map(|lines| lines.join("; ")).unwrap_or_default()
}

pub(super) fn card(card: &Card, pictures: Pictures, page: &Page) -> Vec<Block> {
    let room = room(card, page);
    let number = Block::set(Face { size_pt: 40.0, ..faces::NUMBER }, card.no.to_string());
    let head = Block::Heading { level: 2, words: format!("Step {}: {}", card.no, title(card)) };
    let mut blocks = vec![Block::NewPage, Block::Beside(vec![(1.0, vec![number]), (6.0, vec![head])])];
    let Pictures { pieces, scraps } = pictures;
    let piece = |(drawing, caption)| vec![figure(drawing, room.piece_in[1], caption)];
    blocks.extend(rows(pieces.into_iter().map(piece).collect(), 3));
    let scraps_shown = scraps.len();
    let one = scraps_shown == 1;
    let mut cells: Vec<Vec<Block>> = Vec::new();
    for scrap in scraps {
        let at = scrap.cuts.first().copied().unwrap_or_default();
        let mut words: Vec<Block> = Vec::new();
        if let Some([from, size]) = from_scrap(card, &scrap, page) {
            words.extend([Block::set(Face::bold(13.0), from), Block::set(BESIDE, size)]);
        }
        let lines = ruled(card, at, page);
        if !lines.is_empty() {
            let lines = if one { lines.replace("; ", "\n") } else { lines };
            words.push(Block::set(BESIDE, lines));
        }
        let picture = vec![figure(scrap.drawing, room.scrap_in[1], "")];
        if one {
            cells.extend([picture, words]);
        } else {
            cells.push([picture, words].concat());
        }
    }
    blocks.extend(rows(cells, across(scraps_shown)));
    blocks.push(Block::List { face: WORDS, counted: true, items: said(card, page) });
    blocks
}
