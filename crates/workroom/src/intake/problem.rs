//! What is wrong with scraps on their way in: what, where, and what to do.

use crate::stash::StripSetProblem;
use plane::RegionProblem;
use thiserror::Error;

/// Why scraps could not be entered. Nothing was entered.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum IntakeProblem {
    /// A length that can't be read or makes no sense.
    #[error("{}", length(.what, .text, .why))]
    Length {
        /// Which length.
        what: &'static str,
        /// What was written.
        text: String,
        /// What is wrong with it.
        why: String,
    },
    /// A corner that isn't two lengths.
    #[error("corner {corner} `{text}` is not two lengths with a comma between")]
    Corner {
        /// Which corner, counted from 1.
        corner: usize,
        /// What was written.
        text: String,
    },
    /// An outline that encloses nothing sound.
    #[error("{}", outline(*.scrap, .problem))]
    Outline {
        /// Which scrap of those that came together, counted from 1; 0 where only one was named.
        scrap: usize,
        /// What is wrong with it.
        problem: RegionProblem,
    },
    /// A flaw that isn't on the cloth.
    #[error("flaw {flaw} does not lie on the cloth")]
    FlawOutside {
        /// Which flaw, counted from 1.
        flaw: usize,
    },
    /// Words without a size.
    #[error("`{text}` has no size in it")]
    NoSize {
        /// What was written.
        text: String,
    },
    /// Words about thread that don't tell enough.
    #[error("the thread in `{text}` can't be counted: {why}")]
    Thread {
        /// What was written.
        text: String,
        /// What is wrong with it.
        why: &'static str,
    },
    /// Words about things of which there are none.
    #[error("`{text}` are none")]
    NoCount {
        /// What was written.
        text: String,
    },
    /// Words that name a shape other than a rectangle.
    #[error("`{word}` is not a rectangle, and words give only two lengths")]
    NotARectangle {
        /// The shape.
        word: String,
    },
    /// Words with three lengths.
    #[error("after {size} there is one more length in `{text}`")]
    ThirdSize {
        /// The first two lengths.
        size: String,
        /// What was written.
        text: String,
    },
    /// A number that makes no sense.
    #[error("{what} is {value}; it must be {wanted}")]
    Number {
        /// Which number.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What it must be.
        wanted: &'static str,
    },
    /// Too much at once.
    #[error("{what} is {found}; at most {most} can be read")]
    TooMuch {
        /// What there is too much of.
        what: &'static str,
        /// How much.
        found: usize,
        /// How much can be read.
        most: usize,
    },
    /// Bytes that aren't text.
    #[error("the file is not text in UTF-8: byte {at} can't be read")]
    NotText {
        /// Where it stops being text, in bytes from 0.
        at: usize,
    },
    /// A list whose first line isn't right.
    #[error("line 1, column {column}: {why}")]
    Columns {
        /// Which column, counted from 1.
        column: usize,
        /// What is wrong.
        why: String,
    },
    /// A line of a list that isn't right.
    #[error("{}", line_of_list(*.line, .column, .why))]
    Line {
        /// Which line, counted from 1.
        line: u64,
        /// Which column, by its name.
        column: String,
        /// What is wrong.
        why: String,
    },
    /// A list without scraps.
    #[error("there are no scraps in it")]
    Nothing,
    /// A drawing that can't be read at all.
    #[error("the SVG can't be read: {0}")]
    NotSvg(String),
    /// A drawing without a size in the world.
    #[error("the SVG has no true size: its {attribute} is {found}")]
    NoUnits {
        /// `width` or `height`.
        attribute: &'static str,
        /// What it says.
        found: String,
    },
    /// Something in a drawing that isn't a drawing.
    #[error("the SVG has {what} in line {line}; that is not read")]
    NotADrawing {
        /// What it is.
        what: String,
        /// In which line, counted from 1.
        line: u32,
    },
    /// A shape of a drawing that can't be read.
    #[error("the {shape} in line {line} can't be read: {why}")]
    Shape {
        /// Which kind of shape.
        shape: String,
        /// In which line, counted from 1.
        line: u32,
        /// What is wrong.
        why: String,
    },
    /// A shape of a figure that isn't closed.
    #[error("the {shape} in line {line} is open: its ends are {gap:.2} apart, in the drawing's units")]
    Open {
        /// Which kind of shape.
        shape: String,
        /// In which line, counted from 1.
        line: u32,
        /// How far its ends are apart.
        gap: f64,
    },
    /// Strips that make no set.
    #[error(transparent)]
    StripSet(StripSetProblem),
}

/// Which length, what was written and what is wrong; what says what was written says it once.
fn length(what: &str, text: &str, why: &str) -> String {
    if why.contains(&format!("`{text}`")) {
        format!("{what}: {why}")
    } else {
        format!("{what} `{text}`: {why}")
    }
}

fn outline(scrap: usize, problem: &RegionProblem) -> String {
    if scrap == 0 { problem.to_string() } else { format!("scrap {scrap}: {problem}") }
}

fn line_of_list(line: u64, column: &str, why: &str) -> String {
    if column == "all" {
        format!("line {line}: {why}")
    } else {
        format!("line {line}, column {column}: {why}")
    }
}

impl IntakeProblem {
    /// What can be done about it.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::Length { .. } => "Write a length like 2 1/4, 2.25, 57 mm or 1/8 yd.",
            Self::Corner { .. } => {
                "Write corners like 0,0 3,0 3,5 0,5: across and up, a space between corners."
            }
            Self::Outline { problem: RegionProblem::SidesCross { .. }, .. } => {
                "Go round the outline once, without crossing it."
            }
            Self::Outline { .. } => "Give at least three corners that enclose some cloth.",
            Self::FlawOutside { .. } => "Count its corners as the cloth's own: a rectangle begins at 0,0.",
            Self::NoSize { .. } => "Add a size, as in \"red stripe, about 3 by 5\".",
            Self::Thread { .. } => "Write it as in \"a spool of grey thread, 500 yards\".",
            Self::NoCount { .. } => "Write how many there are, as in \"200 pins\".",
            Self::TooMuch { .. } => "Split it and read it in parts.",
            Self::NotText { .. } => "Save the file as plain text in UTF-8.",
            Self::Columns { .. } => {
                "The first line names the columns: name, width and height, and if you like kind, colour, print, count, grain, place, fibre, washed, bleeds, about."
            }
            Self::Line { .. } => "Mend that line and read the list again; nothing was entered.",
            Self::Nothing => "Add at least one scrap.",
            Self::NoUnits { .. } => {
                "Give the svg element width and height with a unit, as in width=\"120mm\" height=\"80mm\", and a viewBox."
            }
            Self::NotADrawing { .. } => "Save it as a plain SVG with nothing but shapes.",
            Self::Open { .. } => {
                "Close the outline; a line is drawn as a thin closed shape, and becomes stitches by itself."
            }
            Self::Shape { why, .. } if why.contains("meet near") => {
                "Draw that outline so that it goes round once without crossing itself."
            }
            Self::NotSvg(_) | Self::Shape { .. } => "Save it again as a plain SVG.",
            Self::StripSet(StripSetProblem::TooFew(_)) => "Name at least two strips, as in 3:1-1/2 5:2.",
            Self::StripSet(_) => "Take wider strips or a narrower seam.",
            Self::NotARectangle { .. } => {
                "Enter it by its corners: ragbag add polygon NAME CORNERS. Or leave that word out and enter the rectangle round it."
            }
            Self::ThirdSize { .. } => "Write two lengths: width by height.",
            Self::Number { .. } => return None,
        };
        Some(hint.to_owned())
    }
}
