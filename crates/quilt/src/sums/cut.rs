//! From finished sizes to cut ones: triangles, hexagons, squares out of cloth.
//!
//! The exact allowances are geometry; the trade rounds them up to eighths, and adds before it rounds.
//! Every sum says which it does.

use super::{length, seam, some};
use crate::length::{MeasureProblem, round_up, within};
use serde::{Deserialize, Serialize};
use std::f64::consts::SQRT_2;

/// A shape that is cut from its finished measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CutShape {
    /// Half a square, by its leg: the square to cut in two.
    HalfSquare,
    /// A quarter of a square, by its long side: the square to cut in four.
    QuarterSquare,
    /// Three equal sides, by its height.
    Equilateral,
    /// Six equal sides, from flat to flat.
    Hexagon,
}

/// A cut size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CutSize {
    /// What to cut, exactly.
    pub cut_in: f64,
    /// What to cut by a ruler with eighths, rounded up.
    pub cut_eighth_in: f64,
    /// The finished length of a side: of the leg, the long side, or each of the equal sides.
    pub side_finished_in: f64,
    /// The same, cut.
    pub side_cut_in: f64,
}

/// The cut size for a finished measure.
///
/// # Errors
/// A length that isn't longer than 0, or a seam outside 0 to 2 inches.
pub fn cut_size(shape: CutShape, finished_in: f64, seam_in: f64) -> Result<CutSize, MeasureProblem> {
    let finished = some("finished size", finished_in)?;
    let cut = finished + allowance(shape, seam_in)?;
    let per_side = match shape {
        CutShape::HalfSquare | CutShape::QuarterSquare => 1.0,
        CutShape::Equilateral => 3.0_f64.sqrt() / 2.0,
        CutShape::Hexagon => 3.0_f64.sqrt(),
    };
    Ok(CutSize {
        cut_in: cut,
        cut_eighth_in: round_up(cut, 8),
        side_finished_in: finished / per_side,
        side_cut_in: cut / per_side,
    })
}

/// What to add to the finished measure of a shape.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn allowance(shape: CutShape, seam_in: f64) -> Result<f64, MeasureProblem> {
    match shape {
        CutShape::HalfSquare => half_square_allowance(seam_in),
        CutShape::QuarterSquare => quarter_square_allowance(seam_in),
        CutShape::Equilateral => Ok(3.0 * seam(seam_in)?),
        CutShape::Hexagon => Ok(2.0 * seam(seam_in)?),
    }
}

/// What to add to the finished leg of a half-square triangle when cutting: `s (2 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn half_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(seam(seam_in)? * (2.0 + SQRT_2))
}

/// What to add to the finished long side of a quarter-square triangle: `2 s (1 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn quarter_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(2.0 * seam(seam_in)? * (1.0 + SQRT_2))
}

/// The squares to cut for setting blocks on their points: for the sides (cut in four) and for the
/// corners (cut in two), exactly.
///
/// # Errors
/// A length below 0 or a seam outside 0 to 2 inches.
pub fn setting_squares(block_in: f64, seam_in: f64) -> Result<[f64; 2], MeasureProblem> {
    let block = length("finished block", block_in)?;
    Ok([
        block * SQRT_2 + quarter_square_allowance(seam_in)?,
        block / SQRT_2 + half_square_allowance(seam_in)?,
    ])
}

/// The same squares as the trade's tables have them, for quarter-inch seams: allowances rounded up to
/// eighths, the diagonal taken as 1.414, and the sum rounded up to the eighth.
///
/// # Errors
/// A length below 0.
pub fn printed_setting_squares(block_in: f64) -> Result<[f64; 2], MeasureProblem> {
    let block = length("finished block", block_in)?;
    let [quarter, half] = [quarter_square_allowance(0.25)?, half_square_allowance(0.25)?].map(eighth_up);
    Ok([eighth_up(block * 1.414 + quarter), eighth_up(block / 1.414 + half)])
}

fn eighth_up(inches: f64) -> f64 {
    ((inches - 1e-9) * 8.0).ceil() / 8.0
}

/// How many squares of a cut size a rectangle of cloth gives, in rows.
///
/// # Errors
/// Lengths that make no sense.
pub fn squares_from(width_in: f64, height_in: f64, cut_in: f64) -> Result<u32, MeasureProblem> {
    let cut = within("square", cut_in, [0.25, 200.0], "from 1/4 to 200 inches")?;
    let row = |inches| Ok::<f64, MeasureProblem>((length("cloth", inches)? / cut + 1e-9).floor());
    Ok((row(width_in)? * row(height_in)?) as u32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    fn cut(shape: CutShape, finished: f64) -> CutSize {
        cut_size(shape, finished, 0.25).unwrap()
    }

    // T32 and T33: karencombs.com page 31 (7/8 and 1 1/4 in round figures), quiltmaker.com 2013/04.
    // T39: grannymaudsgirl 2018; one page cuts 3 3/8 for 2 (the trap). T41: christaquilts.com.
    #[test]
    fn triangles_get_the_usual_allowances() {
        near(half_square_allowance(0.25).unwrap(), 0.853_553, 1e-6);
        near(quarter_square_allowance(0.25).unwrap(), 1.207_107, 1e-6);
        for (finished, eighth) in [(2.0, 2.875), (3.0, 3.875)] {
            assert_eq!(cut(CutShape::HalfSquare, finished).cut_eighth_in, eighth);
        }
        assert!(cut_size(CutShape::HalfSquare, 0.0, 0.25).is_err());
        assert_ne!(cut(CutShape::HalfSquare, 2.0).cut_eighth_in, 3.375);
        assert_eq!(cut(CutShape::QuarterSquare, 6.0).cut_eighth_in, 7.25);
    }

    // T34 and T35: quilting.about.com; mythicseam.com. T43: mythicseam.com.
    #[test]
    fn equilateral_triangles_grow_by_three_seams_in_height() {
        let size = cut(CutShape::Equilateral, 4.25);
        assert_eq!((size.cut_in, size.cut_eighth_in), (5.0, 5.0));
        near(size.side_finished_in, 4.9075, 5e-5);
        near(size.side_cut_in - size.side_finished_in, 0.866_025, 1e-6);
        assert_eq!((40.0 / size.side_finished_in).floor(), 8.0);
        // The trap: a blog takes 1/2 off the cut side, and it is .866.
        assert!((size.side_cut_in - 0.5 - size.side_finished_in).abs() > 0.3);
    }

    // T36 and T37: slaneyquiltingstudio.com.
    #[test]
    fn hexagons_grow_by_two_seams_from_flat_to_flat() {
        let size = cut(CutShape::Hexagon, 2.75);
        assert_eq!(size.cut_in, 3.25);
        near(size.side_finished_in, 1.587_713, 1e-6);
        near(size.side_cut_in - size.side_finished_in, 0.288_675, 1e-6);
        // The trap: with a cut edge of 2 1/2 a blog finishes at 2 and 4 1/2 from point to point.
        let finished = 2.5 - (size.side_cut_in - size.side_finished_in);
        near(finished, 2.2113, 5e-5);
        near(2.0 * finished, 4.4226, 5e-5);
        assert!((finished - 2.0).abs() > 0.1 && (2.0 * finished - 4.5).abs() > 0.05);
    }

    // T42: moonlightquilters.org and christaquilts.com, whose raw 9.734 and 5.118 have the rounded
    // allowances in them.
    #[test]
    fn blocks_on_their_points_are_set_with_larger_squares() {
        let [side, corner] = setting_squares(6.0, 0.25).unwrap();
        assert_eq!((round_up(side, 8), round_up(corner, 8)), (9.75, 5.125));
        assert_eq!(printed_setting_squares(6.0), Ok([9.75, 5.125]));
    }

    // T47, the table printed at christaquilts.com: rounded allowances, rounded up to the eighth. The
    // corner of block 3 1/2 is printed 3 1/2 (the trap); the rule gives 3 3/8.
    #[test]
    fn the_setting_table_is_the_rounded_rule() {
        let table = [
            (3.0, 5.5, 3.0),
            (3.5, 6.25, 3.375),
            (4.0, 7.0, 3.75),
            (4.5, 7.625, 4.125),
            (5.0, 8.375, 4.5),
            (5.5, 9.125, 4.875),
            (6.0, 9.75, 5.125),
            (6.5, 10.5, 5.5),
            (7.0, 11.25, 5.875),
            (7.5, 11.875, 6.25),
            (8.0, 12.625, 6.625),
            (8.5, 13.375, 7.0),
            (9.0, 14.0, 7.25),
            (9.5, 14.75, 7.625),
            (10.0, 15.5, 8.0),
            (10.5, 16.125, 8.375),
            (11.0, 16.875, 8.75),
            (11.5, 17.625, 9.125),
            (12.0, 18.25, 9.375),
        ];
        let lower_sides = [4.0, 5.5, 7.0, 8.5, 10.0, 11.5];
        let lower_corners = [5.5, 8.5, 11.5];
        for (block, side, corner) in table {
            assert_eq!(printed_setting_squares(block), Ok([side, corner]), "{block}");
            let [exact_side, exact_corner] = setting_squares(block, 0.25).unwrap().map(eighth_up);
            assert_eq!(side - exact_side, if lower_sides.contains(&block) { 0.125 } else { 0.0 }, "{block}");
            assert_eq!(
                corner - exact_corner,
                if lower_corners.contains(&block) { 0.125 } else { 0.0 },
                "{block}"
            );
        }
        assert_ne!(printed_setting_squares(3.5).unwrap()[1], 3.5);
    }

    // T66 quiltersresources.com, but for 55 and 15 (the traps). T67 sylviasquiltdepot.com, the eight
    // rows that agree. T68 anniescatalog.com.
    #[test]
    fn squares_are_counted_in_rows() {
        for (cut, squares) in [
            (2.0, 99),
            (2.5, 56),
            (3.0, 42),
            (3.5, 30),
            (4.0, 20),
            (4.5, 16),
            (5.0, 12),
            (5.5, 12),
            (6.0, 9),
            (6.5, 6),
        ] {
            assert_eq!(squares_from(18.0, 22.0, cut), Ok(squares), "{cut}");
        }
        assert!(squares_from(18.0, 22.0, 2.5) != Ok(55) && squares_from(18.0, 22.0, 5.0) != Ok(15));
        for (cut, squares) in
            [(2.5, 238), (3.5, 120), (5.0, 56), (6.5, 30), (8.0, 20), (9.0, 16), (10.0, 12), (12.0, 9)]
        {
            assert_eq!(squares_from(44.0, 36.0, cut), Ok(squares), "{cut}");
        }
        assert_eq!((squares_from(40.0, 5.0, 5.0), squares_from(40.0, 10.0, 10.0)), (Ok(8), Ok(4)));
        assert_eq!(squares_from(40.0, 36.0, 5.0), Ok(7 * 8));
        assert!(squares_from(18.0, 22.0, 0.0).is_err());
    }
}
