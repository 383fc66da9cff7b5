//! Choosing cloth for the cells of a unit: by look first, exact fit last.

use crate::centre::Centre;
use crate::heap::Rest;
use crate::look::{self, LookParts};
use crate::split::{Cell, USUAL_CELLS, Unit};
use crate::target::Target;
use crate::weights;
use plane::{Fit, FitPiece, Point, Pose, Turn, Turning, Vec2};
use quilt::cloth::{ClothId, Runs};
use quilt::wish::Wish;

/// A cloth chosen for a cell, and where to cut it.
#[derive(Clone, Debug)]
pub(crate) struct Pick {
    pub(crate) group: usize,
    pub(crate) cloth: ClothId,
    /// From the patch's coordinates to the cloth's.
    pub(crate) pose: Pose,
    pub(crate) look: LookParts,
    /// Share of the scrap that would be left.
    pub(crate) left: f64,
}

/// What choosing needs to know.
pub(crate) struct Choosing<'a> {
    pub(crate) centre: &'a Centre,
    pub(crate) target: &'a Target,
    pub(crate) wish: &'a Wish,
    pub(crate) sparks_turn_deg: f64,
    /// How many cloths a cell considers.
    pub(crate) keep: usize,
    /// For each group, where its colour lies on the wished drift.
    pub(crate) on_drift: &'a [Option<f64>],
    /// A cloth that the maker wants in it.
    pub(crate) must: Option<ClothId>,
    /// Fillings of whole units that are not to come again.
    pub(crate) barred: &'a [Vec<ClothId>],
    /// Whether several scraps of one print are looked at for one cell.
    pub(crate) scraps: bool,
}

/// Steps of search that one exact fit may take.
const FIT_BUDGET: u32 = 600;
/// Scraps of one group tried for a cell.
const TRIES: usize = 16;

/// Cloths for a whole unit.
#[derive(Clone, Debug)]
pub(crate) struct Chosen {
    pub(crate) picks: Vec<Pick>,
    /// Look + fit.
    pub(crate) cost: f64,
    /// How alike the scraps are, before weighting.
    pub(crate) beside: f64,
    /// What it is worth that asked-for cloth is used.
    pub(crate) asked: f64,
}

/// A cloth that has room for a cell.
#[derive(Clone, Copy)]
struct Candidate {
    group: usize,
    look: LookParts,
    cost: f64,
    /// Which rest of the group, and how the piece lies in it.
    index: usize,
    pose: Pose,
}

/// One way to fill some cells from the start on.
#[derive(Clone)]
struct Partial {
    cells: Vec<Candidate>,
    cost: f64,
    beside: f64,
    asked: f64,
}

/// The best cloths for a unit for which there is room, with the score of look and fit.
pub(crate) fn choose(how: &Choosing, unit: &Unit) -> Option<Chosen> {
    let total: f64 = unit.cells.iter().map(|c| c.area).sum();
    let barred = how.barred.iter().filter(|filling| filling.len() == unit.cells.len()).count();
    // So many that some are left when all that is barred is taken away.
    let keep = how.keep.saturating_add(if unit.cells.len() == 1 { barred } else { barred / 8 });
    let mut partials = vec![Partial { cells: Vec::new(), cost: 0.0, beside: 0.0, asked: 0.0 }];
    for (at, cell) in unit.cells.iter().enumerate() {
        let candidates = candidates(how, unit, at, &partials.first()?.cells, keep)?;
        partials = extend(how, &partials, &candidates, unit, cell.area / total);
        if barred > 0 && at + 1 == unit.cells.len() {
            partials.retain(|partial| !how.is_barred(partial));
        }
        partials.truncate(keep.saturating_mul(2));
    }
    let best = partials.into_iter().next()?;
    let picks = best
        .cells
        .iter()
        .zip(&unit.cells)
        .map(|(candidate, cell)| {
            let rest = &how.centre.heap.rests(candidate.group)[candidate.index];
            let left = 1.0 - cell.cut_area / rest.area();
            let Candidate { group, pose, look, .. } = *candidate;
            Pick { group, cloth: rest.cloth, pose, look, left }
        })
        .collect();
    Some(Chosen { picks, cost: best.cost, beside: best.beside, asked: best.asked })
}

/// The patches that a cell's seam runs along, with the length along each.
pub(crate) fn touching(centre: &Centre, unit: &Unit, cell: &Cell) -> Vec<(usize, f64)> {
    let seam = unit.shape.seam;
    // At a flank the finished shape ends an allowance short of the seam's end.
    let spare = |free: bool| if free { unit.shape.allowance } else { 0.0 };
    let from = seam.along(cell.finished[1]) - spare(cell.free[1]);
    let to = seam.along(cell.finished[0]) + spare(cell.free[3]);
    centre.sides[unit.shape.side]
        .along
        .iter()
        .filter_map(|along| {
            let overlap = along.to.min(to) - along.from.max(from);
            (overlap > 0.02).then_some((along.placed, overlap))
        })
        .collect()
}

/// Every group that may lie in a cell with its look and what that costs, best first.
pub(crate) fn ranked(how: &Choosing, unit: &Unit, cell: &Cell) -> Vec<(usize, LookParts, f64)> {
    let mut ranked = looks(how, unit, cell);
    ranked.sort_by(|a, b| a.2.total_cmp(&b.2).then(a.0.cmp(&b.0)));
    ranked
}

fn looks(how: &Choosing, unit: &Unit, cell: &Cell) -> Vec<(usize, LookParts, f64)> {
    let heap = &how.centre.heap;
    let touching = touching(how.centre, unit, cell);
    let around = look::surroundings(how.centre, how.target, how.wish, cell, touching, how.sparks_turn_deg);
    heap.groups()
        .iter()
        .enumerate()
        .filter(|(i, _)| heap.rests(*i).last().is_some_and(|rest| rest.area() >= cell.cut_area))
        .filter_map(|(i, group)| {
            let on_drift = how.on_drift.get(i).copied().flatten();
            let parts = look::look(how.centre, how.wish, &around, cell, (i, group), on_drift)?;
            Some((i, parts, how.look_cost(i, &parts)))
        })
        .collect()
}

/// What the look of a unit costs at least, whatever there is room for; `None` when no cloth may
/// lie in one of its cells.
pub(crate) fn least_look(how: &Choosing, unit: &Unit) -> Option<f64> {
    let total: f64 = unit.cells.iter().map(|c| c.area).sum();
    let least = |cell: &Cell| looks(how, unit, cell).iter().map(|look| look.2).min_by(f64::total_cmp);
    unit.cells.iter().map(|cell| Some(least(cell)? * cell.area / total)).sum()
}

/// The cloths with the best look that have room for a cell, at most `keep`. `before` is the best
/// filling of the cells before it: on a long edge only what can go on from that is looked at, or
/// else its prints would take all places.
fn candidates(
    how: &Choosing,
    unit: &Unit,
    at: usize,
    before: &[Candidate],
    keep: usize,
) -> Option<Vec<Candidate>> {
    let cell = &unit.cells[at];
    let ranked = ranked(how, unit, cell);
    let (frame, ref piece) = piece(how.wish, cell)?;
    let long = unit.cells.len() > USUAL_CELLS;
    let found: Vec<Candidate> = ranked
        .into_iter()
        .flat_map(|(group, look, cost)| {
            let used = before.iter().enumerate().filter(|(_, other)| long && other.group == group);
            let may = used.clone().all(|(i, _)| may_come_again(how.wish, unit, i, at));
            let larger = used.map(|(_, other)| other.index + 1).max().unwrap_or(0);
            let of_print = move |least| room(how, group, frame, piece, cell.cut_area, least);
            let first = may.then(|| of_print(larger)).flatten();
            let next = move |last: &(usize, Pose)| how.scraps.then(|| of_print(last.0 + 1)).flatten();
            std::iter::successors(first, next).map(move |(index, pose)| Candidate {
                group,
                look,
                cost,
                index,
                pose,
            })
        })
        .take(keep)
        .collect();
    (!found.is_empty()).then_some(found)
}

/// Whether a print may lie in two cells of one unit: only on a long edge, and far apart.
pub(crate) fn may_come_again(wish: &Wish, unit: &Unit, a: usize, b: usize) -> bool {
    let [a, b] = [a, b].map(|i| unit.cells[i].centroid);
    unit.cells.len() > USUAL_CELLS && a.distance(b) > AGAIN * wish.rest_in
}

/// How far apart a print may come again in one unit, in the distance within which it should rest.
const AGAIN: f64 = 2.0;

impl Choosing<'_> {
    /// What it is worth to use a group that the maker wants used.
    fn asked(&self, group: usize) -> f64 {
        let heap = &self.centre.heap;
        let bonus = if heap.groups()[group].use_up { weights::USE_UP } else { 0.0 };
        let must = self.must.is_some_and(|cloth| heap.look_of(cloth).group == group);
        bonus + if must { MUST } else { 0.0 }
    }

    fn is_barred(&self, partial: &Partial) -> bool {
        let cloth = |cell: &Candidate| self.centre.heap.rests(cell.group)[cell.index].cloth;
        self.barred.iter().any(|filling| partial.cells.iter().map(cloth).eq(filling.iter().copied()))
    }

    fn look_cost(&self, group: usize, parts: &LookParts) -> f64 {
        look_cost(self.wish, parts) - self.asked(group)
    }
}

/// What it is worth to use the cloth that the maker asks for: more than all looks together.
const MUST: f64 = 100.0;

/// The weighted look of one cell.
pub(crate) fn look_cost(wish: &Wish, parts: &LookParts) -> f64 {
    let w = &wish.weights;
    weights::DRIFT * w.drift * parts.drift
        + weights::CONTRAST * w.contrast * parts.contrast
        + weights::REST * w.rest * parts.rest
        + weights::BALANCE * w.balance * parts.balance
        + weights::LOUD * w.drift * parts.loud
}

/// Every partial with every candidate, best first. No scrap comes twice in one unit.
fn extend(
    how: &Choosing,
    partials: &[Partial],
    candidates: &[Candidate],
    unit: &Unit,
    share: f64,
) -> Vec<Partial> {
    let heap = &how.centre.heap;
    let groups = heap.groups();
    let mine = &how.wish.weights;
    let mut next = Vec::with_capacity(partials.len() * candidates.len());
    for partial in partials {
        for candidate in candidates {
            let at = partial.cells.len();
            let bars = |(i, other): (usize, &Candidate)| {
                other.group == candidate.group
                    && (other.index == candidate.index || !may_come_again(how.wish, unit, i, at))
            };
            if partial.cells.iter().enumerate().any(bars) {
                continue;
            }
            let beside = partial.cells.last().map_or(0.0, |other| {
                let difference = groups[candidate.group].quick.difference(groups[other.group].quick);
                look::contrast(how.wish, difference)
            });
            let left = 1.0 - unit.cells[at].cut_area / heap.rests(candidate.group)[candidate.index].area();
            let own = candidate.cost
                + weights::BESIDE * mine.contrast * beside
                + weights::LEFTOVER * mine.leftover * left;
            let mut cells = partial.cells.clone();
            cells.push(*candidate);
            next.push(Partial {
                cells,
                cost: partial.cost + own * share,
                beside: partial.beside + beside * share,
                asked: partial.asked + how.asked(candidate.group) * share,
            });
        }
    }
    next.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    next
}

/// From the centre's coordinates to the patch's own: its first side along x from the origin.
pub(crate) fn patch_frame(cut: &[Point]) -> Option<Pose> {
    let turn = Turn::towards(cut[1] - cut[0])?.inverse();
    Some(Pose::carrying(turn, cut[0], Point::ORIGIN))
}

/// The patch in its own coordinates, with the cloth wanted round its free sides.
pub(crate) fn piece(wish: &Wish, cell: &Cell) -> Option<(Pose, FitPiece)> {
    let frame = patch_frame(&cell.cut)?;
    let local = frame.apply_all(&cell.cut);
    let margin = cell.free.map(|free| if free { wish.rough_in } else { 0.0 });
    Some((frame, FitPiece::new(&local, &margin)?))
}

/// The smallest scrap of a group, from the one of index `least` on, that has room for a piece.
fn room(
    how: &Choosing,
    group: usize,
    frame: Pose,
    piece: &FitPiece,
    area: f64,
    least: usize,
) -> Option<(usize, Pose)> {
    let rests = how.centre.heap.rests(group);
    let first = rests.partition_point(|rest| rest.area() < area).max(least);
    rests
        .iter()
        .enumerate()
        .skip(first)
        .filter(|(_, rest)| !how.wish.spare.contains(&rest.cloth))
        .filter(|(_, rest)| {
            how.must.is_none_or(|must| rest.cloth == must || how.centre.heap.look_of(must).group != group)
        })
        .take(TRIES)
        .find_map(|(i, rest)| {
            let (turning, base) = turning(rest.runs, frame, how.wish);
            fit(rest, piece, turning, base).map(|pose| (i, pose))
        })
}

fn fit(rest: &Rest, piece: &FitPiece, turning: Turning, base: Turn) -> Option<Pose> {
    match plane::try_fit(piece, &rest.room, turning, base, FIT_BUDGET) {
        Fit::Yes(pose) => Some(pose),
        Fit::No | Fit::Unknown => None,
    }
}

/// How a print may lie: `frame` carries the centre's coordinates, in which the wall's up is y, to
/// the patch's.
pub(crate) fn turning(runs: Runs, frame: Pose, wish: &Wish) -> (Turning, Turn) {
    if !wish.upright {
        return (Turning::Any, Turn::NONE);
    }
    let wall = frame.turn.apply(Vec2::new(0.0, 1.0));
    runs.turning(Turn { cos: wall.x, sin: wall.y })
}

/// Where to cut a pick for good: the pose that leaves the rest most useful.
pub(crate) fn settle(centre: &Centre, wish: &Wish, cell: &Cell, pick: &mut Pick) -> Option<usize> {
    let rests = centre.heap.rests(pick.group);
    let (frame, piece) = piece(wish, cell)?;
    let local = frame.apply_all(&cell.cut);
    let index = rests
        .iter()
        .position(|rest| rest.cloth == pick.cloth && plane::lies_within(&local, &rest.region, pick.pose))?;
    let (turning, base) = turning(rests[index].runs, frame, wish);
    if let Some(pose) = plane::best_of(&piece, &rests[index].room, turning, base) {
        pick.pose = pose;
    }
    Some(index)
}

/// By how much looks may lower a score at most: sparks, cloth to use up, cloth asked for.
pub(crate) fn most_gain(wish: &Wish, asked: bool) -> f64 {
    let spark = if wish.sparks > 0.0 { weights::DRIFT * wish.weights.drift * 0.8 } else { 0.0 };
    let use_up = if wish.use_up.is_empty() { 0.0 } else { weights::USE_UP };
    spark + use_up + if asked { MUST } else { 0.0 }
}
