//! A squared centre as the layouts see it: its finished size, how heavy it looks, its prints.

use crate::heap::Heap;
use plane::polygon;
use quilt::log::Mark;
use quilt::table::Table;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

use super::problem::CentresProblem;
use super::square::Square;

/// A print and how much of a block it takes up.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PrintShare {
    /// The print: the same number for scraps of the same print.
    pub print: u64,
    /// Its share of the block's finished area, 0 to 1.
    pub share: f64,
}

/// A centre squared to a rectangle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Block {
    /// What its maker calls it.
    pub name: String,
    /// Finished width in inches, as it lies upright.
    pub width_in: f64,
    /// Finished height in inches, as it lies upright.
    pub height_in: f64,
    /// Mean visual weight: 100 − L*, 0 (white) to 100 (black).
    #[serde(default)]
    pub weight: f64,
    /// Its prints; shares that don't add up to 1 leave the rest to odd scraps.
    #[serde(default)]
    pub prints: Vec<PrintShare>,
}

impl Block {
    /// A squared top on the table as a block. Looks come from the heap; a cloth that isn't in it
    /// counts as a middle grey of no known print. The top's lowest side is its lower edge.
    ///
    /// # Errors
    /// No such top, or one that isn't a rectangle, with the corner that is off.
    pub fn of_top(
        table: &Table,
        mark: Mark,
        name: &str,
        heap: &Heap,
        allowance_in: f64,
    ) -> Result<Self, CentresProblem> {
        let top = table.top(mark).ok_or(CentresProblem::NoSuchTop { top: mark })?;
        let square = Square::of(top, mark)?;
        let (mut area, mut weight) = (0.0, 0.0);
        let mut prints: BTreeMap<u64, f64> = BTreeMap::new();
        for face in top.faces().values() {
            let shown = polygon::area(&top.finished_points(face, allowance_in));
            let Some(patch) = table.patches().get(&face.patch) else { continue };
            let look = heap.look_of(patch.cloth);
            area += shown;
            weight += shown * (100.0 - look.lab.l).max(0.0);
            if let Some(print) = look.print {
                *prints.entry(print).or_default() += shown;
            }
        }
        let share = |part: f64| if area > 0.0 { part / area } else { 0.0 };
        Ok(Self {
            name: name.to_owned(),
            width_in: square.raw_width_in - 2.0 * allowance_in,
            height_in: square.raw_height_in - 2.0 * allowance_in,
            weight: share(weight),
            prints: prints
                .into_iter()
                .map(|(print, part)| PrintShare { print, share: share(part) })
                .collect(),
        })
    }

    /// Finished area in square inches.
    #[must_use]
    pub fn area_sq_in(&self) -> f64 {
        self.width_in * self.height_in
    }

    /// How much of two blocks is of the same prints: for each print the smaller share, added up.
    #[must_use]
    pub fn alike(&self, other: &Self) -> f64 {
        let share =
            |print: u64| other.prints.iter().filter(|p| p.print == print).map(|p| p.share).sum::<f64>();
        self.prints.iter().map(|own| own.share.min(share(own.print))).sum()
    }
}
