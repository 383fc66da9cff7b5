//! What the maker calls the goods that a report of enough knows by number.

use crate::stash::Stash;
use quilt::cloth::ClothId;
use quilt::length::{Scale, whole_up};
use quilt::stage::enough::{Goods, Line, Unit};
use std::collections::BTreeMap;

/// Names of prints and cloths.
#[derive(Clone, Debug, Default)]
pub struct GoodsNames {
    prints: BTreeMap<u64, String>,
    cloths: BTreeMap<ClothId, String>,
}

impl GoodsNames {
    /// As the stash has them; a print is called by the first cloth of it.
    #[must_use]
    pub fn of(stash: &Stash) -> Self {
        let mut names = Self::default();
        for item in stash.items() {
            let name = &item.came.name;
            if let Some(print) = item.came.print {
                names.prints.entry(print).or_insert_with(|| format!("the print of {name}"));
            }
            names.cloths.insert(item.came.id, name.clone());
        }
        names
    }

    /// What goods are called; by what they are where they have no name of their own.
    #[must_use]
    pub fn named(&self, goods: &Goods) -> String {
        self.named_by(goods, Scale::Inches)
    }

    /// The same, with measures in the unit of a scale.
    #[must_use]
    pub fn named_by(&self, goods: &Goods, scale: Scale) -> String {
        let known = match goods {
            Goods::Print(print) => self.prints.get(print),
            Goods::Cloth(cloth) => self.cloths.get(cloth),
            _ => None,
        };
        known.cloned().unwrap_or_else(|| goods.words(scale))
    }

    /// What a line lacks, in words: needs rounded up, what is there down.
    #[must_use]
    pub fn short(&self, line: &Line) -> String {
        let (each, unit) = match (&line.goods, line.unit) {
            (Goods::Thread { .. }, Unit::Inches) => (36.0, "yards".to_owned()),
            (_, Unit::Pieces) if line.needed <= 1.0 => (1.0, "piece".to_owned()),
            (_, unit) => (1.0, unit.to_string()),
        };
        let up = |amount: f64| whole_up(amount / each);
        let there = if line.has > 0.0 {
            let has = (line.has / each + plane::READING).floor();
            let has = if has < 1.0 { "less than 1".to_owned() } else { format!("{has:.0}") };
            format!("{has} there: {:.0} short", up(line.short))
        } else {
            "none there".to_owned()
        };
        format!("{}: {:.0} {unit} needed, {there}", self.named(&line.goods), up(line.needed))
    }
}
