//! Which papers there are.

use std::fmt;
use std::str::FromStr;

/// A paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PaperKind {
    /// Front, back, sizes, and what the eye check says.
    Overview,
    /// All that the piece takes, for whoever makes it again.
    Materials,
    /// What lacks, and what to buy.
    Shopping,
    /// What is cut from which cloth, and in which order.
    Cutting,
    /// A card for each step.
    Steps,
    /// The piece round by round, for whoever follows with other cloth.
    Rounds,
    /// Templates in true size.
    Templates,
    /// Sheets for sewing onto paper.
    Foundation,
    /// The strips of rings and borders.
    RingBorder,
    /// Back, batting, and how they are held together.
    Layers,
    /// The figure: placement, order, lines to trace.
    Figure,
    /// The lines of quilting.
    Quilting,
    /// Thread: spools, lengths, bobbins.
    Thread,
    /// Binding: strips, corners, closing join.
    Binding,
    /// Sleeve and label.
    Sleeve,
    /// What became of it: dates, pictures, what it used.
    Record,
    /// What to heed where a blade, an iron, a needle or a pin is in hand.
    Cautions,
}

impl PaperKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 17] = [
        Self::Overview,
        Self::Materials,
        Self::Shopping,
        Self::Cutting,
        Self::Steps,
        Self::Rounds,
        Self::Templates,
        Self::Foundation,
        Self::RingBorder,
        Self::Layers,
        Self::Figure,
        Self::Quilting,
        Self::Thread,
        Self::Binding,
        Self::Sleeve,
        Self::Record,
        Self::Cautions,
    ];

    /// Those that make a booklet for others: how the maker's own heap is cut and what it lacks, and what became of
    /// the piece, is the maker's own. What others cut stands among the materials.
    #[must_use]
    pub fn in_booklet() -> Vec<Self> {
        Self::ALL
            .into_iter()
            .filter(|kind| !matches!(kind, Self::Shopping | Self::Cutting | Self::Record))
            .collect()
    }

    /// Its name: what is typed, and its file's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Overview => "overview",
            Self::Materials => "materials",
            Self::Shopping => "shopping",
            Self::Cutting => "cutting",
            Self::Steps => "steps",
            Self::Rounds => "rounds",
            Self::Templates => "templates",
            Self::Foundation => "foundation",
            Self::RingBorder => "ring-border",
            Self::Layers => "layers",
            Self::Figure => "figure",
            Self::Quilting => "quilting",
            Self::Thread => "thread",
            Self::Binding => "binding",
            Self::Sleeve => "sleeve",
            Self::Record => "record",
            Self::Cautions => "cautions",
        }
    }

    /// Its title.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Overview => "The whole piece",
            Self::Materials => "Materials",
            Self::Shopping => "Shopping list",
            Self::Cutting => "Cutting plan",
            Self::Steps => "Step by step",
            Self::Rounds => "Round by round",
            Self::Templates => "Templates",
            Self::Foundation => "Sewing onto paper",
            Self::RingBorder => "Ring and border",
            Self::Layers => "Layers",
            Self::Figure => "The figure",
            Self::Quilting => "Quilting guide",
            Self::Thread => "Thread card",
            Self::Binding => "Binding",
            Self::Sleeve => "Sleeve and label",
            Self::Record => "What became of it",
            Self::Cautions => "Take care",
        }
    }

    /// What it is for, in a line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Overview => "front and back, sizes, and what the eye check says",
            Self::Materials => "all that it takes, and what is cut of each print",
            Self::Shopping => "what lacks, and what to buy, with room to tick",
            Self::Cutting => "what is cut from which cloth, and in which order",
            Self::Steps => "a card for each step, to lay beside the machine",
            Self::Rounds => "each round's pieces, sizes and colours, to follow with other cloth",
            Self::Templates => "each piece in true size, with seam line, cut line and notches",
            Self::Foundation => "the centre in sections for sewing onto paper, and how they are joined",
            Self::RingBorder => "strips in the order they are sewn: lengths, angles, corners",
            Self::Layers => "back, batting, and how they are held together",
            Self::Figure => "order, place, and lines to trace in true size",
            Self::Quilting => "lines over the outline, starts, direction, bobbins",
            Self::Thread => "spools, lengths and bobbins, stage by stage",
            Self::Binding => "strips, joins, each corner at its angle, closing join",
            Self::Sleeve => "where sleeve or tabs and label go",
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
