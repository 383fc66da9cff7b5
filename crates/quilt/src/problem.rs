//! What can't be done, why, where, and by how much: data first, words second.

use crate::length::{fraction, sixteenths};
use crate::log::{End, Mark, Name};
use plane::Point;
use serde::Serialize;
use std::fmt;

/// Which rule a step or a state breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// The patch doesn't cover the seam line of the edge; measured is how much it is too short for
    /// it in all, the limit the raw length of the seam line.
    Cover,
    /// The patch would cover the seam line, but not where it lies; measured is how far to slide it
    /// towards the end of the side (negative: the start), the limit the raw length of the seam line.
    Slid,
    /// No top on the table has this side.
    NoSuchSide,
    /// No such top on the table.
    NoSuchTop,
    /// No such seam, or it isn't open.
    NoSuchSeam,
    /// Both sides belong to the same top.
    SameTop,
    /// A frame must have a strip on every side, in order round; the place is the first that is amiss.
    NotEverySide,
    /// The mitres at both ends of a strip cross before its outer edge; measured is how much of that is
    /// missing.
    MitresCross,
    /// A corner at an end of the side turns inward; a trim is due there first.
    InwardCorner,
    /// The seam would use up the whole piece; measured is how deep that is from the side, the limit
    /// how deep it must be for anything to show between two seams.
    UsedUp,
    /// More of a seam would be left open than it is long; the limit is its length.
    OpenTooLong,
    /// The seam would cross the part of another that is still open.
    StillOpen,
    /// The cut doesn't meet the piece.
    CutMisses,
    /// The cut would leave more than two parts, or a patch in two places.
    CutScatters,
    /// Two neighbouring sides would run on in one line; measured and limit are degrees of turn.
    InLine,
    /// A patch would be turned over by the measures given.
    TurnsOver,
    /// A length or a shape that makes no sense.
    Nonsense,
    /// A corner of what is to be cut lies on a straight side.
    StraightCorner,
    /// Two sides of what is to be cut cross or touch; measured and limit are their numbers, from 1.
    SidesCross,
    /// What is to be cut lies farther out than any cloth reaches.
    TooFar,
    /// A mark that names something on the table already.
    MarkTaken,
    /// A finished shape thinner than allowed.
    TooThin,
    /// A finished corner sharper than allowed; measured and limit are degrees.
    TooSharp,
    /// Too many layers in one place; measured and limit are layers.
    TooThick,
    /// The cloth has no room for the patch.
    NoRoom,
    /// The same part of a cloth is planned twice.
    PromisedTwice,
    /// The part of the cloth has been cut already.
    AlreadyCut,
    /// A print the wrong way up, or off its direction.
    WrongWayUp,
    /// The cloth isn't in the stash.
    UnknownCloth,
}

/// Where it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// At a side, perhaps at one end of it.
    Side(Name, Option<End>),
    /// At a patch.
    Patch(Mark),
    /// At a seam.
    Seam(Name),
    /// At a top.
    Top(Mark),
    /// At a point of the drawing.
    At(Point),
    /// At a step.
    Step(Mark),
}

/// One broken rule.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Problem {
    /// Which rule.
    pub rule: Rule,
    /// Where.
    pub place: Place,
    /// What was found: inches, but where the rule says that it counts degrees, layers, square inches
    /// (cloth promised twice or cut already) or sides.
    pub measured_in: f64,
    /// What the rule asks for, in the same unit.
    pub limit_in: f64,
}

impl Problem {
    /// A problem without numbers.
    #[must_use]
    pub const fn at(rule: Rule, place: Place) -> Self {
        Self { rule, place, measured_in: 0.0, limit_in: 0.0 }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Side(name, None) => write!(f, "side {name}"),
            Self::Side(name, Some(End::Start)) => write!(f, "the start of side {name}"),
            Self::Side(name, Some(End::End)) => write!(f, "the end of side {name}"),
            Self::Patch(mark) => write!(f, "patch {mark}"),
            Self::Seam(name) => write!(f, "seam {name}"),
            Self::Top(mark) => write!(f, "the piece begun by step {mark}"),
            Self::At(p) => write!(f, "{:.2}, {:.2}", p.x, p.y),
            Self::Step(mark) => write!(f, "step {mark}"),
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { rule, place, measured_in: m, limit_in: l } = *self;
        match rule {
            Rule::Cover => write!(
                f,
                "At {place} it does not cover the seam line: that is {} inches long (raw, along the seam), and it is {} short.",
                fraction(l, 16),
                sixteenths(m)
            ),
            Rule::Slid => {
                let end = if m < 0.0 { "start" } else { "end" };
                write!(
                    f,
                    "At {place} it is long enough for the seam line, but not where it lies: slide it {} inches towards the {end} of the side.",
                    sixteenths(m.abs())
                )
            }
            Rule::NoSuchSide => write!(
                f,
                "There is no free {place} on the table: a seam or a cut may have taken it. Look up the sides that are there now."
            ),
            Rule::NoSuchTop => write!(
                f,
                "There is nothing on the table begun by {place}: it may have been sewn to another piece. Name that one."
            ),
            Rule::NoSuchSeam => {
                write!(f, "There is no open {place}: only a seam that stopped short can be finished later.")
            }
            Rule::SameTop => write!(
                f,
                "Both sides belong to the same piece, at {place}: sew a side of one piece to a side of another."
            ),
            Rule::NotEverySide => write!(
                f,
                "A mitred border takes one strip on every side, in order round the piece: {place} is amiss."
            ),
            Rule::MitresCross => write!(
                f,
                "The mitres at both ends of {place} would cross before its outer edge is reached, where {m:.2} inches are missing: make that strip narrower, or the ones beside it wider."
            ),
            Rule::InwardCorner => {
                write!(f, "The corner at {place} turns inward: a trim is due there before it can be sewn.")
            }
            Rule::UsedUp => write!(
                f,
                "The seam at {place} would use up the whole piece: it is {} inches deep there (cut), and must be more than {} to show between two seams.",
                fraction(m, 16),
                fraction(l, 16)
            ),
            Rule::OpenTooLong => write!(
                f,
                "At {place} {} inches of the seam are to stay open, but it is only {} long: leave less of it open.",
                fraction(m, 16),
                fraction(l, 16)
            ),
            Rule::StillOpen => {
                write!(
                    f,
                    "It would be sewn across the part of {place} that is still open: finish that seam first."
                )
            }
            Rule::CutMisses => write!(
                f,
                "The cut of {place} takes nothing off the piece, or all of it: begin it on a side and let it run across."
            ),
            Rule::CutScatters => match place {
                Place::Patch(_) => write!(
                    f,
                    "Cut along a straight line, {place} would fall apart: sew it untrimmed, and trim it in two steps."
                ),
                _ => write!(f, "The cut at {place} would leave more than two parts: cut in two steps."),
            },
            Rule::InLine => write!(
                f,
                "At {place} the edge would turn by only {m:.2} degrees, and the least is {l:.0}: cut along the side itself, or slide the patch until it sticks out there and trim it in line."
            ),
            Rule::TurnsOver => write!(f, "By these measures {place} would be turned over: measure it again."),
            Rule::Nonsense => {
                write!(
                    f,
                    "The numbers given at {place} make no shape that can be cut: check them and their units."
                )
            }
            Rule::StraightCorner => {
                write!(f, "The corner at {place} lies on a straight side of the cut: leave it out.")
            }
            Rule::SidesCross => write!(
                f,
                "Sides {m:.0} and {l:.0} of the cut meet at {place}: name its corners in order, once round."
            ),
            Rule::TooFar => write!(
                f,
                "The cut of {place} reaches {m:.0} inches out, farther than any cloth ({l:.0}): check the unit."
            ),
            Rule::MarkTaken => write!(f, "The number of {place} has been used before: give it a new one."),
            Rule::TooThin => {
                write!(f, "{place} would finish {} wide; the least is {}.", fraction(m, 16), fraction(l, 16))
            }
            Rule::TooSharp => {
                write!(f, "{place} would have a corner of {m:.0} degrees; the least is {l:.0}.")
            }
            Rule::TooThick => {
                write!(f, "{m:.0} layers would meet at {place}; {l:.0} is too many: press one open.")
            }
            Rule::NoRoom => {
                write!(f, "The cloth has no room for {place}: {} is missing.", sixteenths(m))
            }
            Rule::PromisedTwice => {
                write!(f, "The cloth under {place} is promised twice: {m:.2} square inches overlap.")
            }
            Rule::AlreadyCut => {
                write!(
                    f,
                    "Part of the cloth under {place} has been cut already: {m:.2} square inches. Say what is used instead, or unpick that patch."
                )
            }
            Rule::WrongWayUp => write!(f, "The print of {place} would lie {m:.0} degrees off its way up."),
            Rule::UnknownCloth => write!(
                f,
                "The cloth of {place} is not in the heap: it never came here, or it was an offcut that a trim, amended since, no longer brings. Say what is used instead, or unpick that patch."
            ),
        }
    }
}

impl std::error::Error for Problem {}
