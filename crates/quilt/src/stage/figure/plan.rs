//! Everything said about a figure, from its drawing, the maker's choice and the real outline.

use super::cloth::{CutFrom, cut_from};
use super::judge::judge;
use super::laid::{Laid, lay};
use super::places::{Places, Slide, clear_ground};
use super::seen::Above;
use super::{FigureChoice, FigureLine, FigureOrder, FigurePatch, FigureProblem, Finding, HandWork};
use crate::stage::habits::Habits;
use crate::stage::on_hand::OnHand;
use plane::{MITRE_LIMIT, Point, Region, offset, polygon, union};
use serde::Serialize;

/// What is said about a figure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FigurePlan {
    /// Inches that one unit of the drawing becomes.
    pub scale: f64,
    /// Finished width and height before it is turned.
    pub width_in: f64,
    /// See `width_in`.
    pub height_in: f64,
    /// The layers that are sewn, lowest first.
    pub patches: Vec<FigurePatch>,
    /// For each of them, how it is cut from its cloth.
    pub cut_from: Vec<CutFrom>,
    /// What is stitched or laid as a stem instead.
    pub lines: Vec<FigureLine>,
    /// What won't turn under as drawn.
    pub findings: Vec<Finding>,
    /// The scale at which every width would do; none where all do. Sharp tips don't count: no size
    /// mends them.
    pub works_at_scale: Option<f64>,
    /// Where it lies and may lie.
    pub place: FigurePlace,
    /// What the quilting keeps out of; empty when the figure is sewn on afterwards.
    pub keep_out: Vec<Region>,
    /// Hand work.
    pub hand: HandWork,
}

/// Where a figure lies and where it may.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FigurePlace {
    /// Whether it keeps its distance from the binding where it is wished.
    pub fits: bool,
    /// The nearest place for its middle; none when there is no place at this size and turn.
    pub nearest: Option<Point>,
    /// How much larger it could be with its middle here: times its size, at most 1/256 too small.
    pub largest_scale_here: f64,
    /// How much larger it could be anywhere at this turn.
    pub largest_scale: f64,
    /// All places for its middle at this turn.
    pub places: Places,
    /// Sliding along the sides, from the nearest place.
    pub slides: Vec<Slide>,
}

/// Plans a figure on a piece whose bound outline is given. `cloths` are those that shapes may name, with
/// what is free of them; thread and minutes are by the maker's `habits`.
///
/// # Errors
/// [`FigureProblem`]: numbers that make no sense, shapes that cross themselves, names that are
/// double or missing. A figure that doesn't fit where it is wished is planned nevertheless, so that
/// it can be seen; [`FigurePlace::fits`] says so.
pub fn plan(
    choice: &FigureChoice,
    outline: &Region,
    cloths: &[OnHand],
    habits: &Habits,
) -> Result<FigurePlan, FigureProblem> {
    choice.check()?;
    let outline =
        Region::try_new(outline.outer.clone(), outline.holes.clone()).map_err(FigureProblem::Outline)?;
    let laid = lay(choice)?;
    let mut plan = FigurePlan {
        scale: laid.scale,
        width_in: laid.size_in[0],
        height_in: laid.size_in[1],
        patches: Vec::new(),
        cut_from: Vec::new(),
        lines: Vec::new(),
        findings: Vec::new(),
        works_at_scale: None,
        place: place(choice, &laid, &outline),
        keep_out: keep_out(choice, &laid),
        hand: HandWork::default(),
    };
    plan.judge_shapes(choice, &laid);
    plan.cut_from = cut_from(&plan.patches, cloths);
    plan.works_at_scale = plan.findings.iter().filter_map(|found| found.works_at_scale).reduce(f64::max);
    let edges: f64 = plan.patches.iter().map(|patch| patch.turned_in).sum();
    let work = plan.lines.iter().map(FigureLine::work_in);
    let (turned_in, rows_in) = work.fold((edges, 0.0), |sum, next| (sum.0 + next.0, sum.1 + next.1));
    plan.hand = HandWork::of(turned_in, rows_in, habits)?;
    Ok(plan)
}

/// What the quilting keeps out of, without the rest of the plan; empty when the figure is sewn on
/// afterwards.
///
/// # Errors
/// As [`plan`], but for the outline.
pub fn kept_free(choice: &FigureChoice) -> Result<Vec<Region>, FigureProblem> {
    choice.check()?;
    Ok(keep_out(choice, &lay(choice)?))
}

impl FigurePlan {
    /// From the top down, since what lies under a higher layer is left flat.
    fn judge_shapes(&mut self, choice: &FigureChoice, laid: &Laid) {
        let mut above: Vec<Region> = Vec::new();
        for shape in laid.shapes.iter().rev() {
            let over = Above::new(&above);
            let judged = judge(shape, choice, &over);
            self.lines.extend(judged.lines);
            self.findings.extend(judged.findings);
            if let Some(sewn) = judged.sewn {
                let patch = FigurePatch::new(shape, sewn, choice, &over);
                above.push(patch.finished.clone());
                self.patches.push(patch);
            }
        }
        self.patches.reverse();
        self.lines.reverse();
        self.findings.reverse();
    }
}

/// Everything that shows, as outlines without holes.
fn silhouette(laid: &Laid) -> Vec<Region> {
    let filled = |ring: &Vec<Point>| Region { outer: ring.clone(), holes: Vec::new() };
    let shapes: Vec<Region> = laid.shapes.iter().map(|shape| filled(&shape.drawn.outer)).collect();
    union(&shapes).into_iter().map(|region| filled(&region.outer)).collect()
}

fn keep_out(choice: &FigureChoice, laid: &Laid) -> Vec<Region> {
    let further = choice.quilting_clear_in;
    match choice.order {
        FigureOrder::AfterQuilting => Vec::new(),
        FigureOrder::BeforeQuilting if further == 0.0 => silhouette(laid),
        FigureOrder::BeforeQuilting => {
            let grown = silhouette(laid)
                .iter()
                .flat_map(|part| offset(part, further, MITRE_LIMIT))
                .collect::<Vec<_>>();
            union(&grown)
        }
    }
}

fn place(choice: &FigureChoice, laid: &Laid, outline: &Region) -> FigurePlace {
    let ground = clear_ground(outline, choice.binding_in + choice.clear_in);
    let from_middle = |ring: &Vec<Point>| ring.iter().map(|p| *p - choice.at.to_vec2()).collect::<Vec<_>>();
    let figure: Vec<Vec<Point>> = silhouette(laid).iter().map(|part| from_middle(&part.outer)).collect();
    let places = Places::of(&ground, &figure);
    let nearest = places.nearest(choice.at);
    let hull = polygon::hull(&figure.concat());
    FigurePlace {
        fits: places.holds(choice.at),
        nearest,
        largest_scale_here: largest(&ground, &hull, |places| places.holds(choice.at)),
        largest_scale: largest(&ground, &hull, |places| !places.regions.is_empty()),
        slides: nearest.map(|p| places.slides(outline, p)).unwrap_or_default(),
        places,
    }
}

/// The largest scale, by halving, up to a hundred. The figure's hull is taken for it: on ground with
/// inside corners it may be somewhat larger still.
fn largest(ground: &[Region], hull: &[Point], does: impl Fn(&Places) -> bool) -> f64 {
    let fits = |scale: f64| {
        let scaled: Vec<Point> = hull.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect();
        does(&Places::of(ground, &[scaled]))
    };
    let (mut low, mut high) = (0.0, 100.0);
    while high - low > 1.0 / 256.0 {
        let middle = f64::midpoint(low, high);
        if fits(middle) { low = middle } else { high = middle }
    }
    low
}
