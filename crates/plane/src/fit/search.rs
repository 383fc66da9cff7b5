//! Whether there is a turn and a shift with room, decided by proofs.
//!
//! At one turn, keeping the piece's hull inside the cloth's hull leaves a convex set of shifts;
//! its point with the most room comes from [`crate::slack`]. If there is none, three rules prove
//! it, and [`super::sweep`] tells up to which turn they do: the search jumps there. If there is
//! one but a part of the piece overlaps an obstacle there, some side of either must part them:
//! each such side is tried as one more rule, over the rest of the turns. So without obstacles
//! the answer is exact in some ten to fifty steps, and with them exact as long as the budget of
//! steps lasts.

use super::overlap::{Placed, parting};
use super::prepared::{FitCloth, FitPiece};
use super::rule::{Rule, RuleAt};
use super::sweep::{Next, next_turn};
use crate::slack::{Room, most_room, weights};
use crate::{DECISION, Pose, Turn};

/// How a search ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fit {
    /// The piece fits so.
    Yes(Pose),
    /// It does not fit.
    No,
    /// The budget ran out; no way to fit it was found.
    Unknown,
}

impl Fit {
    /// Where it fits; `None` as well where that was not decided.
    #[must_use]
    pub const fn pose(self) -> Option<Pose> {
        match self {
            Self::Yes(pose) => Some(pose),
            Self::No | Self::Unknown => None,
        }
    }
}

pub(crate) struct Search<'a> {
    piece: &'a FitPiece,
    cloth: &'a FitCloth,
    start: Turn,
    steps_left: u32,
    rules: Vec<Rule<'a>>,
    /// Room for the rules at one turn, reused.
    now: Vec<RuleAt>,
    planes: Vec<crate::slack::HalfPlane>,
}

impl<'a> Search<'a> {
    pub(crate) fn new(piece: &'a FitPiece, cloth: &'a FitCloth, budget: u32) -> Self {
        let body = &piece.hull.points[..];
        let rules = cloth.hull.sides.iter().map(|&wall| Rule::Wall { wall, body }).collect();
        Self {
            piece,
            cloth,
            start: Turn::NONE,
            steps_left: budget,
            rules,
            now: Vec::new(),
            planes: Vec::new(),
        }
    }

    /// At one turn only.
    pub(crate) fn at(&mut self, turn: Turn) -> Option<Pose> {
        self.start = turn;
        self.explore(turn, false)
    }

    /// At every turn, beginning with `from`.
    pub(crate) fn all_round(&mut self, from: Turn) -> Option<Pose> {
        self.start = from;
        self.explore(from, true)
    }

    pub(crate) fn is_exhausted(&self) -> bool {
        self.steps_left == 0
    }

    /// Looks at turns from `from` on, under the present rules. The pose is in centred
    /// coordinates.
    fn explore(&mut self, from: Turn, on: bool) -> Option<Pose> {
        let mut turn = from;
        let mut basis = self.cloth.basis;
        loop {
            if self.steps_left == 0 {
                return None;
            }
            self.steps_left -= 1;
            let room = self.room(turn, basis)?;
            if room.slack >= -DECISION {
                return self.settle(Pose::new(turn, room.place), on);
            }
            if !on {
                return None;
            }
            basis = room.basis;
            turn = self.jump(&room, turn)?;
        }
    }

    fn room(&mut self, turn: Turn, basis: [usize; 3]) -> Option<Room> {
        self.now.clear();
        self.now.extend(self.rules.iter().map(|rule| rule.at(turn)));
        self.planes.clear();
        self.planes.extend(self.now.iter().map(|rule| rule.plane));
        let (w, total) = weights(basis.map(|i| self.planes[i].normal));
        let still_surrounds = total > 1e-6 && w.iter().all(|&w| w >= 0.0);
        most_room(&self.planes, if still_surrounds { basis } else { self.cloth.basis })
    }

    /// The next turn at which the three deciding rules may hold; `None` past the last.
    fn jump(&self, room: &Room, turn: Turn) -> Option<Turn> {
        let rules = room.basis.map(|i| &self.now[i]);
        let Next::By(by) = next_turn(rules, turn, DECISION / 2.0) else { return None };
        let least = 1e-10 / (1.0 + self.piece.summary.diameter);
        let by =
            if by.cos > 0.0 && by.sin < least { Turn { cos: 1.0, sin: least }.then(Turn::NONE) } else { by };
        let next = turn.then(by);
        let (was, is) = (self.way_round(turn), self.way_round(next));
        (is > was).then_some(next)
    }

    /// How far round from the start, growing from 0 to 4 (not evenly).
    fn way_round(&self, turn: Turn) -> f64 {
        let t = turn.then(self.start.inverse());
        let (x, y) = (t.cos, t.sin);
        let share = y / (x.abs() + y.abs());
        if x >= 0.0 && y >= 0.0 {
            share
        } else if x < 0.0 {
            2.0 - share
        } else {
            4.0 + share
        }
    }

    /// A pose inside the hull: done, or part the worst overlap by one more rule.
    fn settle(&mut self, pose: Pose, on: bool) -> Option<Pose> {
        let placed = Placed::new(self.piece, pose);
        let Some((part, obstacle)) = placed.worst_overlap(self.cloth, self.piece) else {
            return Some(pose);
        };
        let (part, obstacle) = (&self.piece.parts[part], &self.cloth.obstacles[obstacle]);
        for rule in parting(part, obstacle, pose) {
            self.rules.push(rule);
            let found = self.explore(pose.turn, on);
            self.rules.pop();
            if found.is_some() {
                return found;
            }
        }
        None
    }
}
