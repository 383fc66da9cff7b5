//! How far the reading of a picture has come, for whoever waits.

/// How far a picture has come, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reading {
    /// The file is being opened.
    Opening,
    /// Measuring cards are being looked for.
    Cards,
    /// It is being flattened, and outlines looked for.
    Outlines,
    /// Looks are being taken.
    Looks,
}

impl Reading {
    /// What is being done, in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Opening => "opening the picture",
            Self::Cards => "looking for the cards",
            Self::Outlines => "following the outlines",
            Self::Looks => "taking the looks",
        }
    }
}

/// Is told how far a picture has come.
pub type Watch<'a> = &'a dyn Fn(Reading);
