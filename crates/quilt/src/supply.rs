//! What a heap holds besides cloth: thread on spools, and what is counted (pins, cans of spray).

use crate::cloth::ClothId;
use crate::stage::enough::Goods;
use crate::stage::thread::Spool;
use colour::Lab;
use serde::{Deserialize, Serialize};

/// The size of thread that is taken where none is said (common practice, no source).
pub const USUAL_WEIGHT: &str = "50";

/// One supply. Its number is given from the same row as those of cloths.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Supply {
    /// Its name for ever.
    pub id: ClothId,
    /// What its maker calls it: of thread its colour, of counted things what they are.
    pub name: String,
    /// What it is, and how much.
    pub what: SupplyKind,
}

/// A sort of supply.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SupplyKind {
    /// Thread on a spool.
    Thread {
        /// Its colour.
        lab: Lab,
        /// Its size, as on the label.
        weight: String,
        /// What is on it, in yards.
        left_yd: f64,
    },
    /// Things that are counted.
    Counted {
        /// How many.
        count: f64,
    },
}

impl Supply {
    /// What a report counts it as, and how much of that it is.
    #[must_use]
    pub fn goods(&self) -> (Goods, f64) {
        let name = self.name.clone();
        match &self.what {
            SupplyKind::Thread { weight, left_yd, .. } => {
                (Goods::Thread { colour: name, weight: weight.clone() }, 36.0 * left_yd)
            }
            SupplyKind::Counted { count } => (Goods::Counted { name }, *count),
        }
    }

    /// The spool that it is; `None` when it isn't thread.
    #[must_use]
    pub fn spool(&self) -> Option<Spool> {
        match self.what {
            SupplyKind::Thread { lab, left_yd, .. } => {
                Some(Spool { name: self.name.clone(), lab, left_yd: Some(left_yd) })
            }
            SupplyKind::Counted { .. } => None,
        }
    }

    /// In words: `grey thread, 50 weight, 500 yards`.
    #[must_use]
    pub fn words(&self) -> String {
        match &self.what {
            SupplyKind::Thread { weight, left_yd, .. } => {
                format!("{} thread, {weight} weight, {left_yd:.0} yards", self.name)
            }
            SupplyKind::Counted { count } if *count == 1.0 => {
                let one = self.name.replacen("cans", "can", 1).replacen("pins", "pin", 1);
                format!("1 {one}")
            }
            SupplyKind::Counted { count } => format!("{count:.0} {}", self.name),
        }
    }
}
