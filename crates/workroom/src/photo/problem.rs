//! Why a photograph can't be used, with what would help.

use thiserror::Error;
use vision::{FlattenProblem, PictureProblem};

/// Why a photograph can't be used. Every message begins with the picture's name.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PhotoProblem {
    /// It is no picture that can be read.
    #[error("{name}: {why}")]
    Unreadable {
        /// The picture's name.
        name: String,
        /// Why.
        why: PictureProblem,
    },
    /// It can't be measured.
    #[error("{name}: {why}")]
    NotMeasured {
        /// The picture's name.
        name: String,
        /// Why.
        why: FlattenProblem,
    },
    /// There are cards, and no cloth.
    #[error("{name}: the cards were found, but no cloth beside them")]
    NoCloth {
        /// The picture's name.
        name: String,
    },
    /// There is cloth, and the piece that is looked for runs out of the picture.
    #[error("{name}: the piece runs out of the picture")]
    PieceCutOff {
        /// The picture's name.
        name: String,
    },
    /// More bytes than are read.
    #[error("{name}: the file has {megabytes} megabytes; at most {most} are read")]
    TooManyBytes {
        /// The picture's name.
        name: String,
        /// How many there are, rounded up.
        megabytes: u64,
        /// The most.
        most: u64,
    },
    /// A cloth is named that wasn't found.
    #[error("{name}: there is no cloth {no} in this picture; {have} were found")]
    NoSuchFound {
        /// The picture's name.
        name: String,
        /// What was named, from 1.
        no: usize,
        /// How many there are.
        have: usize,
    },
    /// One cloth is kept twice.
    #[error("{name}: cloth {no} is named twice")]
    KeptTwice {
        /// The picture's name.
        name: String,
        /// Which, from 1.
        no: usize,
    },
    /// A corrected outline isn't sound.
    #[error("{name}, cloth {no}: the corrected outline can't be: {why}")]
    Outline {
        /// The picture's name.
        name: String,
        /// Which cloth, from 1.
        no: usize,
        /// What is wrong with it.
        why: plane::RegionProblem,
    },
    /// Cloths were entered from the same picture since it was read.
    #[error("{name}: cloths of this very picture have been entered since it was read")]
    EnteredMeanwhile {
        /// The picture's name.
        name: String,
    },
    /// A print is named that isn't in the heap.
    #[error("{name}, cloth {no}: there is no print of that number in the heap")]
    NoSuchPrint {
        /// The picture's name.
        name: String,
        /// Which cloth, from 1.
        no: usize,
    },
}

impl PhotoProblem {
    /// What to do about it, in a sentence. What can't be read or measured says it in its message.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::Unreadable { .. } | Self::NotMeasured { .. } => return None,
            Self::NoCloth { .. } => {
                "Lay the cloth on a plain surface of another colour, wholly in the picture, beside the cards."
            }
            Self::PieceCutOff { .. } => "Take the picture again from farther away, so that all of it shows.",
            Self::TooManyBytes { .. } => "Save it smaller, as JPEG.",
            Self::NoSuchFound { .. } | Self::KeptTwice { .. } => {
                "Look at the picture again: cloths are numbered from 1."
            }
            Self::Outline { .. } => {
                "Set its points one after the other round the cloth, so that no sides cross."
            }
            Self::EnteredMeanwhile { .. } => {
                "Give the picture again: then it is told which of them are there."
            }
            Self::NoSuchPrint { .. } => "Choose one of the candidates, or keep it as a print of its own.",
        };
        Some(hint.to_owned())
    }
}
