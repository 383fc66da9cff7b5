//! Growing: a beam of centres, each taking its best moves in turn.

use crate::centre::Centre;
use crate::chance::Chance;
use crate::choose::{self, Choosing};
use crate::heap::Heap;
use crate::moves::{self, Move, State};
use crate::shape;
use crate::split::{self, Splitting};
use crate::start;
use crate::steps;
use crate::target::Target;
use crate::trim::{self, Trim};
use quilt::log::Entry;
use quilt::wish::{Spiral, Towards, Wish};

/// Where growing should end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Goal {
    /// At the wished size.
    Size,
    /// After so many pieces, at about the wished size.
    Pieces(usize),
}

/// How hard to look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Centres kept side by side.
    pub beam: usize,
    /// Moves looked ahead: 1 takes each for itself.
    pub depth: usize,
    /// Starts tried.
    pub starts: usize,
}

impl Effort {
    /// What the maker waits for at the table.
    pub const USUAL: Self = Self { beam: 4, depth: 2, starts: 2 };
    /// One move after the other.
    pub const QUICK: Self = Self { beam: 1, depth: 1, starts: 1 };
    /// While the kettle boils.
    pub const THOROUGH: Self = Self { beam: 10, depth: 2, starts: 8 };
}

/// Tells how far it is, and whether to go on.
pub trait Watch {
    /// Called after each piece with how many are placed and about how many there will be. Growing
    /// stops with a sound piece when it returns `false`.
    fn placed(&mut self, pieces: usize, about: usize) -> bool;
}

impl Watch for () {
    fn placed(&mut self, _: usize, _: usize) -> bool {
        true
    }
}

/// Why growing ended.
#[derive(Clone, Debug, PartialEq)]
pub enum End {
    /// The goal is reached.
    Reached,
    /// No cloth left has room for any next piece.
    ClothRanOut,
    /// The watch said stop.
    Stopped,
    /// No cloth has room for a first patch.
    NothingToStart,
}

/// What was grown.
#[derive(Clone, Debug)]
pub struct Grown {
    /// The entries of the log, marks from 1.
    pub entries: Vec<Entry>,
    /// Patches placed.
    pub pieces: usize,
    /// Why it ended.
    pub end: End,
    /// Mean score of the moves; 0 would be perfect.
    pub score: f64,
}

pub(crate) struct Growing<'a> {
    pub(crate) wish: &'a Wish,
    pub(crate) target: Target,
    pub(crate) sparks_turn_deg: f64,
    pub(crate) effort: Effort,
}

/// Grows a centre from a heap.
#[must_use]
pub fn grow(
    heap: &Heap,
    wish: &Wish,
    goal: Goal,
    effort: Effort,
    seed: u64,
    watch: &mut dyn Watch,
) -> Vec<Grown> {
    let pieces = if let Goal::Pieces(n) = goal { Some(n) } else { None };
    let mut all = Vec::new();
    for start in 0..effort.starts.max(1) {
        let mut chance = Chance::new(seed.wrapping_mul(0x9E37).wrapping_add(start as u64));
        let target = Target::new(wish, pieces, chance.between(0.0, 360.0));
        let growing = Growing { wish, target, sparks_turn_deg: chance.between(0.0, 360.0), effort };
        all.extend(one(&growing, heap, goal, &mut chance, watch));
    }
    all
}

fn one(growing: &Growing, heap: &Heap, goal: Goal, chance: &mut Chance, watch: &mut dyn Watch) -> Vec<Grown> {
    let Some(first) = start::start(heap, &growing.target, growing.wish, chance) else {
        return vec![Grown {
            entries: Vec::new(),
            pieces: 0,
            end: End::NothingToStart,
            score: f64::INFINITY,
        }];
    };
    let about = if let Goal::Pieces(n) = goal { n } else { growing.target.pieces() as usize };
    let mut beam = vec![first];
    let mut done: Vec<State> = Vec::new();
    let end = loop {
        let mut next: Vec<(f64, usize, Move)> = Vec::new();
        for (i, state) in beam.iter().enumerate() {
            let limit =
                if let Goal::Pieces(n) = goal { n.saturating_sub(state.centre.placed.len()) } else { 5 };
            for made in candidates(growing, state, limit) {
                let value = state.centre.cost + made.cost * made.unit.cells.len() as f64;
                let pieces = state.centre.placed.len() + made.unit.cells.len();
                next.push((value / pieces as f64, i, made));
            }
        }
        if next.is_empty() {
            let arrived = beam.iter().any(|state| is_done(growing, state, goal));
            done.extend(beam);
            break if arrived { End::Reached } else { End::ClothRanOut };
        }
        next.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut kept = Vec::new();
        for (_, i, made) in &next {
            if kept.len() == growing.effort.beam {
                break;
            }
            kept.extend(moves::take(&beam[*i], &growing.target, growing.wish, made, growing.sparks_turn_deg));
        }
        if kept.is_empty() {
            done.extend(beam);
            break End::ClothRanOut;
        }
        beam = kept;
        if !watch.placed(beam[0].centre.placed.len(), about) {
            done.extend(beam);
            break End::Stopped;
        }
    };
    done.iter().map(|state| grown(state, &end)).collect()
}

fn grown(state: &State, end: &End) -> Grown {
    Grown {
        entries: steps::entries(state.trail.as_deref()),
        pieces: state.centre.placed.len(),
        end: end.clone(),
        score: state.centre.cost / state.centre.placed.len() as f64,
    }
}

fn is_done(growing: &Growing, state: &State, goal: Goal) -> bool {
    match goal {
        Goal::Pieces(n) => state.centre.placed.len() >= n,
        Goal::Size => due(growing, state).is_empty(),
    }
}

/// The sides that may be sewn next, the most due first.
fn due(growing: &Growing, state: &State) -> Vec<usize> {
    let centre = &state.centre;
    let s = growing.wish.allowance_in;
    let mut sides: Vec<(f64, usize)> = (0..centre.sides.len())
        .filter(|&i| shape::course_of(centre, &growing.target, i, s).is_some())
        .map(|i| {
            let line = centre.sides[i].line;
            let share = (line.inside_by(centre.middle) - s) / growing.target.reach(-line.normal.vec());
            (share, i)
        })
        .collect();
    sides.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut order: Vec<usize> = sides.into_iter().map(|(_, i)| i).collect();
    if let Some(last) = centre.last {
        let next = match growing.wish.spiral {
            Spiral::None => None,
            Spiral::Anticlockwise => Some(centre.after(last)),
            Spiral::Clockwise => Some(centre.before(last)),
        };
        if let Some(at) = next.and_then(|next| order.iter().position(|i| *i == next)) {
            let next = order.remove(at);
            order.insert(0, next);
        }
    }
    order
}

/// The best moves from a state.
fn candidates(growing: &Growing, state: &State, limit: usize) -> Vec<Move> {
    if limit == 0 {
        return Vec::new();
    }
    let mut found = Vec::new();
    let order = due(growing, state);
    let spiral = growing.wish.spiral != Spiral::None && state.centre.last.is_some();
    let wanted = if growing.effort.beam == 1 || spiral { 1 } else { 2 };
    let mut tried = 0;
    for side in order {
        let some = on_side(growing, state, side, limit);
        tried += usize::from(!some.is_empty());
        found.extend(some);
        if tried >= wanted {
            break;
        }
    }
    found
}

/// The best moves on one side, some with a trim before.
pub(crate) fn on_side(growing: &Growing, state: &State, side: usize, limit: usize) -> Vec<Move> {
    let wish = growing.wish;
    let centre = &state.centre;
    let keep = if growing.effort.beam == 1 { 1 } else { 3 };
    let mut units = units(growing, centre, side);
    units.retain(|unit| unit.cells.len() <= limit);
    let mut options: Vec<(split::Unit, Option<(Trim, Centre)>)> =
        units.into_iter().map(|unit| (unit, None)).collect();
    if wants_sides(growing, centre) {
        for (trim, after) in trim::caps(centre, side, wish.allowance_in, wish.limits) {
            let Some(made) = after.sides.iter().position(|s| s.name.by.0 + 1 == after.next_mark) else { continue };
            let thrift = wish.weights.thrift * trim.area / 4.0;
            for mut unit in units_few(growing, &after, made) {
                unit.cost += thrift;
                if unit.cells.len() <= limit {
                    options.push((unit, Some((trim, after.clone()))));
                }
            }
        }
    }
    options.sort_by(|a, b| a.0.cost.total_cmp(&b.0.cost));
    let mut found = Vec::new();
    for (unit, trim) in options {
        if found.len() >= keep {
            break;
        }
        let at = trim.as_ref().map_or(centre, |(_, after)| after);
        let choosing = Choosing {
            centre: at,
            target: &growing.target,
            wish,
            sparks_turn_deg: growing.sparks_turn_deg,
            keep: 6,
        };
        if let Some((picks, cost)) = choose::choose(&choosing, &unit) {
            let cost = unit.cost + cost;
            let trim = trim.map(|(trim, after)| (trim, Box::new(after)));
            found.push(Move { trim, unit, picks, cost });
        }
    }
    found
}

/// Whether the outline has fewer sides than wished, and is large enough to bear more.
fn wants_sides(growing: &Growing, centre: &Centre) -> bool {
    let Towards::Round { sides } = growing.wish.towards else { return false };
    centre.sides.len() < usize::from(sides) && centre.placed.len() > 8
}

/// The best units for a side.
fn units(growing: &Growing, centre: &Centre, side: usize) -> Vec<split::Unit> {
    best_units(growing, centre, side, 8, 2)
}

/// Fewer of them, for sides that a trim would make.
fn units_few(growing: &Growing, centre: &Centre, side: usize) -> Vec<split::Unit> {
    best_units(growing, centre, side, 2, 1)
}

fn best_units(growing: &Growing, centre: &Centre, side: usize, shapes: usize, splits: usize) -> Vec<split::Unit> {
    let wish = growing.wish;
    let splitting = Splitting {
        centre,
        target: &growing.target,
        allowance: wish.allowance_in,
        limits: wish.limits,
        chunky: wish.weights.chunky,
        step: wish.weights.step,
    };
    shape::shapes(centre, &growing.target, side, wish.allowance_in)
        .iter()
        .take(shapes)
        .flat_map(|shape| split::splits(&splitting, shape, splits))
        .collect()
}
