//! Growing, and what-ifs side by side.

use super::error::{AskError, Asked};
use super::heap::{Claimed, heap};
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use ::grow::{Bench, Effort, End, Goal, Grown, Heap, Unmet, Watch};
use quilt::length::fraction;
use quilt::log::{Entry, Mark};
use quilt::wish::Wish;

/// Most what-ifs that are grown at once.
pub const MOST_WHAT_IFS: usize = 12;

/// What is asked of growing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrowAsk {
    /// Where to end.
    pub goal: Goal,
    /// How hard to look.
    pub effort: Effort,
    /// The same seed grows the same.
    pub seed: u64,
    /// Another finished width across than the wish's, in inches: from then on it is the wish's.
    pub across_in: Option<f64>,
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
        let wish = self.wish_to_grow(&at.quilt, ask)?;
        let grown = self.grown(at, ask, &wish, watch)?.into_iter().next().ok_or(AskError::NothingOnTable)?;
        let head = self.append_wishing(at, &grown.entries, &wish)?;
        Ok(report(head, &grown))
    }

    /// Grows several different variants from one state, each on a head of its own: `what-if-1`,
    /// `what-if-2`… by the first numbers that are free. The watch hears of the pieces of all of
    /// them; when it stops, those that have grown stay, and the one in hand as far as it came.
    ///
    /// # Errors
    /// As [`Workroom::grow`]; a count that isn't 1 to [`MOST_WHAT_IFS`]. No head is begun then.
    pub fn what_ifs(
        &mut self,
        at: &At,
        count: usize,
        ask: &GrowAsk,
        watch: &mut dyn Watch,
    ) -> Asked<Vec<WhatIf>> {
        if !(1..=MOST_WHAT_IFS).contains(&count) {
            let what = format!("{count} what-ifs can't be grown at once");
            return Err(AskError::Nonsense { what, hint: format!("Ask for 1 to {MOST_WHAT_IFS}.") });
        }
        let wish = self.wish_to_grow(&at.quilt, ask)?;
        let mut found: Vec<Grown> = Vec::new();
        // Two seeds may grow the same: a few more are tried then.
        for i in 0..4 * count {
            let seed = ask.seed.wrapping_add(1000 * (i as u64 + 1));
            let mut each = Each::new(&mut *watch, found.len(), count);
            let grown = match self.grown(at, &GrowAsk { seed, ..*ask }, &wish, &mut each) {
                // Those that had grown before she stopped it stay.
                Err(AskError::StoppedAtOnce) if !found.is_empty() => break,
                grown => grown?,
            };
            let stopped = each.stopped();
            let fresh = |grown: &Grown| found.iter().all(|other| other.entries != grown.entries);
            found.extend(grown.into_iter().find(fresh));
            if stopped || found.len() == count {
                break;
            }
        }
        let variants: Vec<&[Entry]> = found.iter().map(|grown| grown.entries.as_slice()).collect();
        let heads = self.begin_what_ifs(at, &variants, &wish)?;
        let what_if =
            |(head, grown): (Head, &Grown)| WhatIf { head: head.clone(), report: report(head, grown) };
        Ok(heads.into_iter().zip(&found).map(what_if).collect())
    }

    /// The wish to grow by.
    fn wish_to_grow(&self, quilt: &str, ask: &GrowAsk) -> Asked<Wish> {
        let mut wish = self.wish(quilt)?;
        wish.across_in = ask.across_in.unwrap_or(wish.across_in);
        wish.check()?;
        Ok(wish)
    }

    fn grown(&mut self, at: &At, ask: &GrowAsk, wish: &Wish, watch: &mut dyn Watch) -> Asked<Vec<Grown>> {
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
        best(&heap, wish, ask, bench.as_ref(), watch)
    }

    /// A centre grown from nothing, by a wish of no quilt's. Nothing is changed in the workroom.
    pub(crate) fn grow_anew(&mut self, wish: &Wish, ask: &GrowAsk, watch: &mut dyn Watch) -> Asked<Grown> {
        let heap = heap(self.stash()?, &Claimed::nothing(), wish);
        best(&heap, wish, ask, None, watch)?.into_iter().next().ok_or(AskError::NothingOnTable)
    }
}

/// What grows, best first, or why nothing does.
pub(super) fn best(
    heap: &Heap,
    wish: &Wish,
    ask: &GrowAsk,
    bench: Option<&Bench<'_>>,
    watch: &mut dyn Watch,
) -> Asked<Vec<Grown>> {
    let grown = ::grow::grow(heap, wish, ask.goal, ask.effort, ask.seed, bench, watch);
    match grown.first() {
        Some(best) if best.entries.is_empty() && best.end == End::Stopped => Err(AskError::StoppedAtOnce),
        Some(best) if best.entries.is_empty() && best.end != End::Reached => {
            Err(AskError::NothingGrown(words(best)))
        }
        _ => Ok(grown),
    }
}

pub(crate) fn report(head: Head, grown: &Grown) -> GrowReport {
    let (pieces, steps) = (grown.pieces, grown.entries.len());
    GrowReport { head, pieces, steps, end: grown.end.clone(), words: told(grown), cost: grown.cost }
}

/// The watch of one variant among several: it tells how far all of them have come.
pub(super) struct Each<'a> {
    watch: &'a mut dyn Watch,
    grown: usize,
    of: usize,
    stopped: bool,
}

impl<'a> Each<'a> {
    /// The watch of the next of so many, after these.
    pub(super) fn new(watch: &'a mut dyn Watch, grown: usize, of: usize) -> Self {
        Self { watch, grown, of, stopped: false }
    }

    /// Whether the watch said stop.
    pub(super) const fn stopped(&self) -> bool {
        self.stopped
    }
}

impl Watch for Each<'_> {
    fn placed(&mut self, pieces: usize, about: usize) -> bool {
        let on = self.watch.placed(self.grown * about + pieces, self.of * about);
        self.stopped |= !on;
        on
    }
}

/// What will be trued off, where that is worth saying.
fn trued(grown: &Grown) -> String {
    if grown.waste < 0.005 {
        return String::new();
    }
    format!(" Trueing it up to the wished outline takes about {:.0} % of that off.", 100.0 * grown.waste)
}

/// How growing ended, and what of the wish it could not honour.
fn told(grown: &Grown) -> String {
    let unmet = |unmet: &Unmet| match unmet {
        Unmet::Motif(_) => {
            " The motif that you wished isn't shown whole: it goes on the first patch only, where its cloth has room for one round it. Lay that patch by hand, or mark a smaller part."
        }
    };
    words(grown) + &grown.unmet.iter().map(unmet).collect::<String>()
}

fn words(grown: &Grown) -> String {
    match grown.end {
        End::Reached => format!("Grown to {} pieces, as wished.{}", grown.pieces, trued(grown)),
        End::Near if grown.short > 0 => format!(
            "Grown to {} pieces, {} short of those wished: no edge takes just as many.",
            grown.pieces, grown.short
        ),
        End::Near => {
            let than = if grown.size_off < 0.0 { "smaller" } else { "larger" };
            let off = fraction(grown.size_off.abs(), 8);
            format!(
                "Grown to {} pieces, finished {off} {than} across than wished: nothing nearer came out.{}",
                grown.pieces,
                trued(grown)
            )
        }
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
