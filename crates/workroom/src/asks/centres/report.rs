//! What is said about joined centres.

use ::grow::centres::{Block, CentresPlan, What};
use quilt::length::{fraction, many};
use serde::Serialize;

/// What squaring a centre took.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CentreSquared {
    /// The centre.
    pub name: String,
    /// What was cut off, in per cent of its raw area.
    pub lost_percent: f64,
    /// Patches that finish thinner than half an inch through it.
    pub thin: usize,
}

/// How heavy the centres look: mean visual weight of each, 0 (white) to 100 (black).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weights {
    /// The lightest.
    pub least: f64,
    /// The mean.
    pub mean: f64,
    /// The heaviest.
    pub most: f64,
}

/// Everything about joined centres.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CentresReport {
    /// The centres as blocks, finished.
    pub blocks: Vec<Block>,
    /// What squaring them took, in the same order.
    pub squared: Vec<CentreSquared>,
    /// Their weights.
    pub weights: Weights,
    /// Where everything lies, the coping and the seams.
    pub plan: CentresPlan,
    /// The joining order, a sentence for each seam.
    pub order: Vec<String>,
    /// The seams that stop short and are closed later, a sentence each.
    pub partial: Vec<String>,
}

impl CentresReport {
    pub(super) fn new(plan: CentresPlan, blocks: Vec<Block>, squared: Vec<CentreSquared>) -> Self {
        let weights = blocks.iter().map(|block| block.weight);
        let mean = weights.clone().sum::<f64>() / blocks.len().max(1) as f64;
        let least = weights.clone().fold(f64::INFINITY, f64::min);
        let weights = Weights { least, mean, most: weights.fold(0.0, f64::max) };
        let (order, partial) = (plan.story(&blocks), plan.partial_seams_told(&blocks));
        Self { blocks, squared, weights, plan, order, partial }
    }

    /// The report in sentences, the joining order last.
    #[must_use]
    pub fn words(&self) -> Vec<String> {
        let plan = &self.plan;
        let size = |w: f64, h: f64| format!("{} by {}", fraction(w, 8), fraction(h, 8));
        let mut words = vec![format!(
            "{} joined to a top {} (finished), {} (raw).",
            many(self.blocks.len(), "centre", "centres"),
            size(plan.finished_width_in, plan.finished_height_in),
            size(plan.raw_width_in, plan.raw_height_in)
        )];
        for (i, (block, squared)) in self.blocks.iter().zip(&self.squared).enumerate() {
            let at = plan.parts.iter().find(|part| part.what == What::Block(i));
            let place = at.map_or_else(String::new, |part| {
                let turned = if part.turned { ", a quarter turn to the left" } else { "" };
                let (x, y) = (fraction(part.at.x_in, 16), fraction(part.at.y_in, 16));
                format!(", {x} from the left and {y} from below{turned}")
            });
            words.push(format!(
                "    {}: {} finished{place}; squaring it took {:.1} % off.",
                block.name,
                size(block.width_in, block.height_in),
                squared.lost_percent
            ));
        }
        for (i, strip) in plan.strips.iter().enumerate() {
            let lies = if strip.upright { "upright" } else { "level" };
            words.push(format!(
                "    strip {}: coping, {lies}, {} wide finished, cut {}.",
                i + 1,
                fraction(strip.finished_wide_in, 16),
                size(strip.cut_wide_in, strip.cut_long_in)
            ));
        }
        words.push(format!(
            "{}: {:.1} % of the top, {:.0} square inches to cut.",
            many(plan.strips.len(), "coping strip", "coping strips"),
            100.0 * plan.coping_share,
            plan.coping_cut_sq_in
        ));
        words.push(format!(
            "Weights from {:.0} to {:.0}, {:.0} in the mean; like beside like {:.2} (0 never, 1/2 by chance, 1 always), same prints beside each other {:.2}.",
            self.weights.least, self.weights.most, self.weights.mean, plan.cost.weights, plan.cost.prints
        ));
        if !self.partial.is_empty() {
            words.push(format!(
                "It can't be sewn with full straight seams: {}, which cost {:.0} of {:.2} in all.",
                many(plan.partial_seams, "partial seam", "partial seams"),
                plan.cost.partial_seams,
                plan.cost_total
            ));
            words.extend(self.partial.iter().map(|sentence| format!("    {sentence}")));
        }
        words.push("In this order; what seam 3 makes is called unit 3:".to_owned());
        words.extend(self.order.iter().map(|sentence| format!("    {sentence}")));
        words
    }
}
