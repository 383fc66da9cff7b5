//! What is wrong with a bundle.

use thiserror::Error;

/// Why a bundle could not be read or written. Nothing was taken in.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum BundleProblem {
    /// Not a zip, or a broken one.
    #[error("the file is not a quilt's, or it is damaged: {0}")]
    Zip(String),
    /// Something is missing in it.
    #[error("the file is damaged: {0} is missing")]
    Missing(String),
    /// Something in it isn't what it says.
    #[error("the file is damaged: {0}")]
    Damaged(String),
    /// What was to be written can't be read back.
    #[error("{0} can't be written so that it can be read again: nothing was written. {1}")]
    NotReadBack(String, String),
    /// Something that doesn't belong in it.
    #[error("`{0}` does not belong in a quilt's file")]
    Stranger(String),
    /// Written by a later Ragbag.
    #[error("the file is of version {found}; this Ragbag reads up to version {known}")]
    Newer {
        /// Its version.
        found: u32,
        /// The newest version known here.
        known: u32,
    },
    /// Too large to be believed.
    #[error("{what} is larger than {most} bytes")]
    TooLarge {
        /// What is.
        what: String,
        /// The limit in bytes.
        most: u64,
    },
    /// Too many files.
    #[error("there are {found} files in it; at most {most} can be read")]
    TooMany {
        /// How many.
        found: usize,
        /// The limit.
        most: usize,
    },
}

impl BundleProblem {
    /// What can be done about it.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::NotReadBack(..) => {
                "That is a fault of Ragbag, not yours. Until it is mended, a copy of the workroom's folder keeps the quilt."
            }
            Self::Newer { .. } => "Use the newer Ragbag for it.",
            Self::TooLarge { .. } | Self::TooMany { .. } => "Ask for a file with fewer or smaller pictures.",
            _ => "Ask for the file again, exported anew.",
        };
        Some(hint.to_owned())
    }
}

impl From<zip::result::ZipError> for BundleProblem {
    fn from(error: zip::result::ZipError) -> Self {
        Self::Zip(error.to_string())
    }
}
