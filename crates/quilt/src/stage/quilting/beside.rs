//! What is kept free of lines, what holds the layers there, and what other stages have to do with it.

use plane::Region;
use serde::{Deserialize, Serialize};

/// What holds the layers where nothing is quilted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Held {
    /// Nothing, as under a figure that is sewn to the top alone: a gap reaches across.
    #[default]
    Not,
    /// Its edge, which is sewn through all layers later: a gap ends there, and what lies inside counts.
    AtEdge,
    /// It is a hole, or all of it is held: nothing inside counts.
    Hole,
}

/// A shape that is not quilted over.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KeepOut {
    /// Its outline on the piece, raw.
    #[serde(flatten)]
    pub shape: Region,
    /// What holds the layers there.
    #[serde(default)]
    pub held: Held,
}

impl From<Region> for KeepOut {
    fn from(shape: Region) -> Self {
        Self { shape, held: Held::default() }
    }
}

/// What other stages have to do with the quilting. It is not kept with the choice: it is worked out from
/// what is chosen there, so that it can't grow stale.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beside {
    /// A figure that is sewn on before, to the top alone: quilted round, and held by nothing.
    pub figure: Vec<Region>,
    /// Whether the layers are loaded with the piece's width along the rollers; `None` when they lie on
    /// no frame.
    pub width_along_rollers: Option<bool>,
}

/// All that is kept free: the maker's own shapes and the figure.
pub(super) fn kept_free(own: &[KeepOut], beside: &Beside) -> Vec<KeepOut> {
    own.iter().cloned().chain(beside.figure.iter().cloned().map(KeepOut::from)).collect()
}
