//! By what step a shop sells cloth, and lengths rounded up to it.

use crate::length::MM_PER_IN;
use serde::{Deserialize, Serialize};

/// Inches in a yard.
const YARD_IN: f64 = 36.0;

/// A length this little over a step still counts as that step, in inches: what adding lengths up
/// leaves behind.
const OVER_IN: f64 = 1e-6;

/// The steps in which a shop sells cloth off the bolt.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SoldBy {
    /// By the eighth of a yard.
    #[default]
    EighthYard,
    /// By the quarter of a yard.
    QuarterYard,
    /// By ten centimetres.
    TenCm,
}

impl SoldBy {
    /// One step, in inches.
    #[must_use]
    pub fn step_in(self) -> f64 {
        match self {
            Self::EighthYard => YARD_IN / 8.0,
            Self::QuarterYard => YARD_IN / 4.0,
            Self::TenCm => 100.0 / MM_PER_IN,
        }
    }

    /// The least number of whole steps that give this length; 0 for none.
    #[must_use]
    pub fn steps(self, inches: f64) -> u32 {
        // A length is at most 10,000 inches, far below what fits; what isn't a number counts as 0.
        ((inches - OVER_IN) / self.step_in()).ceil().max(0.0) as u32
    }

    /// A length rounded up to whole steps, in inches.
    #[must_use]
    pub fn round_up(self, inches: f64) -> f64 {
        f64::from(self.steps(inches)) * self.step_in()
    }

    /// So many steps in the shop's own unit: yards, or metres.
    #[must_use]
    pub fn in_unit(self, steps: u32) -> f64 {
        match self {
            Self::EighthYard => f64::from(steps) / 8.0,
            Self::QuarterYard => f64::from(steps) / 4.0,
            Self::TenCm => f64::from(steps) / 10.0,
        }
    }

    /// The shop's own unit.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::EighthYard | Self::QuarterYard => "yd",
            Self::TenCm => "m",
        }
    }

    /// What to ask for: `5 1/4 yd`, `4.8 m`.
    #[must_use]
    pub fn words(self, inches: f64) -> String {
        let amount = self.in_unit(self.steps(inches));
        match self {
            Self::EighthYard | Self::QuarterYard => {
                format!("{} {}", crate::length::fraction(amount, 8), self.unit())
            }
            Self::TenCm => format!("{amount:.1} {}", self.unit()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // T2, T4: quiltingboard.com t189575 and sylviasquiltdepot.com, by their lengths; T24 bellaonline.com
    // art180154; 27 inches are 3/4 of a yard.
    #[test]
    fn lengths_are_rounded_up_to_the_shops_step() {
        for (inches, words) in
            [(27.5, "7/8 yd"), (12.5, "3/8 yd"), (188.0, "5 1/4 yd"), (27.0, "3/4 yd"), (0.0, "0 yd")]
        {
            assert_eq!(SoldBy::EighthYard.words(inches), words);
        }
        assert_eq!(SoldBy::QuarterYard.words(27.5), "1 yd");
        assert_eq!(SoldBy::TenCm.words(188.0), "4.8 m", "477.5 cm");
        assert_eq!(SoldBy::TenCm.words(10.0 * 100.0 / 25.4), "1.0 m");
        assert_eq!(SoldBy::EighthYard.steps(f64::NAN), 0);
    }

    #[test]
    fn rounding_up_never_loses_cloth_and_adds_less_than_a_step() {
        for sold in [SoldBy::EighthYard, SoldBy::QuarterYard, SoldBy::TenCm] {
            for tenth in 0..5000_u32 {
                let inches = f64::from(tenth) / 10.0;
                let over = sold.round_up(inches) - inches;
                assert!((-OVER_IN..sold.step_in()).contains(&over), "{inches} {over}");
            }
        }
    }
}
