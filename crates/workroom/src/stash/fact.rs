//! The facts of the ledger. Their form is stored and never changes; new ones may be added.

use super::Changes;
use plane::Region;
use quilt::cloth::{Cloth, ClothId};
use quilt::supply::Supply;
use serde::{Deserialize, Serialize};

/// What came about.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fact {
    /// A cloth came into the stash, or became known.
    Came {
        /// The cloth, whole.
        cloth: Cloth,
        /// What of it is there.
        #[serde(default)]
        left: Left,
    },
    /// A shape was cut out of a cloth.
    Cut {
        /// Out of which.
        from: ClothId,
        /// What for.
        by: By,
        /// What was taken, in the cloth's coordinates.
        taken: Vec<Region>,
        /// What was taken, as a cloth of its own where it stays in the stash.
        #[serde(default)]
        kept: Option<Cloth>,
        /// What is left. The largest part keeps the cloth's name; others are new cloths.
        remainders: Vec<Cloth>,
        /// What is left but too small to keep.
        waste: Vec<Region>,
        /// How much of the shape the ledger had no cloth for, in square inches. Only where the
        /// maker cut it all the same.
        #[serde(default)]
        beyond_in2: f64,
    },
    /// What a trim took off came back.
    Offcut {
        /// The step that trimmed.
        by: By,
        /// The offcut, if it is worth keeping.
        came: Option<Cloth>,
        /// Area that isn't, in square inches.
        waste_in2: f64,
        /// What was taken off which patch, told once for each trim: a patch that is unpicked later
        /// comes back without it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        off: Vec<Off>,
    },
    /// Seams were unpicked: of a quilt, or of a pieced cloth, which is then gone.
    Unpicked {
        /// Which steps, or by hand.
        by: By,
        /// The pieced cloth that is gone.
        #[serde(default)]
        gone: Vec<ClothId>,
        /// The cloths that came of it.
        came: Vec<Cloth>,
    },
    /// Something came that isn't cloth: thread, pins.
    Supplied {
        /// What.
        supply: Supply,
    },
    /// Strips were sewn side by side.
    StripSet {
        /// What came of it. Its strips are cut by facts of their own.
        cloth: Cloth,
    },
    /// What is known of a cloth changed.
    Changed {
        /// Which.
        cloth: ClothId,
        /// What changed.
        changes: Box<Changes>,
    },
    /// The cloth left the stash: given away, lost, thrown out.
    Gone {
        /// Which.
        cloth: ClothId,
    },
    /// What is sewn of a quilt belongs to another now, into which it was joined.
    Joined {
        /// The quilt's number in this workroom.
        from: i64,
        /// That of the other.
        into: i64,
        /// The marks of its patches: on its own path, and on the other's.
        patches: Vec<[u32; 2]>,
    },
    /// An earlier fact does not hold.
    Void(u64),
}

/// What of a cloth is there when it comes.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Left {
    /// All of it.
    #[default]
    Whole,
    /// This part, in its coordinates.
    Part(Region),
    /// Nothing: it is only known, because a quilt was made of it.
    Nothing,
}

/// What a trim took off one patch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Off {
    /// The mark of the step that laid the patch.
    pub patch: u32,
    /// What was taken off, in the coordinates of the patch's cloth.
    pub region: Region,
}

/// What a cut was made for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum By {
    /// By hand, for no quilt in the workroom.
    Hand,
    /// For a step of a quilt.
    Step {
        /// The quilt's number in this workroom.
        quilt: i64,
        /// The entry, as 64 hexadecimal digits.
        step: String,
        /// The step's mark on its path.
        mark: u32,
    },
}

impl Fact {
    /// The cloths that come into being by it, in the order in which they are numbered.
    pub fn cloths(&self) -> impl Iterator<Item = &Cloth> {
        let (one, many): (Option<&Cloth>, &[Cloth]) = match self {
            Self::Came { cloth, .. } | Self::StripSet { cloth } => (Some(cloth), &[]),
            Self::Cut { kept, remainders, .. } => (kept.as_ref(), remainders),
            Self::Offcut { came, .. } => (came.as_ref(), &[]),
            Self::Unpicked { came, .. } => (None, came),
            Self::Changed { .. }
            | Self::Gone { .. }
            | Self::Supplied { .. }
            | Self::Joined { .. }
            | Self::Void(_) => (None, &[]),
        };
        one.into_iter().chain(many)
    }

    /// What is numbered by it: its cloths in their order, or a supply.
    pub(crate) fn numbered(&self) -> impl Iterator<Item = ClothId> {
        let supply = if let Self::Supplied { supply } = self { Some(supply.id) } else { None };
        self.cloths().map(|cloth| cloth.id).chain(supply)
    }

    /// The cloths that it needs to be there.
    pub(crate) fn needs(&self) -> &[ClothId] {
        match self {
            Self::Cut { from: one, .. } | Self::Changed { cloth: one, .. } | Self::Gone { cloth: one } => {
                std::slice::from_ref(one)
            }
            Self::Unpicked { gone, .. } => gone,
            _ => &[],
        }
    }
}
