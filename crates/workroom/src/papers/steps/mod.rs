//! Step cards: one for each go of the work, to lay beside the machine.

mod card;
mod draw;
mod goes;
mod listed;
mod pressing;
mod reading;
mod scraps;

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use card::{Card, Telling};
use drawing::Drawing;
use papers::flow::{Block, Fit, faces};
use papers::press::Face;
use pressing::Pressing;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Step};
use quilt::table::Table;
use scraps::Scraps;
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The pictures of a card.
struct Pictures {
    before: Option<Drawing>,
    /// What is sewn together before it is sewn on.
    unit: Option<Drawing>,
    /// The scraps, each with the ruler's lines.
    scraps: Vec<(Drawing, Vec<String>)>,
    after: Option<Drawing>,
}

/// No more scraps than this have a picture of their own on a card.
const MOST_SCRAPS: usize = 8;
/// Words of a small card, and the ruler's lines.
const SMALL: Face = Face::plain(13.0);
/// Room for a picture of a large card that has few of them, of one in a row of three, and of one in a row of four;
/// in inches. Small cards have two sizes.
const LARGE_IN: [f64; 2] = [3.3, 3.1];
const THIRD_IN: [f64; 2] = [2.1, 2.1];
const FOURTH_IN: [f64; 2] = [1.55, 1.6];
const SMALL_IN: [f64; 2] = [1.8, 1.9];
const SMALLER_IN: [f64; 2] = [1.5, 1.45];

pub(super) fn steps(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let cloths = room.every_cloth()?;
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let cards = cards(room, head, &entries, &cloths, wish, |card, before, after| {
        pictures(card, before, after, &cloths, wish)
    })?;
    let facts = json!({ "steps": cards.iter().map(|(card, _)| facts(card)).collect::<Vec<_>>() });
    let mut blocks = reading::how_to_read(wish);
    for (card, pictures) in cards {
        let room = room_of(&card, wish);
        blocks.extend(if wish.small_cards {
            small(&card, pictures, room)
        } else {
            large(&card, pictures, room)
        });
    }
    blocks.extend(reading::afterwards(&entries, &cloths));
    Ok(Paper { kind: PaperKind::Steps, content: Content::Blocks(blocks), facts })
}

/// The cards of a head, each with what else is made of it and the table before and after it.
fn cards<T>(
    room: &mut Workroom,
    head: &Head,
    entries: &[Entry],
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
    mut with: impl FnMut(&Card, &Table, &Table) -> Asked<T>,
) -> Asked<Vec<(Card, T)>> {
    let sewn = room.sewn_marks(head.sewn)?;
    let cut =
        entries.iter().filter(|entry| sewn.contains(&entry.mark)).filter_map(|entry| match &entry.step {
            Step::Lay { cloth, .. } => Some(*cloth),
            _ => None,
        });
    let scraps = Scraps::new(room.stash()?, cut);
    let mut telling = Telling { entries, cloths, wish, scraps };
    let (mut table, mut pressing) = (Table::new(), Pressing::default());
    let mut cards: Vec<(Card, T)> = Vec::new();
    for (go, no) in goes::goes(entries).iter().zip(1..) {
        let before = table.clone();
        let mut card = telling.card(no, go, &mut table)?;
        card.together = Some([pressing.take(&card, &table), no]);
        let also = with(&card, &before, &table)?;
        cards.push((card, also));
    }
    if cards.is_empty() {
        return Err(AskError::NothingOnTable);
    }
    // How far a pressing reaches is known only after its last card, and told on each.
    let lasts: BTreeMap<usize, usize> =
        cards.iter().filter_map(|(card, _)| card.together).map(|[first, last]| (first, last)).collect();
    for [first, last] in cards.iter_mut().filter_map(|(card, _)| card.together.as_mut()) {
        *last = lasts.get(first).copied().unwrap_or(*last);
    }
    Ok(cards)
}

/// How large the pictures of a card are.
#[derive(Clone, Copy)]
struct Room {
    piece_in: [f64; 2],
    scrap_in: [f64; 2],
    /// How many scraps stand in a row.
    row: usize,
}

fn room_of(card: &Card, wish: &PapersWish) -> Room {
    let (piece_in, scrap_in, row) = match (wish.small_cards, card.cuts.len()) {
        (true, ..=1) => (SMALL_IN, SMALL_IN, 1),
        (true, _) => (SMALLER_IN, SMALLER_IN, 4),
        (false, ..=1) => (LARGE_IN, LARGE_IN, 3),
        (false, 2) => (THIRD_IN, [LARGE_IN[0], THIRD_IN[1]], 3),
        (false, 3) => (THIRD_IN, THIRD_IN, 3),
        (false, _) => (THIRD_IN, FOURTH_IN, 4),
    };
    Room { piece_in, scrap_in, row }
}

fn pictures(
    card: &Card,
    before: &Table,
    after: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
) -> Asked<Pictures> {
    let Room { piece_in, scrap_in, .. } = room_of(card, wish);
    let shown = draw::Shown {
        edges: card.edges.clone(),
        dot: card.dot,
        cuts: card.trims.clone(),
        patches: Vec::new(),
    };
    let new =
        || draw::Shown { patches: card.cuts.iter().map(|cut| cut.patch).collect(), ..draw::Shown::default() };
    // A first seam has no piece yet to lie on: what there is then is what it makes.
    let top = card.top.filter(|top| before.top(*top).is_some());
    let drawn = top.map(|top| draw::top(before, top, cloths, &shown, piece_in)).transpose()?;
    let unit = card
        .unit
        .as_ref()
        .map(|(table, top)| draw::top(table, *top, cloths, &new(), piece_in))
        .transpose()?;
    let made = card.top.or_else(|| {
        let patch = card.cuts.first()?.patch;
        let holds = |top: &quilt::table::Top| top.faces().values().any(|face| face.patch == patch);
        after.tops().iter().find(|(_, top)| holds(top)).map(|(mark, _)| *mark)
    });
    let made = made.filter(|top| after.top(*top).is_some() && (!wish.small_cards || drawn.is_none()));
    let after = made.map(|top| draw::top(after, top, cloths, &new(), piece_in)).transpose()?;
    let mut scraps = Vec::new();
    let mut seen: Vec<(ClothId, [i64; 2])> = Vec::new();
    for ((cut, size), lines) in card.cuts.iter().zip(&card.sizes_in).zip(&card.rulers) {
        let Some(cloth) = cut.scrap.as_ref().filter(|_| !wish.by_template) else { continue };
        let key = (cloth.id, size.map(|inches| (inches * 8.0) as i64));
        if scraps.len() < MOST_SCRAPS && !seen.contains(&key) {
            seen.push(key);
            scraps.extend(draw::scrap(cut, cloths, wish, scrap_in).map(|drawing| (drawing, lines.clone())));
        }
    }
    Ok(Pictures { before: drawn, unit, scraps, after })
}

fn title(card: &Card) -> String {
    let cut: Vec<String> = card.cuts.iter().map(|cut| cut.patch.to_string()).collect();
    let what = match (cut.as_slice(), card.edges.len()) {
        ([], 0) if !card.trims.is_empty() => "Trim".to_owned(),
        ([], 0) => "On the table".to_owned(),
        ([], _) => "Sew together what is there".to_owned(),
        ([one], 0) => format!("Patch {one}, the first"),
        ([one], _) => format!("Patch {one}"),
        ([first, .., last], _) if cut.len() > 4 => format!("{} patches, {first} to {last}", cut.len()),
        (several, _) => format!("Patches {}", several.join(", ")),
    };
    card.stage.map_or_else(|| what.clone(), |stage| format!("{stage}: {}", what.to_lowercase()))
}

/// When the iron comes, where several cards go together.
fn pressing(card: &Card) -> Option<String> {
    let [first, last] = card.together.filter(|[first, last]| first < last)?;
    let word = if last == first + 1 { "and" } else { "to" };
    let span = format!("steps {first} {word} {last}");
    Some(if card.no < last {
        format!("Sew step {} too before you press: {span} meet nowhere.", card.no + 1)
    } else {
        format!("Now press {span}.")
    })
}

fn doing(card: &Card) -> Vec<String> {
    let mut all = card.doing.clone();
    if let Some(words) = pressing(card) {
        let at = all.iter().rposition(|said| said.starts_with("Press ")).unwrap_or(all.len());
        all.insert(at, words);
    }
    all
}

fn figure(drawing: Drawing, room_in: [f64; 2], caption: &str) -> Block {
    let alt = drawing.title.clone();
    let fit = Fit::Filling { height_in: room_in[1] };
    Block::Figure { drawing: Arc::new(drawing), alt, fit, caption: caption.to_owned() }
}

fn large(card: &Card, pictures: Pictures, room: Room) -> Vec<Block> {
    let number = Block::set(Face { size_pt: 40.0, ..faces::NUMBER }, card.no.to_string());
    let head = Block::Heading { level: 2, words: format!("Step {}: {}", card.no, title(card)) };
    let said = doing(card);
    let Pictures { before, unit, scraps, after } = pictures;
    let few = card.cuts.len() <= 1;
    let of_piece = |drawing, caption| vec![figure(drawing, room.piece_in, caption)];
    let mut pieces: Vec<Vec<Block>> =
        before.map(|drawing| of_piece(drawing, "The piece so far")).into_iter().collect();
    pieces.extend(unit.map(|drawing| of_piece(drawing, "The unit, sewn together")));
    let mut cuts: Vec<Vec<Block>> = Vec::new();
    for (drawing, lines) in scraps {
        let mut blocks = vec![figure(drawing, room.scrap_in, "The scrap, right side up")];
        if room.row < 4 && !lines.is_empty() {
            blocks.push(Block::set(SMALL, lines.join("\n")));
        }
        cuts.push(blocks);
    }
    let mut last = None;
    if few {
        pieces.append(&mut cuts);
        let has_room = said.len() <= 6;
        last =
            after.filter(|_| has_room).map(|drawing| figure(drawing, [LARGE_IN[0], 2.4], "When it is done"));
    } else {
        pieces.extend(after.map(|drawing| of_piece(drawing, "When it is done")));
    }
    let list = Block::List { face: faces::AT_ARMS_LENGTH, counted: true, items: said };
    let mut blocks = vec![Block::NewPage, Block::Beside(vec![(1.0, vec![number]), (6.0, vec![head])])];
    blocks.extend(rows(pieces, 3));
    blocks.extend(rows(cuts, room.row));
    blocks.push(list);
    blocks.extend(last);
    blocks
}

/// Pictures beside each other, so many in a row. A row that isn't full after one that is keeps its places.
fn rows(pictures: Vec<Vec<Block>>, wide: usize) -> Vec<Block> {
    let several = pictures.len() > wide;
    let mut rows = Vec::new();
    let mut row = Vec::new();
    for picture in pictures {
        row.push((1.0, picture));
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

/// A card of one patch has its pictures beside the words, one of several above them.
fn small(card: &Card, pictures: Pictures, room: Room) -> Vec<Block> {
    let number = Block::set(faces::NUMBER, card.no.to_string());
    let head = |share: f64| {
        let title = Block::set(Face::bold(14.0), title(card));
        Block::Beside(vec![(1.0, vec![number.clone()]), (share, vec![title])])
    };
    let list = Block::List { face: SMALL, counted: true, items: doing(card) };
    let Pictures { before, unit, scraps, after } = pictures;
    let of_piece = [before, unit, after].into_iter().flatten();
    let mut all: Vec<Vec<Block>> = of_piece.map(|drawing| vec![figure(drawing, room.piece_in, "")]).collect();
    all.extend(scraps.into_iter().map(|(drawing, _)| vec![figure(drawing, room.scrap_in, "")]));
    if room.row > 1 {
        // Of five two rows of three look better than four and one.
        let wide = if all.len() > 4 { all.len().div_ceil(2).min(4) } else { 4 };
        let pictures = rows(all, wide);
        return vec![Block::Framed(std::iter::once(head(9.0)).chain(pictures).chain([list]).collect())];
    }
    let mut columns = vec![(3.3, vec![head(4.0), list])];
    columns.extend(all.into_iter().map(|picture| (2.0, picture)));
    vec![Block::Framed(vec![Block::Beside(columns)])]
}

fn facts(card: &Card) -> serde_json::Value {
    let cuts: Vec<_> = card
        .cuts
        .iter()
        .zip(&card.sizes_in)
        .zip(&card.rulers)
        .map(|((cut, size), lines)| json!({ "patch": cut.patch.0, "cloth": cut.name, "no": cut.no, "at_least_in": size, "ruler": lines }))
        .collect();
    json!({
        "step": card.no,
        "entries": card.entries.iter().map(|mark| mark.0).collect::<Vec<_>>(),
        "title": title(card),
        "cut": cuts,
        "do": doing(card),
        "before_pressing": card.together,
    })
}
