//! Step cards: one for each go of the work, to lay beside the machine.

mod act;
mod alike;
mod card;
mod draw;
mod goes;
mod iron;
mod large;
mod listed;
mod pictures;
mod pressing;
mod reading;
mod says;
mod scrap;
mod scraps;
mod small;

use super::{Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use act::Act;
use alike::Part;
use card::{Card, Telling};
use papers::flow::Block;
use pictures::{Page, pictures};
use pressing::Pressing;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Mark, Step};
use quilt::table::Table;
use scraps::Scraps;
use serde_json::json;
use std::collections::BTreeMap;

pub(super) fn steps(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let cloths = room.every_cloth()?;
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let usual_seam_in = room.wish(&head.quilt)?.allowance_in;
    // Cards that speak of templates which aren't made would leave the maker without either.
    let refused = if wish.by_template { no_templates(room, head, wish)? } else { None };
    let by_eye = PapersWish { by_template: false, ..wish.clone() };
    let wish = if refused.is_some() { &by_eye } else { wish };
    let page = Page { wish, cloths: &cloths, usual_seam_in };
    let told =
        cards(room, head, &entries, &cloths, wish, |_, before, after| Ok([before.clone(), after.clone()]))?;
    let facts = json!({ "steps": told.iter().map(|(card, _)| facts(card, wish)).collect::<Vec<_>>() });
    let is_flawed = |card: &Card| {
        card.cuts.iter().filter_map(|cut| cut.scrap.as_ref()).any(|scrap| !scrap.flaws.is_empty())
    };
    let flaws = told.iter().any(|(card, _)| is_flawed(card));
    let mut blocks = reading::how_to_read(wish, usual_seam_in, flaws, refused.as_deref());
    blocks.extend(if wish.small_cards { small_cards(told, &page)? } else { large_cards(told, &page)? });
    blocks.extend(reading::afterwards(&entries, &cloths, wish));
    Ok(Paper { kind: PaperKind::Steps, blocks, facts })
}

/// Why there are no templates to cut by, where they are refused as not worth their paper.
fn no_templates(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Option<String>> {
    match room.pattern(head, "templates", wish) {
        Ok(_) => Ok(None),
        Err(AskError::CantBe { what, .. }) => Ok(Some(format!(
            "These cards are for cutting by eye or by ruler, not by template: {what}. With --anyway there are templates."
        ))),
        Err(other) => Err(other),
    }
}

/// A page for each card.
fn large_cards(told: Vec<Told>, page: &Page) -> Asked<Vec<Block>> {
    let mut blocks = Vec::new();
    for part in alike::parts(told) {
        blocks.extend(match part {
            Part::Alike(several) => alike::card(&several, page)?,
            Part::One(told) => {
                let (card, [before, after]) = *told;
                large::card(&card, pictures(&card, &before, &after, large::room(&card, page), page)?, page)
            }
        });
    }
    Ok(blocks)
}

/// Several cards a page: those that are not as wide as it stand in two columns.
fn small_cards(told: Vec<Told>, page: &Page) -> Asked<Vec<Block>> {
    let parts = alike::parts(told);
    let narrow: Vec<bool> =
        parts.iter().map(|part| matches!(part, Part::One(told) if !small::is_wide(&told.0, page))).collect();
    let is_narrow = |at: Option<usize>| at.and_then(|at| narrow.get(at)).copied().unwrap_or(false);
    let mut blocks = Vec::new();
    let mut columns = Vec::new();
    for (i, part) in parts.into_iter().enumerate() {
        // A narrow card alone would leave the place beside it empty.
        let in_column = is_narrow(Some(i)) && (is_narrow(i.checked_sub(1)) || is_narrow(Some(i + 1)));
        if !in_column && !columns.is_empty() {
            blocks.push(Block::Columns { count: 2, items: std::mem::take(&mut columns) });
        }
        match part {
            Part::Alike(several) => blocks.extend(alike::card(&several, page)?),
            Part::One(told) => {
                let (card, [before, after]) = *told;
                let room = small::room(&card, !in_column, page);
                let pictures = pictures(&card, &before, &after, room, page)?;
                let blocks_of = small::card(&card, pictures, !in_column, page);
                if in_column { columns.push(blocks_of) } else { blocks.extend(blocks_of) }
            }
        }
    }
    if !columns.is_empty() {
        blocks.push(Block::Columns { count: 2, items: columns });
    }
    Ok(blocks)
}

/// A card with the table before and after it.
type Told = (Card, [Table; 2]);

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
    pressing::reach(&mut cards);
    Ok(cards)
}

fn title(card: &Card) -> String {
    let cut: Vec<String> = card.cuts.iter().map(|cut| cut.patch.to_string()).collect();
    let what = match cut.as_slice() {
        [] => nothing_cut(&card.acts).to_owned(),
        [one] if card.edges.is_empty() => format!("Patch {one}, the first"),
        [one] => format!("Patch {one}"),
        [first, .., last] if cut.len() > 4 => format!("{} patches, {first} to {last}", cut.len()),
        several => format!("Patches {}", several.join(", ")),
    };
    card.stage.map_or_else(|| what.clone(), |stage| format!("{stage}: {}", what.to_lowercase()))
}

/// What a card for which nothing is cut is about: the first that is done.
fn nothing_cut(acts: &[Act]) -> &'static str {
    match acts.iter().find(|act| !matches!(act, Act::Pressed(_) | Act::TrimEnds { .. })) {
        Some(Act::Join { .. } | Act::Onto { .. }) => "Sew together what is there",
        Some(Act::Close) => "Close the open seam",
        Some(Act::Frame { .. }) => "Strips all round",
        Some(Act::Trim { apart: true, .. }) => "Slice apart",
        Some(Act::Trim { apart: false, .. }) => "Trim",
        Some(Act::Measured) => "Measured",
        Some(Act::Aside) => "Put aside",
        Some(Act::Turned(_)) => "Turn the piece",
        Some(Act::Pressed(_) | Act::TrimEnds { .. }) | None => "On the table",
    }
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

/// Of each patch that is cut how large it is at least, in inches: along its edge to sew, and square to it.
pub(super) fn cut_sizes(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Vec<(Mark, [f64; 2])>> {
    let cloths = room.every_cloth()?;
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let cards = cards(room, head, &entries, &cloths, wish, |_, _, _| Ok(()))?;
    let sizes = cards.iter().flat_map(|(card, ())| card.cuts.iter().zip(&card.sizes_in));
    Ok(sizes.map(|(cut, size)| (cut.patch, *size)).collect())
}
