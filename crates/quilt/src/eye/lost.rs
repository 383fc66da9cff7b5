//! Cloth that was cut and doesn't show.

use crate::log::Mark;
use crate::table::{Table, Top};
use plane::polygon;
use serde::Serialize;
use std::collections::BTreeSet;

/// Where the cloth of a top went, in square inches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Lost {
    /// All that was cut for its patches.
    pub cut_sq_in: f64,
    /// What will show when the free edges have been sewn.
    pub shows_sq_in: f64,
    /// What was trimmed off.
    pub trimmed_sq_in: f64,
    /// What lies in the seams, and under free edges' allowances.
    pub in_seams_sq_in: f64,
}

impl Lost {
    /// Share of what was cut that doesn't show.
    #[must_use]
    pub fn share(&self) -> f64 {
        if self.cut_sq_in > 0.0 { 1.0 - self.shows_sq_in / self.cut_sq_in } else { 0.0 }
    }

    /// Share of what was cut that was trimmed off.
    #[must_use]
    pub fn trimmed_share(&self) -> f64 {
        if self.cut_sq_in > 0.0 { self.trimmed_sq_in / self.cut_sq_in } else { 0.0 }
    }
}

/// Where the cloth of a top went; `None` when there is no such top. A patch that was sliced apart
/// counts whole for each top that shows some of it; one of which no top shows anything, for every
/// top that it was sewn into.
#[must_use]
pub fn lost_in_seams(table: &Table, mark: Mark, allowance_in: f64) -> Option<Lost> {
    let top = table.top(mark)?;
    let shown = |top: &Top| top.faces().values().map(|face| face.patch).collect::<BTreeSet<Mark>>();
    let shown_anywhere: BTreeSet<Mark> = table.tops().values().flat_map(shown).collect();
    let mut patches = shown(top);
    let sewn = std::iter::once(mark).chain(top.seams().values().map(|seam| seam.added));
    patches.extend(sewn.filter(|patch| !shown_anywhere.contains(patch)));
    let cut: f64 = patches.iter().filter_map(|p| table.patches().get(p)).map(|p| polygon::area(&p.cut)).sum();
    let shows: f64 =
        top.faces().values().map(|face| polygon::area(&top.finished_points(face, allowance_in))).sum();
    let parts = table.offcuts().iter().flat_map(|offcut| &offcut.parts);
    let trimmed: f64 =
        parts.filter(|part| patches.contains(&part.patch)).map(|part| polygon::area(&part.piece)).sum();
    Some(Lost {
        cut_sq_in: cut,
        shows_sq_in: shows,
        trimmed_sq_in: trimmed,
        in_seams_sq_in: (cut - shows - trimmed).max(0.0),
    })
}
