//! A small card: several stand on a page. A card of one or two scraps stands in a column, two beside each other;
//! one of more is as wide as the page.

use super::card::Card;
use super::pictures::{Page, Pictures, Room, count, figure, from_scrap, rows};
use super::scrap::Marking;
use super::{says, title};
use papers::flow::{Block, faces};
use papers::press::Face;

/// Words of a small card.
pub(super) const WORDS: Face = Face::plain(11.0);
/// Its number.
const NUMBER: Face = Face { size_pt: 22.0, ..faces::NUMBER };
/// Width of a picture in a column, of which two stand beside each other; height of that of the piece, and of those
/// of scraps.
const WIDE_IN: f64 = 1.45;
const PIECE_IN: f64 = 1.15;
const SCRAP_IN: f64 = 1.1;
/// The same across a page: the piece, its unit and the words stand beside each other.
const PAGE_WIDE_IN: f64 = 2.1;
const PAGE_HIGH_IN: f64 = 1.55;
/// One of five across a page.
const NARROW_IN: f64 = 1.15;

/// Whether a card is as wide as the page, whatever stands beside it.
pub(super) fn is_wide(card: &Card, page: &Page) -> bool {
    count(card, page) > 2 || card.trims.len() > 2
}

/// How many scraps stand in a row across the page.
const fn across(scraps: usize) -> usize {
    match scraps {
        0..=3 | 6 => 3,
        5 => 5,
        _ => 4,
    }
}

/// The room of its pictures.
pub(super) fn room(card: &Card, wide: bool, page: &Page) -> Room {
    let marking = Marking::Bare;
    let scraps = count(card, page);
    if wide {
        let wide = match across(scraps) {
            3 => PAGE_WIDE_IN,
            4 => WIDE_IN,
            _ => NARROW_IN,
        };
        let high = if scraps > 5 { SCRAP_IN } else { PAGE_HIGH_IN };
        return Room { piece_in: [PAGE_WIDE_IN, PAGE_HIGH_IN], scrap_in: [wide, high], marking };
    }
    // One scrap stands beside the piece.
    let high = if scraps <= 1 { PIECE_IN } else { SCRAP_IN };
    Room { piece_in: [WIDE_IN, PIECE_IN], scrap_in: [WIDE_IN, high], marking }
}

pub(super) fn card(card: &Card, pictures: Pictures, wide: bool, page: &Page) -> Vec<Block> {
    let room = room(card, wide, page);
    let number = Block::set(NUMBER, card.no.to_string());
    let name = Block::set(Face::bold(13.0), title(card));
    let mut blocks =
        vec![Block::Beside(vec![(1.0, vec![number]), (if wide { 9.0 } else { 4.0 }, vec![name])])];
    let Pictures { pieces, scraps } = pictures;
    let mut said = says::briefly(card, page.wish, page.usual_seam_in);
    if scraps.is_empty() {
        said.splice(0..0, says::cutting_briefly(card, page.wish));
    }
    let list = Block::List { face: WORDS, counted: false, items: said };
    let mut pieces: Vec<Vec<Block>> =
        pieces.into_iter().map(|(drawing, _)| vec![figure(drawing, room.piece_in[1], "")]).collect();
    let mut cells: Vec<Vec<Block>> = Vec::new();
    for scrap in scraps {
        let words = from_scrap(card, &scrap, page);
        let mut cell = vec![figure(scrap.drawing, room.scrap_in[1], "")];
        cell.extend(words.map(|[from, size]| Block::set(WORDS, format!("{from}\n{size}"))));
        cells.push(cell);
    }
    if wide {
        // A lone scrap stands beside the piece.
        if pieces.len() + cells.len() == 2 {
            pieces.append(&mut cells);
        }
        let words = 3_usize.saturating_sub(pieces.len()).max(1) as f64;
        let mut first: Vec<(f64, Vec<Block>)> = pieces.into_iter().map(|piece| (1.0, piece)).collect();
        first.push((words, vec![list]));
        blocks.push(Block::Beside(first));
        let across = if cells.len() == 2 { 2 } else { across(cells.len()) };
        blocks.extend(rows(cells, across));
    } else {
        if pieces.len() == 1 && cells.len() == 2 {
            blocks.push(Block::Beside(vec![(1.0, pieces.remove(0))]));
        }
        pieces.append(&mut cells);
        blocks.extend(rows(pieces, 2));
        blocks.push(list);
    }
    vec![Block::Framed(blocks)]
}
