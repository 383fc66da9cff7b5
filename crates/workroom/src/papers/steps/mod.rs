//! Step cards: one for each go of the work, to lay beside the machine.

mod card;
mod draw;
mod goes;
mod listed;
mod scraps;

use super::{Content, Hand, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, told};
use crate::quilts::Head;
use crate::workroom::Workroom;
use card::{Card, Pressing, Telling};
use drawing::Drawing;
use papers::flow::{Block, Fit, faces};
use papers::press::Face;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Stage, Step};
use quilt::table::Table;
use scraps::Scraps;
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The pictures of a card: the piece before it, the scraps, the piece after it.
struct Pictures {
    before: Option<Drawing>,
    scraps: Vec<Drawing>,
    after: Option<Drawing>,
}

/// Room for a picture on a large card and on a small one, in inches.
const LARGE_IN: [f64; 2] = [3.4, 3.2];
const SMALL_IN: [f64; 2] = [1.9, 2.1];
/// No more scraps than this have a picture of their own on a card.
const MOST_SCRAPS: usize = 3;
/// Words of a small card.
const SMALL: Face = Face::plain(13.0);

pub(super) fn steps(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let cloths = room.every_cloth()?;
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let cards = cards(room, head, &entries, &cloths, wish, |card, before, after| {
        pictures(card, before, after, &cloths, wish)
    })?;
    let facts = json!({ "steps": cards.iter().map(|(card, _)| facts(card)).collect::<Vec<_>>() });
    let mut blocks = how_to_read(wish);
    for (card, pictures) in cards {
        blocks.extend(if wish.small_cards { small(card, pictures) } else { large(card, pictures) });
    }
    blocks.extend(afterwards(&entries, &cloths));
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

fn pictures(
    card: &Card,
    before: &Table,
    after: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
) -> Asked<Pictures> {
    let room_in = if wish.small_cards { SMALL_IN } else { LARGE_IN };
    let shown = draw::Shown {
        edges: card.edges.clone(),
        dot: card.dot,
        cuts: card.trims.clone(),
        patches: Vec::new(),
    };
    // A first seam has no piece yet to lie on: what there is then is what it makes.
    let top = card.top.filter(|top| before.top(*top).is_some());
    let drawn = top.map(|top| draw::top(before, top, cloths, &shown, room_in)).transpose()?;
    let new =
        draw::Shown { patches: card.cuts.iter().map(|cut| cut.patch).collect(), ..draw::Shown::default() };
    let made = card.top.or_else(|| {
        let patch = card.cuts.first()?.patch;
        after
            .tops()
            .iter()
            .find(|(_, top)| top.faces().values().any(|face| face.patch == patch))
            .map(|(top, _)| *top)
    });
    let made = made.filter(|top| after.top(*top).is_some());
    let after = match made {
        Some(top) if !wish.small_cards || drawn.is_none() => {
            Some(draw::top(after, top, cloths, &new, room_in)?)
        }
        _ => None,
    };
    let mut scraps = Vec::new();
    if !wish.by_template {
        let mut seen: Vec<(u64, [i64; 2])> = Vec::new();
        for (cut, size) in card.cuts.iter().zip(&card.sizes_in) {
            let root = cut.scrap.as_ref().map_or(0, |cloth| cloth.id.0);
            let key = (root, size.map(|inches| (inches * 8.0) as i64));
            if scraps.len() < MOST_SCRAPS && !seen.contains(&key) {
                seen.push(key);
                scraps.extend(draw::scrap(cut, cloths, wish, room_in));
            }
        }
    }
    Ok(Pictures { before: drawn, scraps, after })
}

/// How the cards are read: once, before them.
fn how_to_read(wish: &PapersWish) -> Vec<Block> {
    let (ruler, away) = match wish.hand {
        Hand::Right => ("left", "right"),
        Hand::Left => ("right", "left"),
    };
    let mut items = vec![
        "Every card has the piece as it lies before the step, with the edge to sew in red. Lay yours the same way round."
            .to_owned(),
    ];
    if wish.by_template {
        items.push("Patches are cut by their templates, which have their numbers. Lay a template on the right side of the cloth, its printed side up.".to_owned());
    } else {
        items.push("The other picture is the scrap, right side up, with the patch to cut. What is cut away is pale. A letter with an arrow names an edge and says from which end its marks are measured: \u{201c}2 1/4 along A\u{201d} is 2 1/4 from the arrow's start.".to_owned());
        items.push(format!(
            "Lay the ruler on the patch, to the {ruler} of its line, and cut to the {away} of it, away from yourself. Lines are told from where your hand begins."
        ));
        items.push("With other cloth, or by eye: the first size runs along the edge to sew, the second square to it. Both are raw, seams included. More does no harm: what sticks out is trimmed.".to_owned());
    }
    items.push("Where several steps stand together, their seams meet nowhere: sew all of them, one after the other, then press them all.".to_owned());
    items
        .push("Patches have the number of their step in the log; the large number is the card's.".to_owned());
    vec![
        Block::chapter(PaperKind::Steps.title()),
        Block::List { face: Face::plain(12.0), counted: false, items },
    ]
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
    Some(if card.no < last {
        format!("Before you press, sew step {} too: steps {first} to {last} meet nowhere.", card.no + 1)
    } else {
        format!("Now press steps {first} to {last}.")
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

fn large(card: Card, pictures: Pictures) -> Vec<Block> {
    let number = Block::set(Face { size_pt: 40.0, ..faces::NUMBER }, card.no.to_string());
    let head = Block::Heading { level: 2, words: format!("Step {}: {}", card.no, title(&card)) };
    let list = Block::List { face: faces::AT_ARMS_LENGTH, counted: true, items: doing(&card) };
    let mut beside = Vec::new();
    if let Some(before) = pictures.before {
        beside.push((1.0, vec![figure(before, LARGE_IN, "The piece so far.")]));
    }
    let many = pictures.scraps.len() > 1;
    let mut below = Vec::new();
    for scrap in pictures.scraps {
        let shown = vec![figure(scrap, LARGE_IN, "The scrap, right side up.")];
        if many { below.push((1.0, shown)) } else { beside.push((1.0, shown)) }
    }
    if beside.is_empty() {
        std::mem::swap(&mut beside, &mut below);
    }
    let mut blocks = vec![Block::NewPage, Block::Beside(vec![(1.0, vec![number]), (6.0, vec![head])])];
    for row in [beside, below] {
        if !row.is_empty() {
            blocks.push(Block::Beside(row));
        }
    }
    blocks.push(list);
    blocks.extend(pictures.after.map(|after| figure(after, [LARGE_IN[0], 2.6], "When it is done.")));
    blocks
}

fn small(card: Card, pictures: Pictures) -> Vec<Block> {
    let number = Block::set(faces::NUMBER, card.no.to_string());
    let words = vec![
        Block::Beside(vec![(1.0, vec![number]), (4.0, vec![Block::set(Face::bold(14.0), title(&card))])]),
        Block::List { face: SMALL, counted: true, items: doing(&card) },
    ];
    let piece: Vec<Block> =
        pictures.before.or(pictures.after).map(|drawing| figure(drawing, SMALL_IN, "")).into_iter().collect();
    let scraps: Vec<Block> =
        pictures.scraps.into_iter().map(|drawing| figure(drawing, SMALL_IN, "")).collect();
    let mut columns = vec![(3.3, words), (2.0, piece)];
    if !scraps.is_empty() {
        columns.push((2.0, scraps));
    }
    vec![Block::Framed(vec![Block::Beside(columns)])]
}

/// What comes after the top: a line for each decision, told in full on its own paper.
fn afterwards(entries: &[Entry], cloths: &BTreeMap<ClothId, Cloth>) -> Vec<Block> {
    let table = Table::new();
    let chosen = entries.iter().filter(|entry| matches!(entry.step, Step::Choose(Stage::Planned(_))));
    let items: Vec<String> = chosen.map(|entry| told(&entry.step, cloths, &table)).collect();
    if items.is_empty() {
        return Vec::new();
    }
    vec![
        Block::section("When the top is sewn"),
        Block::List { face: Face::plain(13.0), counted: true, items },
        Block::body("Each of these has a paper of its own."),
    ]
}

fn facts(card: &Card) -> serde_json::Value {
    let cuts: Vec<_> = card
        .cuts
        .iter()
        .zip(&card.sizes_in)
        .map(|(cut, size)| json!({ "patch": cut.patch.0, "cloth": cut.name, "no": cut.no, "at_least_in": size }))
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
