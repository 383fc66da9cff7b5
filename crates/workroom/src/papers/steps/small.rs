//! A small card: several stand on a page, in two columns.

use super::card::Card;
use super::pictures::{Page, Pictures, Room, count, figure, from_scrap, rows};
use super::{says, title};
use papers::flow::{Block, faces};
use papers::press::Face;

/// Words of a small card.
pub(super) const WORDS: Face = Face::plain(11.0);
/// What stands under the picture of a scrap.
const BOLD: Face = Face::bold(11.0);
/// Width of the pictures, of which two stand beside each other; height of that of the piece, and of those of scraps.
const WIDE_IN: f64 = 1.45;
const PIECE_IN: f64 = 1.4;
const SCRAP_IN: f64 = 1.3;

/// The room of its pictures.
pub(super) fn room(card: &Card, page: &Page) -> Room {
    // One scrap stands beside the piece.
    let high = if count(card, page) <= 1 { PIECE_IN } else { SCRAP_IN };
    Room { piece_in: [WIDE_IN, PIECE_IN], scrap_in: [WIDE_IN, high] }
}

pub(super) fn card(card: &Card, pictures: Pictures, page: &Page) -> Vec<Block> {
    let room = room(card, page);
    let number = Block::set(faces::NUMBER, card.no.to_string());
    let name = Block::set(Face::bold(13.0), title(card));
    let mut blocks = vec![Block::Beside(vec![(1.0, vec![number]), (4.0, vec![name])])];
    let Pictures { before, unit, scraps, after } = pictures;
    let shown = !scraps.is_empty();
    let mut cells: Vec<Vec<Block>> = [before, unit, after]
        .into_iter()
        .flatten()
        .map(|drawing| vec![figure(drawing, room.piece_in[1], "")])
        .collect();
    if cells.len() == 1 && scraps.len() > 1 {
        blocks.push(Block::Beside(vec![(1.0, cells.remove(0))]));
    }
    for scrap in scraps {
        let words = from_scrap(card, &scrap, page);
        let mut cell = vec![figure(scrap.drawing, room.scrap_in[1], "")];
        if let Some([from, size]) = words {
            cell.extend([Block::set(BOLD, from), Block::set(WORDS, size)]);
        }
        cells.push(cell);
    }
    blocks.extend(rows(cells, 2));
    let mut said = says::briefly(card, page.wish, page.usual_seam_in);
    if !shown {
        said.splice(0..0, says::cutting(card, page.wish));
    }
    blocks.push(Block::List { face: WORDS, counted: false, items: said });
    vec![Block::Framed(blocks)]
}
