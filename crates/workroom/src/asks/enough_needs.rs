//! What binding, sleeve and figure use up, and what there is to do for them.

use quilt::cloth::ClothId;
use quilt::stage::binding::{BindingChoice, BindingPlan, FinishPlan, Supply, SupplyCloth};
use quilt::stage::enough::{Asked, Goods, Have, Need, StageName, WorkKind};
use quilt::stage::figure::{FigurePlan, LineKind};
use quilt::stage::on_hand::OnHand;
use quilt::stage::sleeve::{SleeveChoice, SleevePlan};
use std::collections::BTreeMap;

/// Allowance all round a label.
const LABEL_SEAM_IN: f64 = 0.25;

/// What of the heap serves where any cloth does: of each print as much as nothing that is asked for by
/// name takes, patchwork cloth only; it goes to the stages in their order. As with all cloth in scraps
/// only the area is compared, so that the pieces may still be too small.
pub(super) fn serves_any(asked: &Asked, all: &[OnHand]) -> Vec<Have> {
    let mut free: BTreeMap<ClothKey, f64> = BTreeMap::new();
    for cloth in all.iter().filter(|cloth| cloth.is_patchwork()) {
        if let Some(key) = cloth_key(&cloth.goods()) {
            *free.entry(key).or_default() += cloth.area_in2();
        }
    }
    for need in &asked.needs {
        if let Some(left) = cloth_key(&need.goods).and_then(|key| free.get_mut(&key)) {
            *left -= need.amount;
        }
    }
    let mut left: f64 = free.values().map(|left| left.max(0.0)).sum();
    let mut any: Vec<_> =
        asked.needs.iter().filter(|need| matches!(need.goods, Goods::AnyCloth { .. })).collect();
    any.sort_by_key(|need| need.stage);
    let serve = |need: &Need| {
        let amount = need.amount.min(left);
        left -= amount;
        Have { goods: need.goods.clone(), amount }
    };
    any.into_iter().map(serve).collect()
}

/// A print by its number, or a cloth by itself.
pub(crate) type ClothKey = (bool, u64);

/// Which print or cloth goods are.
pub(crate) const fn cloth_key(goods: &Goods) -> Option<ClothKey> {
    match goods {
        Goods::Print(print) => Some((true, *print)),
        Goods::Cloth(cloth) => Some((false, cloth.0)),
        _ => None,
    }
}

/// All that the stages ask for, and what their choices say that there is.
#[derive(Default)]
pub(super) struct Needs {
    pub(super) asked: Asked,
    /// What is there besides the heap's cloth and supplies: leftovers that a choice names.
    pub(super) had: Vec<Have>,
    seams: BTreeMap<StageName, usize>,
}

impl Needs {
    /// Counts so many seams, each of which has its tails.
    pub(super) fn seams(&mut self, stage: StageName, count: usize) {
        *self.seams.entry(stage).or_insert(0) += count;
    }

    pub(super) fn seams_of(&self, stage: StageName) -> usize {
        self.seams.get(&stage).copied().unwrap_or(0)
    }

    /// A binding from strips at hand, leftovers or laid in a cloth: so much needed, so much had; and what
    /// there is to sew.
    pub(super) fn at_hand(&mut self, choice: &BindingChoice, [needed, has]: [f64; 2], net_in: f64) {
        let (name, bias) = match choice.supply {
            Supply::Laid { is_bias, .. } => ("the strips laid in its cloth", is_bias),
            Supply::Leftovers { is_bias, .. } => ("leftovers", is_bias),
            Supply::Straight | Supply::BiasStrips | Supply::BiasSquare => return,
        };
        let (name, strip_in) = (name.to_owned(), choice.strip_width_in);
        self.asked.need(StageName::Binding, Goods::Binding { name: name.clone(), strip_in, bias }, needed);
        self.had.push(Have::binding(name, strip_in, bias, has));
        self.sew_edge(net_in);
    }

    /// Sewing an edge on by machine and stitching it down by hand.
    fn sew_edge(&mut self, length_in: f64) {
        self.asked.work(StageName::Binding, WorkKind::BindByMachine, length_in);
        self.asked.work(StageName::Binding, WorkKind::HandStitch, length_in);
    }
}

/// Binding and facing are cut from a cloth of the heap where one is named, else the cloth is to be
/// bought; leftovers are there.
pub(super) fn binding(
    choice: &BindingChoice,
    plan: &FinishPlan,
    goods_of: &dyn Fn(ClothId) -> Goods,
    needs: &mut Needs,
) {
    let stage = StageName::Binding;
    let from = choice.cloth.map(goods_of);
    match plan {
        FinishPlan::Bound(plan) => {
            if let Supply::Leftovers { .. } = choice.supply {
                let (needed, has) = (plan.length_needed_in, plan.length_got_in);
                return needs.at_hand(choice, [needed, has], plan.net_length_in);
            }
            match from {
                Some(cloth) => needs.asked.need(stage, cloth, cut_in2(choice, plan)),
                None => needs.asked.need(stage, bought(choice, choice.strip_width_in), plan.length_needed_in),
            }
            needs.sew_edge(plan.net_length_in);
        }
        FinishPlan::Faced(plan) => {
            let length_in: f64 = plan.strips.iter().map(|strip| strip.cut_length_in).sum();
            let straight = BindingChoice { supply: Supply::Straight, ..choice.clone() };
            match from {
                Some(cloth) => needs.asked.need(stage, cloth, plan.area_cut_in2),
                None => needs.asked.need(stage, bought(&straight, plan.cut_width_in), length_in),
            }
            needs.sew_edge(length_in);
        }
    }
}

fn bought(choice: &BindingChoice, strip_in: f64) -> Goods {
    let bias = matches!(choice.supply, Supply::BiasStrips | Supply::BiasSquare);
    Goods::Binding { name: "any cloth".to_owned(), strip_in, bias }
}

/// What is cut off the cloth: straight strips by themselves, bias with the corners that it leaves.
fn cut_in2(choice: &BindingChoice, plan: &BindingPlan) -> f64 {
    match plan.cloth {
        SupplyCloth::Square { side_cut_in, .. } => side_cut_in * side_cut_in,
        SupplyCloth::BiasLengths { cuts, length_cut_in, .. } => {
            f64::from(cuts) * length_cut_in * choice.usable_in
        }
        SupplyCloth::Length { .. } | SupplyCloth::Leftovers(_) | SupplyCloth::Laid { .. } => {
            plan.strips_cut_in.iter().sum::<f64>() * choice.strip_width_in
        }
    }
}

/// Sleeve or tabs, rod and label. A part of the sleeve has a long seam and two hems; it is stitched down along
/// both its long edges, the label all round.
pub(super) fn sleeve(choice: &SleeveChoice, plan: &SleevePlan, needs: &mut Needs) {
    let stage = StageName::Sleeve;
    let (wide, parts, long): (f64, usize, f64) = if plan.has_sleeve {
        let long = plan.parts.iter().map(|part| part.cut_length_in).sum();
        (plan.cut_width_in, plan.parts.len(), long)
    } else {
        let long = plan.tabs.iter().map(|tab| tab.cut_length_in).sum();
        (plan.tab_cut_width_in, plan.tabs.len(), long)
    };
    let any = |purpose: &str| Goods::AnyCloth { purpose: purpose.to_owned() };
    needs.asked.need(stage, any(if plan.has_sleeve { "the sleeve" } else { "the tabs" }), long * wide);
    needs.asked.need(stage, Goods::Rod { long_in: plan.rod_length_in }, 1.0);
    needs.asked.work(stage, WorkKind::Seam, long + 2.0 * wide * parts as f64);
    needs.seams(stage, 3 * parts);
    let mut by_hand = 2.0 * long;
    if plan.label.is_some() {
        let [wide, high] = choice.label_in;
        let [wide_cut, high_cut] = [wide, high].map(|side| side + 2.0 * LABEL_SEAM_IN);
        needs.asked.need(stage, any("the label"), wide_cut * high_cut);
        by_hand += 2.0 * (wide + high);
    }
    needs.asked.work(stage, WorkKind::HandStitch, by_hand);
}

/// The figure's patches and the bias strips of its stems, each of the cloth that its shape names.
pub(super) fn figure(plan: &FigurePlan, goods_of: &dyn Fn(ClothId) -> Goods, needs: &mut Needs) {
    let stage = StageName::Figure;
    let any = || Goods::AnyCloth { purpose: "the figure".to_owned() };
    for patch in &plan.patches {
        needs.asked.need(stage, patch.cloth.map_or_else(any, goods_of), patch.cut_area_sq_in);
    }
    for line in &plan.lines {
        if let LineKind::BiasStem { cut_width_in, cut_length_in, .. } = line.kind {
            needs.asked.need(stage, line.cloth.map_or_else(any, goods_of), cut_width_in * cut_length_in);
        }
    }
    needs.asked.work(stage, WorkKind::Cut, plan.patches.len() as f64);
    needs.asked.work.extend(plan.hand.work());
}
