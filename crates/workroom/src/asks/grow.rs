//! Growing, and what-ifs side by side.

use super::error::{AskError, Asked};
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use ::grow::{Bench, Effort, End, Goal, Grown, Watch};
use quilt::length::fraction;
use quilt::log::{Entry, Mark};

/// What is asked of growing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrowAsk {
    /// Where to end.
    pub goal: Goal,
    /// How hard to look.
    pub effort: Effort,
    /// The same seed grows the same.
    pub seed: u64,
}

/// What growing came to.
#[derive(Clone, Debug)]
pub struct GrowReport {
    /// The head as it is now.
    pub head: Head,
    /// Patches on the piece.
    pub pieces: usize,
    /// Steps that were added.
    pub steps: usize,
    /// Why it ended.
    pub end: End,
    /// The same as a sentence.
    pub words: String,
    /// Total cost of the eye check; 0 would be perfect.
    pub cost: f64,
}

/// One of several variants grown from one state.
#[derive(Clone, Debug)]
pub struct WhatIf {
    /// Its head.
    pub head: Head,
    /// What it came to.
    pub report: GrowReport,
}

impl Workroom {
    /// Grows the piece at a head, or a new centre on an empty table.
    ///
    /// # Errors
    /// A head that moved; a corner where a trim is due; no cloth for a first patch.
    pub fn grow(&mut self, at: &At, ask: &GrowAsk, watch: &mut dyn Watch) -> Asked<GrowReport> {
        let grown = self.grown(at, ask, watch)?.into_iter().next().ok_or(AskError::NothingOnTable)?;
        self.keep(at, grown)
    }

    /// Grows several different variants from one state, each on a head of its own: `NAME-1`,
    /// `NAME-2`… The first number that is free is used. The watch hears of the pieces of all of
    /// them; when it stops, those that have grown stay, and the one in hand as far as it came.
    ///
    /// # Errors
    /// As [`Workroom::grow`].
    pub fn what_ifs(
        &mut self,
        at: &At,
        count: usize,
        ask: &GrowAsk,
        watch: &mut dyn Watch,
    ) -> Asked<Vec<WhatIf>> {
        let mut found = Vec::new();
        let mut number = 1;
        let count = count.clamp(1, 12);
        // Two seeds may grow the same: a few more are tried then.
        for i in 0..4 * count {
            if found.len() == count {
                break;
            }
            let seed = ask.seed.wrapping_add(1000 * (i as u64 + 1));
            let mut each = Each { watch: &mut *watch, grown: found.len(), of: count, stopped: false };
            let grown = match self.grown(at, &GrowAsk { seed, ..*ask }, &mut each) {
                // Those that had grown before she stopped it stay.
                Err(AskError::StoppedAtOnce) if !found.is_empty() => break,
                grown => grown?,
            };
            let stopped = each.stopped;
            let fresh =
                |grown: &Grown| found.iter().all(|(_, other): &(WhatIf, Vec<Entry>)| *other != grown.entries);
            let Some(grown) = grown.into_iter().find(fresh) else {
                if stopped {
                    break;
                }
                continue;
            };
            let heads: Vec<String> = self
                .quilts()?
                .into_iter()
                .filter(|quilt| quilt.name == at.quilt)
                .flat_map(|quilt| quilt.heads)
                .map(|head| head.name)
                .collect();
            while heads.contains(&format!("what-if-{number}")) {
                number += 1;
            }
            let tip = self.head(&at.quilt, &at.head)?.tip;
            let head = self.what_if(at, tip, &format!("what-if-{number}"))?;
            let entries = grown.entries.clone();
            let report = self.keep(&head.at(), grown)?;
            found.push((WhatIf { head: report.head.clone(), report }, entries));
            if stopped {
                break;
            }
        }
        Ok(found.into_iter().map(|(what_if, _)| what_if).collect())
    }

    fn grown(&mut self, at: &At, ask: &GrowAsk, watch: &mut dyn Watch) -> Asked<Vec<Grown>> {
        let wish = self.wish(&at.quilt)?;
        let (heap, _) = self.heap_for(&at.quilt, &at.head)?;
        let table = self.table(&at.quilt, &at.head)?;
        let next_mark = self.next_mark(&at.quilt, &at.head)?;
        let bench = table.piece().map(|(top, _)| Bench { table: &table, top, next_mark });
        if bench.is_none() && next_mark != Mark(1) {
            return Err(AskError::NothingGrown(
                "the log has steps but nothing lies on the table: begin a new quilt to grow from nothing"
                    .to_owned(),
            ));
        }
        let grown = ::grow::grow(&heap, &wish, ask.goal, ask.effort, ask.seed, bench.as_ref(), watch);
        match grown.first() {
            Some(best) if best.entries.is_empty() && best.end == End::Stopped => Err(AskError::StoppedAtOnce),
            Some(best) if best.entries.is_empty() && best.end != End::Reached => {
                Err(AskError::NothingGrown(words(best)))
            }
            _ => Ok(grown),
        }
    }

    fn keep(&mut self, at: &At, grown: Grown) -> Asked<GrowReport> {
        let words = words(&grown);
        let entries: &[Entry] = &grown.entries;
        let head = self.append(at, entries)?;
        let (pieces, steps) = (grown.pieces, entries.len());
        Ok(GrowReport { head, pieces, steps, end: grown.end, words, cost: grown.cost })
    }
}

/// The watch of one variant among several: it tells how far all of them have come.
struct Each<'a> {
    watch: &'a mut dyn Watch,
    grown: usize,
    of: usize,
    stopped: bool,
}

impl Watch for Each<'_> {
    fn placed(&mut self, pieces: usize, about: usize) -> bool {
        let on = self.watch.placed(self.grown * about + pieces, self.of * about);
        self.stopped |= !on;
        on
    }
}

fn words(grown: &Grown) -> String {
    match grown.end {
        End::Reached => format!("Grown to {} pieces, as wished.", grown.pieces),
        End::Stopped => format!("Stopped with {} pieces.", grown.pieces),
        End::ClothRanOut { size_in, share } => format!(
            "Stopped with {} pieces: no cloth left has room for a piece about {} wide, finished, in the colours wished {:.0} % of the way out.",
            grown.pieces,
            fraction(size_in, 8),
            100.0 * share
        ),
        End::NoShape => {
            format!("Stopped with {} pieces: no shape goes on from here without a trim.", grown.pieces)
        }
        End::NothingToStart => "No cloth has room for a first patch.".to_owned(),
    }
}
