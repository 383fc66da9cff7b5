//! What to do instead: remedies with numbers for a step that was refused.
//!
//! Refusing is half an answer. For a patch that doesn't cover there are three ways on: join on a
//! bit, trim the neighbouring side so that the seam line gets shorter, take another scrap. Inches;
//! what is to be cut is rounded to the safe side, to the eighth.

use crate::length::{fraction, round_up};
use crate::log::{Bound, End, Name};
use crate::problem::{Place, Problem, Rule};
use crate::table::Top;
use plane::Point;
use serde::Serialize;
use std::fmt;

/// One way on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Remedy {
    /// Join on one more bit, at least so long along the seam line, its own seam included.
    JoinOn {
        /// Least raw length of the bit.
        least_in: f64,
    },
    /// Trim a strip off the neighbouring side, so that the seam line gets shorter.
    TrimNeighbour {
        /// The side to trim, when it is a free one.
        side: Option<Name>,
        /// The end of the side to be sewn that it lies at.
        at: End,
        /// How much to take off, square to it.
        off_in: f64,
        /// The corner there, in degrees.
        corner_deg: f64,
    },
    /// Take another scrap that is at least so long along the seam line.
    AnotherScrap {
        /// Least raw length along the seam.
        least_in: f64,
    },
    /// Slide the patch along the edge, so that it covers both ends.
    Slide {
        /// How far towards the end of the side; negative towards its start.
        by_in: f64,
    },
    /// Cut along a side's own line, taking off what sticks out beyond it.
    TrimAlong {
        /// Whose line.
        side: Name,
    },
    /// Press a seam open.
    PressOpen {
        /// Which seam.
        seam: Name,
    },
    /// Cut the patch so much deeper.
    CutDeeper {
        /// By how much.
        by_in: f64,
    },
    /// Lean the edge over less, or cut the tip off.
    BluntTip {
        /// How many degrees more the corner needs.
        by_deg: f64,
    },
    /// Take the cloth from another place or another cloth with so much more room.
    MoreRoom {
        /// How much more.
        by_in: f64,
    },
    /// Turn the patch about on its cloth so that its print runs right.
    TurnPrint {
        /// By how much.
        by_deg: f64,
    },
    /// Sew the open part of a seam.
    FinishSeam {
        /// Which seam.
        seam: Name,
    },
    /// Leave no more of the seam open than so much.
    LeaveOpen {
        /// The most, in inches.
        most_in: f64,
    },
    /// Measure once more, after the iron.
    MeasureAgain,
    /// Make the cut in two steps.
    CutInTwo,
}

/// What would help against a problem on this top. Empty when the problem names nothing that can be
/// mended there, such as a side that isn't on the table.
#[must_use]
pub fn remedies(problem: &Problem, top: &Top, allowance_in: f64) -> Vec<Remedy> {
    let Problem { rule, place, measured_in: found, limit_in: limit } = *problem;
    match (rule, place) {
        (Rule::Cover, Place::Side(side, _)) => short_of(top, side, found, limit, allowance_in),
        (Rule::Slid, _) => vec![Remedy::Slide { by_in: found }],
        (Rule::InwardCorner, Place::Side(side, _)) => vec![Remedy::TrimAlong { side }],
        (Rule::TooThick, Place::At(p)) => open_seams(top, p),
        (Rule::TooThin, _) => vec![Remedy::CutDeeper { by_in: limit - found }],
        (Rule::TooSharp, _) => vec![Remedy::BluntTip { by_deg: limit - found }],
        (Rule::NoRoom, _) => vec![Remedy::MoreRoom { by_in: found }],
        (Rule::WrongWayUp, _) => vec![Remedy::TurnPrint { by_deg: found }],
        (Rule::UsedUp, _) => vec![Remedy::CutDeeper { by_in: (limit - found).max(1.0 / 8.0) }],
        (Rule::TurnsOver, _) => vec![Remedy::MeasureAgain],
        (Rule::CutScatters, _) => vec![Remedy::CutInTwo],
        (Rule::StillOpen, Place::Seam(seam)) => vec![Remedy::FinishSeam { seam }],
        (Rule::OpenTooLong, _) => vec![Remedy::LeaveOpen { most_in: limit / 2.0 }],
        _ => Vec::new(),
    }
}

/// The three ways on, cheapest first: trims at the end where least has to come off.
fn short_of(top: &Top, side: Name, short: f64, need: f64, allowance_in: f64) -> Vec<Remedy> {
    let mut ways = vec![Remedy::JoinOn { least_in: short + 2.0 * allowance_in }];
    if let Some(corners) = corners_deg(top, side) {
        let ends = [End::Start, End::End].into_iter().zip(neighbours(top, side)).zip(corners);
        let trims = ends.filter_map(|((at, side), corner_deg)| {
            let off_in = crate::sums::trim_for_cover(short, corner_deg).ok()?;
            Some((off_in, Remedy::TrimNeighbour { side, at, off_in, corner_deg }))
        });
        ways.extend(trims.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, trim)| trim));
    }
    ways.push(Remedy::AnotherScrap { least_in: need });
    ways
}

/// The youngest of the seams that lie over a thick point and aren't open yet: pressed open, each
/// takes a layer away.
fn open_seams(top: &Top, p: Point) -> Vec<Remedy> {
    let thick = crate::layers::thickest(top, 3);
    let nearest = thick.iter().min_by(|a, b| a.at.distance(p).total_cmp(&b.at.distance(p)));
    let seams = nearest.map_or(&[][..], |t| &t.seams);
    let closed = seams
        .iter()
        .rev()
        .filter(|name| top.seams().get(name).is_some_and(|seam| seam.press != crate::log::Press::Open));
    closed.map(|seam| Remedy::PressOpen { seam: *seam }).collect()
}

/// The free sides before and after a side.
fn neighbours(top: &Top, side: Name) -> [Option<Name>; 2] {
    let outline = top.outline();
    let n = outline.len();
    let Some(at) = outline.iter().position(|b| *b == Bound::Raw(side)) else { return [None, None] };
    [outline[(at + n - 1) % n], outline[(at + 1) % n]].map(|bound| match bound {
        Bound::Raw(name) => Some(name),
        Bound::Seam(_) => None,
    })
}

/// The inside angles at the start and the end of a side, in degrees.
fn corners_deg(top: &Top, side: Name) -> Option<[f64; 2]> {
    let outline = top.outline();
    let n = outline.len();
    let at = outline.iter().position(|b| *b == Bound::Raw(side))?;
    let lines = [(at + n - 1) % n, at, (at + 1) % n].map(|i| top.line(outline[i]));
    let [Some(before), Some(own), Some(after)] = lines else { return None };
    let inside = |a: plane::Line, b: plane::Line| 180.0 - a.turn_sine(b).atan2(a.turn_cosine(b)).to_degrees();
    Some([inside(before, own), inside(own, after)])
}

impl fmt::Display for Remedy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let up = |inches: f64| fraction(round_up(inches, 8), 8);
        match *self {
            Self::JoinOn { least_in } => {
                write!(
                    f,
                    "Join on one more bit, at least {} long (cut, before it is joined; {least_in:.2}).",
                    up(least_in)
                )
            }
            Self::TrimNeighbour { side, at, off_in, corner_deg } => {
                let end = if at == End::Start { "start" } else { "end" };
                let side =
                    side.map_or_else(|| "the neighbouring side".to_owned(), |name| format!("side {name}"));
                write!(
                    f,
                    "Trim {} off {side}, at the {end}, where the corner is {corner_deg:.0} degrees.",
                    up(off_in)
                )
            }
            Self::AnotherScrap { least_in } => {
                write!(
                    f,
                    "Take another scrap, at least {} long along the seam line (raw; {least_in:.2}).",
                    up(least_in)
                )
            }
            Self::Slide { by_in } => {
                let end = if by_in < 0.0 { "start" } else { "end" };
                write!(f, "Slide it {} towards the {end} of the side.", up(by_in.abs()))
            }
            Self::TrimAlong { side } => {
                write!(f, "Trim along side {side} first, taking off what sticks out beyond it.")
            }
            Self::PressOpen { seam } => write!(f, "Press seam {seam} open."),
            Self::CutDeeper { by_in } => write!(f, "Cut it {} deeper.", up(by_in)),
            Self::BluntTip { by_deg } => {
                write!(f, "Lean its edge {:.0} degrees less, or trim the tip off square.", by_deg.ceil())
            }
            Self::MoreRoom { by_in } => {
                write!(f, "Lay it elsewhere, or take a cloth with {} more room.", up(by_in))
            }
            Self::TurnPrint { by_deg } => {
                write!(f, "Turn it {by_deg:.0} degrees on its cloth before cutting.")
            }
            Self::FinishSeam { seam } => write!(f, "Finish seam {seam} first."),
            Self::LeaveOpen { most_in } => {
                write!(f, "Leave {} of it open, or less.", fraction((most_in * 8.0).floor() / 8.0, 8))
            }
            Self::MeasureAgain => write!(f, "Press it and measure that side once more."),
            Self::CutInTwo => write!(f, "Make the cut in two steps."),
        }
    }
}
