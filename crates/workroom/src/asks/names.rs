//! What the maker calls the goods that a report of enough knows by number.

use crate::stash::Stash;
use quilt::cloth::ClothId;
use quilt::length::whole_up;
use quilt::stage::enough::{Goods, Line};
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
        let known = match goods {
            Goods::Print(print) => self.prints.get(print),
            Goods::Cloth(cloth) => self.cloths.get(cloth),
            _ => None,
        };
        known.cloned().unwrap_or_else(|| goods.to_string())
    }

    /// What a line lacks, in words: needs rounded up, what is there down.
    #[must_use]
    pub fn short(&self, line: &Line) -> String {
        let Line { goods, unit, needed, has, short } = line;
        let (needed, there, short) = (whole_up(*needed), has.floor(), whole_up(*short));
        let there =
            if *has > 0.0 { format!("{there:.0} there: {short:.0} short") } else { "none there".to_owned() };
        format!("{}: {needed:.0} {unit} needed, {there}", self.named(goods))
    }
}
