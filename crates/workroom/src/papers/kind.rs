//! Which papers there are.

use std::fmt;
use std::str::FromStr;

/// A paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PaperKind {
    /// Front, back, sizes, and what the eye check says.
    Overview,
    /// What is cut from which cloth, and in which order.
    Cutting,
    /// A card for each step.
    Steps,
    /// The piece round by round, for whoever follows with other cloth.
    Rounds,
    /// What became of it: dates, pictures, what it used.
    Record,
    /// What to heed where a blade, an iron, a needle or a pin is in hand.
    Cautions,
}

impl PaperKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Overview, Self::Cutting, Self::Cautions];
    pub const ALL: [Self; 5] = [Self::Overview, Self::Steps, Self::Rounds, Self::Record, Self::Cautions];

    /// Those that make a booklet for others.
    #[must_use]
    pub fn in_booklet() -> Vec<Self> {
        // The record is the maker's own.
        Self::ALL.into_iter().filter(|kind| *kind != Self::Record).collect()
    }

    /// Its name: what is typed, and its file's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Overview => "overview",
            Self::Cutting => "cutting",
            Self::Steps => "steps",
            Self::Rounds => "rounds",
            Self::Record => "record",
            Self::Cautions => "cautions",
        }
    }

    /// Its title.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Overview => "The whole piece",
            Self::Cutting => "Cutting plan",
            Self::Steps => "Step by step",
            Self::Rounds => "Round by round",
            Self::Record => "What became of it",
            Self::Cautions => "Take care",
        }
    }

    /// What it is for, in a line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Overview => "front and back, sizes, and what the eye check says",
            Self::Cutting => "what is cut from which cloth, and in which order",
            Self::Steps => "a card for each step, to lay beside the machine",
            Self::Rounds => "each round's pieces, sizes and colours, to follow with other cloth",
            Self::Record => "dates, pictures, what it used, hours, and how to wash it",
            Self::Cautions => "what to heed where a blade, an iron, a needle or a pin is in hand",
        }
    }
}

impl fmt::Display for PaperKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for PaperKind {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        Self::ALL.into_iter().find(|kind| kind.name() == text).ok_or_else(|| {
            let names: Vec<&str> = Self::ALL.iter().map(|kind| kind.name()).collect();
            format!("`{text}` is no paper; there are {}", names.join(", "))
        })
    }
}
