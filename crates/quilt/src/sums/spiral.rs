//! The length of lines that go round and round.

use super::length;
use crate::length::{MeasureProblem, within};
use std::f64::consts::PI;

/// Length of a round spiral from its middle out to `radius_in`, with `gap_in` between turns:
/// `p/4π (θ √(1+θ²) + arsinh θ)`, `θ = 2π R / p`.
///
/// # Errors
/// A gap of nothing, or a radius under the gap: that is no whole turn.
pub fn spiral_length(radius_in: f64, gap_in: f64) -> Result<f64, MeasureProblem> {
    let gap = gap_of(gap_in)?;
    let must = "as wide as the gap at least, so that the spiral goes round once";
    let radius = within("radius", radius_in, [gap, crate::length::MOST_IN], must)?;
    Ok(plane::fill::spiral_length(radius, gap))
}

/// The estimate by area, `π R² / p`.
///
/// # Errors
/// A radius or a gap of nothing.
pub fn spiral_by_area(radius_in: f64, gap_in: f64) -> Result<f64, MeasureProblem> {
    Ok(PI * length("radius", radius_in)?.powi(2) / gap_of(gap_in)?)
}

/// The widest gap at a corner of a spiral with corners, its turns `gap_in` apart:
/// `2 p / (1 + sin A/2)`.
///
/// # Errors
/// A gap of nothing, or a corner outside 1 to 179 degrees.
pub fn corner_gap(gap_in: f64, corner_deg: f64) -> Result<f64, MeasureProblem> {
    Ok(2.0 * gap_of(gap_in)? / (1.0 + (super::corner(corner_deg)? / 2.0).sin()))
}

/// The gap that a sum can be done for; of nothing there would be no end of line.
fn gap_of(inches: f64) -> Result<f64, MeasureProblem> {
    within("gap", inches, [1.0 / 32.0, 100.0], "from 1/32 to 100 inches")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;
    use std::f64::consts::TAU;

    // T101, geometry.
    #[test]
    fn spirals_are_a_little_longer_than_their_area_says() {
        for (radius, gap, exact, estimate) in
            [(10.0, 1.0, 314.584, 314.159), (20.0, 0.5, 2513.541, 2513.274), (24.0, 0.25, 7238.381, 7238.229)]
        {
            near(spiral_length(radius, gap).unwrap(), exact, 0.0006);
            near(spiral_by_area(radius, gap).unwrap(), estimate, 0.0006);
            assert!(spiral_by_area(radius, gap).unwrap() < spiral_length(radius, gap).unwrap());
        }
    }

    #[test]
    fn a_spiral_is_as_long_as_its_chords() {
        let (gap, turns) = (0.5, 12.0);
        let at = |t: f64| plane::Point::new(gap * t * (TAU * t).cos(), gap * t * (TAU * t).sin());
        let steps = 200_000;
        let chords: f64 = (0..steps)
            .map(|k| {
                at(turns * f64::from(k) / f64::from(steps))
                    .distance(at(turns * f64::from(k + 1) / f64::from(steps)))
            })
            .sum();
        near(spiral_length(gap * turns, gap).unwrap(), chords, 1e-4);
    }

    // Common practice, no source; geometry.
    #[test]
    fn spirals_with_corners_gape_there() {
        near(corner_gap(1.0, 60.0).unwrap(), 1.333, 0.0005);
        near(corner_gap(1.0, 90.0).unwrap(), 1.172, 0.0005);
        assert!(spiral_length(10.0, 0.0).is_err() && corner_gap(1.0, 0.0).is_err());
        assert!(spiral_length(0.1, 5.0).is_err() && spiral_length(5.0, 5.0).is_ok());
    }
}
