//! Which cards can be sewn one after the other before the iron is switched on.

use super::act::Ironed;
use super::card::Card;
use quilt::log::{Mark, Name};
use quilt::table::Table;
use std::collections::{BTreeMap, BTreeSet};

/// Finds cards that follow each other and whose seams meet nowhere: all of them can be sewn before the next
/// pressing. `after` is the table after each card, told one at a time.
#[derive(Debug, Default)]
pub(super) struct Pressing {
    first: usize,
    stage: Option<&'static str>,
    seams: BTreeSet<Mark>,
    patches: BTreeSet<Mark>,
}

/// No more seams than this wait for the iron.
const MOST_TOGETHER: usize = 5;

impl Pressing {
    /// Whether a card can be sewn together with those before it; otherwise it begins anew. Gives the number
    /// of the first of them.
    pub(super) fn take(&mut self, card: &Card, after: &Table) -> usize {
        let top = card.top.and_then(|top| after.top(top));
        let onto_new = card.edges.iter().any(|edge| self.patches.contains(&edge.by));
        let meets = top.is_none_or(|top| {
            let seams = card.seams.iter().filter_map(|mark| top.seams().get(&Name::new(*mark, 0)));
            seams.flat_map(|seam| &seam.crosses).any(|crossed| self.seams.contains(&crossed.by))
        });
        let plain = card.edges.len() == 1 && card.trims.is_empty();
        let apart = !plain || onto_new || meets || self.stage != card.stage;
        if apart || self.seams.is_empty() || card.no - self.first >= MOST_TOGETHER {
            *self = Self { first: card.no, stage: card.stage, ..Self::default() };
        }
        if plain {
            self.seams.extend(&card.seams);
            self.patches.extend(card.cuts.iter().map(|cut| cut.patch));
        }
        self.first
    }
}

/// How far a pressing reaches is known only after its last card: it is told on each of its cards, and its last has
/// what is pressed and trimmed.
pub(super) fn reach<T>(cards: &mut [(Card, T)]) {
    let mut lasts: BTreeMap<usize, (usize, Vec<Ironed>)> = BTreeMap::new();
    for (card, _) in cards.iter() {
        if let Some([first, last]) = card.together {
            let held = lasts.entry(first).or_default();
            held.0 = last;
            held.1.extend(card.own_ironed());
        }
    }
    for (card, _) in cards {
        let Some([first, last]) = card.together.as_mut() else { continue };
        let Some((known, ironed)) = lasts.get(first) else { continue };
        *last = *known;
        if first < last && card.no == *last {
            card.ironed.clone_from(ironed);
        }
    }
}
