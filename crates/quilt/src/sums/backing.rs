//! A pieced back: how many panels, which way, how many yards.
//!
//! Panels `U` wide sewn side by side with `s` each cover `n U − 2 s (n − 1)`. The shops' rule, two
//! panels up to twice the width, forgets the seam.

use super::{length, seam, yards_to_buy};
use crate::length::{MeasureProblem, within};
use serde::{Deserialize, Serialize};

/// The usual seam of a back, pressed open: 1/2 inch (lupinelongarmquilting.com).
pub const BACKING_SEAM_IN: f64 = 0.5;

/// Which way the panels of a back run, and with them its seams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Seams {
    /// Along the length: panels lie side by side across the width.
    Along,
    /// Across it.
    Across,
}

/// Panels for a back.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Panels {
    /// How many.
    pub panels: u32,
    /// Which way they run.
    pub seams: Seams,
    /// How long each is cut.
    pub panel_length_cut_in: f64,
    /// What to buy, to the eighth of a yard.
    pub yards: f64,
}

/// Panels needed to cover `across_in` with cloth `usable_in` wide.
///
/// # Errors
/// Lengths that make no sense, or cloth that its own seams use up.
pub fn panels_across(across_in: f64, usable_in: f64, seam_in: f64) -> Result<u32, MeasureProblem> {
    let across = length("width to cover", across_in)?;
    let usable = within("usable width", usable_in, [1.0, 500.0], "from 1 to 500 inches")?;
    let twice = 2.0 * seam(seam_in)?;
    let must = "more than two seams; take wider cloth";
    let gain = within("width that a panel adds", usable - twice, [f64::MIN_POSITIVE, f64::MAX], must)?;
    Ok(((across - twice) / gain - 1e-9).ceil().max(1.0) as u32)
}

/// The panels that take the fewest yards, for a piece of `width_in` by `length_in` with
/// `overage_in` on every side. Of equal ways the one with fewer panels, then along.
///
/// # Errors
/// Lengths that make no sense.
pub fn backing(
    width_in: f64,
    length_in: f64,
    overage_in: f64,
    usable_in: f64,
    seam_in: f64,
) -> Result<Panels, MeasureProblem> {
    let along = backing_run(width_in, length_in, overage_in, usable_in, seam_in, Seams::Along)?;
    let across = backing_run(width_in, length_in, overage_in, usable_in, seam_in, Seams::Across)?;
    let cost = |way: &Panels| (f64::from(way.panels) * way.panel_length_cut_in, way.panels);
    Ok(if cost(&across) < cost(&along) { across } else { along })
}

/// As [`backing`], with the seams as told.
///
/// # Errors
/// Lengths that make no sense.
pub fn backing_run(
    width_in: f64,
    length_in: f64,
    overage_in: f64,
    usable_in: f64,
    seam_in: f64,
    seams: Seams,
) -> Result<Panels, MeasureProblem> {
    let over = 2.0 * within("overage", overage_in, [0.0, 24.0], "from 0 to 24 inches on each side")?;
    let size = |what, inches| within(what, inches, [1.0, 1000.0], "from 1 to 1000 inches");
    let (width, long) = (size("width", width_in)? + over, size("length", length_in)? + over);
    let (cover, run) = if seams == Seams::Along { (width, long) } else { (long, width) };
    let panels = panels_across(cover, usable_in, seam_in)?;
    let yards = yards_to_buy(f64::from(panels) * run)?;
    Ok(Panels { panels, seams, panel_length_cut_in: run, yards })
}

#[cfg(test)]
mod tests {
    use super::*;

    // T22, lupinelongarm; sewberrychic; quiltingjules.
    #[test]
    fn overage_goes_on_every_side() {
        let back = backing(60.0, 80.0, 4.0, 110.0, 0.5).unwrap();
        assert_eq!((back.panels, back.panel_length_cut_in), (1, 68.0), "68 by 88 out of wide cloth");
        let square = backing(60.0, 60.0, 4.0, 110.0, 0.5).unwrap();
        assert_eq!((square.panels, square.panel_length_cut_in), (1, 68.0));
    }

    // T23, olfa.com's rule, geometry.
    #[test]
    fn seams_take_their_share_of_the_width() {
        for (across, seam, panels) in [
            (42.0, 0.5, 1),
            (42.1, 0.5, 2),
            (83.0, 0.5, 2),
            (83.1, 0.5, 3),
            (124.0, 0.5, 3),
            (124.1, 0.5, 4),
            (83.5, 0.25, 2),
            (83.6, 0.25, 3),
            (125.0, 0.25, 3),
            (125.1, 0.25, 4),
        ] {
            assert_eq!(panels_across(across, 42.0, seam), Ok(panels), "{across}");
        }
    }

    #[test]
    fn the_rule_of_two_panels_up_to_twice_the_width_is_short() {
        // The trap: two panels up to 84. They cover 83, or 83 1/2 with quarter-inch seams.
        for seam in [0.5, 0.25] {
            assert_ne!(panels_across(84.0, 42.0, seam), Ok(2));
        }
        assert_eq!(panels_across(83.5, 42.0, 0.5), Ok(3));
    }

    // T24 bellaonline.com art180154 and stcroixquilters.com; T26 stcroixquilters.com; T27 geometry.
    #[test]
    fn published_yards_agree() {
        let bed = backing(72.0, 90.0, 2.0, 42.0, 0.5).unwrap();
        assert_eq!(
            (bed.panels, bed.seams, bed.panel_length_cut_in, bed.yards),
            (2, Seams::Along, 94.0, 5.25)
        );
        for (overage, inches, yards) in [(2.0, 49.0, 1.375), (3.0, 51.0, 1.5)] {
            let cot = backing_run(40.0, 45.0, overage, 46.0, 0.5, Seams::Along).unwrap();
            assert_eq!((cot.panels, cot.panel_length_cut_in, cot.yards), (1, inches, yards), "1 1/2 printed");
        }
        let along = backing_run(60.0, 80.0, 4.0, 42.0, 0.5, Seams::Along).unwrap();
        let across = backing_run(60.0, 80.0, 4.0, 42.0, 0.5, Seams::Across).unwrap();
        assert_eq!((along.panels, along.panel_length_cut_in, along.yards), (2, 88.0, 5.0));
        assert_eq!((across.panels, across.panel_length_cut_in, across.yards), (3, 68.0, 5.75));
        assert_eq!(backing(60.0, 80.0, 4.0, 42.0, 0.5), Ok(along));
    }

    // T25: the printed yards of a queen and a king (stcroixquilters.com).
    #[test]
    fn printed_yards_are_whole_panels() {
        assert_eq!(yards_to_buy(3.0 * 90.0), Ok(7.5));
        assert_eq!(yards_to_buy(3.0 * 96.0), Ok(8.0));
    }

    // T29 bellaonline.com: the shortcut by area is another number.
    #[test]
    fn the_shortcut_by_area_is_no_cutting_plan() {
        let shortcut = 72.0 * 90.0 / 1296.0 + 0.5;
        assert_eq!(shortcut, 5.5);
        assert_ne!(backing(72.0, 90.0, 2.0, 42.0, 0.5).unwrap().yards, shortcut);
        // Where it falls short: 60 by 80 with 4 each side takes 5 yards, it says 4.2.
        assert!(60.0 * 80.0 / 1296.0 + 0.5 < backing(60.0, 80.0, 4.0, 42.0, 0.5).unwrap().yards);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(backing(60.0, 80.0, 4.0, 1.0, 0.5).is_err());
        assert!(backing(0.0, 80.0, 4.0, 42.0, 0.5).is_err() && backing(60.0, 80.0, -1.0, 42.0, 0.5).is_err());
    }
}
