//! The sums that makers do on paper, each with its formula.
//!
//! Lengths are inches, angles inside angles of the raw outline in degrees. Nothing here needs a
//! workroom or a log. Values that make no sense are refused with what they must be.

use crate::length::{MeasureProblem, within};

/// Square inches in a square metre.
const SQ_IN_PER_SQ_M: f64 = 1e6 / (crate::length::MM_PER_IN * crate::length::MM_PER_IN);

/// What one ounce a square yard is in grams a square metre: 28.349523125 g over 0.83612736 m².
pub const GSM_PER_OZ_SQ_YD: f64 = 28.349_523_125 / 0.836_127_36;

fn length(what: &'static str, inches: f64) -> Result<f64, MeasureProblem> {
    within(what, inches, [0.0, crate::length::MOST_IN], "a length from 0 to 10,000 inches")
}

fn corner(degrees: f64) -> Result<f64, MeasureProblem> {
    within("corner", degrees, [1.0, 179.0], "an inside angle from 1 to 179 degrees").map(f64::to_radians)
}

fn seam(inches: f64) -> Result<f64, MeasureProblem> {
    within("seam allowance", inches, [0.0, 2.0], "from 0 to 2 inches")
}

/// The length a patch must have along the seam line to cover a raw edge:
/// `edge − seam (cot A1 + cot A2)`. At obtuse corners that is more than the edge.
///
/// # Errors
/// A corner outside 1 to 179 degrees, a seam outside 0 to 2 inches, an edge that is none, or a
/// seam that would use the edge up.
pub fn cover_need(edge_in: f64, a1_deg: f64, a2_deg: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    let most = crate::length::MOST_IN;
    let edge =
        within("edge", edge_in, [f64::MIN_POSITIVE, most], "longer than 0, and at most 10,000 inches")?;
    let s = seam(seam_in)?;
    let need = edge - s * (1.0 / corner(a1_deg)?.tan() + 1.0 / corner(a2_deg)?.tan());
    let must = "more than 0; the corners are too sharp for so wide a seam on so short an edge";
    within("length left at the seam line", need, [f64::MIN_POSITIVE, f64::MAX], must)
}

/// How far a tip's raw point reaches beyond its finished point: `seam / sin(b/2)`.
///
/// # Errors
/// A tip outside 1 to 179 degrees or a seam outside 0 to 2 inches.
pub fn tip_overshoot(tip_deg: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(seam(seam_in)? / (corner(tip_deg)? / 2.0).sin())
}

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

/// How much to trim off the neighbour at a corner of `corner_deg` so that the seam line gets
/// `short_in` shorter there: `short × sin A`.
///
/// # Errors
/// A corner outside 1 to 179 degrees or a length below 0.
pub fn trim_for_cover(short_in: f64, corner_deg: f64) -> Result<f64, MeasureProblem> {
    Ok(length("missing length", short_in)? * corner(corner_deg)?.sin())
}

/// What to add to the finished leg of a half-square triangle when cutting: `s (2 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn half_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(seam(seam_in)? * (2.0 + std::f64::consts::SQRT_2))
}

/// What to add to the finished long side of a quarter-square triangle: `2 s (1 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn quarter_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(2.0 * seam(seam_in)? * (1.0 + std::f64::consts::SQRT_2))
}

/// Width of a strip set of `strips` strips cut `cut_in` wide: `(cut − 2s) n + 2s`.
///
/// # Errors
/// No strips, or strips that the seams use up.
pub fn strip_set_width(strips: u32, cut_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    within("number of strips", f64::from(strips), [1.0, 1000.0], "from 1 to 1000")?;
    let shows = length("width of a strip", cut_in)? - 2.0 * seam(seam_in)?;
    let must = "more than 0; cut the strips wider than two seams";
    within("finished width of a strip", shows, [f64::MIN_POSITIVE, f64::MAX], must)?;
    Ok(shows * f64::from(strips) + 2.0 * seam_in)
}

/// Area in square inches of cloth that weighs `grams` at `gsm` grams a square metre.
///
/// # Errors
/// A weight below 0, or a cloth outside 10 to 2000 g/m².
pub fn area_by_weight(grams: f64, gsm: f64) -> Result<f64, MeasureProblem> {
    let grams = within("weight", grams, [0.0, 1e6], "from 0 to 1,000,000 grams")?;
    Ok(grams / heaviness(gsm)? * SQ_IN_PER_SQ_M)
}

/// Weight in grams of an area in square inches at `gsm` grams a square metre.
///
/// # Errors
/// An area below 0, or a cloth outside 10 to 2000 g/m².
pub fn weight_of_area(sq_in: f64, gsm: f64) -> Result<f64, MeasureProblem> {
    let area = within("area", sq_in, [0.0, 1e9], "0 square inches or more")?;
    Ok(area / SQ_IN_PER_SQ_M * heaviness(gsm)?)
}

fn heaviness(gsm: f64) -> Result<f64, MeasureProblem> {
    within("cloth's weight", gsm, [10.0, 2000.0], "from 10 to 2000 grams a square metre")
}

/// Yards to buy for a length, rounded up to the next eighth.
///
/// # Errors
/// A length below 0 or above 10,000 inches.
pub fn yards_to_buy(inches: f64) -> Result<f64, MeasureProblem> {
    let yards = length("length", inches)? / 36.0;
    Ok(((yards - 1e-9) * 8.0).ceil().max(0.0) / 8.0)
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

    fn near(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }

    // Common practice, no source; the figures follow from the geometry of a strip s wide.
    #[test]
    fn a_patch_must_cover_the_seam_line_not_the_raw_edge() {
        near(cover_need(5.375, 128.0, 135.0, 0.25).unwrap(), 5.820, 0.0005);
        near(cover_need(9.25, 140.0, 146.0, 0.25).unwrap(), 9.919, 0.0005);
        for (corner, extra) in [(108.0, 0.163), (120.0, 0.289), (135.0, 0.500), (150.0, 0.866)] {
            near(cover_need(6.0, corner, corner, 0.25).unwrap() - 6.0, extra, 0.001);
        }
        near(cover_need(6.0, 90.0, 90.0, 0.25).unwrap(), 6.0, 1e-12);
        for bad in [(5.0, 0.0, 90.0, 0.25), (5.0, 90.0, 180.0, 0.25), (f64::NAN, 90.0, 90.0, 0.25)] {
            assert!(cover_need(bad.0, bad.1, bad.2, bad.3).is_err(), "{bad:?}");
        }
        assert!(cover_need(1.0, 20.0, 20.0, 0.25).is_err(), "the seam uses the edge up");
        assert!(cover_need(0.0, 140.0, 140.0, 0.25).is_err(), "an edge that is none");
    }

    // Common practice, no source.
    #[test]
    fn a_tip_reaches_beyond_its_finished_point() {
        for (tip, reach) in [(60.0, 0.50), (30.0, 0.97), (20.0, 1.44)] {
            near(tip_overshoot(tip, 0.25).unwrap(), reach, 0.005);
        }
        assert_eq!(least_cut(0.5, 0.25), Ok(1.0));
        assert_eq!(round_adds(2.25, 0.25), Ok(1.75));
        assert!(round_adds(0.5, 0.25).is_err());
    }

    // karencombs.com page 31; grannymaudsgirl 2018 (finished 2 and 3).
    #[test]
    fn triangles_get_the_usual_allowances() {
        near(half_square_allowance(0.25).unwrap(), 0.853_553, 1e-6);
        near(quarter_square_allowance(0.25).unwrap(), 1.207_107, 1e-6);
        for (finished, cut) in [(2.0, 2.875), (3.0, 3.875)] {
            let exact = finished + half_square_allowance(0.25).unwrap();
            assert_eq!(crate::length::round_up(exact, 8), cut);
        }
    }

    // vickisfabriccreations 2013/10.
    #[test]
    fn a_strip_set_is_as_wide_as_its_strips_less_the_seams() {
        assert_eq!(strip_set_width(9, 3.25, 0.25), Ok(25.25));
        assert_eq!(strip_set_width(16, 2.375, 0.25), Ok(30.5));
        let refused = strip_set_width(3, 0.5, 0.25).unwrap_err().to_string();
        assert!(refused.contains("strip") && !refused.contains("round"), "{refused}");
    }

    // Arithmetic from the definitions of ounce, yard and inch.
    #[test]
    fn cloth_weighs_what_its_area_says() {
        near(GSM_PER_OZ_SQ_YD, 33.9057, 0.00005);
        near(GSM_PER_OZ_SQ_YD * 16.0 / (3.5 * 45.0 / 36.0), 124.0, 0.05);
        near(weight_of_area(18.0 * 22.0, 140.0).unwrap(), 35.77, 0.005);
        near(weight_of_area(36.0 * 44.0, 140.0).unwrap(), 143.07, 0.005);
        near(area_by_weight(1000.0, 140.0).unwrap() / SQ_IN_PER_SQ_M, 7.143, 0.0005);
        assert!(area_by_weight(-1.0, 140.0).is_err() && area_by_weight(1.0, 0.0).is_err());
    }

    // castillejacotton and sylviasquiltdepot.com, by their lengths; 27 inches are 3/4 of a yard.
    #[test]
    fn yards_are_bought_by_the_eighth() {
        for (inches, yards) in [(27.5, 0.875), (12.5, 0.375), (188.0, 5.25), (27.0, 0.75), (0.0, 0.0)] {
            assert_eq!(yards_to_buy(inches), Ok(yards));
        }
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
