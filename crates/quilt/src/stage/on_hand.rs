//! A cloth of the stash as a stage sees it: what of it is sound and free, and how it may be turned.

use super::enough::Goods;
use crate::cloth::{Cloth, ClothId, Kind, Runs};
use plane::{Region, Turn};

/// A cloth that a stage may cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct OnHand {
    /// Which cloth.
    pub cloth: ClothId,
    /// What its maker calls it.
    pub name: String,
    /// What sort of thing it is.
    pub kind: Kind,
    /// Its print, when that has a number.
    pub print: Option<u64>,
    /// The parts of it that are sound and that nothing else claims, in the cloth's own inches.
    pub free: Vec<Region>,
    /// Which ways up its print may be used.
    pub runs: Runs,
    /// Direction of the lengthwise threads.
    pub grain: Turn,
}

impl OnHand {
    /// All of a cloth but its flaws.
    #[must_use]
    pub fn all_of(cloth: &Cloth) -> Self {
        let free = if cloth.flaws.is_empty() {
            vec![cloth.outline.clone()]
        } else {
            plane::difference(&cloth.outline, &cloth.flaws)
        };
        Self::with_free(cloth, free)
    }

    /// A cloth of which only these parts are free.
    #[must_use]
    pub fn with_free(cloth: &Cloth, free: Vec<Region>) -> Self {
        Self {
            cloth: cloth.id,
            name: cloth.name.clone(),
            kind: cloth.kind,
            print: cloth.print,
            free,
            runs: cloth.look.runs,
            grain: cloth.grain,
        }
    }

    /// What a report counts it as: its print, or itself when that has no number.
    #[must_use]
    pub fn goods(&self) -> Goods {
        Goods::of_cloth(self.cloth, self.print)
    }

    /// Free area, in square inches.
    #[must_use]
    pub fn area_in2(&self) -> f64 {
        self.free.iter().map(Region::area).sum()
    }

    /// Whether patches can be cut from it: batting, a whole back and leftovers of binding are no patchwork
    /// cloth.
    #[must_use]
    pub const fn is_patchwork(&self) -> bool {
        !matches!(self.kind, Kind::Batting | Kind::Backing | Kind::Binding)
    }

    /// Whether a back can be cut from it.
    #[must_use]
    pub const fn is_back_cloth(&self) -> bool {
        matches!(self.kind, Kind::Scrap | Kind::Length | Kind::Pieced | Kind::Backing | Kind::StripSet)
    }
}
