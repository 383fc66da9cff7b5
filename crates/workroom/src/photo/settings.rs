//! The side of the maker's measuring cards, measured on paper once.

use crate::asks::{AskError, Asked};
use crate::workroom::Workroom;

/// The setting that holds it.
const CARD_SIDE: &str = "card side";

/// The side of the black square as the cards are printed when nothing else is said, in inches.
pub const PRINTED_SIDE_IN: f64 = 2.0;

/// Shortest and longest side of a card that can be meant, in inches.
const SIDES_IN: [f64; 2] = [0.5, 8.0];

/// Whether a length can be the side of a card.
///
/// # Errors
/// When it is none, too short or too long.
pub fn check_side(side_in: f64) -> Asked<()> {
    let [least, most] = SIDES_IN;
    if side_in.is_finite() && (least..=most).contains(&side_in) {
        return Ok(());
    }
    Err(AskError::Nonsense {
        what: format!(
            "the side of a card's black square is {side_in:.3} inches; it must be {least} to {most}"
        ),
        hint: "Measure the black square on the paper, from edge to edge.".to_owned(),
    })
}

impl Workroom {
    /// The side of the cards' black square in inches: as measured, or as printed.
    ///
    /// # Errors
    /// When the setting can't be read.
    pub fn card_side(&self) -> Asked<f64> {
        Ok(self.setting(CARD_SIDE)?.unwrap_or(PRINTED_SIDE_IN))
    }

    /// Keeps the side of the cards' black square, measured on the paper, in inches.
    ///
    /// # Errors
    /// A length that can't be meant; nothing is kept then.
    pub fn set_card_side(&mut self, side_in: f64) -> Asked<()> {
        check_side(side_in)?;
        Ok(self.set(CARD_SIDE, &side_in)?)
    }
}
