//! What a stage needs, and what there is.

use super::goods::Goods;
use super::work::Work;
use crate::cloth::Kind;
use crate::stage::on_hand::OnHand;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The stages that use something up, in the order in which they are done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StageName {
    /// Piecing the centre.
    Centre,
    /// The ring from a strip set.
    Ring,
    /// The border.
    Border,
    /// Squaring up, with the corners that it fills.
    SquareUp,
    /// Backing.
    Backing,
    /// Batting.
    Batting,
    /// Basting.
    Basting,
    /// Quilting.
    Quilting,
    /// Binding, or a facing.
    Binding,
    /// Hanging sleeve and label.
    Sleeve,
    /// The appliquéd figure.
    Figure,
}

impl StageName {
    /// All of them, in order.
    pub const ALL: [Self; 11] = [
        Self::Centre,
        Self::Ring,
        Self::Border,
        Self::SquareUp,
        Self::Backing,
        Self::Batting,
        Self::Basting,
        Self::Quilting,
        Self::Binding,
        Self::Sleeve,
        Self::Figure,
    ];
}

impl fmt::Display for StageName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Centre => "centre",
            Self::Ring => "ring",
            Self::Border => "border",
            Self::SquareUp => "squaring up",
            Self::Backing => "backing",
            Self::Batting => "batting",
            Self::Basting => "basting",
            Self::Quilting => "quilting",
            Self::Binding => "binding",
            Self::Sleeve => "sleeve",
            Self::Figure => "figure",
        })
    }
}

/// Something that a stage uses up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Need {
    /// Which stage.
    pub stage: StageName,
    /// What.
    pub goods: Goods,
    /// How much, in the goods' unit, as cut.
    pub amount: f64,
}

/// Something that there is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Have {
    /// What.
    pub goods: Goods,
    /// How much, in the goods' unit.
    pub amount: f64,
}

impl Have {
    /// What a cloth of the stash counts as: its free area. A leftover of binding isn't cloth to cut
    /// from; [`Have::binding`] counts it.
    #[must_use]
    pub fn cloth(cloth: &OnHand) -> Option<Self> {
        (cloth.kind != Kind::Binding).then(|| Self { goods: cloth.goods(), amount: cloth.area_in2() })
    }

    /// A leftover of binding, so many inches of it.
    #[must_use]
    pub const fn binding(name: String, strip_in: f64, bias: bool, length_in: f64) -> Self {
        Self { goods: Goods::Binding { name, strip_in, bias }, amount: length_in }
    }
}

/// All that the stages ask for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// What they use up.
    pub needs: Vec<Need>,
    /// What there is to do.
    pub work: Vec<Work>,
}

impl Asked {
    /// Adds a need, unless it is nothing.
    pub fn need(&mut self, stage: StageName, goods: Goods, amount: f64) {
        if amount != 0.0 {
            self.needs.push(Need { stage, goods, amount });
        }
    }

    /// Adds work, unless it is nothing.
    pub fn work(&mut self, stage: StageName, kind: super::WorkKind, amount: f64) {
        if amount != 0.0 {
            self.work.push(Work { stage, kind, amount });
        }
    }

    /// Adds all that another asks for.
    pub fn add(&mut self, other: Self) {
        self.needs.extend(other.needs);
        self.work.extend(other.work);
    }
}
