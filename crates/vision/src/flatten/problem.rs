//! Why a picture can't be measured, and what to do about it.

use thiserror::Error;

/// Why no map from picture to table was found.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum FlattenProblem {
    /// No card at all.
    #[error(
        "no measuring card was found; lay printed cards flat beside the cloth, wholly in the picture, \
         with their white margin showing"
    )]
    NoCard,
    /// The side told is no length.
    #[error("the side of the cards' black square must be more than 0 inches; measure it on the paper")]
    NoSide,
    /// The cards don't fit one flat table, or two alone differ in size.
    #[error(
        "the {cards} cards found don't lie on one flat table: corners would be {off_px:.1} pixels off; \
         press curled cards flat, use cards of one printing, and take the picture again"
    )]
    NotFlat {
        /// How many cards there are.
        cards: usize,
        /// How far the worst lies off, in pixels.
        off_px: f64,
    },
    /// Cards of two printings lie together.
    #[error(
        "the cards are of two sizes: {here} fit a side of {side_in:.2} inches, {there} one of about \
         {other_in:.2}; leave cards of one printing only"
    )]
    TwoSizes {
        /// Cards that fit the side told.
        here: usize,
        /// The side told, in inches.
        side_in: f64,
        /// Cards that don't.
        there: usize,
        /// Their side, in inches.
        other_in: f64,
    },
    /// The camera looked along the table.
    #[error(
        "the picture is taken too steeply, about {tilt_deg:.0} degrees off straight down; \
         hold the camera more over the table, at most {most_deg:.0} degrees off"
    )]
    TooSteep {
        /// The camera's tilt in degrees.
        tilt_deg: f64,
        /// The most allowed.
        most_deg: f64,
    },
    /// Edges are smeared.
    #[error(
        "the cards are too blurred: their edges are smeared over {blur_px:.1} pixels; hold still, let the \
         camera find its focus, or give more light"
    )]
    TooBlurred {
        /// Blur of the sharpest cards, standard deviation in pixels.
        blur_px: f64,
    },
    /// Paper isn't light enough.
    #[error(
        "the picture is too dark: white paper shows at {percent:.0} percent of full light; give more light"
    )]
    TooDark {
        /// Light of the white paper.
        percent: f64,
    },
    /// Taken from too far.
    #[error(
        "the picture has only {per_in:.0} pixels an inch, and at least {least:.0} are needed; \
         go nearer or photograph less at once"
    )]
    TooFar {
        /// Pixels an inch at the largest card.
        per_in: f64,
        /// The least allowed.
        least: f64,
    },
}
