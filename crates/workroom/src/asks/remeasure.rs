//! Measuring the whole outline at once: what was seen on the table replaces what was planned.

use super::error::{AskError, Asked};
use super::stage::cant;
use crate::photo::Clipped;
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::{Point, Pose, Turn};
use quilt::cloth::Picture;
use quilt::log::{Bound, Entry, Measured, Name, Shown, Step};
use quilt::remeasure::{Laid, SeamBehind, Square, lay_on};
use quilt::table::Top;
use serde::Serialize;

/// What was seen of the piece against what was planned.
#[derive(Clone, Debug, Serialize)]
pub struct Remeasured {
    /// How it was laid on the plan, side by side.
    pub laid: Laid,
    /// The sides' names, in order; nothing for a side that is an open seam.
    pub names: Vec<Option<Name>>,
    /// Every difference, in sentences.
    pub differences: Vec<String>,
    /// Whether it lies square and flat, as its outline tells.
    pub square: Square,
    /// What isn't square or flat, in sentences; empty when all agrees.
    pub square_words: Vec<String>,
    /// What was measured, as the log would keep it.
    #[serde(skip)]
    entry: Entry,
}

impl Workroom {
    /// Lays a seen outline (raw, in inches, counter-clockwise) on the piece as it is planned, and
    /// tells every difference. `near` is the turn by which the maker sees the piece turned in it.
    /// Nothing is changed.
    ///
    /// # Errors
    /// Nothing on the table; an outline that is another piece's.
    pub fn look_at_outline(
        &mut self,
        quilt: &str,
        head: &str,
        seen: &[Point],
        near: Turn,
    ) -> Asked<Remeasured> {
        let table = self.table(quilt, head)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let laid = lay_on(&top.outline_points(), seen, near).map_err(cant)?;
        let names: Vec<Option<Name>> = top.sides().iter().map(quilt::table::Side::name).collect();
        let told = names_of(top);
        let sides = names
            .iter()
            .zip(&laid.sides)
            .filter_map(|(name, side)| Some(Measured { side: (*name)?, line: side.line? }))
            .collect();
        let next = self.next_mark(quilt, head)?;
        let entry = Entry { mark: next, run: None, step: Step::Measure { top: mark, sides, shown: None } };
        let square = laid.square(&seams_behind(top));
        Ok(Remeasured {
            differences: laid.differences(&told),
            square_words: square.words(&told),
            square,
            laid,
            names,
            entry,
        })
    }

    /// Puts the outline that was seen in the place of the planned one.
    ///
    /// # Errors
    /// As [`Workroom::look_at_outline`]; a patch that would be turned over; a head that moved in the
    /// meantime. Nothing is changed then.
    pub fn remeasure(&mut self, at: &At, seen: &[Point], near: Turn) -> Asked<(Head, Remeasured)> {
        let report = self.look_at_outline(&at.quilt, &at.head, seen, near)?;
        let head = self.check_and_append(at, std::slice::from_ref(&report.entry), true)?;
        Ok((head, report))
    }

    /// As [`Workroom::remeasure`], and keeps the picture that the outline was seen in, to be shown
    /// under what is planned.
    ///
    /// # Errors
    /// As [`Workroom::remeasure`]; a picture that can't be kept.
    pub fn remeasure_shown(
        &mut self,
        at: &At,
        seen: &[Point],
        near: Turn,
        clipped: &Clipped,
    ) -> Asked<(Head, Remeasured)> {
        let mut report = self.look_at_outline(&at.quilt, &at.head, seen, near)?;
        let hash = self.keep_picture(&clipped.png, "png")?;
        if let Step::Measure { shown, .. } = &mut report.entry.step {
            *shown = Some(Box::new(shown_by(hash, clipped, report.laid.pose)));
        }
        let head = self.check_and_append(at, std::slice::from_ref(&report.entry), true)?;
        Ok((head, report))
    }
}

/// The sides of a top by their names, or by their place where a seam is left open.
pub(super) fn names_of(top: &Top) -> Vec<String> {
    let sides = top.sides();
    let told = |(i, side): (usize, &quilt::table::Side)| {
        side.name().map_or_else(|| format!("no. {}, an open seam,", i + 1), |name| name.to_string())
    };
    sides.iter().enumerate().map(told).collect()
}

fn shown_by(hash: String, clipped: &Clipped, lies: Pose) -> Shown {
    let picture = Picture {
        hash,
        format: "png".to_owned(),
        pixels_per_in: clipped.pixels_per_in,
        top_left: clipped.top_left,
        size_px: clipped.size_px,
    };
    Shown { picture, lies }
}

/// The seams that run from one side of a top to another.
fn seams_behind(top: &Top) -> Vec<SeamBehind> {
    let sides = top.sides();
    let side_of = |bound: Bound| sides.iter().position(|side| side.bound == bound);
    let behind = top.seams().iter().filter_map(|(&seam, sewn)| {
        let [from, to] = sewn.ends().map(side_of);
        Some(SeamBehind { seam, ends: [from?, to?], line: top.line(Bound::Seam(seam))? })
    });
    behind.collect()
}
