//! How papers are wished.

use super::OwnWords;
use papers::Paper;
use papers::press::Inking;
use quilt::length::LengthUnit;

/// The hand that holds the ruler's far side: cuts are told for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hand {
    /// The blade in the right hand.
    #[default]
    Right,
    /// The blade in the left hand.
    Left,
}

/// How papers are wished.
#[derive(Clone, Debug, Default)]
pub struct PapersWish {
    /// The size of the paper.
    pub paper: Paper,
    /// In colours, or saving ink.
    pub inking: Inking,
    /// Lengths in centimetres instead of inches.
    pub centimetres: bool,
    /// For which hand.
    pub hand: Hand,
    /// Whether patches are cut by template; otherwise by eye.
    pub by_template: bool,
    /// Several step cards a page.
    pub small_cards: bool,
    /// True-size sheets mirrored.
    pub mirrored: bool,
    /// True-size sheets even of what is better done without.
    pub anyway: bool,
    /// The maker's own words.
    pub words: OwnWords,
}

impl PapersWish {
    /// A length in the maker's unit: inches to so many parts, or centimetres to a tenth.
    #[must_use]
    pub fn length(&self, inches: f64, parts: u32) -> String {
        self.unit().length(inches, parts)
    }

    /// The same, never shorter than it is.
    #[must_use]
    pub fn up(&self, inches: f64, parts: u32) -> String {
        self.unit().up(inches, parts)
    }

    /// The unit that lengths are told in.
    #[must_use]
    pub const fn unit(&self) -> LengthUnit {
        if self.centimetres { LengthUnit::Centimetres } else { LengthUnit::Inches }
    }

    /// Width by height.
    #[must_use]
    pub fn size(&self, [width, height]: [f64; 2], parts: u32) -> String {
        let unit = if self.centimetres { "" } else { " inches" };
        format!("{} by {}{unit}", self.length(width, parts), self.length(height, parts))
    }

    /// As papers are wished that are bound together: cards several a page.
    #[must_use]
    pub fn for_booklet(self) -> Self {
        Self { small_cards: true, ..self }
    }

    /// The title over everything: as wished, or the quilt's name.
    #[must_use]
    pub fn title_of<'a>(&'a self, quilt: &'a str) -> &'a str {
        if self.words.title.is_empty() { quilt } else { &self.words.title }
    }
}
