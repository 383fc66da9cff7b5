//! One row of the eye check.

use super::scale::{Grade, Value, grade};
use plane::Point;
use serde::Serialize;

/// A quality that the eye judges. Each row's function carries its definition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quality {
    /// Round, or near the wished outline.
    Round,
    /// The first patch stays in the middle.
    FirstInTheMiddle,
    /// No side runs ahead.
    NoSideAhead,
    /// No log-cabin: no long ranks of strips round a middle.
    NoLogCabin,
    /// No bars.
    NoBars,
    /// Wedges, not strips.
    Wedges,
    /// Size grows in step with the distance from the centre.
    SizeInStep,
    /// No long line inside.
    NoLongLine,
    /// Visual weight balanced about the centre.
    Balance,
    /// The drift of colours, with sparks.
    Drift,
    /// Edges read.
    EdgesRead,
    /// Hot spots: a few, well apart.
    HotSpots,
    /// Prints rest before they come again.
    PrintsRest,
    /// Directions mixed.
    DirectionsMixed,
    /// Turns, if a spiral is wished.
    Turns,
}

impl Quality {
    /// All of them, in the order they are shown.
    pub const ALL: [Self; 15] = [
        Self::Round,
        Self::FirstInTheMiddle,
        Self::NoSideAhead,
        Self::NoLogCabin,
        Self::NoBars,
        Self::Wedges,
        Self::SizeInStep,
        Self::NoLongLine,
        Self::Balance,
        Self::Drift,
        Self::EdgesRead,
        Self::HotSpots,
        Self::PrintsRest,
        Self::DirectionsMixed,
        Self::Turns,
    ];

    /// What it is called.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Round => "round",
            Self::FirstInTheMiddle => "the first patch stays in the middle",
            Self::NoSideAhead => "no side runs ahead",
            Self::NoLogCabin => "no log-cabin",
            Self::NoBars => "no bars",
            Self::Wedges => "wedges, not strips",
            Self::SizeInStep => "size grows in step",
            Self::NoLongLine => "no long line inside",
            Self::Balance => "balance",
            Self::Drift => "drift, with sparks",
            Self::EdgesRead => "edges read",
            Self::HotSpots => "hot spots",
            Self::PrintsRest => "prints rest",
            Self::DirectionsMixed => "directions mixed",
            Self::Turns => "turns",
        }
    }

    /// Whether a poor grade here can't be made good elsewhere.
    #[must_use]
    pub const fn is_gate(self) -> bool {
        matches!(self, Self::NoLogCabin | Self::NoBars | Self::Wedges | Self::PrintsRest)
    }

    /// With fewer pieces than this it can't be judged.
    #[must_use]
    pub const fn least_pieces(self) -> usize {
        match self {
            Self::Round | Self::FirstInTheMiddle | Self::Balance | Self::PrintsRest => 1,
            Self::EdgesRead => 2,
            Self::NoSideAhead
            | Self::NoLogCabin
            | Self::NoBars
            | Self::Wedges
            | Self::SizeInStep
            | Self::NoLongLine
            | Self::Drift
            | Self::HotSpots
            | Self::DirectionsMixed
            | Self::Turns => 6,
        }
    }
}

/// Something to mark on the drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EyeMark {
    /// A place.
    Point(Point),
    /// A line from one place to another.
    Line(Point, Point),
    /// A shape.
    Polygon(Vec<Point>),
}

/// One row of the eye check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Row {
    /// Which quality.
    pub quality: Quality,
    /// Its numbers.
    pub values: Vec<Value>,
    /// The same as a plain sentence.
    pub words: String,
    /// How good it is.
    pub grade: Grade,
    /// Where to look.
    pub marks: Vec<EyeMark>,
}

impl Row {
    pub(super) fn new(quality: Quality, values: Vec<Value>, words: String, marks: Vec<EyeMark>) -> Self {
        Self { quality, grade: grade(&values), values, words, marks }
    }

    pub(super) fn too_soon(quality: Quality) -> Self {
        let words = format!("Too soon to say: it takes {} pieces.", quality.least_pieces());
        Self { quality, values: Vec::new(), words, grade: Grade::TooSoon, marks: Vec::new() }
    }

    pub(super) fn not_wished(quality: Quality, words: &str) -> Self {
        let grade = Grade::NotWished;
        Self { quality, values: Vec::new(), words: words.to_owned(), grade, marks: Vec::new() }
    }
}

/// A share in whole percent.
pub(super) fn percent(share: f64) -> String {
    // An empty sum of floats is -0; adding 0 takes its sign away.
    format!("{:.0} %", share * 100.0 + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_nought_percent_without_a_sign() {
        assert_eq!(percent([0.0_f64; 0].iter().sum()), "0 %");
        assert_eq!(percent(-0.0), "0 %");
        assert_eq!(percent(0.126), "13 %");
    }
}
