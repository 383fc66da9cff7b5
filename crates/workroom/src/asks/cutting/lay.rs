//! Pieces laid in the heap: those that the plan has laid keep their place, the others are sought one in what is free.

use super::joins;
use super::left::left;
use super::near::too_near;
use super::spare::elsewhere;
use super::wanted::{Lies, Of, Wanted, serves_any};
use super::{CutCloth, CutPiece, CuttingPlan, CuttingWish, NoPlace, in_order, refused};
use crate::asks::error::Asked;
use crate::asks::heap::Claimed;
use crate::stash::{Item, Stash, Usable};
use crate::workroom::Workroom;
use nest::{Ask, Cloth, Piece, Placed, Price, Room, Source, Turns};
use plane::{MITRE_LIMIT, Point, Pose, READING, Region, Turn, offset, polygon};
use quilt::cloth::{ClothId, Kind, Runs};
use quilt::length::fraction;
use quilt::stage::on_hand::OnHand;
use std::collections::BTreeMap;

/// What a square inch of cloth costs that is cut into: an offcut the least, a whole length the most.
const OFFCUT: f64 = 0.5;
const SCRAP: f64 = 1.0;
const LENGTH: f64 = 2.0;
/// Strips cut in bits are laid again in so many times fewer rounds.
const AGAIN: u32 = 4;

impl Workroom {
    /// The plan, and what isn't in the heap at all.
    pub(super) fn laid_in_heap(
        &mut self,
        quilt: &str,
        head: &str,
        wanted: &[Wanted],
        wish: &CuttingWish,
        seen: &mut dyn FnMut(u32) -> bool,
    ) -> Asked<(CuttingPlan, Vec<Wanted>)> {
        let log = self.log(quilt, head)?;
        let usable = self.usable()?;
        let stash = self.stash()?;
        let keeps = |piece: &Wanted| piece.laid.filter(|_| !(wish.anew && piece.mark.is_some()));
        let mut claimed = if wish.anew { Claimed::nothing() } else { Claimed::by(&log, None, stash) };
        let mut on: BTreeMap<ClothId, Vec<CutPiece>> = BTreeMap::new();
        let (mut plan, mut to_buy, mut sought) = (CuttingPlan::default(), Vec::new(), Vec::new());
        let mut kept: Vec<(&Wanted, ClothId)> = Vec::new();
        // The edge of what is claimed is kept clear of as any edge is; where more is asked between pieces it grows.
        let more_in = wish.between_in - wish.edge_in;
        for piece in wanted {
            match (keeps(piece), piece.of) {
                (Some((cloth, at)), _) => {
                    let outline = at.apply_all(&piece.outline);
                    let region = Region { outer: outline.clone(), holes: Vec::new() };
                    let holder = stash.holder(cloth, &region).map(|held| held.id);
                    if more_in > 0.0 {
                        for grown in offset(&region, more_in, MITRE_LIMIT) {
                            claimed.add(stash.root(cloth), grown);
                        }
                    } else if piece.mark.is_none() {
                        claimed.add(stash.root(cloth), region);
                    }
                    match holder {
                        Some(held) => {
                            kept.extend(piece.mark.map(|_| (piece, held)));
                            on.entry(held).or_default().push(placed(piece, outline, true));
                        }
                        None => plan.no_place.push(gone(piece, cloth, stash)),
                    }
                }
                (None, Of::Bolt(_)) => to_buy.push(piece.clone()),
                (None, _) => sought.push(piece),
            }
        }
        let there = free(&claimed, stash);
        if !sought.is_empty() && !there.is_empty() {
            let places = planned_places(&sought, &there, stash);
            let laid = joins::laid(&sought, &places, &mut |pieces, places, is_first| {
                let mut ask = question(pieces, &there, &on, stash, wish);
                if !is_first {
                    ask.effort.rounds /= AGAIN;
                }
                nest::nest_from(&ask, places, seen).map_err(|problem| refused(&problem))
            })?;
            for at in &laid.answer.placed {
                let (piece, cloth) = (&laid.pieces[at.piece], there[at.cloth].1.cloth);
                let is_there = places.iter().any(|place| {
                    sought[place.piece] == piece && place.cloth == at.cloth && is_same(place.at, at.at)
                });
                let outline = at.at.apply_all(&piece.outline);
                claimed.add(stash.root(cloth), Region { outer: outline.clone(), holes: Vec::new() });
                on.entry(cloth).or_default().push(placed(piece, outline, is_there));
            }
            plan.no_place
                .extend(laid.left.iter().map(|(piece, too_large)| no_place(piece, *too_large, &there)));
            plan.joined = laid.joined;
        } else {
            plan.no_place.extend(sought.iter().map(|piece| no_place(piece, None, &there)));
        }
        plan.cloths =
            on.iter().filter_map(|(&cloth, pieces)| cut_cloth(stash.get(cloth)?, pieces, usable)).collect();
        plan.cloths.sort_by_key(|cloth| cloth.no);
        let now = |cut: &CutCloth| stash.get(cut.cloth)?.now.as_ref();
        let near = plan.cloths.iter().filter_map(|cut| Some(too_near(cut, now(cut)?, wish)));
        plan.too_near = near.flatten().collect();
        plan.elsewhere = elsewhere(&kept, &free(&claimed, stash), &on, stash, wish)?;
        Ok((plan, to_buy))
    }
}

/// The cloths that something is free of, with that.
fn free<'a>(claimed: &Claimed, stash: &'a Stash) -> Vec<(&'a Item, OnHand)> {
    stash
        .items()
        .filter_map(|item| Some((item, OnHand::with_free(item.now.as_ref()?, claimed.free(item)))))
        .filter(|(_, cloth)| !cloth.free.is_empty())
        .collect()
}

/// The places that pieces are planned in, where their cloth still is.
fn planned_places(sought: &[&Wanted], there: &[(&Item, OnHand)], stash: &Stash) -> Vec<Placed> {
    let place = |(piece, wanted): (usize, &&Wanted)| {
        let (cloth, at) = wanted.laid?;
        let region = Region { outer: at.apply_all(&wanted.outline), holes: Vec::new() };
        let holder = stash.holder(cloth, &region)?.id;
        let cloth = there.iter().position(|(_, cloth)| cloth.cloth == holder)?;
        Some(Placed { piece, cloth, part: 0, at })
    };
    sought.iter().enumerate().filter_map(place).collect()
}

/// Whether two places are one as far as a ruler tells.
fn is_same(one: Pose, other: Pose) -> bool {
    (one.by - other.by).length() < READING && (one.turn.vec() - other.turn.vec()).length() < 1e-9
}

fn placed(piece: &Wanted, outline: Vec<Point>, was_laid: bool) -> CutPiece {
    let (name, mark) = (piece.name.clone(), piece.mark);
    CutPiece { no: 0, name, mark, outline, was_laid, by_its_edges: false }
}

/// The question of places. Cloth that is cut into already costs nothing more.
pub(super) fn question(
    sought: &[Wanted],
    there: &[(&Item, OnHand)],
    on: &BTreeMap<ClothId, Vec<CutPiece>>,
    stash: &Stash,
    wish: &CuttingWish,
) -> Ask {
    let price = |item: &Item, cloth: &OnHand| {
        let each = match (cloth.kind, item.came.parent) {
            (Kind::Length | Kind::Backing, None) => LENGTH,
            (_, Some(_)) => OFFCUT,
            _ => SCRAP,
        };
        Price::Whole(if on.contains_key(&cloth.cloth) { 0.0 } else { each * cloth.area_in2() })
    };
    let cloths = there.iter().map(|(item, cloth)| Cloth {
        name: format!("No. {} ({})", item.no, cloth.name),
        parts: cloth.free.clone(),
        spots: Vec::new(),
        grain: cloth.grain,
        price: price(item, cloth),
    });
    let sources = |piece: &Wanted| {
        let serving = there.iter().enumerate().filter(|(_, (item, cloth))| match piece.of {
            Of::Any => serves_any(cloth),
            Of::Cloth(named) => {
                let print = stash.get(named).and_then(|item| item.came.print);
                item.root == stash.root(named) || (print.is_some() && cloth.print == print)
            }
            Of::Bolt(_) => false,
        });
        serving
            .map(|(i, (_, cloth))| Source {
                cloth: i,
                turns: turns(piece.lies, cloth.grain, cloth.runs),
                dislike: 0.0,
            })
            .collect()
    };
    let pieces = sought.iter().map(|piece| Piece {
        name: piece.name.clone(),
        outline: piece.outline.clone(),
        from: sources(piece),
        tolerates: 0,
    });
    let room = Room { between_in: wish.between_in, edge_in: wish.edge_in };
    Ask { pieces: pieces.collect(), cloths: cloths.collect(), room, effort: wish.effort }
}

/// How a piece may be turned on a cloth of this grain and print.
pub(super) fn turns(lies: Lies, grain: Turn, runs: Runs) -> Turns {
    match lies {
        Lies::Straight => Turns::quarters(grain),
        Lies::Bias => Turns::quarters(grain.then(Turn::from_degrees(45.0))),
        Lies::Upright => match runs {
            Runs::OneWay(_) => Turns::just(runs.turning(Turn::QUARTER).1),
            Runs::AnyWay | Runs::BothWays(_) => Turns::Any,
        },
        Lies::ByPrint { turn, runs: planned, grain: then } => match (planned, runs) {
            (Runs::OneWay(was), Runs::OneWay(is)) => Turns::just(turn.then(was.inverse()).then(is)),
            (Runs::BothWays(was), Runs::BothWays(is)) => Turns::half(turn.then(was.inverse()).then(is)),
            // Without a print to heed its edges keep to the threads as they were planned.
            (Runs::AnyWay, _) => Turns::quarters(turn.then(then.inverse()).then(grain)),
            _ => Turns::half(turn.then(then.inverse()).then(grain)),
        },
    }
}

fn cut_cloth(item: &Item, pieces: &[CutPiece], usable: Usable) -> Option<CutCloth> {
    let now = item.now.as_ref()?;
    let taken: Vec<Region> =
        pieces.iter().map(|piece| Region { outer: piece.outline.clone(), holes: Vec::new() }).collect();
    let all: Vec<Region> = taken.iter().chain(&now.flaws).cloned().collect();
    let used_in2 = taken.iter().map(Region::area).sum();
    let (pieces, long_cuts) = in_order(pieces, &now.outline.outer);
    let left_in = left(&now.outline, &all, &long_cuts, now.grain, usable);
    Some(CutCloth {
        cloth: now.id,
        no: item.no,
        name: now.name.clone(),
        pieces,
        long_cuts,
        used_in2,
        left_in,
    })
}

fn size(piece: &Wanted) -> String {
    let (low, high) = polygon::bounds(&piece.outline).unwrap_or_default();
    format!("{} by {}, cut", fraction(high.x - low.x, 8), fraction(high.y - low.y, 8))
}

/// That the cloth a piece was planned on is no longer there.
fn gone(piece: &Wanted, cloth: ClothId, stash: &Stash) -> NoPlace {
    let named = stash.get(cloth).map_or_else(
        || "a cloth that is not in the heap".to_owned(),
        |item| format!("No. {} ({}), of which nothing is left there", item.no, item.came.name),
    );
    let why = format!("{} is planned on {named}. Lay it anew (`--anew`), or take other cloth.", size(piece));
    NoPlace { name: piece.name.clone(), why }
}

fn no_place(piece: &Wanted, too_large: Option<(usize, f64)>, there: &[(&Item, OnHand)]) -> NoPlace {
    let why = match (too_large, piece.of) {
        (Some((cloth, by)), _) => {
            let (item, cloth) = &there[cloth];
            format!(
                "{} is too large for what is free; nearest comes No. {} ({}), for which its longest side would have to be \
                 about {} shorter. Take other cloth, or piece it.",
                size(piece),
                item.no,
                cloth.name,
                fraction(by, 8)
            )
        }
        (None, Of::Cloth(_)) => format!(
            "{} has no room left on its cloth beside the other pieces. Take more of that print, or seek longer (`--rounds`).",
            size(piece)
        ),
        (None, _) => format!(
            "{} has no room left anywhere in the heap. Add cloth, or seek longer (`--rounds`).",
            size(piece)
        ),
    };
    NoPlace { name: piece.name.clone(), why }
}
