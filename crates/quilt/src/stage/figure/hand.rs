//! Hand work on a figure: stitches, thread and time.
//!
//! For each stitch of a turned edge the thread runs its length and dips through fold and ground twice:
//! `edge · (stitch + 2 bite) / stitch`. A stitched row is back stitch: one stitch on the front and two
//! behind, `row · (3 stitch + 2 bite) / stitch`. Of each needleful some is lost to knots and the end:
//! the whole times `needleful / (needleful − lost)`. Stitches about 1/8 apart: the pages named in the
//! checks; the rest is common practice, no source.

use super::HandRates;
use serde::Serialize;

/// What a figure takes by hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct HandWork {
    /// Edge turned under and sewn, finished, both edges of bias stems included.
    pub turned_in: f64,
    /// Length of all stitched rows; a line wider than a row has several side by side.
    pub rows_in: f64,
    /// Stitches of edges and rows.
    pub stitches: u32,
    /// Thread in inches, with what is lost.
    pub thread_in: f64,
    /// Needlefuls.
    pub needlefuls: u32,
    /// Minutes at the maker's rates.
    pub minutes: f64,
}

impl HandWork {
    /// The work for so many inches of turned edge and of stitched rows.
    #[must_use]
    pub fn of(turned_in: f64, rows_in: f64, rates: HandRates) -> Self {
        let each = |inches: f64| (inches / rates.stitch_in - 1e-9).ceil().max(0.0) as u32;
        let dips = 2.0 * rates.bite_in / rates.stitch_in;
        let sewn = turned_in * (1.0 + dips) + rows_in * (3.0 + dips);
        let of_each = rates.needleful_in - rates.lost_in;
        Self {
            turned_in,
            rows_in,
            stitches: each(turned_in) + each(rows_in),
            thread_in: sewn * rates.needleful_in / of_each,
            needlefuls: (sewn / of_each - 1e-9).ceil().max(0.0) as u32,
            minutes: turned_in * rates.edge_minutes_per_in + rows_in * rates.row_minutes_per_in,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Stitches 1/8 apart: thesprucecrafts.com, kathykwylie.com 2015 (needle-turn). The rest follows
    // from the formula, which is common practice, no source.
    #[test]
    fn a_yard_of_edge_takes_eight_stitches_an_inch_and_twice_its_length_in_thread() {
        let work = HandWork::of(36.0, 0.0, HandRates::default());
        assert_eq!((work.stitches, work.needlefuls), (288, 6));
        assert!((work.thread_in - 72.0 * 18.0 / 14.0).abs() < 1e-9);
        assert_eq!(work.minutes, 54.0);
        let row = HandWork::of(0.0, 7.0, HandRates::default());
        assert!((row.thread_in - 7.0 * 4.0 * 18.0 / 14.0).abs() < 1e-9);
        assert_eq!(HandWork::of(0.0, 0.0, HandRates::default()), HandWork::default());
    }
}
