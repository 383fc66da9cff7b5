//! Hanging: a sleeve and its rod, tabs where a sleeve can't reach, and a label.
//!
//! A piece hangs straight when its centre of weight lies plumb under the middle of what holds it. On a
//! rectangle that is the middle of the top edge. Any other outline is hung from a level line where it
//! is wide enough, with as much sleeve to the left of the centre of weight as to the right of it; what
//! stands above that line is told, for it may flop. Where there is a gap at the centre (two prongs)
//! the sleeve comes in two parts that mirror each other about it.
//!
//! Points are those of the outline, seen from the front; `up_deg` turns the piece to hang.

mod level;
mod problem;
mod words;

pub use problem::SleeveProblem;

use crate::length::within;
use crate::sums::{self, BRACKET_GAP_IN, CLEAR_IN, END_HEM_IN, SPLIT_ABOVE_IN};
use level::{free, highest};
use plane::{Point, Region, Turn, polygon};
use serde::{Deserialize, Serialize};

/// How far the rod of tabs lies above the highest point (common practice, no source).
const ABOVE_IN: f64 = 1.0;
/// What of a tab is sewn in at either end (common practice, no source).
const TAB_END_IN: f64 = 0.5;
/// How wide tabs are cut (common practice, no source).
const TAB_CUT_IN: f64 = 4.0;
/// Steps in which heights are tried.
const STEP_IN: f64 = 0.125;

/// What the maker wishes for hanging.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct SleeveChoice {
    /// Cut width of the strip; without it, what is usual for the piece's width.
    pub strip_width_in: Option<f64>,
    /// How far the piece is turned to hang, counter-clockwise.
    pub up_deg: f64,
    /// How far the sleeve ends from the edge at either side.
    pub clear_in: f64,
    /// How far its top lies below the edge (hillcountry; gemsoftheprairie.com).
    pub below_top_in: f64,
    /// Ease in the outer layer, for the rod (the same).
    pub ease_in: f64,
    /// The share of the piece's width that the sleeve should reach across (common practice, no source).
    pub least_share: f64,
    /// How far apart tabs may be (common practice, no source).
    pub tab_every_in: f64,
    /// Width and height of the label, finished.
    pub label_in: [f64; 2],
}

impl Default for SleeveChoice {
    fn default() -> Self {
        Self {
            strip_width_in: None,
            up_deg: 0.0,
            clear_in: CLEAR_IN,
            below_top_in: 0.5,
            ease_in: 0.5,
            least_share: 0.5,
            tab_every_in: 8.0,
            label_in: [4.0, 3.0],
        }
    }
}

/// A part of the piece that is heavier than the rest, such as a figure.
#[derive(Clone, Debug, PartialEq)]
pub struct HeavyPart {
    /// Where.
    pub outline: Region,
    /// What it adds, as a share of the weight of the same area elsewhere.
    pub adds: f64,
}

/// What one more layer of cloth adds where it lies: top, batting and back weigh about three of it, the
/// top's own allowances counted (common practice, no source).
pub const LAYER_ADDS: f64 = 1.0 / 3.0;

/// One part of the sleeve.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SleevePart {
    /// Its upper left and upper right corner as the piece hangs, seen from the front.
    pub top: [Point; 2],
    /// How long to cut it.
    pub cut_length_in: f64,
    /// How long it is hemmed.
    pub finished_length_in: f64,
}

/// A tab at the edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tab {
    /// Where, on the edge.
    pub at: Point,
    /// How far it is from there up to the rod.
    pub finished_length_in: f64,
    /// How long to cut it: over the rod, down again, and both ends sewn in.
    pub cut_length_in: f64,
}

/// All about hanging a piece.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SleevePlan {
    /// The centre of weight.
    pub centre: Point,
    /// Whether there is a level place for the sleeve; without one the piece hangs by its tabs, and there
    /// are no parts.
    pub has_sleeve: bool,
    /// How far the centre of weight lies right of the middle of the width, as it hangs; negative when
    /// left.
    pub off_middle_in: f64,
    /// Cut width of the strips.
    pub cut_width_in: f64,
    /// How deep the sleeve lies flat.
    pub flat_in: f64,
    /// Ease in the outer layer.
    pub ease_in: f64,
    /// The parts from left to right, seen from the front.
    pub parts: Vec<SleevePart>,
    /// What stands above the sleeve's top at the highest point of the piece; nothing by tabs.
    pub above_in: f64,
    /// The thickest round rod that goes in.
    pub rod_most_in: f64,
    /// How long the rod is: half an inch out at either end.
    pub rod_length_in: f64,
    /// Tabs on the upper edge instead, all on one level rod.
    pub tabs: Vec<Tab>,
    /// How wide tabs are cut: sewn into tubes they lie 1 3/4 wide at a quarter inch (common practice, no
    /// source).
    pub tab_cut_width_in: f64,
    /// The label's corners, counter-clockwise seen from the front: at the back's lower right, as near
    /// as the outline allows (Purdue Extension 4-H 2020); none where it has no room.
    pub label: Option<[Point; 4]>,
}

/// The sleeve of a bound outline.
///
/// # Errors
/// An outline that isn't one, numbers that make no sense, or no place for such a sleeve.
pub fn plan(
    choice: &SleeveChoice,
    outline: &[Point],
    heavy: &[HeavyPart],
    allowance_in: f64,
) -> Result<SleevePlan, SleeveProblem> {
    let outline = Region::try_new(outline.to_vec(), Vec::new()).map_err(SleeveProblem::Outline)?.outer;
    check(choice)?;
    let up = Turn::from_degrees(choice.up_deg);
    let hung: Vec<Point> = outline.iter().map(|&p| turned(p, up)).collect();
    let centre = centre(&outline, heavy)?;
    let plumb = turned(centre, up);
    let (lo, hi) = polygon::bounds(&hung).unwrap_or_default();
    let strip = choice.strip_width_in.unwrap_or_else(|| sums::usual_sleeve_strip(hi.x - lo.x));
    let flat_in = sums::flat_sleeve(strip, allowance_in)?;
    let held = held(choice, &hung, plumb, flat_in);
    let back = |p: Point| turned(p, up.inverse());
    let tabs = tabs(choice, &hung, plumb);
    let rod = held.map_or_else(|| span(&tabs), |held| 2.0 * held.outer);
    if held.is_none() && tabs.is_empty() {
        return Err(SleeveProblem::NoPlace { flat_in });
    }
    let parts = held.into_iter().flat_map(|held| {
        let ends = held.parts(plumb.x, choice.clear_in);
        ends.into_iter().map(move |[from, to]| SleevePart {
            top: [back(Point::new(from, held.top)), back(Point::new(to, held.top))],
            cut_length_in: to - from + 2.0 * END_HEM_IN,
            finished_length_in: to - from,
        })
    });
    Ok(SleevePlan {
        centre,
        has_sleeve: held.is_some(),
        off_middle_in: plumb.x - lo.x.midpoint(hi.x),
        cut_width_in: strip,
        flat_in,
        ease_in: choice.ease_in,
        parts: parts.collect(),
        above_in: held.map_or(0.0, |held| hi.y - held.top),
        rod_most_in: sums::rod_most(flat_in),
        rod_length_in: rod + 1.0,
        tabs: tabs.into_iter().map(|tab| Tab { at: back(tab.at), ..tab }).collect(),
        tab_cut_width_in: TAB_CUT_IN,
        label: label(choice.label_in, &hung).map(|corners| corners.map(back)),
    })
}

/// How far apart the outermost tabs are.
fn span(tabs: &[Tab]) -> f64 {
    tabs.first().zip(tabs.last()).map_or(0.0, |(first, last)| last.at.x - first.at.x)
}

fn check(choice: &SleeveChoice) -> Result<(), SleeveProblem> {
    let few = |what, inches| within(what, inches, [0.0, 12.0], "from 0 to 12 inches");
    within("turn to hang", choice.up_deg, [-360.0, 360.0], "from -360 to 360 degrees")?;
    few("distance from the sides", choice.clear_in)?;
    few("distance below the top", choice.below_top_in)?;
    few("ease", choice.ease_in)?;
    within("share of the width", choice.least_share, [0.0, 1.0], "from 0 to 1")?;
    within("distance of tabs", choice.tab_every_in, [1.0, 100.0], "from 1 to 100 inches")?;
    within("label's width", choice.label_in[0], [0.5, 24.0], "from 1/2 to 24 inches")?;
    within("label's height", choice.label_in[1], [0.5, 24.0], "from 1/2 to 24 inches")?;
    Ok(())
}

fn turned(p: Point, by: Turn) -> Point {
    let v = by.apply(p.to_vec2());
    Point::new(v.x, v.y)
}

/// The centre of weight: the centre of area, drawn towards heavier parts.
///
/// # Errors
/// A share of weight outside 0 to 20.
pub fn centre(outline: &[Point], heavy: &[HeavyPart]) -> Result<Point, SleeveProblem> {
    let whole = polygon::area(outline).abs();
    let mut sum = polygon::centroid(outline).unwrap_or_default().to_vec2() * whole;
    let mut weight = whole;
    for part in heavy {
        let adds = within("weight that a part adds", part.adds, [0.0, 20.0], "from 0 to 20 times")?;
        let rings = std::iter::once((1.0, &part.outline.outer));
        for (sign, ring) in rings.chain(part.outline.holes.iter().map(|hole| (-1.0, hole))) {
            let area = sign * adds * polygon::area(ring).abs();
            sum += polygon::centroid(ring).unwrap_or_default().to_vec2() * area;
            weight += area;
        }
    }
    Ok(Point::ORIGIN + sum * (1.0 / weight))
}

/// Where a sleeve holds the piece: from `inner` to `outer` on either side of the plumb line.
#[derive(Clone, Copy)]
struct Held {
    top: f64,
    inner: f64,
    outer: f64,
}

impl Held {
    /// The parts from left to right: one, or two about a gap or a bracket.
    fn parts(self, plumb: f64, clear_in: f64) -> Vec<[f64; 2]> {
        let whole = 2.0 * (self.outer + clear_in) <= SPLIT_ABOVE_IN;
        if self.inner <= 0.0 && whole {
            return vec![[plumb - self.outer, plumb + self.outer]];
        }
        let inner = self.inner.max(BRACKET_GAP_IN / 2.0);
        vec![[plumb - self.outer, plumb - inner], [plumb + inner, plumb + self.outer]]
    }
}

/// The highest line at which a sleeve reaches across the wished share of the width; where there is
/// none, the one that reaches farthest.
fn held(choice: &SleeveChoice, hung: &[Point], plumb: Point, flat_in: f64) -> Option<Held> {
    let (lo, hi) = polygon::bounds(hung)?;
    let wished = choice.least_share * (hi.x - lo.x) / 2.0;
    let first = hi.y - choice.below_top_in;
    // Below the centre of weight the piece would tip over.
    let steps = ((first - flat_in - plumb.y) / STEP_IN).floor().max(0.0) as u32;
    let mut best: Option<Held> = None;
    for top in (0..=steps).map(|k| first - f64::from(k) * STEP_IN) {
        let Some(held) = at_height(choice, hung, plumb.x, [top - flat_in, top]) else { continue };
        if held.outer >= wished {
            return Some(held);
        }
        if best.is_none_or(|best| held.outer > best.outer + 1e-9) {
            best = Some(held);
        }
    }
    best
}

fn at_height(choice: &SleeveChoice, hung: &[Point], plumb: f64, [bottom, top]: [f64; 2]) -> Option<Held> {
    let open = free(hung, [bottom, top + choice.below_top_in - 1e-9]);
    let clear = |[from, to]: [f64; 2]| [from + choice.clear_in, to - choice.clear_in];
    let open: Vec<[f64; 2]> = open.into_iter().map(clear).filter(|[from, to]| to - from >= 1.0).collect();
    if let Some([from, to]) = open.iter().find(|[from, to]| *from < plumb && plumb < *to) {
        let outer = (plumb - from).min(to - plumb);
        return (outer >= 1.0).then_some(Held { top, inner: 0.0, outer });
    }
    let left = open.iter().rev().find(|[_, to]| *to <= plumb)?;
    let right = open.iter().find(|[from, _]| *from >= plumb)?;
    let (inner, outer) = ((plumb - left[1]).max(right[0] - plumb), (plumb - left[0]).min(right[1] - plumb));
    (outer - inner >= 1.0).then_some(Held { top, inner, outer })
}

/// How far from the plumb line tabs still sit on the upper edge. On an edge that falls more steeply than 45
/// degrees a tab would hang askew and far down (common practice, no source); where all of it does, they stay
/// above the centre of weight.
fn tabs_reach(hung: &[Point], plumb: Point, most: f64) -> f64 {
    let height = |x: f64| highest(hung, x).unwrap_or(f64::NEG_INFINITY);
    let is_level = |x: f64| {
        let inward = x + STEP_IN * (plumb.x - x).signum();
        height(x) >= plumb.y && (height(inward) - height(x)).abs() <= STEP_IN + 1e-9
    };
    let steps = (most / STEP_IN).floor().max(0.0) as u32;
    let reaches = || (0..=steps).map(|k| most - f64::from(k) * STEP_IN);
    let both =
        |does: &dyn Fn(f64) -> bool| reaches().find(|reach| does(plumb.x - reach) && does(plumb.x + reach));
    let level = both(&is_level).filter(|reach| *reach >= 1.0);
    level.or_else(|| both(&|x| height(x) >= plumb.y)).unwrap_or(most)
}

/// Tabs evenly apart on the upper edge, as far to the left of the plumb line as to the right.
fn tabs(choice: &SleeveChoice, hung: &[Point], plumb: Point) -> Vec<Tab> {
    let Some((lo, hi)) = polygon::bounds(hung) else { return Vec::new() };
    let reach = (plumb.x - lo.x).min(hi.x - plumb.x) - choice.clear_in;
    if reach <= 0.0 {
        return Vec::new();
    }
    let reach = tabs_reach(hung, plumb, reach);
    let gaps = (2.0 * reach / choice.tab_every_in).ceil().max(1.0) as u32;
    let xs = (0..=gaps).map(|k| plumb.x - reach + 2.0 * reach * f64::from(k) / f64::from(gaps));
    let rod = hi.y + ABOVE_IN;
    let tab = |at: Point| {
        let long = rod - at.y;
        Tab { at, finished_length_in: long, cut_length_in: 2.0 * (long + TAB_END_IN) }
    };
    xs.filter_map(|x| Some(tab(Point::new(x, highest(hung, x)?)))).collect()
}

/// The place nearest the lower left, which is the lower right from the back.
fn label([wide, high]: [f64; 2], hung: &[Point]) -> Option<[Point; 4]> {
    const MARGIN_IN: f64 = 0.5;
    let (lo, hi) = polygon::bounds(hung)?;
    let steps = ((hi.y - lo.y - high) / STEP_IN).floor().max(0.0) as u32;
    let place = |y: f64| {
        let open = free(hung, [y - MARGIN_IN, y + high + MARGIN_IN]);
        let [from, _] = open.into_iter().find(|[from, to]| to - from >= wide + 2.0 * MARGIN_IN)?;
        Some(Point::new(from + MARGIN_IN, y))
    };
    let at = (0..=steps)
        .filter_map(|k| place(lo.y + MARGIN_IN + f64::from(k) * STEP_IN))
        .min_by(|a, b| (a.x - lo.x + a.y - lo.y).total_cmp(&(b.x - lo.x + b.y - lo.y)))?;
    let corner = |x: f64, y: f64| Point::new(at.x + x, at.y + y);
    Some([corner(0.0, 0.0), corner(wide, 0.0), corner(wide, high), corner(0.0, high)])
}
