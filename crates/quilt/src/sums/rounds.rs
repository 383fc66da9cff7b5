//! Rounds of patches: what each adds, how deep to cut them, how many are to go.

use super::{length, seam};
use crate::length::{MeasureProblem, within};

/// What a round of patches cut `depth_in` deep adds to the raw radius: `depth − 2 seam`.
///
/// # Errors
/// A depth that isn't more than two seams.
pub fn round_adds(depth_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    let adds = length("depth of the round", depth_in)? - 2.0 * seam(seam_in)?;
    within("width that a round adds", adds, [f64::MIN_POSITIVE, f64::MAX], "more than 0; cut it deeper")
}

/// The least depth to cut for a shape that is to finish `finished_in` deep: `finished + 2 seam`.
///
/// # Errors
/// A length below 0 or a seam outside 0 to 2 inches.
pub fn least_cut(finished_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(length("finished depth", finished_in)? + 2.0 * seam(seam_in)?)
}

/// The rounds that are still to go.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct RoundsToGo {
    /// How deep to cut the patches of each round, in inches, to the eighth; the inner round first.
    pub cut_depths_in: Vec<f64>,
    /// How much wider than wished it will finish, in inches; negative when narrower.
    pub over_in: f64,
}

/// Rounds of patches from a raw width across now to a finished width across. Depths grow outward
/// by a quarter inch where the range allows it, and are kept to eighths.
///
/// # Errors
/// Widths or depths that make no sense, or depths that two seams use up.
pub fn rounds_to_go(
    raw_across_in: f64,
    finished_across_in: f64,
    [least_in, most_in]: [f64; 2],
    seam_in: f64,
) -> Result<RoundsToGo, MeasureProblem> {
    let raw = length("width across now", raw_across_in)?;
    let wished = length("wished width across", finished_across_in)? + 2.0 * seam(seam_in)?;
    round_adds(least_in, seam_in)?;
    within("most depth of a round", most_in, [least_in, 1000.0], "no less than the least depth")?;
    let radius = (wished - raw) / 2.0;
    let mut depths = Vec::new();
    if radius > 1.0 / 16.0 {
        let rounds = ((radius - 1e-9) / (most_in - 2.0 * seam_in)).ceil().clamp(1.0, 1000.0) as u32;
        let mean = (radius / f64::from(rounds) + 2.0 * seam_in).clamp(least_in, most_in);
        depths = spread(rounds, mean, [least_in, most_in]);
    }
    let added: f64 = depths.iter().map(|d| d - 2.0 * seam_in).sum();
    Ok(RoundsToGo { cut_depths_in: depths, over_in: 2.0 * (added - radius) })
}

/// `rounds` depths about a mean, each a step deeper than the one before or as deep, in eighths
/// between `least` and `most`.
fn spread(rounds: u32, mean: f64, [least, most]: [f64; 2]) -> Vec<f64> {
    let half = f64::from(rounds - 1) / 2.0;
    let room = (mean - least).min(most - mean);
    let step = if half * 0.25 <= room + 1e-9 { 0.25 } else { 0.0 };
    let (least, most) = ((least * 8.0 - 1e-9).ceil() / 8.0, (most * 8.0 + 1e-9).floor() / 8.0);
    let (mut wished, mut given) = (0.0, 0.0);
    let mut depths: Vec<f64> = (0..rounds)
        .map(|k| {
            wished += mean + step * (f64::from(k) - half);
            // Where no eighth lies between them, the most counts.
            let depth = (((wished - given) * 8.0).round() / 8.0).max(least).min(most);
            given += depth;
            depth
        })
        .collect();
    depths.sort_by(f64::total_cmp);
    depths
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // Common practice, no source.
    #[test]
    fn a_round_adds_what_two_seams_leave_of_it() {
        assert_eq!(least_cut(0.5, 0.25), Ok(1.0));
        assert_eq!(round_adds(2.25, 0.25), Ok(1.75));
        assert!(round_adds(0.5, 0.25).is_err());
    }

    #[test]
    fn rounds_to_go_end_at_the_wished_size() {
        let two = rounds_to_go(13.0, 20.0, [1.5, 2.5], 0.25).unwrap();
        assert_eq!(two.cut_depths_in, vec![2.25, 2.5]);
        assert_eq!(two.over_in, 0.0);
        let two = rounds_to_go(13.0, 20.5, [1.5, 2.75], 0.25).unwrap();
        assert_eq!(two.cut_depths_in, vec![2.375, 2.625]);
        for raw in [4.0, 7.3, 11.9, 15.01, 19.0] {
            let rounds = rounds_to_go(raw, 20.0, [1.25, 3.0], 0.25).unwrap();
            let across = rounds.cut_depths_in.iter().fold(raw, |raw, d| raw + 2.0 * (d - 0.5));
            near(across - 0.5 - 20.0, rounds.over_in, 1e-9);
            assert!(rounds.over_in.abs() <= 0.125 || rounds.cut_depths_in == [1.25], "{rounds:?}");
        }
        assert!(rounds_to_go(20.5, 20.0, [1.5, 2.5], 0.25).unwrap().cut_depths_in.is_empty());
        assert!(rounds_to_go(4.0, 20.0, [0.5, 2.5], 0.25).is_err());
    }

    #[test]
    fn no_round_is_deeper_than_the_most_nor_than_the_one_outside_it() {
        for raw in 0..60 {
            for most in [1.5, 1.9, 2.3, 2.75] {
                let rounds = rounds_to_go(4.0 + f64::from(raw) * 0.27, 19.9, [1.4, most], 0.25).unwrap();
                let depths = rounds.cut_depths_in;
                assert!(depths.windows(2).all(|pair| pair[0] <= pair[1]), "{depths:?}");
                assert!(depths.iter().all(|depth| (1.4..=most).contains(depth)), "{most}: {depths:?}");
            }
        }
    }
}
