//! What is needed against what there is, for the whole piece and stage by stage.

use super::goods::{Goods, Key, Unit};
use super::need::{Asked, Have, StageName};
use super::problem::EnoughProblem;
use super::shop::{Buy, Shop};
use super::work::{Rates, hours};
use serde::Serialize;
use std::collections::BTreeMap;

/// Amounts this near each other are the same: what adding up leaves behind.
const TIE: f64 = 1e-6;

/// One kind of goods: needed, there, missing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// What.
    pub goods: Goods,
    /// In what it is measured.
    pub unit: Unit,
    /// How much is needed, as cut.
    pub needed: f64,
    /// How much there is; in a stage, what the stages before it leave.
    pub has: f64,
    /// How much is missing; 0 when there is enough.
    pub short: f64,
}

/// What one stage needs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StageReport {
    /// Which.
    pub stage: StageName,
    /// Everything it uses, against what the stages before it leave.
    pub lines: Vec<Line>,
    /// Hours of work, by the maker's rates.
    pub hours: f64,
}

impl StageReport {
    /// Whether there is enough for it.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        self.lines.iter().all(|line| line.short == 0.0)
    }
}

/// The report for the whole piece.
///
/// Of cloth in scraps only the area is compared: where it is short, there isn't enough; where it
/// isn't, the pieces may still not fit, which the plan's audit of each cloth tells.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Enough {
    /// Everything the piece uses.
    pub lines: Vec<Line>,
    /// Stage by stage, in the order of work; stages that need nothing are left out.
    pub stages: Vec<StageReport>,
    /// What to buy.
    pub buy: Vec<Buy>,
    /// Hours of work, by the maker's rates.
    pub hours: f64,
    /// What the hours are worth, where an hour's worth is set.
    pub work_cost: Option<f64>,
    /// What the shopping costs, where every price is known.
    pub buy_cost: Option<f64>,
}

impl Enough {
    /// Whether there is enough of everything.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        self.lines.iter().all(|line| line.short == 0.0)
    }
}

/// Holds what the stages ask for against what there is.
///
/// # Errors
/// An amount that is below 0 or isn't a number, with its stage and goods; rates or a shop that make
/// no sense.
pub fn enough(asked: &Asked, have: &[Have], shop: &Shop, rates: &Rates) -> Result<Enough, EnoughProblem> {
    check(asked, have)?;
    shop.check()?;
    rates.check()?;
    let has = counted(have.iter().map(|have| (&have.goods, have.amount)));
    let needed = counted(asked.needs.iter().map(|need| (&need.goods, need.amount)));
    let lines: Vec<Line> = needed.iter().map(|(key, need)| line(need, amount(&has, key))).collect();
    let buy: Vec<Buy> = lines.iter().filter_map(|line| shop.buy(line)).collect();
    let stages = stages(asked, has, rates);
    // Of nothing at all the sum is -0, which 0 makes plain.
    let hours = stages.iter().map(|stage| stage.hours).sum::<f64>() + 0.0;
    Ok(Enough {
        work_cost: rates.per_hour.map(|worth| worth * hours),
        buy_cost: buy.iter().map(|buy| buy.cost).sum::<Option<f64>>().map(|cost| cost + 0.0),
        lines,
        stages,
        buy,
        hours,
    })
}

type Counted = BTreeMap<Key, (Goods, f64)>;

fn counted<'a>(parts: impl Iterator<Item = (&'a Goods, f64)>) -> Counted {
    let mut counted = Counted::new();
    for (goods, amount) in parts {
        counted.entry(goods.key()).or_insert_with(|| (goods.clone(), 0.0)).1 += amount;
    }
    counted
}

fn amount(counted: &Counted, key: &Key) -> f64 {
    counted.get(key).map_or(0.0, |(_, amount)| *amount)
}

fn line((goods, needed): &(Goods, f64), has: f64) -> Line {
    let missing = needed - has;
    let short = if missing > TIE { missing } else { 0.0 };
    Line { goods: goods.clone(), unit: goods.unit(), needed: *needed, has, short }
}

fn stages(asked: &Asked, mut left: Counted, rates: &Rates) -> Vec<StageReport> {
    let hours = hours(&asked.work, rates);
    let mut reports = Vec::new();
    for stage in StageName::ALL {
        let own = asked.needs.iter().filter(|need| need.stage == stage);
        let needed = counted(own.map(|need| (&need.goods, need.amount)));
        let mut lines = Vec::with_capacity(needed.len());
        for (key, need) in &needed {
            let has = amount(&left, key);
            lines.push(line(need, has));
            if let Some((_, there)) = left.get_mut(key) {
                *there = (has - need.1).max(0.0);
            }
        }
        let hours = hours.get(&stage).copied().unwrap_or(0.0);
        if !lines.is_empty() || hours > 0.0 {
            reports.push(StageReport { stage, lines, hours });
        }
    }
    reports
}

fn check(asked: &Asked, have: &[Have]) -> Result<(), EnoughProblem> {
    let sound = |amount: f64| amount.is_finite() && amount >= 0.0;
    if let Some(need) = asked.needs.iter().find(|need| !sound(need.amount)) {
        let (stage, goods) = (need.stage, need.goods.clone());
        return Err(EnoughProblem::Needed { stage, goods, amount: need.amount });
    }
    if let Some(have) = have.iter().find(|have| !sound(have.amount)) {
        return Err(EnoughProblem::Had { goods: have.goods.clone(), amount: have.amount });
    }
    match asked.work.iter().find(|work| !sound(work.amount)) {
        Some(work) => Err(EnoughProblem::Work { stage: work.stage, amount: work.amount }),
        None => Ok(()),
    }
}
