//! Centres grown from the heap one after the other, each squared to its wished shape, no cloth used
//! twice.

use super::super::error::{AskError, Asked};
use super::super::grow::{Each, GrowAsk, best};
use super::super::heap::{Claimed, heap};
use super::bring::Bringing;
use super::{Centre, claim, of_centre};
use crate::workroom::Workroom;
use ::grow::Watch;
use quilt::wish::{Towards, Wish};

/// By how much more than its finished size a centre is grown, each way in inches, until it can be
/// squared to it: growing may end half an inch off, and a piece seldom lies quite square.
const LARGER_IN: [f64; 4] = [0.75, 1.5, 2.5, 4.0];

/// What is asked of growing centres.
#[derive(Clone, Copy, Debug)]
pub(crate) struct GrowCentres<'a> {
    /// The finished size of each.
    pub(crate) sizes_in: &'a [[f64; 2]],
    /// What is wished of all of them.
    pub(crate) wish: &'a Wish,
    /// How hard to look, and the seed of the first; the others follow it.
    pub(crate) ask: &'a GrowAsk,
}

impl Workroom {
    /// Grows and squares one centre after the other. Nothing is changed in the workroom.
    pub(crate) fn grow_centres(
        &mut self,
        asked: &GrowCentres<'_>,
        watch: &mut dyn Watch,
    ) -> Asked<Vec<Centre>> {
        let stash = self.stash()?;
        let (mut claimed, mut grown) = (Claimed::nothing(), Vec::new());
        for (i, size_in) in asked.sizes_in.iter().enumerate() {
            let seed = asked.ask.seed.wrapping_add(i as u64);
            let mut each = Each::new(&mut *watch, i, asked.sizes_in.len());
            let heap = heap(stash, &claimed, asked.wish);
            let centre = one(&Centre::numbered(i), *size_in, asked, seed, &heap, &mut each)?;
            for entry in &centre.entries {
                claim(&mut claimed, stash, entry);
            }
            grown.push(centre);
        }
        Ok(grown)
    }
}

fn one(
    name: &str,
    [width, height]: [f64; 2],
    asked: &GrowCentres<'_>,
    seed: u64,
    heap: &::grow::Heap,
    watch: &mut Each<'_>,
) -> Asked<Centre> {
    let mut refused = AskError::NothingOnTable;
    for larger in LARGER_IN {
        let towards = Towards::Rectangle { width_in: width + larger, height_in: height + larger };
        let wish = Wish { towards, ..asked.wish.clone() };
        wish.check()?;
        let ask = GrowAsk { seed, ..*asked.ask };
        let grown = best(heap, &wish, &ask, None, watch).map_err(|error| of_centre(name, error))?;
        let Some(grown) = grown.into_iter().next() else { continue };
        if watch.stopped() {
            return Err(AskError::StoppedAtOnce);
        }
        let rough =
            Centre { name: name.to_owned(), quilt: None, entries: grown.entries, sewn: 0, squared: None };
        let mut bringing = Bringing::new(std::slice::from_ref(&rough), wish.allowance_in)?;
        match bringing.square(0, Some([width, height])) {
            Ok(()) => return Ok(bringing.into_centre(name)),
            Err(error) => refused = error,
        }
    }
    Err(refused)
}
