//! What is needed and what there is, in one set of kinds, so that one can be held against the other.

use crate::cloth::ClothId;
use crate::length::Scale;
use serde::{Deserialize, Serialize};
use std::fmt;

/// A kind of thing that a piece uses up. What is needed and what there is count as the same when all
/// of this is equal, lengths to the 1/64.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Goods {
    /// Cloth of one print, in whatever pieces; square inches.
    Print(u64),
    /// A cloth whose print has no number; square inches.
    Cloth(ClothId),
    /// Any cloth that serves, for what is named; square inches.
    AnyCloth {
        /// What it is for.
        purpose: String,
    },
    /// A length off a bolt; inches along it.
    OffBolt {
        /// Which cloth, in the maker's words.
        name: String,
        /// Its width without the selvages.
        usable_in: f64,
    },
    /// Strips for binding; inches of strip, joins taken off.
    Binding {
        /// Of which cloth, in the maker's words.
        name: String,
        /// Cut width.
        strip_in: f64,
        /// Whether it is cut on the bias.
        bias: bool,
    },
    /// Thread; inches.
    Thread {
        /// Its colour, in the maker's words.
        colour: String,
        /// Its size, as on the spool.
        weight: String,
    },
    /// A package of batting; pieces.
    BattingPackage {
        /// Its name in the trade.
        name: String,
    },
    /// Anything that is counted: pins, a rod, a can; pieces.
    Counted {
        /// What it is.
        name: String,
    },
}

/// In what a kind of goods is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// Square inches.
    SquareInches,
    /// Inches.
    Inches,
    /// Pieces.
    Pieces,
}

/// The order of goods in a report, and what makes two of them the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key(u8, u64, i64, bool, String, String);

impl Goods {
    /// What a cloth counts as: its print, or itself when that has no number.
    #[must_use]
    pub fn of_cloth(cloth: ClothId, print: Option<u64>) -> Self {
        print.map_or(Self::Cloth(cloth), Self::Print)
    }

    /// In what it is measured.
    #[must_use]
    pub const fn unit(&self) -> Unit {
        match self {
            Self::Print(_) | Self::Cloth(_) | Self::AnyCloth { .. } => Unit::SquareInches,
            Self::OffBolt { .. } | Self::Binding { .. } | Self::Thread { .. } => Unit::Inches,
            Self::BattingPackage { .. } | Self::Counted { .. } => Unit::Pieces,
        }
    }

    pub(super) fn key(&self) -> Key {
        let none = String::new;
        match self {
            Self::Print(print) => Key(0, *print, 0, false, none(), none()),
            Self::Cloth(cloth) => Key(1, cloth.0, 0, false, none(), none()),
            Self::OffBolt { name, usable_in } => Key(2, 0, parts(*usable_in), false, name.clone(), none()),
            Self::Binding { name, strip_in, bias } => {
                Key(3, 0, parts(*strip_in), *bias, name.clone(), none())
            }
            Self::Thread { colour, weight } => Key(4, 0, 0, false, colour.clone(), weight.clone()),
            Self::BattingPackage { name } => Key(5, 0, 0, false, name.clone(), none()),
            Self::Counted { name } => Key(6, 0, 0, false, name.clone(), none()),
            Self::AnyCloth { purpose } => Key(7, 0, 0, false, purpose.clone(), none()),
        }
    }
}

/// A width in 64ths of an inch.
fn parts(inches: f64) -> i64 {
    (inches * 64.0).round() as i64
}

impl Goods {
    /// What it is, with its measures in the unit of a scale.
    #[must_use]
    pub fn words(&self, scale: Scale) -> String {
        match self {
            Self::Print(print) => format!("print {print}"),
            Self::Cloth(cloth) => format!("cloth {cloth}"),
            Self::OffBolt { name, usable_in } => format!("{name}, {} wide", scale.length(*usable_in, 8)),
            Self::Binding { name, strip_in, bias } => {
                let cut = if *bias { "bias binding" } else { "binding" };
                format!("{cut} of {name}, cut {}", scale.length(*strip_in, 16))
            }
            Self::Thread { colour, weight } => format!("{colour} thread, {weight}"),
            Self::BattingPackage { name } => format!("batting, {name}"),
            Self::Counted { name } => name.clone(),
            Self::AnyCloth { purpose } => format!("any cloth, for {purpose}"),
        }
    }
}

impl fmt::Display for Goods {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Scale::Inches))
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::SquareInches => "square inches",
            Self::Inches => "inches",
            Self::Pieces => "pieces",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bolt(name: &str, usable_in: f64) -> Goods {
        Goods::OffBolt { name: name.to_owned(), usable_in }
    }

    #[test]
    fn goods_are_the_same_when_name_and_width_are() {
        assert_eq!(bolt("muslin", 42.0).key(), bolt("muslin", 42.001).key());
        assert_ne!(bolt("muslin", 42.0).key(), bolt("muslin", 42.5).key());
        assert_ne!(bolt("muslin", 42.0).key(), bolt("linen", 42.0).key());
        assert_ne!(Goods::Print(7).key(), Goods::Cloth(ClothId(7)).key());
        let strip = |bias| Goods::Binding { name: "navy".to_owned(), strip_in: 2.25, bias };
        assert_ne!(strip(true).key(), strip(false).key());
    }

    #[test]
    fn a_scrap_counts_as_its_print() {
        assert_eq!(Goods::of_cloth(ClothId(1), Some(9)), Goods::of_cloth(ClothId(2), Some(9)));
        assert_eq!(Goods::of_cloth(ClothId(1), None).to_string(), "cloth 0000000000000001");
        assert_eq!(bolt("muslin", 42.5).to_string(), "muslin, 42 1/2 wide");
    }
}
