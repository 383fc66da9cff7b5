//! A large card: a page for each, to read at arm's length beside the machine; where more than two scraps are cut, a
//! page or more for the cutting before it.
//!
//! Its pictures are as large as its words leave room for. How high words will be is reckoned from their letters,
//! rather too high than too low, so that a card never runs onto a second page.

use super::card::Card;
use super::pictures::{Page, Pictures, Room, Scrap, count, figure, from_scrap, rows};
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
/// So many scraps are cut on pages of their own, in two columns.
const MANY: usize = 3;
/// Their least size there: with six to a page, if they can be so high, else with four.
const LEAST_CUT_IN: f64 = 2.4;

/// The room of its pictures.
pub(super) fn room(card: &Card, page: &Page) -> Room {
    let format = Format::new(page.wish.paper, "");
    let wide = format.width_in();
    let said = said(card, page);
    let left = format.height_in() - HEAD_IN - high_in(&said, WORDS, wide - 0.4);
    let marking = Marking::Lettered;
    let scraps = count(card, page);
    if scraps >= MANY {
        let [cell, high, _] = cut_room(card, page);
        let piece = (left / pieces_high(card) - BETWEEN_IN).clamp(LEAST_PIECE_IN, MOST_IN);
        return Room { piece_in: [column_in(wide, 2), piece], scrap_in: [cell, high], marking };
    }
    let cell = column_in(wide, 2);
    if card.part.is_none() && card.apart.is_none() && card.cuts.len() <= 1 {
        // Piece and finished piece beside each other, the scrap beside its words under them.
        let rows = if scraps == 0 { 1.0 } else { 2.0 };
        let high = (left / rows - BETWEEN_IN).min(MOST_IN);
        return Room { piece_in: [column_in(wide, 2), high], scrap_in: [cell, high], marking };
    }
    let rows = scraps.div_ceil(2) as f64;
    let words = high_in(&beside_longest(card), BESIDE, cell);
    let third = column_in(wide, 3);
    let piece =
        (left - BETWEEN_IN - rows * (LEAST_SCRAP_IN + words + BETWEEN_IN)).clamp(LEAST_PIECE_IN, third);
    let scrap = if rows > 0.0 { (left - piece - BETWEEN_IN) / rows - words - BETWEEN_IN } else { 0.0 };
    Room { piece_in: [third, piece], scrap_in: [cell, scrap.clamp(0.8, MOST_IN)], marking }
}

/// In how many rows the pieces stand where nothing else does: the unit under the piece and what it becomes.
fn pieces_high(card: &Card) -> f64 {
    if card.part.is_some() || card.apart.is_some() { 2.0 } else { 1.0 }
}

/// Width and height of a scrap on a page of its own, and how many stand on such a page.
fn cut_room(card: &Card, page: &Page) -> [f64; 3] {
    let format = Format::new(page.wish.paper, "");
    let cell = column_in(format.width_in(), 2);
    let words = high_in(&beside_longest(card), BESIDE, cell);
    let high = |rows: f64| (format.height_in() - HEAD_IN) / rows - words - BETWEEN_IN;
    let scraps = count(card, page);
    if scraps > 4 && high(3.0) >= LEAST_CUT_IN {
        return [cell, high(3.0).min(MOST_IN), 6.0];
    }
    [cell, high(2.0).min(MOST_IN), 4.0]
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
            let picture = match shown {
                1 => "its picture shows",
                2 => "the pictures show",
                _ if shown as f64 <= cut_room(card, page)[2] => "the page before this one shows",
                _ => "the pages before this one show",
            };
            said.insert(0, format!("Cut {} as {picture}.", says::patches(&marks)));
        }
        _ => {
            said.splice(0..0, says::cutting(card, page.wish));
        }
    }
    said
}

/// What stands with the scrap of which most is said.
fn beside_longest(card: &Card) -> Vec<String> {
    let of = |i: usize| {
        let from = card.cuts.get(i).map(says::from).unwrap_or_default();
        let mut words = vec![format!("{from} 000"), "at least 00 0/0 by 00 0/0".to_owned()];
        words.extend(card.rulers.get(i).into_iter().flatten().cloned());
        words
    };
    let all = (0..card.cuts.len()).map(of);
    all.max_by_key(|words| words.iter().map(|words| words.chars().count()).sum::<usize>()).unwrap_or_default()
}

pub(super) fn card(card: &Card, pictures: Pictures, page: &Page) -> Vec<Block> {
    let room = room(card, page);
    let Pictures { pieces, scraps } = pictures;
    let piece = |(drawing, caption)| vec![figure(drawing, room.piece_in[1], caption)];
    let is_many = scraps.len() >= MANY;
    let mut pieces: Vec<Vec<Block>> = pieces.into_iter().map(piece).collect();
    if is_many && let [_, _, _] = pieces.as_slice() {
        // The piece as it was and as it becomes beside each other.
        pieces.swap(1, 2);
    }
    let pieces = rows(pieces, if is_many { 2 } else { 3 });
    let list = Block::List { face: WORDS, counted: true, items: said(card, page) };
    let one = scraps.len() == 1;
    let mut cells: Vec<Vec<Block>> = Vec::new();
    for scrap in scraps {
        let words = scrap_words(card, &scrap, page);
        let picture = vec![figure(scrap.drawing, room.scrap_in[1], "")];
        if one {
            cells.extend([picture, words]);
        } else {
            cells.push([picture, words].concat());
        }
    }
    if is_many {
        let mut blocks = Vec::new();
        let [_, _, most] = cut_room(card, page);
        let pages = cells.len().div_ceil(most as usize).max(1);
        let on_each = cells.len().div_ceil(pages).max(1);
        for some in cells.chunks(on_each) {
            blocks.extend(head(card, format!("Step {}: cut", card.no)));
            blocks.extend(rows(some.to_vec(), 2));
        }
        blocks.extend(head(card, format!("Step {}: sew. {}", card.no, title(card))));
        blocks.extend(pieces);
        blocks.push(list);
        return blocks;
    }
    let mut blocks = head(card, format!("Step {}: {}", card.no, title(card)));
    blocks.extend(pieces);
    blocks.extend(rows(cells, 2));
    blocks.push(list);
    blocks
}

/// The number and the title, on a new page.
fn head(card: &Card, words: String) -> Vec<Block> {
    let number = Block::set(Face { size_pt: 40.0, ..faces::NUMBER }, card.no.to_string());
    let head = Block::Heading { level: 2, words };
    vec![Block::NewPage, Block::Beside(vec![(1.0, vec![number]), (6.0, vec![head])])]
}

/// What stands with the picture of a scrap: the patch, its size, and the ruler's lines, a line each.
fn scrap_words(card: &Card, scrap: &Scrap, page: &Page) -> Vec<Block> {
    let mut words: Vec<Block> = Vec::new();
    if let Some([from, size]) = from_scrap(card, scrap, page) {
        words.extend([Block::set(Face::bold(13.0), from), Block::set(BESIDE, size)]);
    }
    let lines = scrap.cuts.first().and_then(|at| card.rulers.get(*at)).filter(|lines| !lines.is_empty());
    words.extend(lines.map(|lines| Block::set(BESIDE, lines.join("\n"))));
    words
}
