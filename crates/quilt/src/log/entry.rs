//! An entry of the log: a step with its parent, and the name that follows from its bytes.

use super::{Mark, Step};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fmt;

/// The name of an entry: SHA-256 over its parent's name and its stored bytes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(pub [u8; 32]);

impl StepId {
    /// The name of an entry with these stored bytes after `parent`.
    #[must_use]
    pub fn of(parent: Option<Self>, bytes: &[u8]) -> Self {
        let mut hash = Sha256::new();
        if let Some(parent) = parent {
            hash.update(parent.0);
        }
        hash.update(bytes);
        Self(hash.finalize().into())
    }
}

impl fmt::Display for StepId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|b| write!(f, "{b:02x}"))
    }
}

impl fmt::Debug for StepId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "StepId({self})")
    }
}

impl std::str::FromStr for StepId {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let problem = || format!("`{text}` is not a step: expected 64 hexadecimal digits");
        if text.len() != 64 || !text.bytes().all(|digit| digit.is_ascii_hexdigit()) {
            return Err(problem());
        }
        let mut bytes = [0; 32];
        for (i, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&text[2 * i..2 * i + 2], 16).map_err(|_| problem())?;
        }
        Ok(Self(bytes))
    }
}

/// What a run of steps does together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RunKind {
    /// The first patch of a centre.
    Start,
    /// One piece or unit added to an edge.
    Piece,
    /// A trim.
    Trim,
    /// Many pieces, grown.
    Grow,
    /// Strips sewn side by side.
    StripSet,
    /// Sliced apart and put together again.
    PutIn,
    /// The centre trued up to a polygon.
    TrueUp,
    /// A ring from a strip set.
    Ring,
    /// A border.
    Border,
    /// Trimmed to a shape, or filled up to one.
    SquareUp,
    /// Several centres joined.
    Centres,
    /// A choice about layers, quilting, binding, sleeve or figure.
    Finishing,
}

/// The run that an entry belongs to. The first entry of a run carries what was asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Run {
    /// The mark of the run's first step.
    pub first: Mark,
    /// What it does.
    pub kind: RunKind,
    /// What was asked, as JSON text, for the story and for doing it again. Replay never reads it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ask: Option<String>,
}

/// One entry of the log as stored, without its parent (which its [`StepId`] covers).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// The step's name on its path.
    pub mark: Mark,
    /// The run it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<Run>,
    /// What was done.
    pub step: Step,
}

impl Entry {
    /// The bytes that are stored, hashed and exchanged.
    #[must_use]
    pub fn to_bytes(&self) -> Vec<u8> {
        serde_json::to_vec(self).unwrap_or_default()
    }

    /// Reads stored bytes back.
    ///
    /// # Errors
    /// When they are not an entry of a form known here.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, serde_json::Error> {
        serde_json::from_slice(bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::ClothId;

    #[test]
    fn ids_are_digits_and_nothing_else() {
        let id = StepId::of(None, b"a step");
        assert_eq!(id.to_string().parse(), Ok(id));
        assert!(format!("+a{}", "0".repeat(62)).parse::<StepId>().is_err());
        assert_eq!(ClothId::try_from(ClothId(31).to_string()), Ok(ClothId(31)));
        for bad in ["+1f", "1f", "+00000000000001f", "000000000000001g", ""] {
            assert!(ClothId::try_from(bad.to_owned()).is_err(), "{bad}");
        }
    }
}
