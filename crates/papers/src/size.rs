//! Sizes of paper.

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 millimetres.
    #[default]
    A4,
    /// 8 1/2 by 11 inches.
    Letter,
}

impl Paper {
    /// Width and height in inches.
    #[must_use]
    pub const fn size_in(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0 / 25.4, 297.0 / 25.4],
            Self::Letter => [8.5, 11.0],
        }
    }
}
