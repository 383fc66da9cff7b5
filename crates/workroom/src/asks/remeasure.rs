//! Measuring the whole outline at once: what was seen on the table replaces what was planned.

use super::error::{AskError, Asked};
use super::stage::cant;
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::{Point, Turn};
use quilt::log::{Entry, Measured, Name, Step};
use quilt::remeasure::{Laid, lay_on};
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
        let told: Vec<String> = names
            .iter()
            .map(|name| name.map_or_else(|| "that is a seam".to_owned(), |name| name.to_string()))
            .collect();
        let sides = names
            .iter()
            .zip(&laid.sides)
            .filter_map(|(name, side)| Some(Measured { side: (*name)?, line: side.line? }))
            .collect();
        let next = self.next_mark(quilt, head)?;
        let entry = Entry { mark: next, run: None, step: Step::Measure { top: mark, sides } };
        Ok(Remeasured { differences: laid.differences(&told), laid, names, entry })
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
}
