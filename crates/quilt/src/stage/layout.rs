//! Strips laid into bands of cloth: longest first, whole where they fit, in bits where they don't.

use super::bands::{Bar, Shelf, spans};
use super::cutting::JoinKind;
use super::strips::Strip;
use plane::{READING, Region};

/// The shortest bit that is worth a join, in inches of its bar; of a short strip a fifth will do
/// (common practice, no source).
const LEAST_BIT_IN: f64 = 6.0;

/// Most corners of the cloth from which bands are begun.
const MOST_STARTS: usize = 24;

/// A strip, or what is left of one, that wants a place.
#[derive(Clone, Copy, Debug)]
struct Wanted {
    strip: usize,
    bar: Bar,
    /// The strip it is of: joins keep off its middle.
    whole: Bar,
    /// The strip's cut width.
    deep: f64,
}

/// A bar with its place in the turned cloth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Laid {
    pub(super) strip: usize,
    pub(super) bar: Bar,
    /// Half turned first or not, then moved by this.
    pub(super) is_turned: bool,
    pub(super) by: [f64; 2],
}

#[derive(Clone, Debug, Default)]
pub(super) struct Layout {
    pub(super) laid: Vec<Laid>,
    pub(super) missing_in: Vec<f64>,
}

impl Layout {
    /// Smaller is better: inches without a place, then bits.
    pub(super) fn rank(&self) -> (f64, usize) {
        ((self.missing_in.iter().sum::<f64>() * 1024.0).round(), self.laid.len())
    }
}

/// Ways of laying bands across the cloth: from each corner's height, up and then down.
pub(super) fn ways(cloth: &[Region], deep: f64) -> Vec<Vec<Shelf>> {
    let mut heights: Vec<f64> = cloth.iter().flat_map(|region| &region.outer).map(|p| p.y).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| (*a - *b).abs() < READING);
    let (Some(&lo), Some(&hi)) = (heights.first(), heights.last()) else { return Vec::new() };
    let mut starts: Vec<f64> = heights.iter().flat_map(|&y| [y, y - deep]).collect();
    starts.truncate(MOST_STARTS);
    starts.push(hi - deep);
    starts
        .into_iter()
        .map(|start| {
            let first = start - ((start - lo + READING) / deep).floor().max(0.0) * deep;
            let mut shelves = Vec::new();
            let mut low = first;
            while low + deep <= hi + READING {
                let at = |region| spans(region, low, deep).into_iter().map(move |span| Shelf::new(low, span));
                shelves.extend(cloth.iter().flat_map(at));
                low += deep;
            }
            shelves
        })
        .collect()
}

#[derive(Clone, Copy)]
pub(super) struct How {
    pub(super) half_turns: bool,
    pub(super) join: JoinKind,
    pub(super) allowance_in: f64,
    /// Whether all strips that fit whole are laid before any is cut in bits.
    pub(super) whole_first: bool,
}

pub(super) fn fill(strips: &[&Strip], mut shelves: Vec<Shelf>, how: How) -> Layout {
    let mut layout = Layout { missing_in: vec![0.0; strips.len()], ..Layout::default() };
    let mut order: Vec<Wanted> = strips.iter().enumerate().map(|(i, strip)| wanted(i, strip)).collect();
    order.sort_by(|a, b| b.bar.long().total_cmp(&a.bar.long()).then(a.strip.cmp(&b.strip)));
    let mut later = Vec::new();
    for want in order {
        if lay_whole(want, &mut shelves, how, &mut layout) {
            continue;
        }
        if how.whole_first { later.push(want) } else { lay_bits(want, &mut shelves, how, &mut layout) }
    }
    for want in later {
        lay_bits(want, &mut shelves, how, &mut layout);
    }
    layout
}

fn wanted(i: usize, strip: &Strip) -> Wanted {
    let [a, b, c, d] = strip.cut.map(|p| p.x);
    let bar = Bar { low: [a, b], high: [d, c] };
    Wanted { strip: i, bar, whole: bar, deep: strip.cut_wide_in }
}

/// Lays a bar where it leaves least.
fn lay_whole(want: Wanted, shelves: &mut [Shelf], how: How, layout: &mut Layout) -> bool {
    let ways = if how.half_turns { &[false, true][..] } else { &[false] };
    let way = |bar: Bar, is_turned: bool| if is_turned { bar.turned() } else { bar };
    let mut best: Option<(f64, usize, bool)> = None;
    for (k, shelf) in shelves.iter().enumerate() {
        for &is_turned in ways {
            let left = shelf.left(way(want.bar, is_turned));
            if left >= -plane::DECISION && best.is_none_or(|best| left < best.0 - READING) {
                best = Some((left, k, is_turned));
            }
        }
    }
    let Some((_, k, is_turned)) = best else { return false };
    let by = [shelves[k].lay(way(want.bar, is_turned)), shelves[k].low];
    layout.laid.push(Laid { strip: want.strip, bar: want.bar, is_turned, by });
    true
}

/// Lays as long a bit as any shelf takes, then what is left of the bar.
fn lay_bits(want: Wanted, shelves: &mut [Shelf], how: How, layout: &mut Layout) {
    let mut rest = want;
    loop {
        if lay_whole(rest, shelves, how, layout) {
            return;
        }
        let bits = shelves.iter().filter_map(|shelf| first_bit(rest, shelf, how));
        let Some((bit, next)) = bits.max_by(|a, b| a.0.bar.long().total_cmp(&b.0.bar.long())) else {
            let most = shelves.iter().map(|shelf| room(rest.bar, shelf)).fold(0.0, f64::max);
            layout.missing_in[want.strip] = (rest.bar.long() - most).max(READING);
            layout.laid.retain(|laid| laid.strip != want.strip);
            return;
        };
        lay_whole(bit, shelves, how, layout);
        rest = next;
    }
}

/// The longest bit from the start of what is left of a strip that a shelf takes, and the rest.
fn first_bit(want: Wanted, shelf: &Shelf, how: How) -> Option<(Wanted, Wanted)> {
    // From edge to edge a join leans by so much, and its allowance takes so much along x.
    let (lean, over) = match how.join {
        JoinKind::Straight => (0.0, how.allowance_in),
        JoinKind::Diagonal => (1.0, how.allowance_in * std::f64::consts::SQRT_2),
        JoinKind::Never => return None,
    };
    let bar = want.bar;
    let half = lean * want.deep / 2.0;
    let most = bar.from() + room(bar, shelf) - over - half;
    let at = join_at(want, most, half)?;
    let (low, high) = (at - half, at + half);
    let bit = Bar { low: [bar.low[0], low + over], high: [bar.high[0], high + over] };
    let rest = Bar { low: [low - over, bar.low[1]], high: [high - over, bar.high[1]] };
    Some((Wanted { bar: bit, ..want }, Wanted { bar: rest, ..want }))
}

/// How long a bar that begins like this one may be on a shelf.
fn room(bar: Bar, shelf: &Shelf) -> f64 {
    shelf.left(bar) + bar.long()
}

/// Where the next join lies: at most `most` along, an eighth of the strip or more from its middle,
/// and with bits on both sides that are worth a join.
fn join_at(want: Wanted, most: f64, half: f64) -> Option<f64> {
    let (whole, bar) = (want.whole, want.bar);
    let middle = f64::midpoint(whole.from(), whole.to());
    let clear = whole.long() / 8.0 + half;
    let least = LEAST_BIT_IN.min(whole.long() / 5.0);
    // Both long edges must be there on both sides of the join.
    let first = (bar.from() + least).max(bar.low[0].max(bar.high[0])) + half;
    let last = (bar.to() - least).min(bar.low[1].min(bar.high[1])) - half;
    let mut at = most.min(last);
    if (at - middle).abs() < clear {
        at = middle - clear;
    }
    (at >= first).then_some(at)
}
