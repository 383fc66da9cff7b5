//! Which papers there are.

use std::fmt;
use std::str::FromStr;

/// A paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PaperKind {
    /// Front, back, sizes, and what the eye check says.
    Overview,
    /// Templates in true size.
    Templates,
    /// Sheets for sewing onto paper.
    Foundation,
    /// What to heed where a blade, an iron, a needle or a pin is in hand.
    Cautions,
}

impl PaperKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 4] = [Self::Overview, Self::Templates, Self::Foundation, Self::Cautions];

    /// Those that make a booklet for others.
    #[must_use]
    pub fn in_booklet() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    /// Its name: what is typed, and its file's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Overview => "overview",
            Self::Templates => "templates",
            Self::Foundation => "foundation",
            Self::Cautions => "cautions",
        }
    }

    /// Its title.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Overview => "The whole piece",
            Self::Templates => "Templates",
            Self::Foundation => "Sewing onto paper",
            Self::Cautions => "Take care",
        }
    }

    /// What it is for, in a line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Overview => "front and back, sizes, and what the eye check says",
            Self::Templates => "each piece in true size, with seam line, cut line and notches",
            Self::Foundation => "the centre in sections for sewing onto paper, and how they are joined",
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
