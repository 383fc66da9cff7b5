//! What to buy, rounded up to the shop's units.

use super::goods::{Goods, Unit};
use super::report::Line;
use super::sold::SoldBy;
use crate::length::{MM_PER_IN, MeasureProblem, within};
use crate::sums;
use serde::{Deserialize, Serialize};

/// Allowance of the two seams of a square for bias.
const BIAS_SEAM_IN: f64 = 0.25;

/// So many squares of bias at most.
const MOST_SQUARES: u32 = 50;

/// A price in the maker's own money.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Price {
    /// Of what.
    pub goods: Goods,
    /// For each yard, metre, spool or piece, whichever the shop sells.
    pub each: f64,
}

/// How the maker's shop sells.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Shop {
    /// Cloth off the bolt.
    pub cloth_by: SoldBy,
    /// Usable width of print cloth off the bolt: 40 to 42 of 42 to 44 (stcroixquilters.com).
    pub usable_in: f64,
    /// Thread on a spool: 200 metres (from memory).
    pub spool_m: f64,
    /// Prices that are known.
    pub prices: Vec<Price>,
}

impl Default for Shop {
    fn default() -> Self {
        Self { cloth_by: SoldBy::EighthYard, usable_in: 40.0, spool_m: 200.0, prices: Vec::new() }
    }
}

/// One line of the shopping list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Buy {
    /// What.
    pub goods: Goods,
    /// How much, in the shop's unit.
    pub quantity: f64,
    /// The shop's unit: yards, metres, spools or pieces.
    pub sold_in: &'static str,
    /// The same in words: `5 1/4 yd`.
    pub words: String,
    /// Whether it is reckoned from an area, so that it may take more.
    pub at_least: bool,
    /// What it costs, where the price is known.
    pub cost: Option<f64>,
}

impl Shop {
    /// # Errors
    /// A width, a spool or a price that makes no sense.
    pub fn check(&self) -> Result<(), MeasureProblem> {
        within("usable width", self.usable_in, [1.0, 500.0], "from 1 to 500 inches")?;
        within("thread on a spool", self.spool_m, [1.0, 100_000.0], "from 1 to 100,000 metres")?;
        for price in &self.prices {
            within("price", price.each, [0.0, 1e6], "from 0 to 1,000,000")?;
        }
        Ok(())
    }

    /// What to buy for a line that is short; `None` when it isn't.
    pub(super) fn buy(&self, line: &Line) -> Option<Buy> {
        if line.short <= 0.0 {
            return None;
        }
        let (quantity, sold_in, words) = match line.goods {
            Goods::Thread { .. } => pieces(line.short * MM_PER_IN / 1000.0 / self.spool_m, "spool"),
            Goods::BattingPackage { .. } | Goods::Counted { .. } | Goods::Rod { .. } => {
                pieces(line.short, "piece")
            }
            Goods::Print(_) | Goods::Cloth(_) | Goods::AnyCloth { .. } => {
                self.length(line.short / self.usable_in)
            }
            Goods::OffBolt { .. } => self.length(line.short),
            Goods::Binding { strip_in, bias, .. } => self.length(self.for_strips(line.short, strip_in, bias)),
        };
        let price = self.prices.iter().find(|price| price.goods.key() == line.goods.key());
        Some(Buy {
            goods: line.goods.clone(),
            quantity,
            sold_in,
            words,
            at_least: line.unit == Unit::SquareInches,
            cost: price.map(|price| price.each * quantity),
        })
    }

    fn length(&self, inches: f64) -> (f64, &'static str, String) {
        let sold = self.cloth_by;
        (sold.in_unit(sold.steps(inches)), sold.unit(), sold.words(inches))
    }

    /// Cloth off the bolt for so many inches of strip. On the straight grain each strip loses its own
    /// width at its diagonal join; on the bias it is squares, each made into one strip without end.
    fn for_strips(&self, strip_length_in: f64, strip_in: f64, bias: bool) -> f64 {
        if bias {
            return self.for_bias(strip_length_in, strip_in);
        }
        let gain = (self.usable_in - strip_in).max(self.usable_in / 2.0);
        (strip_length_in / gain).ceil() * strip_in
    }

    /// The fewest equal squares that lie across the bolt and give so much bias, their strips joined on
    /// the slant; the seams of each are 1/4 inch. A strip too wide for any square is reckoned by its
    /// area, which is less than it takes.
    fn for_bias(&self, length_in: f64, strip_in: f64) -> f64 {
        let across = |count: u32| {
            let each = length_in / f64::from(count) + if count > 1 { strip_in } else { 0.0 };
            let side = sums::square_for_bias(each, strip_in, BIAS_SEAM_IN).ok()?;
            (side <= self.usable_in).then(|| side * f64::from(count))
        };
        (1..=MOST_SQUARES).find_map(across).unwrap_or_else(|| length_in * strip_in / self.usable_in)
    }
}

fn pieces(count: f64, one: &'static str) -> (f64, &'static str, String) {
    let count = (count - 1e-6).ceil().max(0.0);
    let plural = if count == 1.0 { "" } else { "s" };
    (count, one, format!("{count:.0} {one}{plural}"))
}
