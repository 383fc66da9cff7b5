//! Thread by the numbers.
//!
//! A lockstitch lays one thread above and one below, and each passes half-way through the layers at
//! both ends of a stitch. With thickness `T` and `S` stitches a unit, a unit of seam takes
//! `2 + 2 T S` units of thread, half of it above (textilecalculations.com; textilecalculation.blogspot
//! 2015/06). The trade's flat ratio is 2.5 whatever the cloth; it falls short where `T S` is over 1/4.

use super::length;
use crate::length::{MM_PER_IN, MeasureProblem, within};
use serde::Serialize;

/// The trade's flat ratio of thread to seam, above and below together (a garment-trade table, as
/// melgeecrafts.com quotes it).
pub const FLAT_RATIO: f64 = 2.5;

/// Thread for a length of machine sewing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lockstitch {
    /// Above.
    pub needle_in: f64,
    /// Below.
    pub bobbin_in: f64,
}

impl Lockstitch {
    /// Above and below.
    #[must_use]
    pub fn total_in(self) -> f64 {
        self.needle_in + self.bobbin_in
    }
}

/// Stitches an inch: `25.4 / mm` (melgeecrafts.com).
///
/// # Errors
/// A stitch outside 0.3 to 15 mm.
pub fn stitches_per_in(stitch_mm: f64) -> Result<f64, MeasureProblem> {
    Ok(MM_PER_IN / within("stitch", stitch_mm, [0.3, 15.0], "from 0.3 to 15 mm long")?)
}

/// Thread for each inch of a lockstitch, above and below together: `2 + 2 T S`.
///
/// # Errors
/// A thickness outside 0 to 1 inch, or more stitches than any machine makes.
pub fn lockstitch_ratio(thickness_in: f64, stitches_per_in: f64) -> Result<f64, MeasureProblem> {
    let thick = within("thickness of the layers", thickness_in, [0.0, 1.0], "from 0 to 1 inch")?;
    let stitches = within("stitches an inch", stitches_per_in, [1.0, 100.0], "from 1 to 100")?;
    Ok(2.0 + 2.0 * thick * stitches)
}

/// Thread for a line `length_in` long, balanced: as much above as below.
///
/// # Errors
/// As [`stitches_per_in`] and [`lockstitch_ratio`], or a length below 0.
pub fn lockstitch(line_in: f64, stitch_mm: f64, thickness_in: f64) -> Result<Lockstitch, MeasureProblem> {
    let line = within("length of the line", line_in, [0.0, 1e7], "from 0 to 10,000,000 inches")?;
    let half = line * lockstitch_ratio(thickness_in, stitches_per_in(stitch_mm)?)? / 2.0;
    Ok(Lockstitch { needle_in: half, bobbin_in: half })
}

/// A length of thread with so much on top for waste, in the hundred of the length: 10 to 15 on a shop
/// floor (apparelscience.com), 15 to 20 by a thread maker's bulletin.
///
/// # Errors
/// A length below 0 or a waste outside 0 to 100 percent.
pub fn with_waste(thread_in: f64, waste_percent: f64) -> Result<f64, MeasureProblem> {
    let thread = within("length of thread", thread_in, [0.0, 1e8], "0 inches or more")?;
    Ok(thread * (1.0 + within("waste", waste_percent, [0.0, 100.0], "from 0 to 100 percent")? / 100.0))
}

/// Thread for each inch of a hand stitch: one thread that goes once along the seam and dips
/// `depth_in` into the cloth and back up with every stitch, `1 + 2 d S` (geometry).
///
/// # Errors
/// A depth outside 0 to 1 inch, or more stitches than any hand makes.
pub fn hand_ratio(depth_in: f64, stitches_per_in: f64) -> Result<f64, MeasureProblem> {
    let deep = within("depth of a stitch", depth_in, [0.0, 1.0], "from 0 to 1 inch")?;
    Ok(1.0 + 2.0 * deep * within("stitches an inch", stitches_per_in, [1.0, 30.0], "from 1 to 30")?)
}

/// How long a line of quilting is that fills an area at a mean spacing.
///
/// # Errors
/// An area below 0 or a spacing of nothing.
pub fn line_of_area(area_in2: f64, spacing_in: f64) -> Result<f64, MeasureProblem> {
    let area = within("area", area_in2, [0.0, 1e9], "0 square inches or more")?;
    Ok(area / within("spacing", spacing_in, [1.0 / 32.0, 100.0], "from 1/32 to 100 inches")?)
}

/// How thread is numbered. A "No. 50" on a label may be any of these: look which.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ThreadSize {
    /// Grams of 1000 metres, all plies together.
    Tex(f64),
    /// Grams of 9000 metres.
    Denier(f64),
    /// Kilometres to the kilogram of one ply, and how many plies; a "weight" is so many with one ply.
    Metric(f64, u32),
    /// English cotton count of one ply, and how many plies.
    English(f64, u32),
}

impl ThreadSize {
    /// Grams of 1000 metres (ISO 1144, from memory).
    #[must_use]
    pub fn tex(self) -> f64 {
        match self {
            Self::Tex(tex) => tex,
            Self::Denier(denier) => denier / 9.0,
            Self::Metric(count, plies) => 1000.0 / count * f64::from(plies),
            Self::English(count, plies) => 590.54 / count * f64::from(plies),
        }
    }

    /// What is left on a spool, in inches, by the weight of the thread alone.
    ///
    /// # Errors
    /// A weight below 0, or a size that no sewing thread has.
    pub fn length_of(self, grams: f64) -> Result<f64, MeasureProblem> {
        let tex = within("size of the thread", self.tex(), [2.0, 500.0], "from 2 to 500 tex")?;
        let grams = within("weight", grams, [0.0, 5000.0], "from 0 to 5000 grams")?;
        Ok(grams / tex * 1e6 / MM_PER_IN)
    }
}

/// The volume that thread takes on a bobbin of this size is proportional to `diameter² × width`; how
/// many times as much the first holds as the second, cores left out.
///
/// # Errors
/// Sizes that make no sense.
pub fn bobbin_ratio(first_mm: [f64; 2], second_mm: [f64; 2]) -> Result<f64, MeasureProblem> {
    let volume = |[across, wide]: [f64; 2]| {
        Ok::<f64, MeasureProblem>(
            length("size of a bobbin", across)?.powi(2) * length("size of a bobbin", wide)?,
        )
    };
    within("bobbin", volume(first_mm)? / volume(second_mm)?, [1e-3, 1e3], "of a size that a machine takes")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // T48, textilecalculations.com; T49 geometry.
    #[test]
    fn a_lockstitch_takes_what_the_textbook_says() {
        for (thick, per_in, ratio) in [
            (0.01, 10.0, 2.2),
            (0.03, 10.0, 2.6),
            (0.06, 10.0, 3.2),
            (0.06, 10.16, 3.2192),
            (0.02, 12.7, 2.508),
        ] {
            near(lockstitch_ratio(thick, per_in).unwrap(), ratio, 1e-9);
        }
        let line = lockstitch(100.0, 2.5, 0.06).unwrap();
        near(line.needle_in, 160.96, 1e-9);
        assert_eq!((line.needle_in, line.total_in()), (line.bobbin_in, 2.0 * line.bobbin_in));
    }

    // T53, textilecalculations.com: the other classes have the same form with other constants; the
    // chain stitch of one thread is not the lockstitch.
    #[test]
    fn a_chain_stitch_is_another_sum() {
        let chain = 3.0 + 2.0 * 0.005 * 9.0;
        near(chain, 3.09, 1e-12);
        near(chain - lockstitch_ratio(0.005, 9.0).unwrap(), 1.0, 1e-12);
    }

    // T50, melgeecrafts.com (which then prints 1210 × 0.25, pasted over from another stitch).
    #[test]
    fn the_flat_ratio_is_half_above_and_half_below() {
        let total = 220.0 * FLAT_RATIO;
        assert_eq!((total, total / 2.0), (550.0, 275.0));
        assert_ne!(total / 2.0, 1210.0 * 0.25);
    }

    #[test]
    fn the_flat_ratio_is_short_through_batting() {
        assert!(FLAT_RATIO < lockstitch_ratio(0.06, 10.16).unwrap());
        assert!(FLAT_RATIO < lockstitch_ratio(0.02, 12.7).unwrap(), "even a little for piecing");
        assert!(FLAT_RATIO > lockstitch_ratio(0.01, 10.0).unwrap());
    }

    // T51, a thread maker's bulletin "Estimating thread consumption" (printed 3.51 + 3.12 = 6.63,
    // 7.62, from a rounded 1.17 yards); T52 apparelscience.com.
    #[test]
    fn waste_comes_on_top_in_the_hundred() {
        let yards = 42.0 / 36.0 * (9.0 / 3.0 + 8.0 / 3.0);
        near(yards, 6.611, 5e-4);
        near(with_waste(yards, 15.0).unwrap(), 7.603, 5e-4);
        near(with_waste(6.63, 15.0).unwrap(), 7.62, 0.005);
        near(with_waste(130.0 + 410.0, 15.0).unwrap(), 621.0, 1e-9);
        assert!(with_waste(-1.0, 15.0).is_err() && with_waste(1.0, f64::NAN).is_err());
    }

    // T55, geometry; T54 from a thread maker's newsletter (superiorthreads.com/newsletters/400): a band for
    // the sense of it only.
    #[test]
    fn an_area_at_a_spacing_is_a_length_of_line() {
        let line = line_of_area(60.0 * 80.0, 1.0).unwrap();
        assert_eq!(line, 4800.0);
        near(line / 36.0, 133.3, 0.05);
        near(line / 36.0 * 3.2, 426.7, 0.05);
        for (area, yards, spacing) in [
            (90.0 * 108.0, [600.0, 1100.0, 1600.0], [0.63, 0.34, 0.24]),
            (45.0 * 60.0, [200.0, 400.0, 600.0], [0.53, 0.26, 0.18]),
        ] {
            for (yards, spacing) in yards.into_iter().zip(spacing) {
                let above = line_of_area(area, spacing).unwrap() * 1.4 / 36.0;
                assert!((above / yards - 1.0).abs() < 0.03, "{above} for {yards}");
            }
        }
        assert!(line_of_area(100.0, 0.0).is_err());
    }

    // T56, melgeecrafts.com; jackasscharmsoap.
    #[test]
    fn stitches_are_counted_by_the_inch() {
        for (mm, per_in) in [(2.5, 10.16), (2.0, 12.7), (3.0, 8.467), (1.8, 14.11)] {
            near(stitches_per_in(mm).unwrap(), per_in, 0.005);
        }
        assert!(stitches_per_in(0.0).is_err() && stitches_per_in(f64::NAN).is_err());
    }

    // T57 tge-gmbh.de; T58 sakura-thread.com (40/2), the rest arithmetic; T59 arithmetic: tables that
    // print 148, 118 and 59 denier for Nm 40, 50 and 100 took them from the English count.
    #[test]
    fn thread_sizes_come_to_the_same_grams() {
        near(ThreadSize::Metric(80.0, 2).tex(), 25.0, 1e-12);
        for (count, plies, tex) in [(40.0, 2, 29.53), (50.0, 3, 35.43), (60.0, 2, 19.68)] {
            near(ThreadSize::English(count, plies).tex(), tex, 0.006);
        }
        for (count, tex, denier, trap) in
            [(40.0, 25.0, 225.0, 148.0), (50.0, 20.0, 180.0, 118.0), (100.0, 10.0, 90.0, 59.0)]
        {
            near(ThreadSize::Metric(count, 1).tex(), tex, 1e-12);
            near(ThreadSize::Denier(denier).tex(), tex, 1e-12);
            assert!(
                (ThreadSize::Denier(trap).tex() - tex).abs() > 3.0,
                "the printed denier is another thread"
            );
        }
        // 50 km weigh 1 kg (homequestionsanswered.com).
        near(ThreadSize::Metric(50.0, 1).length_of(1000.0).unwrap() * 25.4e-6, 50.0, 1e-9);
        assert!(
            ThreadSize::Tex(0.0).length_of(1.0).is_err()
                && ThreadSize::Metric(0.0, 1).length_of(1.0).is_err()
        );
    }

    // T60, geometry; sizes from sewingpartsonline.com 2023.
    #[test]
    fn bobbins_hold_as_their_volumes_do() {
        let (fifteen, l, m) = ([20.3, 11.7], [20.3, 8.9], [24.9, 10.7]);
        near(bobbin_ratio(fifteen, l).unwrap(), 1.31, 0.005);
        near(bobbin_ratio(m, l).unwrap(), 1.81, 0.005);
        assert!(bobbin_ratio(l, [0.0, 1.0]).is_err());
    }
}
