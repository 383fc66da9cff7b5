//! Every strip placed in the real cloth, all at once, and joined where the cloth is short.
//!
//! A strip's turn on the cloth is given: by the grain, or by its print. Bands as deep as the widest
//! strip are laid across the cloth, from each of its corners up and down; strips go into them longest
//! first, each where it leaves least, and bits only where no whole one fits. Of all ways the one
//! that places most is kept, then the one with the fewest joins. What finds no band may still lie
//! somewhere in what is left. The same question always gives the same answer. A yes is a real
//! layout; a no says how many inches found no place here, and is no proof that none exists.

use super::bands::Bar;
use super::layout::{How, Laid, Layout, fill, ways};
use super::strips::Strip;
use crate::cloth::Cloth;
use plane::{FitCloth, FitPiece, Point, Pose, Region, Turn, Turning, best_of, difference, polygon};
use serde::{Deserialize, Serialize};

/// How a strip is joined where the cloth is too short for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum JoinKind {
    /// Square across.
    Straight,
    /// At 45 degrees.
    #[default]
    Diagonal,
    /// Not at all: a strip too long for the cloth is refused.
    Never,
}

/// One piece of cloth of a strip.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bit {
    /// The shape it is cut to, in the strip's coordinates, with its allowances.
    pub cut: Vec<Point>,
    /// From the strip's coordinates to the cloth's.
    pub at: Pose,
}

/// A strip with the bits it is cut as, from its start along x.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutStrip {
    /// Which side it is for, from 0.
    pub side: usize,
    /// Its bits; empty when the cloth has no room for it.
    pub bits: Vec<Bit>,
    /// Where its joins lie, in inches along x from its beginning, at half its width.
    pub joins_at_in: Vec<f64>,
    /// How many inches its bar is longer than the longest place left for it; 0 when it has one.
    pub missing_in: f64,
}

/// What a cloth gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cutting {
    /// Each strip, in the order asked.
    pub strips: Vec<CutStrip>,
    /// Whether every strip has its place.
    pub fits: bool,
    /// How many joins there are in all.
    pub joins: usize,
    /// What is missing over all strips, in inches along them.
    pub missing_in: f64,
    /// Area cut in square inches, joins included.
    pub cut_sq_in: f64,
    /// Area of the cloth in square inches, flaws taken off.
    pub cloth_sq_in: f64,
}

/// How one strip may lie on the cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lie {
    /// The turn from the strip's coordinates to the cloth's.
    pub(super) base: Turn,
    /// Whether half a turn more does as well.
    pub(super) half_turns: bool,
}

/// Cuts strips from a cloth; `lies` says how each may lie on it.
pub(super) fn cut(
    strips: &[Strip],
    lies: &[Lie],
    cloth: &Cloth,
    join: JoinKind,
    allowance_in: f64,
) -> Cutting {
    let mut left = usable(cloth);
    let cloth_sq_in = left.iter().map(Region::area).sum();
    let mut made: Vec<CutStrip> = strips.iter().map(none).collect();
    for lie in turns(lies) {
        let group: Vec<usize> = (0..strips.len()).filter(|&i| lies[i] == lie).collect();
        let own: Vec<&Strip> = group.iter().map(|&i| &strips[i]).collect();
        let mut found = in_bands(&own, lie, &left, join, allowance_in);
        take(&mut left, &found);
        for (i, cut) in found.iter_mut().enumerate().filter(|(_, cut)| cut.bits.is_empty()) {
            if let Some(at) = anywhere(&own[i].cut, lie, &left) {
                *cut = CutStrip {
                    bits: vec![Bit { cut: own[i].cut.to_vec(), at }],
                    missing_in: 0.0,
                    ..none(own[i])
                };
                take(&mut left, std::slice::from_ref(cut));
            }
        }
        for (i, cut) in group.into_iter().zip(found) {
            made[i] = cut;
        }
    }
    let missing_in: f64 = made.iter().map(|cut| cut.missing_in).sum();
    let bits = made.iter().flat_map(|cut| &cut.bits);
    Cutting {
        fits: made.iter().all(|cut| cut.missing_in == 0.0),
        joins: made.iter().map(|cut| cut.joins_at_in.len()).sum(),
        missing_in,
        cut_sq_in: bits.map(|bit| polygon::area(&bit.cut)).sum(),
        cloth_sq_in,
        strips: made,
    }
}

fn none(strip: &Strip) -> CutStrip {
    let joins_at_in = Vec::new();
    CutStrip { side: strip.side, bits: Vec::new(), joins_at_in, missing_in: strip.cut_bar_in }
}

/// The cloth without its flaws.
pub(super) fn usable(cloth: &Cloth) -> Vec<Region> {
    if cloth.flaws.is_empty() {
        vec![cloth.outline.clone()]
    } else {
        difference(&cloth.outline, &cloth.flaws)
    }
}

/// Each way of lying once, in the order met.
fn turns(lies: &[Lie]) -> Vec<Lie> {
    let mut met: Vec<Lie> = Vec::new();
    for lie in lies {
        if !met.contains(lie) {
            met.push(*lie);
        }
    }
    met
}

/// Takes what was cut off what is left.
fn take(left: &mut Vec<Region>, cut: &[CutStrip]) {
    let bits = cut.iter().flat_map(|strip| &strip.bits);
    let taken: Vec<Region> =
        bits.map(|bit| Region { outer: bit.at.apply_all(&bit.cut), holes: Vec::new() }).collect();
    if !taken.is_empty() {
        *left = left.iter().flat_map(|region| difference(region, &taken)).collect();
    }
}

/// Places for shapes in a cloth, all at once, the largest first; a shape without one has `None`.
pub(super) fn place_all(shapes: &[Vec<Point>], lies: &[Lie], cloth: &Cloth) -> Vec<Option<Pose>> {
    let mut left = usable(cloth);
    let mut order: Vec<usize> = (0..shapes.len()).collect();
    order.sort_by(|&a, &b| polygon::area(&shapes[b]).total_cmp(&polygon::area(&shapes[a])).then(a.cmp(&b)));
    let mut places = vec![None; shapes.len()];
    for i in order {
        places[i] = anywhere(&shapes[i], lies[i], &left);
        if let Some(at) = places[i] {
            let taken = [Region { outer: Pose::apply_all(at, &shapes[i]), holes: Vec::new() }];
            left = left.iter().flat_map(|region| difference(region, &taken)).collect();
        }
    }
    places
}

/// A place for a whole shape anywhere in what is left.
fn anywhere(shape: &[Point], lie: Lie, left: &[Region]) -> Option<Pose> {
    let piece = FitPiece::new(shape, &[])?;
    let turning = if lie.half_turns { Turning::HalfTurns } else { Turning::None };
    left.iter().find_map(|region| best_of(&piece, &FitCloth::new(region)?, turning, lie.base))
}

fn in_bands(
    strips: &[&Strip],
    lie: Lie,
    left: &[Region],
    join: JoinKind,
    allowance_in: f64,
) -> Vec<CutStrip> {
    let level = Pose { turn: lie.base.inverse(), by: plane::Vec2::default() };
    let turned: Vec<Region> = left.iter().map(|region| region.moved(level)).collect();
    let deep = strips.iter().map(|strip| strip.cut_wide_in).fold(0.0, f64::max);
    let mut best: Option<Layout> = None;
    for shelves in ways(&turned, deep) {
        for whole_first in [true, false] {
            let how = How { half_turns: lie.half_turns, join, allowance_in, whole_first };
            let layout = fill(strips, shelves.clone(), how);
            if best.as_ref().is_none_or(|best| layout.rank() < best.rank()) {
                best = Some(layout);
            }
        }
    }
    let best = best.unwrap_or_else(|| Layout {
        missing_in: strips.iter().map(|strip| strip.cut_bar_in).collect(),
        ..Layout::default()
    });
    strips.iter().enumerate().map(|(i, strip)| cut_strip(strip, i, &best, level)).collect()
}

/// A strip's bits from the layout, as cut from the cloth.
fn cut_strip(strip: &Strip, i: usize, layout: &Layout, level: Pose) -> CutStrip {
    let mut laid: Vec<&Laid> = layout.laid.iter().filter(|laid| laid.strip == i).collect();
    laid.sort_by(|a, b| a.bar.from().total_cmp(&b.bar.from()));
    let missing_in = layout.missing_in[i];
    let joins = laid.windows(2).map(|pair| {
        let (one, next) = (pair[0].bar, pair[1].bar);
        (one.low[1] + one.high[1] + next.low[0] + next.high[0]) / 4.0
    });
    let joins_at_in = joins.collect();
    let deep = strip.cut_wide_in;
    let bit = |laid: &&Laid| {
        let Bar { low, high } = laid.bar;
        let corners = [(low[0], 0.0), (low[1], 0.0), (high[1], deep), (high[0], deep)];
        let first = if laid.is_turned {
            Pose { turn: Turn::HALF, by: plane::Vec2::new(0.0, deep) }
        } else {
            Pose::STAY
        };
        let moved = Pose { turn: Turn::NONE, by: plane::Vec2::new(laid.by[0], laid.by[1]) };
        let cut = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        Bit { cut, at: first.then(moved).then(level.inverse()) }
    };
    CutStrip { side: strip.side, bits: laid.iter().map(bit).collect(), joins_at_in, missing_in }
}
