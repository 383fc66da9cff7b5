//! Which of the maker's own spools goes with the front and with the back, and which stands out.

use super::error::{AskError, Asked};
use crate::workroom::Workroom;
use colour::difference;
use plane::polygon;
use quilt::cloth::{ClothId, Look, Runs, Shade};
use quilt::stage::ChosenLast;
use quilt::stage::layers::{self, Source, Take};
use quilt::stage::quilting::{QuiltingChoice, ThreadColour};
use quilt::stage::thread::{Spool, SpoolMatch, contrasting, nearest};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Shades nearer to each other than this count as one colour of a patchwork (CIEDE2000; common
/// practice, no source).
const ONE_COLOUR: f64 = 8.0;

/// A thread as a maker asks for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum ThreadAsk {
    /// This colour.
    Colour(ThreadColour),
    /// `nearest` or `contrasting`, from the spools on hand; else a spool by its name, or a colour in
    /// words.
    Word(String),
}

/// A spool and how it goes with a side of the piece.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpoolFound {
    /// The spool.
    pub spool: Spool,
    /// Mean CIEDE2000 difference to the colours of that side, by their shares.
    pub difference: f64,
    /// Difference to the nearest of its larger colours.
    pub nearest_shade: f64,
}

/// Spools for one side, the best first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpoolsFor {
    /// From the nearest on.
    pub nearest: Vec<SpoolFound>,
    /// From the one that stands out most on.
    pub contrasting: Vec<SpoolFound>,
}

/// Spools for the front and the back.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadReport {
    /// Against the prints that show on the front.
    pub front: SpoolsFor,
    /// Against the back; `None` where its cloth isn't settled or isn't in the heap.
    pub back: Option<SpoolsFor>,
}

impl Workroom {
    /// The spools on hand, or those of a list, against the front and the back of a head.
    ///
    /// # Errors
    /// Nothing on the table; no spool.
    pub fn threads(&mut self, quilt: &str, head: &str, list: &[Spool]) -> Asked<ThreadReport> {
        let spools = if list.is_empty() { self.spools()? } else { list.to_vec() };
        if spools.is_empty() {
            return Err(no_spool());
        }
        let front = self.front_look(quilt, head)?;
        let back = self.back_look(quilt, head)?;
        Ok(ThreadReport { front: against(&spools, &front), back: back.map(|look| against(&spools, &look)) })
    }

    /// Every spool of the heap, by number.
    ///
    /// # Errors
    /// A ledger that can't be read.
    pub fn spools(&mut self) -> Asked<Vec<Spool>> {
        Ok(self.stash()?.supplies().into_iter().filter_map(|(_, supply)| supply.spool()).collect())
    }

    /// Settles the threads that are asked for: above against the front, below against the back.
    pub(super) fn choose_threads(
        &mut self,
        quilt: &str,
        head: &str,
        [above, below]: [Option<&ThreadAsk>; 2],
        choice: &mut QuiltingChoice,
    ) -> Asked<()> {
        if let Some(ask) = above {
            let look = if ask.is_matched() { Some(self.front_look(quilt, head)?) } else { None };
            choice.thread = Some(self.thread_of(ask, look.as_ref())?);
        }
        if let Some(ask) = below {
            let look = if ask.is_matched() { self.back_look(quilt, head)? } else { None };
            choice.below = Some(self.thread_of(ask, look.as_ref())?);
        }
        Ok(())
    }

    fn thread_of(&mut self, ask: &ThreadAsk, look: Option<&Look>) -> Asked<ThreadColour> {
        let word = match ask {
            ThreadAsk::Colour(colour) => return Ok(colour.clone()),
            ThreadAsk::Word(word) => word.trim(),
        };
        let spools = self.spools()?;
        if ask.is_matched() {
            let look = look.ok_or_else(|| AskError::CantBe {
                what: "the thread below is to be matched to the back, and no cloth of the heap is settled for it"
                    .to_owned(),
                hint: "Take the layers first, or name the thread.".to_owned(),
            })?;
            let ranked = if word == "nearest" { nearest(&spools, look) } else { contrasting(&spools, look) };
            let first = ranked.first().and_then(|found| spools.get(found.spool)).ok_or_else(no_spool)?;
            return Ok(ThreadColour { name: first.name.clone(), lab: first.lab });
        }
        if let Some(spool) = spools.iter().find(|spool| spool.name.eq_ignore_ascii_case(word)) {
            return Ok(ThreadColour { name: spool.name.clone(), lab: spool.lab });
        }
        let lab = colour::read_words(word).ok_or_else(|| AskError::Nonsense {
            what: format!("`{word}` is no spool of the heap, and no colour that is known here"),
            hint: "Write nearest, contrasting, a spool's name or a colour; `ragbag heap` lists the spools."
                .to_owned(),
        })?;
        Ok(ThreadColour { name: word.to_owned(), lab })
    }

    /// The colours of the front, each by the area that shows.
    fn front_look(&mut self, quilt: &str, head: &str) -> Asked<Look> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let table = self.table(quilt, head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let mut areas: BTreeMap<ClothId, f64> = BTreeMap::new();
        for face in top.faces().values() {
            if let Some(patch) = table.patches().get(&face.patch) {
                let shows = polygon::area(&top.finished_points(face, allowance_in)).max(0.0);
                *areas.entry(patch.cloth).or_insert(0.0) += shows;
            }
        }
        Ok(self.look_of_all(&areas)?.unwrap_or_else(|| Look::plain(colour::Lab::default())))
    }

    /// The colours of the back that is chosen.
    fn back_look(&mut self, quilt: &str, head: &str) -> Asked<Option<Look>> {
        let table = self.table(quilt, head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let Some(choice) = ChosenLast::of(table.stages()).layers else { return Ok(None) };
        let back = layers::backing(choice, &top.outline_points(), &self.on_hand(quilt, head)?);
        let back = back.map_err(super::stage::cant)?;
        let mut areas = BTreeMap::new();
        match (back.take, back.seams()) {
            (Take::Whole(cloth), _) => {
                areas.insert(cloth, 1.0);
            }
            (Take::Pieced, Some(pieced)) => {
                for strip in &pieced.strips {
                    if let Source::Cloth { cloth, .. } = strip.from {
                        *areas.entry(cloth).or_insert(0.0) += strip.cut_width_in * strip.cut_length_in;
                    }
                }
            }
            (Take::Pieced, None) => {}
        }
        self.look_of_all(&areas)
    }

    /// The colours of several cloths together; those hardly apart count as one.
    fn look_of_all(&mut self, areas: &BTreeMap<ClothId, f64>) -> Asked<Option<Look>> {
        let stash = self.stash()?;
        let mut shades: Vec<Shade> = areas
            .iter()
            .filter_map(|(id, area)| Some((stash.get(*id)?, area)))
            .flat_map(|(item, area)| {
                item.came.look.shades.iter().map(move |s| Shade { lab: s.lab, share: s.share * area })
            })
            .filter(|shade| shade.share > 0.0)
            .collect();
        shades.sort_by(|a, b| b.share.total_cmp(&a.share));
        let mut merged: Vec<Shade> = Vec::new();
        for shade in shades {
            match merged.iter_mut().find(|known| difference(known.lab, shade.lab) < ONE_COLOUR) {
                Some(known) => known.share += shade.share,
                None => merged.push(shade),
            }
        }
        let whole: f64 = merged.iter().map(|shade| shade.share).sum();
        merged.iter_mut().for_each(|shade| shade.share /= whole);
        merged.sort_by(|a, b| b.share.total_cmp(&a.share));
        let look = Look { shades: merged, busy: 0.0, runs: Runs::AnyWay, repeat_in: None };
        Ok((!look.shades.is_empty()).then_some(look))
    }
}

impl ThreadAsk {
    /// Whether it is matched to what lies beside it.
    fn is_matched(&self) -> bool {
        matches!(self, Self::Word(word) if matches!(word.trim(), "nearest" | "contrasting"))
    }
}

fn against(spools: &[Spool], look: &Look) -> SpoolsFor {
    let found = |ranked: Vec<SpoolMatch>| {
        let each = |found: SpoolMatch| {
            let spool = spools.get(found.spool)?.clone();
            Some(SpoolFound { spool, difference: found.difference, nearest_shade: found.nearest_shade })
        };
        ranked.into_iter().filter_map(each).collect()
    };
    SpoolsFor { nearest: found(nearest(spools, look)), contrasting: found(contrasting(spools, look)) }
}

fn no_spool() -> AskError {
    AskError::CantBe {
        what: "there is no spool of thread in the heap".to_owned(),
        hint: "Enter one: ragbag add words \"a spool of grey thread, 500 yards\".".to_owned(),
    }
}
