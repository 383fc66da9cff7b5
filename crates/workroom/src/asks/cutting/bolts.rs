//! What is to be bought, as lengths off bolts: pieces of one print, or for one purpose, laid on one bolt.

use super::joins::{self, JoinedStrip};
use super::lay::turns;
use super::wanted::{Lies, Of, Wanted};
use super::{CutPiece, CuttingWish, NoPlace, ToBuy, in_order, refused};
use crate::asks::error::{AskError, Asked};
use nest::{Ask, Cloth, Piece, Price, Room, Source};
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{ClothId, Runs};
use quilt::length::fraction;
use quilt::stage::enough::SoldBy;
use std::collections::BTreeMap;

/// Widths that a bolt may have, in inches.
const WIDTHS_IN: [f64; 2] = [4.0, 200.0];
/// The longest length that is laid out, in inches.
const LONGEST_IN: f64 = 3_600.0;

/// What is bought, and what no bolt holds.
#[derive(Default)]
pub(super) struct Bought {
    pub(super) to_buy: Vec<ToBuy>,
    pub(super) joined: Vec<JoinedStrip>,
    pub(super) no_place: Vec<NoPlace>,
}

/// Lays pieces on bolts. What was planned for a bolt wider than the shop's is laid on one as wide.
pub(super) fn all(
    wanted: &[Wanted],
    name_of: &dyn Fn(ClothId) -> String,
    usable_in: f64,
    sold_by: SoldBy,
    wish: &CuttingWish,
    seen: &mut dyn FnMut(u32) -> bool,
) -> Asked<Bought> {
    if !(WIDTHS_IN[0]..=WIDTHS_IN[1]).contains(&usable_in) {
        return Err(AskError::Nonsense {
            what: format!("a bolt is no {usable_in} inches wide"),
            hint: format!("Name its usable width, from {} to {} inches.", WIDTHS_IN[0], WIDTHS_IN[1]),
        });
    }
    let mut groups: BTreeMap<String, Vec<&Wanted>> = BTreeMap::new();
    for piece in wanted {
        let name = match piece.of {
            Of::Cloth(cloth) => name_of(cloth),
            Of::Any => "any cloth".to_owned(),
            Of::Bolt(purpose) => format!("cloth for {purpose}"),
        };
        groups.entry(name).or_default().push(piece);
    }
    let mut bought = Bought::default();
    for (name, group) in groups {
        let planned = group.iter().filter(|piece| matches!(piece.of, Of::Bolt(_))).map(|piece| {
            let (low, high) = polygon::bounds(&piece.outline).unwrap_or_default();
            (high.x - low.x).min(high.y - low.y) + 2.0 * wish.edge_in
        });
        let usable_in = planned.fold(usable_in, f64::max);
        one(name, &group, usable_in, sold_by, wish, seen, &mut bought)?;
    }
    Ok(bought)
}

fn one(
    name: String,
    group: &[&Wanted],
    usable_in: f64,
    sold_by: SoldBy,
    wish: &CuttingWish,
    seen: &mut dyn FnMut(u32) -> bool,
    bought: &mut Bought,
) -> Asked<()> {
    // The selvage runs along x; a print with a top has it that way.
    let lie = |piece: &Wanted| match piece.lies {
        Lies::ByPrint { turn, grain, runs } => {
            let runs = match runs {
                Runs::AnyWay => Runs::AnyWay,
                Runs::BothWays(way) => Runs::BothWays(way.then(grain.inverse())),
                Runs::OneWay(top) => Runs::OneWay(top.then(grain.inverse())),
            };
            turns(
                Lies::ByPrint { turn: turn.then(grain.inverse()), grain: Turn::NONE, runs },
                Turn::NONE,
                runs,
            )
        }
        lies => turns(lies, Turn::NONE, Runs::AnyWay),
    };
    let diagonal = |piece: &Wanted| {
        let (low, high) = polygon::bounds(&piece.outline).unwrap_or_default();
        low.distance(high) + wish.between_in
    };
    let long: f64 = group.iter().map(|piece| diagonal(piece)).sum::<f64>() + 2.0 * wish.edge_in + 1.0;
    let bolt = Region::rectangle(long.min(LONGEST_IN), usable_in);
    let ask = |pieces: &[Wanted]| Ask {
        pieces: pieces
            .iter()
            .map(|piece| Piece {
                name: piece.name.clone(),
                outline: piece.outline.clone(),
                from: vec![Source { cloth: 0, turns: lie(piece), dislike: 0.0 }],
                tolerates: 0,
            })
            .collect(),
        cloths: vec![Cloth {
            name: format!("{name}, {} wide", fraction(usable_in, 8)),
            parts: vec![bolt.clone()],
            spots: Vec::new(),
            grain: Turn::NONE,
            price: Price::ByLength(1.0),
        }],
        room: Room { between_in: wish.between_in, edge_in: wish.edge_in },
        effort: wish.effort,
    };
    let laid = joins::laid(group, &[], &mut |pieces, places, _| {
        nest::nest_from(&ask(pieces), places, seen).map_err(|problem| refused(&problem))
    })?;
    for (piece, too_large) in &laid.left {
        let by = too_large.map_or_else(String::new, |(_, by)| {
            format!(": its longest side is about {} too long", fraction(by, 8))
        });
        let wide = fraction(usable_in, 8);
        let why = format!("it does not lie on a bolt {wide} inches wide{by}. Take a wider bolt, or piece it");
        bought.no_place.push(NoPlace { name: piece.name.clone(), why });
    }
    bought.joined.extend(laid.joined);
    if laid.answer.placed.is_empty() {
        return Ok(());
    }
    let placed = laid.answer.placed.iter().map(|at| {
        let piece = &laid.pieces[at.piece];
        let outline: Vec<Point> = at.at.apply_all(&piece.outline);
        CutPiece {
            no: 0,
            name: piece.name.clone(),
            mark: piece.mark,
            outline,
            was_laid: false,
            by_its_edges: false,
        }
    });
    let placed: Vec<CutPiece> = placed.collect();
    let reach = placed.iter().flat_map(|piece| &piece.outline).map(|p| p.x).fold(0.0, f64::max);
    let length_in = reach + wish.edge_in;
    let buy_in = sold_by.round_up(length_in);
    let (pieces, long_cuts) = in_order(&placed, &Region::rectangle(buy_in, usable_in).outer);
    let ask = sold_by.words(length_in);
    bought.to_buy.push(ToBuy { name, usable_in, length_in, buy_in, ask, pieces, long_cuts });
    Ok(())
}
