//! Growing: a beam of centres, each taking its best moves in turn.
//!
//! Each centre in the beam knows its own best next moves. With look-ahead a centre is judged by
//! what it has cost and by its best next move together, so that one which leads nowhere falls out
//! before it gets there. Of the centres that arrive, the one with the best eye check is given.

use crate::bench::{self, Bench};
use crate::chance::Chance;
use crate::finish;
use crate::growing::Growing;
use crate::heap::Heap;
use crate::moves::{self, Move, State};
use crate::start;
use crate::target::Target;
use quilt::cloth::ClothId;
use quilt::log::Entry;
use quilt::wish::Wish;
use std::cmp::Ordering;
use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering::SeqCst};

/// Where growing should end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Goal {
    /// At the wished size.
    Size,
    /// At the wished size with about so many pieces: their size is chosen for it, again and again.
    SizeWith(usize),
    /// After so many pieces, all told, whatever the size.
    Pieces(usize),
    /// Where the wished colours end: at the last stop of the drift.
    DriftEnd,
}

impl Goal {
    /// Pieces asked for; 0 when they weren't.
    const fn pieces(self) -> usize {
        match self {
            Self::Pieces(n) | Self::SizeWith(n) => n,
            Self::Size | Self::DriftEnd => 0,
        }
    }
}

/// How hard to look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Centres kept side by side.
    pub beam: usize,
    /// Moves looked ahead: 1 takes each for itself, 2 sees the move after.
    pub depth: usize,
    /// Starts tried for a piece of 60; fewer for larger pieces, so that the time stays about the
    /// same.
    pub starts: usize,
}

impl Effort {
    /// What the maker waits for at the table.
    pub const USUAL: Self = Self { beam: 2, depth: 2, starts: 12 };
    /// One move after the other.
    pub const QUICK: Self = Self { beam: 1, depth: 1, starts: 1 };
    /// While the kettle boils.
    pub const THOROUGH: Self = Self { beam: 4, depth: 2, starts: 80 };
}

/// Tells how far it is, and whether to go on.
pub trait Watch {
    /// Called after each move with how many pieces are placed and about how many there will be.
    /// Growing stops with a sound piece when it returns `false`.
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
    /// The goal is reached: the size within half an inch, or so many pieces.
    Reached,
    /// It went on to the end and came near, no more: off the size by more than half an inch, or a
    /// few pieces short of those asked for.
    Near,
    /// No cloth left has room for any next piece; what was wanted.
    ClothRanOut {
        /// Finished size wanted for the next piece, in inches.
        size_in: f64,
        /// How far outward, 0 to 1.
        share: f64,
    },
    /// No shape of piece leaves an outline that could be sewn on.
    NoShape,
    /// The watch said stop.
    Stopped,
    /// No cloth has room for a first patch.
    NothingToStart,
}

/// Something wished for that isn't in what was grown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unmet {
    /// The part of this cloth that was to be shown whole isn't: a first patch was there already, or
    /// none that shows it could be cut.
    Motif(ClothId),
}

/// What was grown.
#[derive(Clone, Debug)]
pub struct Grown {
    /// The new entries of the log.
    pub entries: Vec<Entry>,
    /// Patches placed, those before included.
    pub pieces: usize,
    /// Why it ended.
    pub end: End,
    /// Mean score of the moves; 0 would be perfect.
    pub score: f64,
    /// Total cost of the eye check; 0 would be perfect.
    pub cost: f64,
    /// How many rows of the eye check are good.
    pub good: usize,
    /// How far the finished width is off the wished one, in inches, however growing ended; below 0
    /// when it is smaller, and 0 when the goal was so many pieces. Of an outline wished with three or
    /// four sides it is the width of the largest like it that can be cut from what was grown.
    pub size_off: f64,
    /// How many pieces are missing, when the goal was so many.
    pub short: usize,
    /// What of the wish could not be honoured, besides the goal.
    pub unmet: Vec<Unmet>,
    /// What will be trued off, as a share of the wished outline, when that has three or four sides.
    pub waste: f64,
}

impl Grown {
    /// What the grown pieces are ranked by: the cost, less what a good row is worth, more when it
    /// misses the wished size by nearly half an inch or is short of pieces.
    fn rank(&self) -> f64 {
        let missed = 8.0 * (self.size_off.abs() - 0.4).max(0.0)
            + self.short as f64
            + WASTE * self.waste
            + UNMET * self.unmet.len() as f64;
        self.cost - 0.3 * self.good as f64 + missed
    }
}

/// Grows from a heap, from the first patch or from what lies on a bench: the best first. The same
/// heap, wish and seed give the same pieces on every machine.
#[must_use]
pub fn grow(
    heap: &Heap,
    wish: &Wish,
    goal: Goal,
    effort: Effort,
    seed: u64,
    from: Option<&Bench>,
    watch: &mut dyn Watch,
) -> Vec<Grown> {
    let about = Target::new(wish, goal, 0.0).pieces().max(goal.pieces() as f64);
    let starts = (effort.starts as f64 * (60.0 / about.max(1.0)).min(1.0)).round().max(1.0) as usize;
    let next = AtomicUsize::new(0);
    let stop = AtomicBool::new(false);
    let work = |watch: &mut dyn Watch| {
        let mut mine = Vec::new();
        loop {
            let lane = next.fetch_add(1, SeqCst);
            if lane >= starts {
                return mine;
            }
            let found = lane_of(heap, wish, goal, effort, seed, lane, from, watch);
            let stopped = found.iter().any(|grown| grown.end == End::Stopped);
            mine.push((lane, found));
            if stopped {
                return mine;
            }
        }
    };
    let mut results: Vec<(usize, Vec<Grown>)> = std::thread::scope(|scope| {
        let other = (starts > 1).then(|| scope.spawn(|| work(&mut Follow(&stop))));
        let mut all = work(&mut Lead { watch, stop: &stop });
        match other.map(std::thread::ScopedJoinHandle::join) {
            Some(Ok(more)) => all.extend(more),
            Some(Err(panic)) => std::panic::resume_unwind(panic),
            None => {}
        }
        all
    });
    results.sort_by_key(|(lane, _)| *lane);
    let mut all: Vec<Grown> = results.into_iter().flat_map(|(_, grown)| grown).collect();
    all.sort_by(|a, b| {
        let further = match (&a.end, &b.end) {
            (End::Stopped, End::Stopped) => b.pieces.cmp(&a.pieces),
            _ => Ordering::Equal,
        };
        rank(a).cmp(&rank(b)).then(further).then(a.rank().total_cmp(&b.rank()))
    });
    all
}

/// What it costs when something wished for isn't there: more than looks can make good.
const UNMET: f64 = 20.0;

/// What it costs to true off as much as the wished outline.
const WASTE: f64 = 10.0;

/// Pieces that arrived come before those that were stopped or got stuck, and those before what
/// breaks a limit.
fn rank(grown: &Grown) -> u8 {
    match grown.end {
        _ if grown.cost >= finish::BROKEN => 5,
        End::Reached => 0,
        End::Near => 1,
        End::Stopped => 2,
        End::ClothRanOut { .. } | End::NoShape => 3,
        End::NothingToStart => 4,
    }
}

/// The watch of the thread that reports, and tells the other when to stop.
struct Lead<'a> {
    watch: &'a mut dyn Watch,
    stop: &'a AtomicBool,
}

impl Watch for Lead<'_> {
    fn placed(&mut self, pieces: usize, about: usize) -> bool {
        let on = self.watch.placed(pieces, about);
        if !on {
            self.stop.store(true, SeqCst);
        }
        on
    }
}

struct Follow<'a>(&'a AtomicBool);

impl Watch for Follow<'_> {
    fn placed(&mut self, _: usize, _: usize) -> bool {
        !self.0.load(SeqCst)
    }
}

#[expect(clippy::too_many_arguments, reason = "one lane of `grow`, with its number")]
fn lane_of(
    heap: &Heap,
    wish: &Wish,
    goal: Goal,
    effort: Effort,
    seed: u64,
    lane: usize,
    from: Option<&Bench>,
    watch: &mut dyn Watch,
) -> Vec<Grown> {
    let mut chance = Chance::new(seed.wrapping_mul(0x9E37).wrapping_add(lane as u64));
    let mut growing = Growing::new(wish, heap, Target::new(wish, goal, chance.between(0.0, 360.0)), effort);
    growing.sparks_turn_deg = chance.between(0.0, 360.0);
    if from.is_some() {
        // From a bench all lanes start alike: chance decides between moves that are nearly as good.
        growing.variety = VARIETY;
        growing.seed = chance.next();
    }
    let first = match from {
        Some(bench) => bench::centre(bench, heap, &growing.target, wish, growing.sparks_turn_deg)
            .ok()
            .map(|centre| State { centre, trail: None }),
        None => start::start(heap, &growing.target, wish, &mut chance),
    };
    let Some(first) = first else {
        let (cost, score) = (f64::INFINITY, f64::INFINITY);
        return vec![Grown {
            entries: Vec::new(),
            pieces: 0,
            end: End::NothingToStart,
            score,
            cost,
            good: 0,
            size_off: 0.0,
            unmet: Vec::new(),
            waste: 0.0,
            short: if let Goal::Pieces(asked) = goal { asked } else { 0 },
        }];
    };
    let mut all = Vec::new();
    for effort in [effort, Effort::QUICK] {
        growing.set_effort(effort);
        let (states, end) = beam(&growing, first.clone(), goal, watch);
        all.extend(states.iter().map(|state| finish::grown(state, &end, goal, wish, &growing.target, from)));
        if effort == Effort::QUICK || end == End::Stopped {
            break;
        }
    }
    all
}

/// By how much chance may raise the score of a move where all lanes start alike.
const VARIETY: f64 = 0.35;

/// A centre in the beam with its next moves, best first.
struct Runner {
    state: State,
    options: Vec<Move>,
    value: f64,
}

fn runner(growing: &Growing, state: State, goal: Goal) -> Runner {
    let options = growing.moves(&state, goal);
    let centre = &state.centre;
    let pieces = centre.placed.len() as f64;
    let value = match options.first() {
        Some(made) if growing.effort.depth > 1 => {
            let cells = made.unit.cells.len() as f64;
            (centre.cost + made.cost * cells) / (pieces + cells)
        }
        None if growing.effort.depth > 1 && !growing.is_done(&state, goal) => centre.cost / pieces + 1.0,
        _ => centre.cost / pieces,
    };
    Runner { state, options, value }
}

fn beam(growing: &Growing, first: State, goal: Goal, watch: &mut dyn Watch) -> (Vec<State>, End) {
    let about = growing.about(goal);
    let mut lately: VecDeque<State> = VecDeque::new();
    let mut runners = vec![runner(growing, first, goal)];
    loop {
        let (done, open): (Vec<Runner>, Vec<Runner>) =
            runners.into_iter().partition(|runner| runner.options.is_empty());
        if open.is_empty() {
            return ended(growing, done, goal, &lately);
        }
        if matches!(goal, Goal::Pieces(_)) {
            lately.truncate(LATELY - 1);
            lately.push_front(open[0].state.clone());
        }
        let mut next = children(growing, &open, goal);
        // A centre that has arrived stays in the beam and competes at the end.
        let arrived = done.into_iter().filter(|runner| growing.is_done(&runner.state, goal));
        next.extend(arrived);
        next.sort_by(|a, b| a.value.total_cmp(&b.value));
        next.truncate(growing.effort.beam);
        if next.is_empty() {
            return ended(growing, open, goal, &lately);
        }
        runners = next;
        if !watch.placed(runners[0].state.centre.placed.len(), about) {
            return (runners.into_iter().map(|runner| runner.state).collect(), End::Stopped);
        }
    }
}

/// So many of the last centres are kept, to go back to when the last pieces don't come out even.
const LATELY: usize = 24;

/// What a beam ends with. The edges of a large centre take many pieces each, so that the last few of
/// a number of pieces may fit on none: then from one of the last centres on, an edge is looked for
/// that takes just as many as were missing there.
fn ended(growing: &Growing, last: Vec<Runner>, goal: Goal, lately: &VecDeque<State>) -> (Vec<State>, End) {
    let states: Vec<State> = last.into_iter().map(|runner| runner.state).collect();
    let end = growing.end(&states, goal);
    if let (Goal::Pieces(asked), false) = (goal, end == End::Reached)
        && let Some(even) = lately.iter().find_map(|state| growing.last_edge(state, asked))
    {
        return (vec![even], End::Reached);
    }
    (states, end)
}

/// The best children of the open centres, not too many of one.
fn children(growing: &Growing, open: &[Runner], goal: Goal) -> Vec<Runner> {
    let wanted = if growing.effort.depth > 1 { growing.effort.beam * 3 / 2 + 1 } else { growing.effort.beam };
    let mut ranked: Vec<(f64, usize, usize)> = Vec::new();
    for (i, runner) in open.iter().enumerate() {
        let centre = &runner.state.centre;
        for (j, made) in runner.options.iter().enumerate() {
            let cells = made.unit.cells.len() as f64;
            let value = (centre.cost + made.cost * cells) / (centre.placed.len() as f64 + cells);
            ranked.push((value, i, j));
        }
    }
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    let most_of_one = (wanted / 2).max(1);
    let mut of_one = vec![0; open.len()];
    let mut found = Vec::new();
    for (_, i, j) in ranked {
        if found.len() == wanted {
            break;
        }
        if of_one[i] == most_of_one && open.len() > 1 {
            continue;
        }
        let taken = moves::take(
            &open[i].state,
            &growing.target,
            growing.wish,
            &open[i].options[j],
            growing.sparks_turn_deg,
        );
        if let Some(state) = taken {
            of_one[i] += 1;
            found.push(runner(growing, state, goal));
        }
    }
    found
}
