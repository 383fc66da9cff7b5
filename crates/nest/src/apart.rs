//! Pushing apart: pieces that lie in each other, or where they must not, are moved to where they lie in less, until
//! nothing does. Pairs that stay in each other weigh more from round to round, so that no place holds out for ever
//! (guided local search; Voudouris and Tsang 1999).

use crate::ask::Turns;
use crate::budget::Budget;
use crate::engine::Thing;
use crate::overlap::{Edge, between, beyond};
use crate::shape::TOUCH_IN;
use crate::state::{At, State};
use plane::{Turn, Vec2};

/// The most pieces that are pushed at once.
const MOST: usize = 600;
/// Places tried for a piece anywhere, and near where it lies.
const TRIED: [u32; 2] = [36, 16];
/// The same on one length, which is full to the last.
const TRIED_LONG: [u32; 2] = [64, 40];
/// Of these so many are made better step by step.
const KEPT: usize = 3;
/// A round that lessens all depths by less than this share brings nothing.
const LESS: f64 = 0.98;

/// By what weights grow from round to round, for the least deep and the deepest.
const GROWS: [f64; 2] = [1.2, 2.0];
/// What is left of the weight of a pair that is apart, each round.
const FORGET: f64 = 0.95;

/// How much each pair weighs, and each piece against what is fixed.
struct Weights {
    place_of: Vec<usize>,
    count: usize,
    all: Vec<f64>,
}

impl Weights {
    fn new(group: &[usize], pieces: usize) -> Self {
        let mut place_of = vec![usize::MAX; pieces];
        for (i, &piece) in group.iter().enumerate() {
            place_of[piece] = i;
        }
        let count = group.len();
        Self { place_of, count, all: vec![1.0; count * (count + 1)] }
    }

    /// All weigh alike.
    fn even(pieces: usize) -> Self {
        Self { place_of: vec![0; pieces], count: 1, all: vec![1.0; 2] }
    }

    /// Where the weight of a piece against another is, or, without one, against what is fixed.
    fn of(&self, piece: usize, other: Option<usize>) -> usize {
        let place = self.place_of[piece];
        match other.map(|other| self.place_of[other]) {
            None => place * (self.count + 1) + self.count,
            Some(other) => place.max(other) * (self.count + 1) + place.min(other),
        }
    }

    /// Adds weight by depth, and lets the others forget.
    fn grow(&mut self, depths: &[(usize, Option<usize>, f64)]) {
        let most = depths.iter().map(|depth| depth.2).fold(1e-12, f64::max);
        for weight in &mut self.all {
            *weight = (*weight * FORGET).max(1.0);
        }
        for &(piece, other, depth) in depths {
            let at = self.of(piece, other);
            self.all[at] *= (GROWS[0] + (GROWS[1] - GROWS[0]) * depth / most) / FORGET;
        }
    }
}

impl State<'_> {
    /// Moves all that lies on some parts until nothing lies in anything. `patience` is how many rounds in a row may
    /// bring nothing. What lies where afterwards is only sound when it says yes.
    pub(crate) fn push_apart(&mut self, grounds: &[usize], patience: u32, budget: &mut Budget<'_>) -> bool {
        self.push_apart_noting(grounds, patience, budget, &mut |_| {})
    }

    /// The same; `nearer` is told of each state that comes nearer to sound than all before.
    pub(crate) fn push_apart_noting(
        &mut self,
        grounds: &[usize],
        patience: u32,
        budget: &mut Budget<'_>,
        nearer: &mut dyn FnMut(&Self),
    ) -> bool {
        let group: Vec<usize> =
            grounds.iter().flat_map(|&ground| self.grounds[ground].on.iter().copied()).collect();
        if group.len() > MOST {
            return false;
        }
        let mut weights = Weights::new(&group, self.at.len());
        let (mut least, mut since) = (f64::INFINITY, 0);
        loop {
            let depths = self.depths(&group);
            if depths.is_empty() {
                return true;
            }
            let total: f64 = depths.iter().map(|depth| depth.2).sum();
            since = if total < LESS * least { 0 } else { since + 1 };
            if total < least {
                least = total;
                nearer(self);
            }
            if since > patience || !budget.next() {
                return false;
            }
            weights.grow(&depths);
            let mut bad: Vec<usize> =
                depths.iter().flat_map(|&(piece, other, _)| [Some(piece), other]).flatten().collect();
            bad.sort_unstable();
            bad.dedup();
            for i in (1..bad.len()).rev() {
                let other = self.chance.below(i + 1);
                bad.swap(i, other);
            }
            for piece in bad {
                self.move_on(piece, grounds, &weights);
            }
        }
    }

    /// What lies in what, each pair once, and how deep.
    fn depths(&mut self, group: &[usize]) -> Vec<(usize, Option<usize>, f64)> {
        let mut depths = Vec::new();
        for &piece in group {
            let Some(at) = self.at[piece] else { continue };
            self.each_depth(piece, at, &mut |other, depth| {
                if other.is_none_or(|other| other < piece) {
                    depths.push((piece, other, depth));
                }
                false
            });
        }
        depths
    }

    /// Tells what a piece would lie in and how deep, until `seen` has seen enough.
    fn each_depth(&mut self, piece: usize, at: At, seen: &mut dyn FnMut(Option<usize>, f64) -> bool) {
        let which = self.shape_of[piece];
        let (shape, ground) = (&self.shapes[which], &self.grounds[at.ground]);
        let rooms = (&mut self.rooms[which], &mut self.met);
        if let Some(limit) = ground.limit {
            let over = ground.frame.far(shape, at.turn, at.by) - limit;
            if over > 1e-9 && seen(None, beyond(&shape.engine, over)) {
                return;
            }
        }
        let edge = || ground.edge.get_or_init(|| Edge::new(&ground.region, ground.collisions.middle));
        ground.collisions.each(shape, piece, rooms, at.turn, at.by, &mut |thing, own, other| match (
            thing, other,
        ) {
            (Thing::Piece(other), Some(outline)) => seen(Some(other), between(own, outline)),
            (_, Some(outline)) => seen(None, between(own, outline)),
            (_, None) => seen(None, edge().outside(own)),
        });
    }

    /// What a place weighs; no more than a little over `most` is counted.
    fn weighed(&mut self, piece: usize, at: At, weights: &Weights, most: f64) -> f64 {
        let mut sum = 0.0;
        self.each_depth(piece, at, &mut |other, depth| {
            sum += depth * weights.all[weights.of(piece, other)];
            sum > most
        });
        sum
    }

    /// Moves a piece to where it lies in least.
    fn move_on(&mut self, piece: usize, grounds: &[usize], weights: &Weights) {
        let Some(here) = self.at[piece] else { return };
        let now = self.weighed(piece, here, weights, f64::INFINITY);
        if now == 0.0 {
            return;
        }
        let mut kept = vec![(now, here)];
        let ways = self.ways(piece, grounds);
        let [anywhere, near] = if self.is_one_length() { TRIED_LONG } else { TRIED };
        for i in 0..anywhere + near {
            let at = if i < anywhere { self.anywhere(piece, &ways) } else { self.near(piece, here, &ways) };
            let Some(at) = at else { continue };
            let most = if kept.len() < KEPT { f64::INFINITY } else { kept[KEPT - 1].0 };
            let sum = self.weighed(piece, at, weights, most);
            if sum < most {
                let after = kept.partition_point(|&(other, _)| other <= sum);
                kept.insert(after, (sum, at));
                kept.truncate(KEPT);
            }
            if sum == 0.0 {
                break;
            }
        }
        let mut best = kept[0];
        for (sum, at) in kept {
            if best.0 == 0.0 {
                break;
            }
            let found = self.step_by_step(piece, (sum, at), weights);
            if found.0 < best.0 {
                best = found;
            }
        }
        if best.1 != here {
            self.take(piece);
            self.put(piece, best.1);
        }
    }

    /// The ways a piece may lie on some parts; one a part where any turn will do.
    fn ways(&self, piece: usize, grounds: &[usize]) -> Vec<(usize, Option<Turn>)> {
        let mut ways = Vec::new();
        for &ground in grounds {
            match self.source(piece, self.grounds[ground].cloth).map(|source| &source.turns) {
                Some(Turns::Any) => ways.push((ground, None)),
                Some(Turns::Only(turns)) => ways.extend(turns.iter().map(|&turn| (ground, Some(turn)))),
                None => {}
            }
        }
        ways
    }

    /// A place by chance.
    fn anywhere(&mut self, piece: usize, ways: &[(usize, Option<Turn>)]) -> Option<At> {
        let &(ground, turn) = ways.get(self.chance.below(ways.len()))?;
        let turn = turn.unwrap_or_else(|| Turn::from_degrees(360.0 * self.chance.share()));
        let there = &self.grounds[ground];
        let frame = &there.frame;
        let (low, high) = frame.reach(&self.shapes[self.shape_of[piece]], turn);
        let long = there.limit.map_or(frame.long(), |limit| limit.min(frame.long()));
        let mut between = |whole: f64, i: usize| {
            let room = whole - (high[i] - low[i]);
            room * self.chance.share() - low[i]
        };
        let (along_in, across_in) = (between(long, 0), between(frame.wide(), 1));
        Some(At { ground, turn, by: frame.at(along_in, across_in) })
    }

    /// A place by chance near another.
    fn near(&mut self, piece: usize, here: At, ways: &[(usize, Option<Turn>)]) -> Option<At> {
        let reach = 0.5 * self.shapes[self.shape_of[piece]].reach;
        let mut turns = ways.iter().filter(|(ground, _)| *ground == here.ground).map(|&(_, turn)| turn);
        let turn = match turns.next()? {
            None => here.turn.then(Turn::from_degrees(20.0 * (self.chance.share() - 0.5))),
            Some(_) => here.turn,
        };
        let mut off = || reach * (2.0 * self.chance.share() - 1.0);
        let by = here.by + Vec2::new(off(), off());
        Some(At { turn, by, ..here })
    }

    /// Shifts a place, and turns it where any turn will do, by ever smaller steps while it gets better.
    fn step_by_step(&mut self, piece: usize, (mut sum, mut at): (f64, At), weights: &Weights) -> (f64, At) {
        let turns = self.source(piece, self.grounds[at.ground].cloth).map(|source| &source.turns);
        let any_turn = matches!(turns, Some(Turns::Any));
        let reach = self.shapes[self.shape_of[piece]].reach;
        let mut step = 0.15 * reach;
        while step > 0.001 * reach.max(TOUCH_IN) && sum > 0.0 {
            let way = self.chance.below(if any_turn { 4 } else { 3 });
            let slant = Turn::from_degrees(360.0 * self.chance.share()).vec();
            let moved = |sign: f64| match way {
                0 => At { by: at.by + Vec2::new(sign * step, 0.0), ..at },
                1 => At { by: at.by + Vec2::new(0.0, sign * step), ..at },
                2 => At { by: at.by + slant * (sign * step), ..at },
                _ => At { turn: at.turn.then(Turn::from_degrees(sign * (step / reach).to_degrees())), ..at },
            };
            let mut found = None;
            for there in [moved(1.0), moved(-1.0)] {
                let tried = self.weighed(piece, there, weights, sum);
                if tried < sum && found.is_none_or(|(least, _)| tried < least) {
                    found = Some((tried, there));
                }
            }
            match found {
                Some(better) => ((sum, at), step) = (better, step * 1.1),
                None => step *= 0.5,
            }
        }
        (sum, at)
    }

    /// Puts a piece where it lies in least of what is there, sound or not; `false` where it may lie on none of them.
    pub(crate) fn force(&mut self, piece: usize, grounds: &[usize]) -> bool {
        let ways = self.ways(piece, grounds);
        let Some(at) = self.anywhere(piece, &ways) else { return false };
        self.put(piece, at);
        let weights = Weights::even(self.at.len());
        for _ in 0..2 {
            self.move_on(piece, grounds, &weights);
        }
        true
    }
}
