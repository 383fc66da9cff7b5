//! Step cards: one for each go of the work, to lay beside the machine.

mod act;
mod alike;
mod card;
mod draw;
mod goes;
mod large;
mod listed;
mod pictures;
mod pressing;
mod reading;
mod says;
mod scrap;
mod scraps;
mod small;

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use alike::Part;
use card::{Card, Telling};
use papers::flow::Block;
use pictures::{Page, Told};
use pressing::Pressing;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Step};
use quilt::table::Table;
use scraps::Scraps;
use serde_json::json;
use std::collections::BTreeMap;

pub(super) fn steps(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let cloths = room.every_cloth()?;
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let usual_seam_in = room.wish(&head.quilt)?.allowance_in;
    let page = Page { wish, cloths: &cloths, usual_seam_in };
    let told = cards(room, head, &entries, &cloths, wish, |card, before, after| {
        Ok(Told { pictures: pictures::pictures(card, before, after, &page)?, tables: [before.clone(), after.clone()] })
    })?;
    let facts = json!({ "steps": told.iter().map(|(card, _)| facts(card, wish)).collect::<Vec<_>>() });
    let mut blocks = reading::how_to_read(wish, usual_seam_in);
    let mut columns = Vec::new();
    for part in alike::parts(told) {
        match part {
            Part::Alike(several) => {
                flush(&mut columns, &mut blocks);
                blocks.extend(alike::card(&several, &page)?);
            }
            Part::One(card, told) if wish.small_cards => columns.push(small::card(&card, told.pictures, &page)),
            Part::One(card, told) => blocks.extend(large::card(&card, told.pictures, &page)),
        }
    }
    flush(&mut columns, &mut blocks);
    blocks.extend(reading::afterwards(&entries, &cloths, wish));
    Ok(Paper { kind: PaperKind::Steps, content: Content::Blocks(blocks), facts })
}

/// Small cards stand in two columns.
fn flush(items: &mut Vec<Vec<Block>>, blocks: &mut Vec<Block>) {
    if !items.is_empty() {
        blocks.push(Block::Columns { count: 2, items: std::mem::take(items) });
    }
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

fn facts(card: &Card, wish: &PapersWish) -> serde_json::Value {
    let cuts: Vec<_> = card
        .cuts
        .iter()
        .zip(&card.sizes_in)
        .zip(&card.rulers)
        .map(|((cut, size), lines)| json!({ "patch": cut.patch.0, "cloth": cut.name, "no": cut.no, "at_least_in": size, "ruler": lines }))
        .collect();
    let said = [says::cutting(card, wish), says::doing(card, wish)].concat();
    json!({
        "step": card.no,
        "entries": card.entries.iter().map(|mark| mark.0).collect::<Vec<_>>(),
        "title": title(card),
        "cut": cuts,
        "do": said,
        "before_pressing": card.together,
    })
}
