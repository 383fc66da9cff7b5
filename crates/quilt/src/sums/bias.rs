//! Bias strips: from a square in one piece, or cut one by one.
//!
//! A square cut once along its diagonal and sewn to a parallelogram, then sewn to a tube, gives one
//! strip without end. Only whole strips count: `n = ⌊a / (√2 w)⌋`, together `n √2 (a − 4 s)` long,
//! for the two seams eat `4 s` of each strip's way along the edge. The rule by area,
//! `length ≤ a² / w`, leaves seams and the last part of a strip out and promises too much.

use super::{length, seam};
use crate::length::{MOST_IN, MeasureProblem, within};
use serde::Serialize;
use std::f64::consts::SQRT_2;

/// Bias from a square.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bias {
    /// Whole strips round the tube.
    pub strips: u32,
    /// Length in one piece.
    pub length_in: f64,
}

/// What a square gives in one piece.
///
/// # Errors
/// Lengths that make no sense, or a square that gives no whole strip.
pub fn bias_from_square(square_in: f64, width_in: f64, seam_in: f64) -> Result<Bias, MeasureProblem> {
    let square = within("square", square_in, [f64::MIN_POSITIVE, MOST_IN], "larger than 0")?;
    let strips = (square / selvage_measure(width_in)? + 1e-9).floor();
    let along = square - 4.0 * seam(seam_in)?;
    if strips < 1.0 || along <= 0.0 {
        let must = "large enough for one strip from corner to corner; take a larger square";
        return Err(MeasureProblem::OutOfRange { what: "square", found: square, must });
    }
    Ok(Bias { strips: strips as u32, length_in: strips * SQRT_2 * along })
}

/// The least square, in whole inches, that gives at least `length_in` in one piece.
///
/// # Errors
/// Lengths that make no sense, or more than a square of 200 inches gives.
pub fn square_for_bias(length_in: f64, width_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    let wanted = length("length of bias", length_in)?;
    selvage_measure(width_in)?;
    seam(seam_in)?;
    let reaches = |side: &f64| {
        bias_from_square(*side, width_in, seam_in).is_ok_and(|bias| bias.length_in >= wanted - 1e-9)
    };
    let too_much = MeasureProblem::OutOfRange {
        what: "length of bias",
        found: wanted,
        must: "what a square of 200 inches gives, or less; cut it in two goes",
    };
    (1..=200).map(f64::from).find(reaches).ok_or(too_much)
}

/// The trade's rule for the same: the root of length times width, rounded up to the inch
/// (getasquiltingstudio.com 2018/04, quiltersquestiontime.com 2021). It leaves the seams out.
///
/// # Errors
/// Lengths that make no sense.
pub fn square_by_area(length_in: f64, width_in: f64) -> Result<f64, MeasureProblem> {
    Ok((length("length of bias", length_in)? * width(width_in)?).sqrt().ceil())
}

/// What a strip on the true bias measures along the selvage: `√2 w`.
///
/// # Errors
/// A width outside 1/4 to 24 inches.
pub fn selvage_measure(width_in: f64) -> Result<f64, MeasureProblem> {
    Ok(SQRT_2 * width(width_in)?)
}

/// The strips that a length of cloth gives when it is cut at 45 degrees one by one, longest first.
/// Each is measured between its slanted ends, along the strip; the two corners of the cloth give
/// the shorter ones. The ends lie along the threads, so a join takes `2 √2 s` of the length.
///
/// # Errors
/// Lengths that make no sense; cloth longer than it is wide is cut as far as it is wide.
pub fn bias_strips(usable_in: f64, cloth_in: f64, width_in: f64) -> Result<Vec<f64>, MeasureProblem> {
    let across = within("usable width", usable_in, [1.0, 200.0], "from 1 to 200 inches")?;
    let along = within("length of cloth", cloth_in, [0.0, MOST_IN], "0 or more")?.min(across);
    let step = selvage_measure(width_in)?;
    let full = ((across - along) / step + 1e-9).floor() as usize;
    let mut strips = vec![along * SQRT_2; full];
    let mut from_corner = along - step;
    while from_corner > step {
        // One from each of the two corners.
        strips.extend([from_corner * SQRT_2; 2]);
        from_corner -= step;
    }
    Ok(strips)
}

fn width(inches: f64) -> Result<f64, MeasureProblem> {
    within("width of a strip", inches, [0.25, 24.0], "from 1/4 to 24 inches")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::{length_by_area, tests::near};

    // T19, geometry.
    #[test]
    fn a_square_gives_whole_strips_less_two_seams() {
        for (side, width, strips, length) in [
            (12.0, 2.0, 4, 62.23),
            (15.0, 2.0, 5, 98.99),
            (20.0, 2.0, 7, 188.09),
            (30.0, 2.5, 8, 328.10),
            (32.0, 2.25, 10, 438.41),
            (36.0, 2.5, 10, 494.97),
        ] {
            let bias = bias_from_square(side, width, 0.25).unwrap();
            assert_eq!(bias.strips, strips, "{side}");
            near(bias.length_in, length, 0.005);
            assert!(bias.length_in < length_by_area(side * side, width).unwrap());
        }
        // A printed table for strips of 2 inches (ronbd.com): within 6 in the hundred.
        for (side, printed) in [(12.0, 60.0), (15.0, 100.0)] {
            let length = bias_from_square(side, 2.0, 0.25).unwrap().length_in;
            assert!((length / printed - 1.0).abs() < 0.06 && printed <= side * side / 2.0, "{length}");
        }
    }

    // T12 mydecozo.co.uk, T14 and T15 getasquiltingstudio.com, T16 quiltersquestiontime.com.
    #[test]
    fn the_rule_by_area_gives_the_printed_squares_and_falls_short() {
        for (length, width, square) in
            [(450.0, 2.25, 32.0), (55.0, 2.5, 12.0), (100.0, 3.5, 19.0), (244.0, 2.5, 25.0)]
        {
            assert_eq!(square_by_area(length, width), Ok(square));
            let got = bias_from_square(square, width, 0.25).unwrap().length_in;
            assert!(got < length, "{square}: {got} for {length}");
            let true_square = square_for_bias(length, width, 0.25).unwrap();
            assert!(true_square > square);
            assert!(bias_from_square(true_square, width, 0.25).unwrap().length_in >= length);
            assert!(bias_from_square(true_square - 1.0, width, 0.25).unwrap().length_in < length);
        }
        near((450.0_f64 * 2.25).sqrt(), 31.82, 0.005);
    }

    // T17 mydecozo.co.uk and sew-whats-new.com; T20 a bias page.
    #[test]
    fn an_area_gives_no_more_than_its_share() {
        assert_eq!((length_by_area(400.0, 2.0), length_by_area(1296.0, 2.0)), (Ok(200.0), Ok(648.0)));
        near(length_by_area((22.0_f64 - 0.25).powi(2), 3.0).unwrap(), 157.7, 0.05);
        // The trap (swampcrone.net): a quarter yard of 40 in strips of 1 1/4 is not 10 yards.
        assert_eq!(length_by_area(9.0 * 40.0, 1.25), Ok(288.0));
        assert!(length_by_area(9.0 * 40.0, 1.25).unwrap() < 10.0 * 36.0, "8 yards, not 10");
        // Its other figure stays under the bound.
        assert!(20.0 * 36.0 <= length_by_area(36.0 * 35.0, 1.5).unwrap());
    }

    // T21, geometry; koolqlt.blogspot.com says 11.4.
    #[test]
    fn a_bias_strip_measures_more_along_the_selvage() {
        near(selvage_measure(2.5).unwrap(), 3.5355, 5e-5);
        near(selvage_measure(2.25).unwrap(), 3.1820, 5e-5);
        near(40.0 / selvage_measure(2.5).unwrap(), 11.31, 0.005);
        // A Sewing Course for Teachers: one third more along the selvage, which is less than it is.
        assert!(2.5 * (1.0 + 1.0 / 3.0) < selvage_measure(2.5).unwrap());
    }

    #[test]
    fn strips_cut_one_by_one_lie_in_the_cloth_and_never_beat_its_area() {
        let strips = bias_strips(40.0, 20.0, 2.25).unwrap();
        assert_eq!(strips.iter().filter(|strip| **strip == 20.0 * SQRT_2).count(), 6);
        near(strips[6], (20.0 - 2.25 * SQRT_2) * SQRT_2, 1e-9);
        for cloth in [4.5, 9.0, 18.0, 27.0, 36.0, 40.0, 60.0] {
            let all: f64 = bias_strips(40.0, cloth, 2.25).unwrap().iter().sum();
            assert!(all * 2.25 <= 40.0 * cloth.min(40.0), "{cloth}: {all}");
        }
        assert!(bias_strips(40.0, 2.0, 2.25).unwrap().iter().all(|strip| *strip == 2.0 * SQRT_2));
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(bias_from_square(3.0, 2.25, 0.25).is_err() && bias_from_square(0.9, 0.25, 0.25).is_err());
        assert!(
            bias_from_square(f64::NAN, 2.25, 0.25).is_err() && bias_from_square(20.0, 0.0, 0.25).is_err()
        );
        assert!(square_for_bias(9999.0, 20.0, 0.25).is_err());
    }
}
