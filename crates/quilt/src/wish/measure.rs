//! The numbers of a wish: each with its unit, its limits and a sentence. Limits keep nonsense out;
//! what is wise is left to the maker and her eye check.

use super::{Wish, WishProblem};
use crate::length::{Length, fraction};

/// What a measure of the wish is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Inches; read in any form of length.
    Inches,
    /// Hundredths.
    Percent,
    /// Degrees.
    Degrees,
    /// Steps of colour difference (CIEDE2000).
    Difference,
    /// How much a term of the score counts; 1 is usual.
    Weight,
}

/// A number of the wish that the maker may set.
#[derive(Clone, Copy, Debug)]
pub struct Measure {
    /// What it is called by programs.
    pub name: &'static str,
    /// What it is called by makers; which size it is stands in it.
    pub label: &'static str,
    /// What it does.
    pub words: &'static str,
    /// What it is counted in.
    pub unit: Unit,
    /// Least and most, in that unit.
    pub limits: [f64; 2],
    get: fn(&Wish) -> f64,
    place: fn(&mut Wish) -> &mut f64,
}

/// Least and most finished width across, in inches.
pub(super) const ACROSS: [f64; 2] = [2.0, 240.0];

/// A measure that is kept in the wish as it is shown.
macro_rules! measure {
    ($name:literal, $label:literal, $words:literal, $unit:ident, $limits:expr, $($field:tt)+) => {
        Measure {
            name: $name,
            label: $label,
            words: $words,
            unit: Unit::$unit,
            limits: $limits,
            get: |wish| wish.$($field)+,
            place: |wish| &mut wish.$($field)+,
        }
    };
}

/// Every measure of the wish, in the order in which makers think of them.
pub const MEASURES: [Measure; 20] = [
    measure!("across", "Finished width across", "Of the circle of the same area.", Inches, ACROSS, across_in),
    measure!(
        "piece_centre",
        "Finished width of a piece at the centre",
        "",
        Inches,
        [0.25, 24.0],
        piece_in[0]
    ),
    measure!("piece_rim", "Finished width of a piece at the rim", "", Inches, [0.25, 24.0], piece_in[1]),
    measure!(
        "sparks",
        "Sparks",
        "Patches that may leave the drift: their share of all.",
        Percent,
        [0.0, 100.0],
        sparks
    ),
    measure!(
        "rest",
        "Rest of a print",
        "Distance within which a print should not come again.",
        Inches,
        [0.0, 60.0],
        rest_in
    ),
    measure!(
        "contrast_least",
        "Least contrast of neighbours",
        "Below about 8 an edge hardly reads.",
        Difference,
        [0.0, 150.0],
        contrast[0]
    ),
    measure!("contrast_most", "Most contrast of neighbours", "", Difference, [0.0, 150.0], contrast[1]),
    measure!(
        "rough",
        "Rough-cut margin",
        "Extra cloth on the free sides of a patch, trimmed off after it is sewn.",
        Inches,
        [0.0, 2.0],
        rough_in
    ),
    measure!(
        "seam",
        "Seam",
        "What one seam takes from each of its sides: 1/4, or your own seam as measured.",
        Inches,
        [0.0625, 1.0],
        allowance_in
    ),
    measure!(
        "thin",
        "Least finished width of a shape",
        "Thinner ones are never proposed.",
        Inches,
        [0.0, 4.0],
        limits.thin_in
    ),
    measure!(
        "sharp",
        "Least finished corner",
        "Sharper ones are never proposed.",
        Degrees,
        [0.0, 60.0],
        limits.sharp_deg
    ),
    measure!("round", "Round", "Near the wished outline.", Weight, [0.0, 100.0], weights.round),
    measure!("chunky", "Chunky", "Wedges rather than bars.", Weight, [0.0, 100.0], weights.chunky),
    measure!("step", "In step", "Pieces grow with the distance.", Weight, [0.0, 100.0], weights.step),
    measure!("balance", "Balance", "Evenly weighted.", Weight, [0.0, 100.0], weights.balance),
    measure!("drift", "Drift", "Colours on their way outward.", Weight, [0.0, 100.0], weights.drift),
    measure!("contrast", "Contrast", "Edges that read.", Weight, [0.0, 100.0], weights.contrast),
    measure!("rest_weight", "Rest", "Prints that rest.", Weight, [0.0, 100.0], weights.rest),
    measure!("thrift", "Thrift", "Little trimmed off.", Weight, [0.0, 100.0], weights.thrift),
    measure!("leftover", "Leftovers", "What is left stays useful.", Weight, [0.0, 100.0], weights.leftover),
];

impl Measure {
    /// The measure of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        MEASURES.iter().find(|measure| measure.name == name)
    }

    /// What it is in a wish, in its unit.
    #[must_use]
    pub fn of(&self, wish: &Wish) -> f64 {
        (self.get)(wish) * self.scale()
    }

    /// Reads it as a maker writes it, into a wish.
    ///
    /// # Errors
    /// What can't be read; what lies outside its limits.
    pub fn set(&self, wish: &mut Wish, text: &str) -> Result<(), WishProblem> {
        let text = text.trim();
        let value = match self.unit {
            Unit::Inches => text.parse::<Length>().map(Length::inches).map_err(|why| why.to_string()),
            Unit::Percent => number(text.trim_end_matches('%')),
            Unit::Degrees => number(text.trim_end_matches('°')),
            Unit::Difference | Unit::Weight => number(text),
        };
        let hint = match self.unit {
            Unit::Inches => "Write it as in 2 1/4, 2.25 or 57 mm.",
            _ => "Write a plain number, as in 6 or 1.5.",
        };
        let value = value.map_err(|why| self.wrong(&why, hint))?;
        self.check(value)?;
        *(self.place)(wish) = value / self.scale();
        Ok(())
    }

    /// How many of its unit one of the wish's own is.
    fn scale(&self) -> f64 {
        if self.unit == Unit::Percent { 100.0 } else { 1.0 }
    }

    pub(super) fn check(&self, value: f64) -> Result<(), WishProblem> {
        let [least, most] = self.limits;
        if value.is_finite() && (least - 1e-9..=most + 1e-9).contains(&value) {
            return Ok(());
        }
        let [found, least, most] = [value, least, most].map(|value| self.words(value));
        let why = format!("{found} does not lie between {least} and {most}");
        Err(self.wrong(&why, "Choose something in between."))
    }

    /// A value of it with its unit.
    fn words(&self, value: f64) -> String {
        match self.unit {
            Unit::Inches => format!("{} inches", fraction(value, 16)),
            Unit::Percent => format!("{value} %"),
            Unit::Degrees => format!("{value}°"),
            Unit::Difference | Unit::Weight => format!("{value}"),
        }
    }

    fn wrong(&self, why: &str, hint: &str) -> WishProblem {
        WishProblem::new(format!("{}: {why}", self.label), hint)
    }
}

fn number(text: &str) -> Result<f64, String> {
    text.trim().parse().map_err(|_| format!("`{text}` is not a number"))
}
