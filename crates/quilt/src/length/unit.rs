//! The unit that sentences are told in: the one place that words a length for a maker.

use super::fraction::{fraction, round_up, unsigned_zero, whole_up};
use super::{MM_PER_IN, MOST_IN};
use std::fmt;

/// Square centimetres in a square inch, exactly.
const SQ_CM_PER_SQ_IN: f64 = 6.4516;
/// Below this a length is told to the tenth of a millimetre, in inches.
const SHORT_IN: f64 = 0.5;
/// Inches in a yard.
const YARD_IN: f64 = 36.0;
/// Inches in a metre.
const METRE_IN: f64 = 1000.0 / MM_PER_IN;

/// In which unit a sentence tells its lengths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LengthUnit {
    /// Inches as fractions, bare, as the trade writes them.
    #[default]
    Inches,
    /// Centimetres to the millimetre, named.
    Centimetres,
}

impl LengthUnit {
    /// A length to the nearest of `parts` to the inch, or to the millimetre: `2 1/4`, `5.7 cm`.
    #[must_use]
    pub fn length(self, inches: f64, parts: u32) -> String {
        match self {
            Self::Inches => fraction(inches, parts),
            // A seam of 6.35 mm would be told as 6: what is short is told to the tenth of a millimetre.
            Self::Centimetres if known(inches).abs() < SHORT_IN => {
                let tenths = (known(inches) * MM_PER_IN * 10.0).round();
                let words = format!("{:.2}", unsigned_zero(tenths) / 100.0);
                format!("{} cm", words.strip_suffix('0').unwrap_or(&words))
            }
            Self::Centimetres => centimetres((known(inches) * MM_PER_IN).round()),
        }
    }

    /// The same without the word of the unit, for a drawing that says it elsewhere: `2 1/4`, `5.7`.
    #[must_use]
    pub fn figure(self, inches: f64, parts: u32) -> String {
        let words = self.length(inches, parts);
        words.strip_suffix(" cm").map_or_else(|| words.clone(), str::to_owned)
    }

    /// The length, never shorter than it is.
    #[must_use]
    pub fn up(self, inches: f64, parts: u32) -> String {
        match self {
            Self::Inches => fraction(round_up(inches, parts), parts),
            Self::Centimetres => centimetres(((known(inches) - plane::READING) * MM_PER_IN).ceil()),
        }
    }

    /// The same, never longer than it is.
    #[must_use]
    pub fn down(self, inches: f64, parts: u32) -> String {
        let all = f64::from(parts.max(1));
        match self {
            Self::Inches => fraction((inches * all + 1e-9).floor() / all, parts),
            Self::Centimetres => centimetres((known(inches) * MM_PER_IN + 1e-9).floor()),
        }
    }

    /// What follows a bare length where the unit must be said: ` inches`, ` inch`, or nothing.
    #[must_use]
    pub fn name_after(self, inches: f64) -> &'static str {
        match self {
            Self::Inches if inches > 0.0 && inches <= 1.0 => " inch",
            Self::Inches => " inches",
            Self::Centimetres => "",
        }
    }

    /// The word for square inches or square centimetres.
    #[must_use]
    pub const fn squares(self) -> &'static str {
        match self {
            Self::Inches => "square inches",
            Self::Centimetres => "square cm",
        }
    }

    /// So many square inches in the squares of the unit.
    #[must_use]
    pub fn of_squares(self, square_inches: f64) -> f64 {
        match self {
            Self::Inches => square_inches,
            Self::Centimetres => square_inches * SQ_CM_PER_SQ_IN,
        }
    }

    /// An area to the nearest square inch or centimetre, with its word.
    #[must_use]
    pub fn area(self, square_inches: f64) -> String {
        format!("{:.0} {}", self.of_squares(square_inches), self.squares())
    }

    /// The same, never less than it is.
    #[must_use]
    pub fn area_up(self, square_inches: f64) -> String {
        format!("{:.0} {}", whole_up(self.of_squares(square_inches)), self.squares())
    }

    /// How long a line is in all, with its word: `812 inches`, `20.6 metres`.
    #[must_use]
    pub fn run(self, inches: f64) -> String {
        match self {
            Self::Inches => format!("{inches:.0} inches"),
            Self::Centimetres => format!("{:.1} metres", inches / METRE_IN),
        }
    }

    /// So many inches of thread in whole yards or metres, never less than it is.
    #[must_use]
    pub fn of_thread(self, inches: f64) -> f64 {
        whole_up(match self {
            Self::Inches => inches / YARD_IN,
            Self::Centimetres => inches / METRE_IN,
        })
    }

    /// What thread is told in: yards or metres.
    #[must_use]
    pub const fn thread_name(self) -> &'static str {
        match self {
            Self::Inches => "yards",
            Self::Centimetres => "metres",
        }
    }

    /// Thread, in whole yards or metres, never less than it is, with its word.
    #[must_use]
    pub fn thread(self, inches: f64) -> String {
        format!("{:.0} {}", self.of_thread(inches), self.thread_name())
    }
}

impl fmt::Display for LengthUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Inches => "inches",
            Self::Centimetres => "centimetres",
        })
    }
}

fn known(inches: f64) -> f64 {
    if inches.is_finite() { inches.clamp(-MOST_IN, MOST_IN) } else { 0.0 }
}

fn centimetres(millimetres: f64) -> String {
    format!("{:.1} cm", unsigned_zero(millimetres) / 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 25.4 mm to the inch, exactly (since 1959): 2 1/4 inches are 57.15 mm, 36 inches 0.9144 m.
    #[test]
    fn one_length_is_told_in_either_unit() {
        let both = |told: fn(LengthUnit) -> String| [told(LengthUnit::Inches), told(LengthUnit::Centimetres)];
        assert_eq!(both(|unit| unit.length(2.25, 8)), ["2 1/4", "5.7 cm"]);
        assert_eq!(both(|unit| unit.length(0.25, 8)), ["1/4", "0.64 cm"]);
        assert_eq!(both(|unit| unit.length(0.375, 8)), ["3/8", "0.95 cm"]);
        assert_eq!(both(|unit| unit.length(10.0 / 25.4 / 2.0, 16)), ["3/16", "0.5 cm"]);
        assert_eq!(both(|unit| unit.up(2.26, 8)), ["2 3/8", "5.8 cm"]);
        assert_eq!(both(|unit| unit.up(2.25, 8)), ["2 1/4", "5.8 cm"]);
        assert_eq!(both(|unit| unit.up(1000.0 / 25.4, 8)), ["39 3/8", "100.0 cm"]);
        assert_eq!(both(|unit| unit.down(2.26, 8)), ["2 1/4", "5.7 cm"]);
        assert_eq!(both(|unit| unit.area(100.0)), ["100 square inches", "645 square cm"]);
        assert_eq!(both(|unit| unit.area_up(100.1)), ["101 square inches", "646 square cm"]);
        assert_eq!(both(|unit| unit.figure(2.25, 8)), ["2 1/4", "5.7"]);
        assert_eq!(both(|unit| unit.run(100.0)), ["100 inches", "2.5 metres"]);
        assert_eq!(both(|unit| unit.thread(3601.0)), ["101 yards", "92 metres"]);
        assert_eq!(both(|unit| unit.length(f64::NAN, 8)), ["0", "0.0 cm"]);
        assert_eq!(both(|unit| unit.length(-0.001, 8)), ["0", "0.0 cm"]);
    }
}
