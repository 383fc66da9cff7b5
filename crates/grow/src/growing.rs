//! The moves that a centre has, best first.

use crate::centre::Centre;
use crate::chance::Chance;
use crate::choose::{self, Choosing};
use crate::heap::Heap;
use crate::moves::{self, Move, State};
use crate::search::{Effort, End, Goal};
use crate::shape::{self, Shaping};
use crate::split::{self, MOST_CELLS, Splitting, USUAL_CELLS, Unit};
use crate::target::Target;
use crate::trim::{self, Trim};
use crate::weights;
use quilt::cloth::ClothId;
use quilt::wish::{Spiral, Towards, Wish};
use std::sync::Arc;

/// What the maker bends a proposal to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bend {
    /// This cloth must be in it.
    pub cloth: Option<ClothId>,
    /// Finished depth in inches.
    pub depth_in: Option<f64>,
    /// How far the outer edge turns from the side, in degrees, counter-clockwise.
    pub tilt_deg: Option<f64>,
    /// How many pieces the unit has.
    pub pieces: Option<usize>,
}

/// Everything that holds while growing.
pub(crate) struct Growing<'a> {
    pub(crate) wish: &'a Wish,
    pub(crate) target: Target,
    pub(crate) sparks_turn_deg: f64,
    pub(crate) effort: Effort,
    pub(crate) bend: Bend,
    /// By how much chance may raise a move's score, and where its stream starts.
    pub(crate) variety: f64,
    pub(crate) seed: u64,
    /// How many moves to give for one side.
    pub(crate) keep: usize,
    /// For each group of the heap, where its colour lies on the wished drift, 0 to 1.
    pub(crate) on_drift: Arc<[Option<f64>]>,
    /// Fillings of units that are not to come again.
    pub(crate) barred: &'a [Vec<ClothId>],
    /// Whether several scraps of one print are looked at for one cell.
    pub(crate) scraps: bool,
}

/// A unit, and the trim that goes before it with the centre after that.
type Optional = (Unit, Option<(Trim, Centre)>);

/// How much of the declared grid is looked at.
#[derive(Clone, Copy)]
pub(crate) struct Grid {
    pub(crate) shapes: usize,
    pub(crate) splits: usize,
    pub(crate) cloths: usize,
    /// Shallower pieces and more of them in a unit.
    pub(crate) finer: bool,
}

const USUAL_GRID: Grid = Grid { shapes: 5, splits: 2, cloths: 4, finer: false };
const FINER_GRID: Grid = Grid { shapes: 24, splits: 3, cloths: 8, finer: true };
const FEW_GRID: Grid = Grid { shapes: 2, splits: 1, cloths: 4, finer: false };

impl<'a> Growing<'a> {
    pub(crate) fn new(wish: &'a Wish, heap: &Heap, target: Target, effort: Effort) -> Self {
        let keep = if effort.beam == 1 { 1 } else { 3 };
        let on_drift = heap.groups().iter().map(|group| wish.place_on_drift(group.lab)).collect();
        Self {
            wish,
            target,
            sparks_turn_deg: 0.0,
            effort,
            bend: Bend::default(),
            variety: 0.0,
            seed: 0,
            keep,
            on_drift,
            barred: &[],
            scraps: false,
        }
    }

    /// The same, without these fillings.
    pub(crate) fn barring<'b>(&'b self, barred: &'b [Vec<ClothId>]) -> Growing<'b> {
        let (target, on_drift) = (self.target.clone(), Arc::clone(&self.on_drift));
        Growing { barred, target, on_drift, ..*self }
    }

    /// Lets chance raise the scores of units a little, in the same way for the same seed.
    fn vary(&self, centre: &Centre, options: &mut [Optional]) {
        if self.variety > 0.0 {
            let mut chance = Chance::new(self.seed ^ u64::from(centre.next_mark));
            options.iter_mut().for_each(|(unit, _)| unit.cost += chance.between(0.0, self.variety));
        }
    }

    pub(crate) fn set_effort(&mut self, effort: Effort) {
        self.effort = effort;
        self.keep = if effort.beam == 1 { 1 } else { 3 };
    }

    /// About how many pieces there will be.
    pub(crate) fn about(&self, goal: Goal) -> usize {
        match goal {
            Goal::Pieces(n) | Goal::SizeWith(n) => n,
            Goal::Size | Goal::DriftEnd => self.target.pieces() as usize,
        }
    }

    /// The best moves from a state, on the sides most due.
    pub(crate) fn moves(&self, state: &State, goal: Goal) -> Vec<Move> {
        if let Goal::SizeWith(n) = goal {
            let left = n.saturating_sub(state.centre.placed.len()).max(1);
            let target = self.target.fitted(state.centre.area, left);
            let on_drift = Arc::clone(&self.on_drift);
            return Growing { target, on_drift, ..*self }.moves(state, Goal::Size);
        }
        let limit = match goal {
            Goal::Pieces(n) => n.saturating_sub(state.centre.placed.len()).min(MOST_CELLS),
            Goal::Size | Goal::SizeWith(_) | Goal::DriftEnd => MOST_CELLS,
        };
        if limit == 0 {
            return Vec::new();
        }
        if matches!(goal, Goal::Pieces(_))
            && self.bend.depth_in.is_none()
            && self.due(&state.centre).is_empty()
        {
            return self.beyond(&state.centre, limit, f64::INFINITY);
        }
        let spiral = self.wish.spiral != Spiral::None && state.centre.last.is_some();
        let wanted = if self.effort.beam == 1 || spiral { 1 } else { 2 };
        let mut found = Vec::new();
        let mut tried = 0;
        let due = self.due(&state.centre);
        for &side in &due {
            let some = self.on_side(&state.centre, side, limit);
            tried += usize::from(!some.is_empty());
            found.extend(some);
            if tried >= wanted {
                break;
            }
        }
        // A side on which nothing goes may get longer by what is sewn onto one beside it.
        if found.is_empty() && !due.is_empty() && self.bend.depth_in.is_none() {
            let most =
                if matches!(goal, Goal::Pieces(_)) { f64::INFINITY } else { self.beyond_depth() / 2.0 };
            return self.beyond(&state.centre, limit, most);
        }
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        found
    }

    /// The centre with as many pieces as asked for, if one edge of this one takes all that are
    /// missing: the best such edge.
    pub(crate) fn last_edge(&self, state: &State, asked: usize) -> Option<State> {
        let missing =
            asked.checked_sub(state.centre.placed.len()).filter(|n| (1..=MOST_CELLS).contains(n))?;
        let centre = &state.centre;
        let on_side = |side: usize| {
            let due = shape::course_of(centre, &self.target, side, self.wish.allowance_in).is_some();
            let depth_in = if due { self.bend.depth_in } else { Some(self.beyond_depth()) };
            let bend = Bend { pieces: Some(missing), depth_in, ..self.bend };
            let (target, on_drift) = (self.target.clone(), Arc::clone(&self.on_drift));
            Growing { bend, target, on_drift, ..*self }.on_side(centre, side, missing)
        };
        let found = (0..centre.sides.len()).flat_map(on_side);
        let best = found.min_by(|a, b| a.cost.total_cmp(&b.cost))?;
        moves::take(state, &self.target, self.wish, &best, self.sparks_turn_deg)
    }

    /// As deep as the last pieces: what holds beyond the wished size.
    pub(crate) fn beyond_depth(&self) -> f64 {
        0.75 * self.target.size(1.0)
    }

    /// The best moves whether or not a side has arrived, on the one nearest to the middle that takes
    /// any; none on what lies more than `most` inches beyond the wished outline.
    fn beyond(&self, centre: &Centre, limit: usize, most: f64) -> Vec<Move> {
        let bend = Bend { depth_in: Some(self.beyond_depth()), ..self.bend };
        let (target, on_drift) = (self.target.clone(), Arc::clone(&self.on_drift));
        let growing = Growing { bend, target, on_drift, ..*self };
        let away = |i: &usize| centre.sides[*i].line.inside_by(centre.middle);
        let past = |i: &usize| away(i) - self.target.reach(-centre.sides[*i].line.normal.vec());
        let mut sides: Vec<usize> = (0..centre.sides.len()).filter(|i| past(i) < most).collect();
        sides.sort_by(|a, b| away(a).total_cmp(&away(b)).then(a.cmp(b)));
        let mut moves = sides.into_iter().map(|side| growing.on_side(centre, side, limit));
        moves.find(|moves| !moves.is_empty()).unwrap_or_default()
    }

    /// The sides that may be sewn next, the most due first.
    pub(crate) fn due(&self, centre: &Centre) -> Vec<usize> {
        let s = self.wish.allowance_in;
        let mut sides: Vec<(f64, usize)> = (0..centre.sides.len())
            .filter(|&i| shape::course_of(centre, &self.target, i, s).is_some())
            .map(|i| {
                let line = centre.sides[i].line;
                let share = (line.inside_by(centre.middle) - s) / self.target.reach(-line.normal.vec());
                (share, i)
            })
            .collect();
        sides.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut order: Vec<usize> = sides.into_iter().map(|(_, i)| i).collect();
        let next = centre.last.and_then(|last| match self.wish.spiral {
            Spiral::None => None,
            Spiral::Anticlockwise => Some(centre.after(last)),
            Spiral::Clockwise => Some(centre.before(last)),
        });
        if let Some(at) = next.and_then(|next| order.iter().position(|i| *i == next)) {
            let next = order.remove(at);
            order.insert(0, next);
        }
        order
    }

    /// The best moves on one side, some with a trim before. When the usual few shapes and cloths
    /// give none, more are tried.
    pub(crate) fn on_side(&self, centre: &Centre, side: usize, limit: usize) -> Vec<Move> {
        let found = self.usual_on_side(centre, side, limit);
        if found.is_empty() { self.more_on_side(centre, side, limit) } else { found }
    }

    /// The best moves of the usual few shapes.
    pub(crate) fn usual_on_side(&self, centre: &Centre, side: usize, limit: usize) -> Vec<Move> {
        let mut usual = self.options(centre, side, USUAL_GRID);
        if self.wants_sides(centre) {
            usual.extend(self.after_trims(centre, side));
        }
        self.clothed(centre, usual, limit, USUAL_GRID.cloths)
    }

    /// The best moves of the finer grid, and of trims that nothing but need asks for.
    pub(crate) fn more_on_side(&self, centre: &Centre, side: usize, limit: usize) -> Vec<Move> {
        let mut more = self.options(centre, side, FINER_GRID);
        more.extend(self.after_trims(centre, side));
        self.clothed(centre, more, limit, FINER_GRID.cloths)
    }

    fn options(&self, centre: &Centre, side: usize, grid: Grid) -> Vec<Optional> {
        self.units(centre, side, grid).into_iter().map(|unit| (unit, None)).collect()
    }

    /// The best options for which there is cloth.
    fn clothed(&self, centre: &Centre, mut options: Vec<Optional>, limit: usize, cloths: usize) -> Vec<Move> {
        options.retain(|(unit, _)| unit.cells.len() <= limit);
        if let Some(pieces) = self.bend.pieces {
            options.retain(|(unit, _)| unit.cells.len() == pieces);
        }
        self.vary(centre, &mut options);
        options.sort_by(|a, b| a.0.cost.total_cmp(&b.0.cost));
        let mut found = Vec::new();
        // What is dressed is bounded in cells as well: long units take many.
        let mut cells = 0;
        for (unit, trim) in options {
            if found.len() >= self.keep || cells >= self.keep * USUAL_CELLS {
                break;
            }
            let made = self.with_cloth(centre, unit, trim, cloths);
            cells += made.as_ref().map_or(0, |made| made.unit.cells.len());
            found.extend(made);
        }
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        found
    }

    pub(crate) fn with_cloth(
        &self,
        centre: &Centre,
        unit: Unit,
        trim: Option<(Trim, Centre)>,
        cloths: usize,
    ) -> Option<Move> {
        let at = trim.as_ref().map_or(centre, |(_, after)| after);
        let chosen = choose::choose(&self.choosing(at, cloths), &unit)?;
        let trim = trim.map(|(trim, after)| (trim, Box::new(after)));
        let cost = unit.cost + chosen.cost;
        Some(Move { trim, unit, picks: chosen.picks, cost, beside: chosen.beside, asked: chosen.asked })
    }

    /// How cloths are chosen for a centre.
    pub(crate) fn choosing<'c>(&'c self, centre: &'c Centre, keep: usize) -> Choosing<'c> {
        Choosing {
            centre,
            target: &self.target,
            wish: self.wish,
            sparks_turn_deg: self.sparks_turn_deg,
            keep,
            must: self.bend.cloth,
            on_drift: &self.on_drift,
            barred: self.barred,
            scraps: self.scraps,
        }
    }

    /// Units for a side after a trim: on a corner cut off, or on the side turned.
    fn after_trims(&self, centre: &Centre, side: usize) -> Vec<Optional> {
        let mut found = Vec::new();
        for (trim, after, made) in self.trims(centre, side) {
            for mut unit in self.units(&after, made, FEW_GRID) {
                unit.cost += self.thrift(&trim);
                found.push((unit, Some((trim, after.clone()))));
            }
        }
        found
    }

    /// What a trim costs.
    pub(crate) fn thrift(&self, trim: &Trim) -> f64 {
        weights::THRIFT * self.wish.weights.thrift * trim.area / 4.0
    }

    /// Trims that may go before, each with the centre after it and the index of the side it makes.
    pub(crate) fn trims(&self, centre: &Centre, side: usize) -> Vec<(Trim, Centre, usize)> {
        let (s, limits) = (self.wish.allowance_in, self.wish.limits);
        let mut trims = trim::caps(centre, side, s, limits);
        if !self.wants_sides(centre) {
            trims.extend(trim::turns(centre, side, s, limits));
        }
        let newest =
            |after: &Centre| after.sides.iter().position(|made| made.name.by.0 + 1 == after.next_mark);
        trims
            .into_iter()
            .filter_map(|(trim, after)| {
                let made = newest(&after)?;
                Some((trim, after, made))
            })
            .collect()
    }

    /// Whether the outline has fewer sides than wished, and is large enough to bear more.
    pub(crate) fn wants_sides(&self, centre: &Centre) -> bool {
        let Towards::Round { sides } = self.wish.towards else { return false };
        centre.sides.len() < usize::from(sides) && centre.placed.len() > 3
    }

    /// The best units for a side.
    pub(crate) fn units(&self, centre: &Centre, side: usize, grid: Grid) -> Vec<Unit> {
        self.units_below(centre, side, grid, f64::INFINITY)
    }

    /// The best units of the shapes that cost less than `most`.
    pub(crate) fn units_below(&self, centre: &Centre, side: usize, grid: Grid, most: f64) -> Vec<Unit> {
        let wish = self.wish;
        let splitting = Splitting {
            centre,
            target: &self.target,
            allowance: wish.allowance_in,
            limits: wish.limits,
            chunky: wish.weights.chunky,
            step: wish.weights.step,
        };
        let shaping = Shaping {
            centre,
            target: &self.target,
            allowance: wish.allowance_in,
            round: wish.weights.round,
            depth_in: self.bend.depth_in,
            tilt_deg: self.bend.tilt_deg,
            finer: grid.finer,
        };
        shape::shapes(&shaping, side)
            .iter()
            .take(grid.shapes)
            .take_while(|shape| shape.cost < most)
            .flat_map(|shape| split::splits(&splitting, shape, grid.splits, grid.finer))
            .collect()
    }

    pub(crate) fn is_done(&self, state: &State, goal: Goal) -> bool {
        match goal {
            Goal::Pieces(n) => state.centre.placed.len() >= n,
            Goal::Size | Goal::SizeWith(_) | Goal::DriftEnd => self.due(&state.centre).is_empty(),
        }
    }

    /// Why centres without a next move have none.
    pub(crate) fn end(&self, states: &[State], goal: Goal) -> End {
        if states.iter().any(|state| self.is_done(state, goal)) {
            return End::Reached;
        }
        let stuck = states.iter().find_map(|state| {
            let centre = &state.centre;
            let side = *self.due(centre).first()?;
            let shaped = !self.units(centre, side, FINER_GRID).is_empty();
            let line = centre.sides[side].line;
            let share = self.target.share(-line.normal.vec() * line.inside_by(centre.middle));
            Some((shaped, share))
        });
        match stuck {
            Some((true, share)) => End::ClothRanOut { size_in: self.target.size(share), share },
            Some((false, _)) | None => End::NoShape,
        }
    }
}
