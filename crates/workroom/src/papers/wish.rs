//! How papers are wished.

use papers::Paper;
use papers::press::Inking;
use quilt::length::Scale;

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
    /// The title; the quilt's name when empty.
    pub title: String,
    /// Who made it; nobody named when empty.
    pub maker: String,
    /// Words for the cover; none when empty.
    pub words: String,
}

impl PapersWish {
    /// A length in the maker's unit: inches to so many parts, or centimetres to a tenth.
    #[must_use]
    pub fn length(&self, inches: f64, parts: u32) -> String {
        self.scale().length(inches, parts)
    }

    /// The scale of the maker's ruler.
    #[must_use]
    pub const fn scale(&self) -> Scale {
        if self.centimetres { Scale::Centimetres } else { Scale::Inches }
    }

    /// Width by height.
    #[must_use]
    pub fn size(&self, [width, height]: [f64; 2], parts: u32) -> String {
        let unit = if self.centimetres { "" } else { " inches" };
        format!("{} by {}{unit}", self.length(width, parts), self.length(height, parts))
    }

    /// The title over everything: as wished, or the quilt's name.
    #[must_use]
    pub fn title_of<'a>(&'a self, quilt: &'a str) -> &'a str {
        if self.title.is_empty() { quilt } else { &self.title }
    }
}
