//! Binding by the numbers: strips, joins, widths, and the trade's rules of thumb beside them.
//!
//! Every join eats a loss that depends on how it is sewn, and the closing join eats the same, so
//! `n` strips of usable length `U` go `n (U − loss)` round a piece. Taken singly: what is needed is
//! the net length and the overlap of the closing join; what `n` strips give is `n U` less `n − 1`
//! joins. Extra for handling is no part of either sum.
//!
//! Binding is double-fold, sewn raw edges together with the edge of the piece, unless it says
//! otherwise. Around an edge `t` thick, a strip folded in half must reach under the seam, over the
//! front, over the edge and over the back.

use super::{length, seam};
use crate::length::{MeasureProblem, within};
use serde::{Deserialize, Serialize};

/// What the folded edge must reach beyond the seam line on the back, so that the hand stitch finds
/// something to catch: 1/16 inch (common practice, no source).
pub const LAP_IN: f64 = 1.0 / 16.0;

/// What is usually cut off a strip more than needed, for handling and for the closing join (teachers'
/// pages ask 10 to 24 inches).
pub const HANDLING_IN: f64 = 10.0;

/// How two strips are joined end to end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Join {
    /// Square to the strip.
    Straight,
    /// At 45 degrees across the strip, so that the layers are spread.
    Diagonal,
}

impl Join {
    /// What one join takes of the length, in inches, which is also what the two ends of the closing
    /// join overlap: twice the seam allowance when straight (gotoyourstudio.blogspot 2008/08), the
    /// width of the strip when diagonal (sewinspiredbybonnie.com).
    #[must_use]
    pub const fn loss_in(self, strip_width_in: f64, seam_in: f64) -> f64 {
        match self {
            Self::Straight => 2.0 * seam_in,
            Self::Diagonal => strip_width_in,
        }
    }
}

/// Strips for a binding.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BindingStrips {
    /// The least number of strips that reaches round.
    pub strips: u32,
    /// Net length and closing overlap, no more.
    pub length_needed_in: f64,
    /// What the strips give once they are joined, before the closing join.
    pub length_got_in: f64,
    /// How far the two ends overlap for the closing join.
    pub closing_overlap_in: f64,
}

/// The least number of strips `usable_in` long and `strip_width_in` wide that binds `net_in`.
///
/// # Errors
/// Lengths that make no sense, a seam outside 0 to 2 inches, or strips that their own join uses up.
pub fn binding_strips(
    net_in: f64,
    strip_width_in: f64,
    usable_in: f64,
    join: Join,
    seam_in: f64,
) -> Result<BindingStrips, MeasureProblem> {
    let most = crate::length::MOST_IN;
    let net =
        within("length to bind", net_in, [f64::MIN_POSITIVE, most], "longer than 0, at most 10,000 inches")?;
    let width = strip_width(strip_width_in)?;
    let usable = within("usable length of a strip", usable_in, [1.0, most], "from 1 to 10,000 inches")?;
    let loss = join.loss_in(width, seam(seam_in)?);
    let reach = usable - loss;
    let must = "an inch or more; take longer strips or join them straight";
    within("length that a joined strip gives", reach, [1.0, most], must)?;
    let strips = (net / reach - 1e-9).ceil().max(1.0);
    Ok(BindingStrips {
        strips: strips as u32,
        length_needed_in: net + loss,
        length_got_in: strips * usable - (strips - 1.0) * loss,
        closing_overlap_in: loss,
    })
}

fn strip_width(inches: f64) -> Result<f64, MeasureProblem> {
    within("width of a strip", inches, [0.25, 24.0], "from 1/4 to 24 inches")
}

/// How wide to cut a strip for a binding that is to finish `finished_in` wide on the front, around
/// an edge `thickness_in` thick: `2 (3 f + t + 1/16)`. Without the 1/16 the fold just meets the seam
/// line on the back and there is no lap for the hand stitch.
///
/// # Errors
/// A width or thickness below 0 or out of all proportion.
pub fn binding_width(finished_in: f64, thickness_in: f64) -> Result<f64, MeasureProblem> {
    Ok(bare_binding_width(finished_in, thickness_in)? + 2.0 * LAP_IN)
}

/// The same without a lap: `2 (3 f + t)`, the least that meets itself.
///
/// # Errors
/// A width or thickness below 0 or out of all proportion.
pub fn bare_binding_width(finished_in: f64, thickness_in: f64) -> Result<f64, MeasureProblem> {
    let finished = within("finished width of the binding", finished_in, [0.0, 4.0], "from 0 to 4 inches")?;
    Ok(2.0 * (3.0 * finished + thickness(thickness_in)?))
}

/// The seam that a strip just fills, which is also what shows on the front:
/// `(w/2 − t − 1/16) / 3`. Turned round from [`binding_width`].
///
/// # Errors
/// A strip too narrow to go round the edge at all.
pub fn binding_seam(strip_width_in: f64, thickness_in: f64) -> Result<f64, MeasureProblem> {
    let fits = (strip_width(strip_width_in)? / 2.0 - thickness(thickness_in)? - LAP_IN) / 3.0;
    let must = "more than 0; cut the strips wider for so thick an edge";
    within("seam that the strip fills", fits, [f64::MIN_POSITIVE, f64::MAX], must)
}

/// How far a double strip sewn with `seam_in` reaches over the back: `w/2 − 2 s − t`.
///
/// # Errors
/// A width, seam or thickness out of all proportion. A strip that doesn't reach gives a length below
/// nothing.
pub fn binding_back(strip_width_in: f64, seam_in: f64, thickness_in: f64) -> Result<f64, MeasureProblem> {
    Ok(strip_width(strip_width_in)? / 2.0 - 2.0 * seam(seam_in)? - thickness(thickness_in)?)
}

/// How wide to cut a single-fold strip: four times what shows (sew-whats-new.com).
///
/// # Errors
/// A width below 0 or out of all proportion.
pub fn single_fold_width(finished_in: f64) -> Result<f64, MeasureProblem> {
    Ok(4.0 * within("finished width of the binding", finished_in, [0.0, 4.0], "from 0 to 4 inches")?)
}

fn thickness(inches: f64) -> Result<f64, MeasureProblem> {
    within("thickness of the edge", inches, [0.0, 1.0], "from 0 to 1 inch")
}

/// The trade's rule for the number of strips: `⌈(perimeter + extra) / usable⌉`. It leaves the joins
/// out.
///
/// # Errors
/// Lengths that make no sense.
pub fn strips_by_extra(perimeter_in: f64, extra_in: f64, usable_in: f64) -> Result<u32, MeasureProblem> {
    let usable = within("usable length of a strip", usable_in, [1.0, 10_000.0], "from 1 to 10,000 inches")?;
    Ok(((length("length to bind", perimeter_in)? + length("extra", extra_in)?) / usable).ceil() as u32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::round_up;
    use crate::sums::tests::near;
    use crate::sums::{length_by_area, yards_to_buy};

    fn strips(net: f64, width: f64, join: Join) -> BindingStrips {
        binding_strips(net, width, 40.0, join, 0.25).unwrap()
    }

    /// What `n` strips give once the closing join is sewn too.
    fn net_of(n: f64, width: f64, join: Join) -> f64 {
        n * (40.0 - join.loss_in(width, 0.25))
    }

    // T7, T8, T10: geometry.
    #[test]
    fn diagonal_joins_eat_the_width_of_the_strip_each() {
        assert_eq!(net_of(6.0, 2.5, Join::Diagonal), 225.0);
        assert_eq!(net_of(11.0, 2.5, Join::Diagonal), 412.5);
        assert_eq!(net_of(7.0, 2.25, Join::Diagonal), 264.25);
        assert_eq!(strips(412.0, 2.5, Join::Diagonal).strips, 11);
        let throw = strips(2.0 * (60.0 + 72.0), 2.25, Join::Diagonal);
        assert_eq!((throw.strips, throw.closing_overlap_in), (7, 2.25));
        near(throw.length_got_in - throw.length_needed_in, 0.25, 1e-9);
        assert_eq!(strips(225.0, 2.5, Join::Diagonal).strips, 6, "what fits exactly is enough");
        assert_eq!(strips(225.0 + 1.0 / 16.0, 2.5, Join::Diagonal).strips, 7);
    }

    // Closing overlap straight 1/2: gotoyourstudio.blogspot 2008/08; diagonal the strip's width:
    // sewinspiredbybonnie.com (2 1/2).
    #[test]
    fn the_closing_join_overlaps_by_what_it_eats() {
        let straight = strips(220.0, 2.5, Join::Straight);
        assert_eq!((straight.closing_overlap_in, straight.length_needed_in), (0.5, 220.5));
        let diagonal = strips(220.0, 2.5, Join::Diagonal);
        assert_eq!((diagonal.closing_overlap_in, diagonal.length_needed_in), (2.5, 222.5));
        assert_eq!(straight.length_got_in, 240.0 - 5.0 * 0.5);
    }

    // T1 castillejacotton.blogspot.com 2013/06; T2 quiltingboard.com t189575 (its 26.5 inches and
    // 3/4 yard are a slip); T4 sylviasquiltdepot.com.
    #[test]
    fn published_numbers_of_strips_agree() {
        assert_eq!(strips(220.0, 2.5, Join::Diagonal).strips, 6);
        assert_eq!(strips_by_extra(220.0, 0.0, 38.0), Ok(6));
        assert_eq!(strips(412.0, 2.5, Join::Diagonal).strips, 11);
        assert_eq!(strips_by_extra(412.0, 12.0, 40.0), Ok(11));
        let cloth = 11.0 * 2.5;
        assert_eq!((cloth, yards_to_buy(cloth)), (27.5, Ok(0.875)));
        assert!(cloth != 26.5 && yards_to_buy(cloth) != Ok(0.75));
        near(cloth / 36.0, 0.7639, 5e-5);
        assert_eq!(
            (strips_by_extra(184.0, 0.0, 40.0), strips(184.0, 2.5, Join::Diagonal).strips),
            (Ok(5), 5)
        );
        assert_eq!(yards_to_buy(5.0 * 2.5), Ok(0.375));
        // T6, several pages: 274 and 332 are asked for, 10 inches of handling in them.
        for (perimeter, asked) in [(264.0, 274.0), (322.0, 332.0)] {
            assert_eq!(perimeter + HANDLING_IN, asked);
            assert!(strips(perimeter, 2.5, Join::Diagonal).length_needed_in < asked);
        }
    }

    // T3, quiltingboard.com t189575: by area, a lower bound and not a purchase.
    #[test]
    fn the_yardage_by_area_falls_short() {
        let by_area = length_by_area((412.0 + 20.0) * 2.5, 42.0).unwrap() / 36.0;
        near(by_area, 0.7143, 5e-5);
        let cut = f64::from(strips(412.0, 2.5, Join::Diagonal).strips) * 2.5 / 36.0;
        assert!(by_area < cut && cut < 0.875, "{by_area} is less than the strips' {cut}");
    }

    #[test]
    fn the_rules_of_thumb_leave_joins_out_and_come_up_short() {
        // Perimeter and 10 by 40 (christaquilts.com): five strips for 190, which give 187 1/2.
        assert_eq!(strips_by_extra(190.0, 10.0, 40.0), Ok(5));
        assert_eq!((net_of(5.0, 2.5, Join::Diagonal), strips(190.0, 2.5, Join::Diagonal).strips), (187.5, 6));
        // Perimeter by width less 2 (castillejacotton): ten strips for 380, which give 375.
        assert_eq!(strips_by_extra(380.0, 0.0, 38.0), Ok(10));
        assert_eq!(
            (net_of(10.0, 2.5, Join::Diagonal), strips(380.0, 2.5, Join::Diagonal).strips),
            (375.0, 11)
        );
    }

    // T11, geometry; the printed table of 4 f + 1 is at alongcamequilting.com.
    #[test]
    fn a_strip_goes_round_the_edge_and_back() {
        for (finished, thick, width) in
            [(0.25, 0.125, 1.75), (0.375, 0.125, 2.5), (0.5, 0.125, 3.25), (1.0, 0.0, 6.0)]
        {
            near(bare_binding_width(finished, thick).unwrap(), width, 1e-12);
            near(binding_width(finished, thick).unwrap(), width + 0.125, 1e-12);
            near(binding_seam(width + 0.125, thick).unwrap(), finished, 1e-12);
            near(binding_back(width + 0.125, finished, thick).unwrap(), finished + LAP_IN, 1e-12);
        }
        assert_eq!(single_fold_width(0.5), Ok(2.0));
        // Common practice, no source: 1 7/8 for a quarter inch, and what 2 1/4 fills.
        assert_eq!(binding_width(0.25, 0.125), Ok(1.875));
        near(binding_seam(2.25, 0.125).unwrap(), 5.0 / 16.0, 1e-12);
    }

    #[test]
    fn four_times_and_one_is_short_for_wide_bindings() {
        let printed = |finished: f64| 4.0 * finished + 1.0;
        let thick = 0.125;
        for finished in [0.25, 0.375] {
            assert!(printed(finished) >= bare_binding_width(finished, thick).unwrap());
        }
        for finished in [0.5, 0.75, 1.0] {
            assert!(printed(finished) < bare_binding_width(finished, thick).unwrap(), "{finished}");
        }
        // The trap: 5 inches for a finished inch is one inch short even without any thickness.
        assert!(bare_binding_width(1.0, 0.0).unwrap() != 5.0);
        near(bare_binding_width(1.0, 0.0).unwrap() - printed(1.0), 1.0, 1e-12);
    }

    #[test]
    fn nonsense_is_refused() {
        for (net, width, usable, seam) in [
            (0.0, 2.25, 40.0, 0.25),
            (f64::NAN, 2.25, 40.0, 0.25),
            (200.0, 0.0, 40.0, 0.25),
            (200.0, 2.25, 2.25, 0.25),
            (200.0, 2.25, 40.0, -1.0),
        ] {
            assert!(
                binding_strips(net, width, usable, Join::Diagonal, seam).is_err(),
                "{net} {width} {usable}"
            );
        }
        assert!(binding_seam(0.3, 0.25).is_err());
        assert_eq!(round_up(1.875, 8), 1.875);
    }
}
