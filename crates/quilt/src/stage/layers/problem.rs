//! Why there are no layers as wished, where, by how much, and what to do.

use crate::cloth::ClothId;
use crate::length::{MeasureProblem, fraction, round_up};
use plane::RegionProblem;

/// Why a back, a batting or a basting can't be had as wished.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LayersProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// The outline isn't one.
    #[error("There is no piece to lay on a back: {0}.")]
    Outline(RegionProblem),
    /// A cloth or package whose size makes no sense.
    #[error(
        "{what} no. {no} ({name}) is {found} wide or long: it must be from 1 to 500 inches. Measure it between the selvages."
    )]
    Width {
        /// A bolt or a package.
        what: &'static str,
        /// Its place in the list, from 1.
        no: usize,
        /// Its name.
        name: String,
        /// What was given.
        found: f64,
    },
    /// The cloth chosen doesn't hold the piece.
    #[error(
        "`{name}` has no room for {what}, {} by {} (cut). {}",
        fraction(*width_in, 8), fraction(*length_in, 8), instead(others)
    )]
    HasNoRoom {
        /// Which cloth.
        cloth: ClothId,
        /// What its maker calls it.
        name: String,
        /// What it should hold.
        what: &'static str,
        /// Width of the rectangle around what is needed.
        width_in: f64,
        /// Its length.
        length_in: f64,
        /// What cloths are called that do hold it.
        others: Vec<String>,
    },
    /// It can't be told whether the cloth chosen holds the piece.
    #[error(
        "Whether `{name}` holds the back could not be decided: its edge has too many deep notches. Cut the notches straight and measure it again, or take another."
    )]
    Undecided {
        /// Which cloth.
        cloth: ClothId,
        /// What its maker calls it.
        name: String,
    },
    /// Nothing was named to make it from.
    #[error(
        "There is nothing to make the {layer} from: name a width that the shop has, or let the stash be used."
    )]
    NothingToCutFrom {
        /// The back or the batting.
        layer: &'static str,
    },
    /// More strips than are sewn to one back.
    #[error(
        "The {layer} must be {} wide or more (cut), and the widest there is, {}, would take {strips} strips; {most} are the most. Take stuff {} wide or wider.",
        fraction(*need_in, 8), fraction(*widest_in, 8), fraction(*takes_in, 8)
    )]
    TooNarrow {
        /// The back or the batting.
        layer: &'static str,
        /// What must be covered.
        need_in: f64,
        /// The widest there is.
        widest_in: f64,
        /// How many strips that would take.
        strips: u32,
        /// How many are tried.
        most: u32,
        /// The width that would do with the most strips, rounded up to the inch.
        takes_in: f64,
    },
    /// All there is, side by side, doesn't reach.
    #[error(
        "The {layer} must be {} wide (cut), and all that can be laid side by side reaches {}: {} is missing. Name a width that the shop has, or allow narrower strips.",
        fraction(*need_in, 8), fraction(*has_in, 8), fraction(round_up(*need_in - *has_in, 8), 8)
    )]
    NotWideEnough {
        /// The back or the batting.
        layer: &'static str,
        /// What must be covered.
        need_in: f64,
        /// What all strips give.
        has_in: f64,
    },
    /// No one package is large enough.
    #[error(
        "No package holds a batting of {} by {} (cut); the largest named is {largest}. Butt two, or take it off a roll.",
        fraction(*width_in, 8), fraction(*length_in, 8)
    )]
    NoPackage {
        /// Width of the rectangle around what is needed.
        width_in: f64,
        /// Its length.
        length_in: f64,
        /// The largest package there is.
        largest: String,
    },
    /// No way that keeps all that was asked.
    #[error("No {layer} can be laid with its joins {} or more away from where they must not be. Ask for less, or allow joins the other way.", fraction(*apart_in, 8))]
    CantKeepOff {
        /// The back or the batting.
        layer: &'static str,
        /// How far they should be off.
        apart_in: f64,
    },
    /// A print with a top, and no way to lay it upright.
    #[error(
        "{name} has a print with a top, and with the seams across its strips would lie on their sides. Let the seams run along, or let the print lie as it comes."
    )]
    LiesOnItsSide {
        /// Which bolt.
        name: String,
    },
    /// A piece wider than the frame.
    #[error(
        "The back's edge along the rollers is {} (cut) and the rollers take {}: load it the other way, or quilt it by hand guiding.",
        fraction(*needs_in, 8), fraction(*roller_in, 8)
    )]
    Rollers {
        /// The edge that must lie along the rollers.
        needs_in: f64,
        /// What they take.
        roller_in: f64,
    },
    /// Pins, spray or thread on a frame.
    #[error(
        "On a frame the layers are held by rollers and clamps: {with} would be in the needle's way or in vain. Leave the basting to the frame, or choose hand guiding."
    )]
    BastedOnFrame {
        /// What was asked for.
        with: &'static str,
    },
    /// No frame to clamp it on.
    #[error("There are no clamps without a frame: choose pins, spray or thread, or quilt it on a frame.")]
    NoFrame,
    /// The piece is too narrow for basting that keeps so far from the edge.
    #[error(
        "Nowhere is the piece {} away from its edge all round: the most is {}. Keep {} from the edge, or less.",
        fraction(*edge_in, 8), fraction(*most_in, 16), fraction((*most_in * 8.0).floor() / 16.0, 16)
    )]
    NoRoomToBaste {
        /// How far from the edge it should keep.
        edge_in: f64,
        /// The farthest that any place is from the edge.
        most_in: f64,
    },
    /// More pins than anyone sets.
    #[error("A spacing of {} would take about {count:.0} pins; {most} are the most. Set them {} apart or wider.", fraction(*spacing_in, 8), fraction(round_up(*takes_in, 4), 8))]
    TooManyPins {
        /// The spacing asked for.
        spacing_in: f64,
        /// About so many pins.
        count: f64,
        /// The most that are planned.
        most: u32,
        /// The spacing that takes so many.
        takes_in: f64,
    },
}

fn instead(others: &[String]) -> String {
    match others {
        [] => "No cloth of the stash has: piece it, or buy wider cloth.".to_owned(),
        [first, ..] => format!("Take `{first}`, or piece it."),
    }
}
