//! Which papers there are.

use std::fmt;
use std::str::FromStr;

/// A paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PaperKind {
    /// Front, back, sizes, and what the eye check says.
    Overview,
    /// What lacks, and what to buy.
    Shopping,
    /// Thread: spools, lengths, bobbins.
    Thread,
    /// The strips of rings and borders.
    RingBorder,
    /// Back, batting, and how they are held together.
    Layers,
    /// The figure: placement, order, lines to trace.
    Figure,
    /// The lines of quilting.
    Quilting,
    /// Binding: strips, corners, closing join.
    Binding,
    /// Sleeve and label.
    Sleeve,
    /// What to heed where a blade, an iron, a needle or a pin is in hand.
    Cautions,
}

impl PaperKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 10] = [
        Self::Overview,
        Self::Shopping,
        Self::Thread,
        Self::RingBorder,
        Self::Layers,
        Self::Figure,
        Self::Quilting,
        Self::Binding,
        Self::Sleeve,
        Self::Cautions,
    ];

    /// Those that make a booklet for others: what the maker's own heap lacks is nothing to them.
    #[must_use]
    pub fn in_booklet() -> Vec<Self> {
        Self::ALL.into_iter().filter(|kind| *kind != Self::Shopping).collect()
    }

    /// Its name: what is typed, and its file's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Overview => "overview",
            Self::Shopping => "shopping",
            Self::Thread => "thread",
            Self::RingBorder => "ring-border",
            Self::Layers => "layers",
            Self::Figure => "figure",
            Self::Quilting => "quilting",
            Self::Binding => "binding",
            Self::Sleeve => "sleeve",
            Self::Cautions => "cautions",
        }
    }

    /// Its title.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Overview => "The whole piece",
            Self::Shopping => "Shopping list",
            Self::Thread => "Thread card",
            Self::RingBorder => "Ring and border",
            Self::Layers => "Layers",
            Self::Figure => "The figure",
            Self::Quilting => "Quilting guide",
            Self::Binding => "Binding",
            Self::Sleeve => "Sleeve and label",
            Self::Cautions => "Take care",
        }
    }

    /// What it is for, in a line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Overview => "front and back, sizes, and what the eye check says",
            Self::Shopping => "what lacks, and what to buy, with room to tick",
            Self::Thread => "spools, lengths and bobbins, stage by stage",
            Self::RingBorder => "strips in the order they are sewn: lengths, angles, corners",
            Self::Layers => "back, batting, and how they are held together",
            Self::Figure => "order, place, and lines to trace in true size",
            Self::Quilting => "lines over the outline, starts, direction, bobbins",
            Self::Binding => "strips, joins, each corner at its angle, closing join",
            Self::Sleeve => "where sleeve or tabs and label go",
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
