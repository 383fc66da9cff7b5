//! Where on the line the bobbin runs out.

use super::ThreadProblem;
use crate::length::within;
use serde::Serialize;

/// A bobbin changed on the way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BobbinChange {
    /// On which stroke, from 1.
    pub stroke: usize,
    /// How far along that stroke; 0 when the bobbin is changed before it.
    pub at_in: f64,
    /// How far along all strokes together.
    pub along_in: f64,
}

/// Where full bobbins of `bobbin_in` run out on strokes sewn one after the other, when each inch of line
/// takes `per_in` from below and each start and stop a tail.
///
/// # Errors
/// Numbers that make no sense, or a bobbin that holds no more than its own two tails and an inch of line.
pub fn bobbin_changes(
    strokes_in: &[f64],
    per_in: f64,
    bobbin_in: f64,
    tail_in: f64,
) -> Result<Vec<BobbinChange>, ThreadProblem> {
    within("thread for an inch of line", per_in, [0.5, 20.0], "from 1/2 to 20 inches")?;
    let tails_in = 2.0 * tail_in;
    // A full bobbin must reach an inch by the very sum that is done below.
    if bobbin_in.is_nan() || (bobbin_in - tails_in) / per_in < 1.0 {
        return Err(ThreadProblem::BobbinTooSmall { bobbin_in, tails_in });
    }
    let (mut left, mut sewn, mut changes) = (bobbin_in, 0.0, Vec::new());
    for (i, &stroke) in strokes_in.iter().enumerate() {
        within("length of a stroke", stroke, [0.0, 1e7], "from 0 to 10,000,000 inches")?;
        let mut at = 0.0;
        loop {
            let reach = (left - tails_in) / per_in;
            if reach >= stroke - at - 1e-9 {
                left -= tails_in + (stroke - at) * per_in;
                break;
            }
            // Less than an inch is not begun: the bobbin is changed before the stroke.
            if reach >= 1.0 {
                at += reach;
            }
            changes.push(BobbinChange { stroke: i + 1, at_in: at, along_in: sewn + at });
            left = bobbin_in;
        }
        sewn += stroke;
    }
    Ok(changes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bobbin_that_only_just_misses_an_inch_is_refused() {
        assert!(bobbin_changes(&[10.0], 1.61, 13.61, 6.0).is_err());
    }

    #[test]
    fn a_bobbin_runs_out_where_its_thread_ends() {
        let one = bobbin_changes(&[1000.0], 1.6, 492.0, 6.0).unwrap();
        let at: Vec<f64> = one.iter().map(|change| change.at_in).collect();
        assert_eq!(at, [300.0, 600.0, 900.0]);
        // What fits exactly is not changed.
        assert_eq!(bobbin_changes(&[300.0], 1.6, 492.0, 6.0), Ok(Vec::new()));
        let two = bobbin_changes(&[200.0, 200.0], 1.6, 492.0, 6.0).unwrap();
        assert_eq!((two.len(), two[0].stroke, two[0].along_in), (1, 2, 200.0 + (492.0 - 332.0 - 12.0) / 1.6));
        // Thread for less than an inch is left on the bobbin.
        let next = bobbin_changes(&[299.5, 50.0], 1.6, 492.0, 6.0).unwrap();
        assert_eq!((next[0].stroke, next[0].at_in), (2, 0.0));
    }

    #[test]
    fn every_bobbin_pays_for_what_it_sewed() {
        let strokes = [812.5, 3.0, 44.0, 0.0, 1999.0, 620.25];
        let (per, holds, tail) = (1.61, 900.0, 5.0);
        let changes = bobbin_changes(&strokes, per, holds, tail).unwrap();
        let line: f64 = strokes.iter().sum();
        let ends: Vec<f64> = changes.iter().map(|change| change.along_in).chain([line]).collect();
        let mut from = 0.0_f64;
        for to in ends {
            // Starts on this bobbin: at its own start and at each stroke between.
            let mut at = 0.0;
            let mut used = 0.0;
            for stroke in strokes {
                let sewn = (to.min(at + stroke) - from.max(at)).max(0.0);
                used += if sewn > 0.0 { sewn * per + 2.0 * tail } else { 0.0 };
                at += stroke;
            }
            assert!(used <= holds + 1e-6, "{from} to {to} takes {used}");
            from = to;
        }
    }

    #[test]
    fn a_bobbin_that_holds_only_tails_is_refused() {
        let refused = bobbin_changes(&[10.0], 1.6, 12.0, 6.0).unwrap_err();
        assert_eq!(refused, ThreadProblem::BobbinTooSmall { bobbin_in: 12.0, tails_in: 12.0 });
        assert!(bobbin_changes(&[f64::NAN], 1.6, 500.0, 6.0).is_err());
        assert!(bobbin_changes(&[10.0], 1.6, f64::NAN, 6.0).is_err());
    }
}
