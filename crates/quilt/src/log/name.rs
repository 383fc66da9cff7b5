//! Names that survive: of steps, and of the sides, seams and patches born by them.

use serde::{Deserialize, Serialize};
use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

/// A step's name on one path. It survives amending: the same step with other measures keeps it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Mark(pub u32);

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// The name of a side, a seam or a face: born once by the step `by`, and never again. Shown as
/// the step's number and a letter: `12c` is the third thing that step 12 brought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name {
    /// The step that brought it.
    pub by: Mark,
    /// Which of the things it brought, from 0.
    pub no: u16,
}

impl Name {
    /// The `no`th thing brought by step `by`.
    #[must_use]
    pub const fn new(by: Mark, no: u16) -> Self {
        Self { by, no }
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.by)?;
        let mut letters = Vec::new();
        let mut rest = u32::from(self.no) + 1;
        while rest > 0 {
            rest -= 1;
            letters.push(char::from(b'a' + (rest % 26) as u8));
            rest /= 26;
        }
        letters.iter().rev().try_for_each(|c| write!(f, "{c}"))
    }
}

impl FromStr for Name {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let problem = || format!("`{text}` is not a side: expected a step and a letter, as in 12c");
        let split = text.find(|c: char| c.is_ascii_lowercase()).ok_or_else(problem)?;
        let by = text[..split].parse().map_err(|_| problem())?;
        let mut no = 0_u32;
        for c in text[split..].bytes() {
            if !c.is_ascii_lowercase() {
                return Err(problem());
            }
            no = no
                .checked_mul(26)
                .and_then(|n| n.checked_add(u32::from(c - b'a') + 1))
                .ok_or_else(problem)?;
        }
        u16::try_from(no - 1).map(|no| Self::new(Mark(by), no)).map_err(|_| problem())
    }
}

impl Serialize for Name {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
    }
}

/// A line that bounds a face: a raw edge that is still free, or the line of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bound {
    /// A raw edge.
    Raw(Name),
    /// A seam line.
    Seam(Name),
}

impl Bound {
    /// The name, whichever it is.
    #[must_use]
    pub const fn name(self) -> Name {
        match self {
            Self::Raw(name) | Self::Seam(name) => name,
        }
    }

    /// One number that orders bounds: raw edges first, then by step, then by number.
    const fn rank(self) -> u64 {
        let (kind, name) = match self {
            Self::Raw(name) => (0, name),
            Self::Seam(name) => (1, name),
        };
        kind << 48 | (name.by.0 as u64) << 16 | name.no as u64
    }
}

impl PartialOrd for Bound {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// Lines are looked up by bound more than anything else is: one comparison instead of three.
impl Ord for Bound {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn raw_edges_come_before_seams_and_lower_names_first() {
        let name = |by, no| Name::new(Mark(by), no);
        let bounds = [(1, 0), (1, u16::MAX), (2, 0), (u32::MAX, 0), (u32::MAX, u16::MAX)];
        let mut sorted: Vec<Bound> = bounds.map(|(by, no)| Bound::Raw(name(by, no))).to_vec();
        sorted.extend(bounds.map(|(by, no)| Bound::Seam(name(by, no))));
        assert!(sorted.windows(2).all(|pair| pair[0] < pair[1]));
    }

    #[test]
    fn a_name_is_read_as_it_is_written() {
        for no in [0, 1, 25, 26, 27, 700, 20_000, u16::MAX] {
            let name = Name::new(Mark(12), no);
            assert_eq!(name.to_string().parse(), Ok(name));
        }
        assert_eq!(Name::new(Mark(3), 26).to_string(), "3aa");
        for bad in ["", "c", "12", "c12", "12C", "12c3", "99999999999a", "1zzzzzzzzz"] {
            assert!(bad.parse::<Name>().is_err(), "{bad}");
        }
    }
}
