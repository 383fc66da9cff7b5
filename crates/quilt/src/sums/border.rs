//! A mitred border of one width round any polygon, by its sides and angles.
//!
//! With `w` the finished width, `e` a side and `A1`, `A2` the inside angles at its ends, the outer
//! edge is `e + w (cot A1/2 + cot A2/2)`; an inside corner has a negative cotangent and takes length
//! away. A strip is cut with the seam allowance on all four of its sides.

use super::seam;
use crate::length::{MeasureProblem, within};
use plane::{Point, Region, RegionProblem, polygon};
use serde::Serialize;

/// What one strip of a border measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BorderSide {
    /// The longer raw edge: the outer one, but where two inside corners make that the shorter.
    pub cut_long_in: f64,
    /// The shorter raw edge.
    pub cut_short_in: f64,
}

/// A mitred border.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MitredBorder {
    /// Length round the outside, finished.
    pub outer_perimeter_in: f64,
    /// What shows of it, in square inches.
    pub area_sq_in: f64,
    /// How wide every strip is cut.
    pub cut_width_in: f64,
    /// One strip for each side of the outline, in order.
    pub sides: Vec<BorderSide>,
}

/// Why there is no such border.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BorderProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// The outline isn't one.
    #[error("The outline can't be used: {0}.")]
    Outline(RegionProblem),
    /// Between two inside corners the border would have no outer edge left.
    #[error(
        "A border {width_in:.2} wide leaves side {side} no outer edge: {short_in:.2} is missing between its inside corners. Make it at most {most_in:.2} wide."
    )]
    TooWide {
        /// Finished width.
        width_in: f64,
        /// Which side, from 1.
        side: usize,
        /// What is missing.
        short_in: f64,
        /// The most that fits there.
        most_in: f64,
    },
    /// Two parts of the border would lie over each other.
    #[error(
        "A border {width_in:.2} wide would lie over itself: the strips of sides {first} and {second} meet. Make it narrower, or fill the notch first."
    )]
    Overlaps {
        /// Finished width.
        width_in: f64,
        /// The first side, from 1.
        first: usize,
        /// The second.
        second: usize,
    },
}

/// The mitred border of finished width `width_in` round a finished outline.
///
/// # Errors
/// An outline that isn't one, and a border that has no room at inside corners.
pub fn mitred_border(outline: &[Point], width_in: f64, seam_in: f64) -> Result<MitredBorder, BorderProblem> {
    let outline = Region::try_new(outline.to_vec(), Vec::new()).map_err(BorderProblem::Outline)?.outer;
    let width = within(
        "width of the border",
        width_in,
        [f64::MIN_POSITIVE, 100.0],
        "more than 0, at most 100 inches",
    )?;
    let seam = seam(seam_in)?;
    let halves = half_angles(&outline);
    let cot = |i: usize| 1.0 / halves[i % halves.len()].tan();
    let mut sides = Vec::with_capacity(outline.len());
    let mut outer_perimeter_in = 0.0;
    for (i, (a, b)) in polygon::edges(&outline).enumerate() {
        let (edge, gain) = (a.distance(b), cot(i) + cot(i + 1));
        let outer = edge + width * gain;
        if outer <= 0.0 {
            let (short_in, most_in) = (-outer, edge / -gain);
            return Err(BorderProblem::TooWide { width_in, side: i + 1, short_in, most_in });
        }
        outer_perimeter_in += outer;
        // Beyond the finished inner edge the mitre goes on: its angle there is 180 − A/2.
        let inner_raw =
            edge + seam * ((halves[i] / 2.0).tan() + (halves[(i + 1) % halves.len()] / 2.0).tan());
        let outer_raw = inner_raw + (width + 2.0 * seam) * gain;
        sides.push(BorderSide {
            cut_long_in: inner_raw.max(outer_raw),
            cut_short_in: inner_raw.min(outer_raw),
        });
    }
    check_apart(&outline, &halves, width)?;
    let area =
        polygon::perimeter(&outline) * width + width * width * (0..outline.len()).map(cot).sum::<f64>();
    Ok(MitredBorder { outer_perimeter_in, area_sq_in: area, cut_width_in: width + 2.0 * seam, sides })
}

/// Half the inside angle at each corner, in radians.
fn half_angles(outline: &[Point]) -> Vec<f64> {
    let n = outline.len();
    (0..n)
        .map(|i| {
            let (before, here, after) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
            let turn = (here - before).cross(after - here).atan2((here - before).dot(after - here));
            (std::f64::consts::PI - turn) / 2.0
        })
        .collect()
}

/// The outer edge must not cross itself.
fn check_apart(outline: &[Point], halves: &[f64], width: f64) -> Result<(), BorderProblem> {
    let n = outline.len();
    let outer = (0..n).map(|i| {
        let along = outline[i] - outline[(i + n - 1) % n];
        let unit = along * (1.0 / along.length());
        outline[i] + unit * (width / halves[i].tan()) - unit.left() * width
    });
    match Region::try_new(outer.collect(), Vec::new()) {
        Err(RegionProblem::SidesCross { first, second, .. }) => {
            Err(BorderProblem::Overlaps { width_in: width, first, second })
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    fn regular(sides: u32, edge: f64) -> Vec<Point> {
        let step = std::f64::consts::TAU / f64::from(sides);
        let radius = edge / (2.0 * (step / 2.0).sin());
        (0..sides)
            .map(|i| Point::new(radius * (step * f64::from(i)).cos(), radius * (step * f64::from(i)).sin()))
            .collect()
    }

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    // T89, T90, T92 to T95, T97: geometry.
    #[test]
    fn borders_of_regular_polygons_measure_as_listed() {
        for (n, edge, width, around, area) in [
            (6, 10.0, 4.0, 87.7128, 295.4256),
            (8, 10.0, 4.0, 106.5097, 373.0193),
            (4, 20.0, 4.0, 112.0, 384.0),
            (3, 12.0, 3.0, 67.1769, 154.7654),
            (5, 10.0, 3.0, 71.7963, 182.6944),
            (12, 6.0, 2.0, 84.8616, 156.8616),
        ] {
            let border = mitred_border(&regular(n, edge), width, 0.25).unwrap();
            near(border.outer_perimeter_in, around, 6e-5);
            near(border.area_sq_in, area, 6e-5);
            assert_eq!(border.cut_width_in, width + 0.5);
        }
        for (n, edge, long, short) in
            [(6, 10.0, 15.4848, 10.2887), (8, 10.0, 14.0620, 10.3341), (4, 20.0, 29.2071, 20.2071)]
        {
            for side in mitred_border(&regular(n, edge), 4.0, 0.25).unwrap().sides {
                near(side.cut_long_in, long, 6e-5);
                near(side.cut_short_in, short, 6e-5);
            }
        }
        let oblong = points(&[(0.0, 0.0), (20.0, 0.0), (20.0, 30.0), (0.0, 30.0)]);
        let border = mitred_border(&oblong, 3.0, 0.25).unwrap();
        near(border.area_sq_in, 336.0, 1e-9);
        near(border.outer_perimeter_in, 2.0 * (26.0 + 36.0), 1e-9);
    }

    // T88: mitre angles off square, 90 − A/2.
    #[test]
    fn mitres_of_regular_polygons_lean_by_half_their_turn() {
        for (n, lean) in [(3, 60.0), (4, 45.0), (5, 36.0), (6, 30.0), (8, 22.5), (12, 15.0)] {
            near(90.0 - half_angles(&regular(n, 7.0))[0].to_degrees(), lean, 1e-9);
        }
    }

    // T98, quiltingboard t168402: size, twice the border and an inch. The raw tips reach .207 more.
    #[test]
    fn the_rule_of_an_inch_more_cuts_the_tips_short() {
        let rule = |quilt: f64, border: f64| quilt + 2.0 * border + 1.0;
        assert_eq!((rule(50.0, 7.0), rule(60.0, 7.0)), (65.0, 75.0));
        let quilt = points(&[(0.0, 0.0), (50.0, 0.0), (50.0, 60.0), (0.0, 60.0)]);
        let border = mitred_border(&quilt, 7.0, 0.25).unwrap();
        for (side, quilt) in border.sides.iter().zip([50.0, 60.0, 50.0, 60.0]) {
            assert!(rule(quilt, 7.0) < side.cut_long_in);
            near(side.cut_long_in - rule(quilt, 7.0), 0.2071, 5e-5);
        }
    }

    #[test]
    fn borders_agree_with_the_grown_outline() {
        let shapes = [
            points(&[(0.0, 0.0), (22.0, -3.0), (30.0, 14.0), (17.0, 27.0), (-4.0, 19.0)]),
            points(&[(0.0, 0.0), (30.0, 0.0), (30.0, 12.0), (14.0, 12.0), (14.0, 30.0), (0.0, 30.0)]),
        ];
        for shape in shapes {
            let border = mitred_border(&shape, 3.0, 0.25).unwrap();
            let grown = plane::grow_outline(&shape, 3.0);
            near(border.outer_perimeter_in, polygon::perimeter(&grown), 1e-6);
            near(border.area_sq_in, polygon::area(&grown) - polygon::area(&shape), 1e-6);
        }
    }

    #[test]
    fn a_notch_without_room_is_refused_with_what_is_missing() {
        let notch = points(&[
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 20.0),
            (12.0, 20.0),
            (12.0, 10.0),
            (8.0, 10.0),
            (8.0, 20.0),
            (0.0, 20.0),
        ]);
        assert!(mitred_border(&notch, 1.5, 0.25).is_ok());
        match mitred_border(&notch, 3.0, 0.25) {
            Err(BorderProblem::TooWide { side: 5, short_in, most_in, .. }) => {
                near(short_in, 2.0, 1e-9);
                near(most_in, 2.0, 1e-9);
            }
            other => panic!("{other:?}"),
        }
        let mouth = points(&[
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 20.0),
            (11.0, 20.0),
            (14.0, 10.0),
            (6.0, 10.0),
            (9.0, 20.0),
            (0.0, 20.0),
        ]);
        assert!(matches!(mitred_border(&mouth, 2.0, 0.25), Err(BorderProblem::Overlaps { .. })));
        assert!(
            mitred_border(&notch[..2], 1.0, 0.25).is_err() && mitred_border(&notch, f64::NAN, 0.25).is_err()
        );
    }
}
