//! A plan as steps of the log: coping strips are laid, and the tops on the table are joined.
//!
//! The steps are tried on a copy of the table as they are made. Which sides meet is looked up there:
//! each top keeps the place that the plan has for it, and the side along the planned seam is the one
//! whose raw edge lies an allowance beyond it.

use super::block::Block;
use super::layout::{CentreSeam, Runs, Sewn, What};
use super::plan::{CentresPlan, CopingStrip};
use super::problem::CentresProblem;
use super::square::Square;
use plane::{Line, Point, Pose, Turn, Vec2, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Bound, End, Mark, Name, Press, Sewing, Step};
use quilt::table::{Table, Top};
use quilt::{Place, Problem, Rule};

/// How far a side may lie off its planned place, in inches: twice what can be eased.
const OFF_IN: f64 = 1.0 / 16.0;
/// What leans less stands: over 100 inches that is a ten-millionth.
const LEVEL: f64 = 1e-9;

/// The steps, and what is left to be done about them.
#[derive(Clone, Debug, PartialEq)]
pub struct CentresSteps {
    /// In order; the first is called as asked, each after it by the next number.
    pub steps: Vec<Step>,
    /// Strips laid without a place on their cloth: the step's number and the strip.
    pub to_place: Vec<(Mark, usize)>,
    /// The top that everything is joined to.
    pub top: Mark,
}

/// The steps that join `tops` (one for each block, in their order) as planned; at the end the whole is
/// turned to stand as in the layout. The first is called
/// `first`. `place` says from which cloth a strip is cut, and how it lies there (from the coordinates
/// of [`CopingStrip::cut_corners`] to the cloth's); where it says nothing, the strip is laid at the
/// origin of the cloth chosen for it and is listed in [`CentresSteps::to_place`].
///
/// # Errors
/// A top that isn't there, isn't squared or measures other than planned; a strip without a cloth; a
/// seam that the table refuses; partial seams that don't come out as planned there.
pub fn steps(
    plan: &CentresPlan,
    blocks: &[Block],
    table: &Table,
    tops: &[Mark],
    first: Mark,
    place: impl FnMut(&CopingStrip) -> Option<(ClothId, Pose)>,
) -> Result<CentresSteps, CentresProblem> {
    let mut joining = Joining {
        plan,
        table: table.clone(),
        units: Vec::new(),
        steps: Vec::new(),
        to_place: Vec::new(),
        next: first,
    };
    joining.seat_blocks(blocks, tops)?;
    joining.lay_strips(place)?;
    let mut sewn = Vec::with_capacity(plan.seams.len());
    for (i, seam) in plan.seams.iter().enumerate() {
        let refused = |problem| CentresProblem::Refused { seam: i + 1, problem };
        let mark = joining.sew(seam, &sewn).map_err(refused)?;
        sewn.push(mark);
    }
    let (top, lies) = joining.units.first().map_or((first, Turn::NONE), |unit| (unit.top, unit.pose.turn));
    joining.check_whole(top)?;
    joining
        .level(top, lies)
        .map_err(|problem| CentresProblem::Refused { seam: plan.seams.len(), problem })?;
    Ok(CentresSteps { steps: joining.steps, to_place: joining.to_place, top })
}

/// A top with the parts it is sewn of, and the motion from its coordinates to the layout's.
struct Unit {
    parts: Vec<usize>,
    top: Mark,
    pose: Pose,
}

struct Joining<'a> {
    plan: &'a CentresPlan,
    table: Table,
    units: Vec<Unit>,
    steps: Vec<Step>,
    to_place: Vec<(Mark, usize)>,
    next: Mark,
}

/// A side in the layout's coordinates, and the chord that will be sewn.
#[derive(Clone, Copy)]
struct Found {
    name: Name,
    /// Its seam line, inside towards its own top.
    seam: Line,
    /// Where the chord begins and ends along the seam line.
    chord: [f64; 2],
    /// The lines it ends at, inside towards its own top.
    flanks: [Line; 2],
    /// Whether the seam line ends at a seam that is still open.
    at_open: [bool; 2],
}

impl Found {
    fn length(&self) -> f64 {
        self.chord[1] - self.chord[0]
    }

    fn middle(&self) -> Point {
        self.seam.point_at(f64::midpoint(self.chord[0], self.chord[1]))
    }
}

impl Joining<'_> {
    fn seat_blocks(&mut self, blocks: &[Block], tops: &[Mark]) -> Result<(), CentresProblem> {
        let s = self.plan.allowance_in;
        let need = self.plan.parts.iter().filter(|part| matches!(part.what, What::Block(_))).count();
        if tops.len() != need {
            return Err(CentresProblem::OtherCount { have: tops.len(), need });
        }
        for (i, part) in self.plan.parts.iter().enumerate() {
            let What::Block(block) = part.what else { continue };
            let Some(&mark) = tops.get(block) else { continue };
            let top = self.table.top(mark).ok_or(CentresProblem::NoSuchTop { top: mark })?;
            let square = Square::of(top, mark)?;
            let is_in = [square.raw_width_in, square.raw_height_in];
            let at = part.at;
            let lies = [at.width_in + 2.0 * s, at.height_in + 2.0 * s];
            let planned_in = if part.turned { [lies[1], lies[0]] } else { lies };
            if (0..2).any(|way| (is_in[way] - planned_in[way]).abs() > OFF_IN / 2.0) {
                let name = blocks.get(block).map_or_else(String::new, |block| block.name.clone());
                return Err(CentresProblem::OffPlan { name, is_in, planned_in });
            }
            let turn = if part.turned { Turn::QUARTER } else { Turn::NONE };
            let right = if part.turned { is_in[1] } else { 0.0 };
            let seat = Pose { turn, by: Vec2::new(at.x_in - s + right, at.y_in - s) };
            self.units.push(Unit { parts: vec![i], top: mark, pose: square.upright.then(seat) });
        }
        Ok(())
    }

    fn lay_strips(
        &mut self,
        mut place: impl FnMut(&CopingStrip) -> Option<(ClothId, Pose)>,
    ) -> Result<(), CentresProblem> {
        let s = self.plan.allowance_in;
        for (no, strip) in self.plan.strips.iter().enumerate() {
            let found = place(strip);
            let Some((cloth, at)) = found.or_else(|| Some((strip.cloth?, Pose::STAY))) else {
                let cut_in = [strip.cut_wide_in, strip.cut_long_in];
                return Err(CentresProblem::NoCloth { strip: no + 1, cut_in });
            };
            let refused = |problem| CentresProblem::StripRefused { strip: no + 1, problem };
            let mark = self.apply(Step::Lay { cloth, at, cut: strip.cut_corners() }).map_err(refused)?;
            if found.is_none() {
                self.to_place.push((mark, no));
            }
            let at = self.plan.parts[strip.part].at;
            let pose = Pose { turn: Turn::NONE, by: Vec2::new(at.x_in - s, at.y_in - s) };
            self.units.push(Unit { parts: vec![strip.part], top: mark, pose });
        }
        Ok(())
    }

    fn apply(&mut self, step: Step) -> Result<Mark, Problem> {
        let mark = self.next;
        self.table.apply(mark, &step)?;
        self.steps.push(step);
        self.next = Mark(mark.0 + 1);
        Ok(mark)
    }

    /// Sews one seam of the plan; `sewn` are the steps of those before it.
    fn sew(&mut self, seam: &CentreSeam, sewn: &[Mark]) -> Result<Mark, Problem> {
        if let Sewn::Closes(begun) = seam.sewn {
            let by = sewn.get(begun).copied().unwrap_or(self.next);
            return self.apply(Step::Sew(Sewing::Close { seam: Name::new(by, 0) }));
        }
        let none = Problem::at(Rule::NoSuchSide, Place::Step(self.next));
        let unit_of = |parts: &[usize]| {
            let part = parts.first()?;
            self.units.iter().position(|unit| unit.parts.contains(part))
        };
        let (a, b) = unit_of(&seam.first).zip(unit_of(&seam.second)).ok_or(none)?;
        let (first, second) = (self.side(a, seam, true)?, self.side(b, seam, false)?);
        // What is sewn must cover what it is sewn onto; of equals the larger unit stays.
        let longer = first.length() - second.length();
        let stays = self.units[a].parts.len() >= self.units[b].parts.len();
        let first_stays = if longer.abs() <= OFF_IN { stays } else { longer < 0.0 };
        let ways = if first_stays {
            [(a, first, b, second), (b, second, a, first)]
        } else {
            [(b, second, a, first), (a, first, b, second)]
        };
        // Where a seam stays open, the other way round may be the one that can be sewn.
        let most = if self.plan.partial_seams == 0 || longer.abs() > OFF_IN { 1 } else { 2 };
        let mut refused = none;
        for (no, (onto_unit, onto, with_unit, with)) in ways.into_iter().take(most).enumerate() {
            let step = self.join(seam, &onto, &with, with_unit);
            match self.clean(&step).and_then(|()| self.apply(step)) {
                Ok(mark) => {
                    let moved = std::mem::take(&mut self.units[with_unit].parts);
                    self.units[onto_unit].parts.extend(moved);
                    self.units.remove(with_unit);
                    return Ok(mark);
                }
                Err(problem) if no == 0 => refused = problem,
                Err(_) => {}
            }
        }
        Err(refused)
    }

    /// Whether a step trims off no more than allowances.
    fn clean(&self, step: &Step) -> Result<(), Problem> {
        if self.plan.partial_seams == 0 {
            return Ok(());
        }
        let mut tried = self.table.clone();
        let before = tried.offcuts().len();
        tried.apply(self.next, step)?;
        let s = self.plan.allowance_in;
        let most = 2.0 * (s + OFF_IN) * (self.plan.raw_width_in + self.plan.raw_height_in);
        let parts = tried.offcuts()[before..].iter().flat_map(|offcut| &offcut.parts);
        let off: f64 = parts.map(|part| polygon::area(&part.piece)).sum();
        if off <= most { Ok(()) } else { Err(Problem::at(Rule::CutScatters, Place::Step(self.next))) }
    }

    /// The step that sews one side to another.
    fn join(&self, seam: &CentreSeam, onto: &Found, with: &Found, with_unit: usize) -> Step {
        let along = |p: Point| onto.seam.along(p);
        let ends = [with.chord[1], with.chord[0]].map(|t| along(with.seam.point_at(t)));
        let meets = |k: usize| (ends[k] - onto.chord[k]).abs() <= OFF_IN || onto.at_open[k];
        // A trim in line goes across the whole unit: one that hangs over further along stays as it is.
        let hangs_over = |k: usize| {
            let most = 2.0 * self.plan.allowance_in + OFF_IN;
            self.outline(with_unit).iter().any(|&p| onto.flanks[k].inside_by(p) < -most)
        };
        Step::Sew(Sewing::Join {
            onto: onto.name,
            with: with.name,
            slide_in: along(with.middle()) - along(onto.middle()),
            allowance_in: self.plan.allowance_in,
            stop: stop(seam, onto),
            flush: [0, 1].map(|k| meets(k) && !hangs_over(k)),
            press: Press::Over,
        })
    }

    /// Refuses steps that lead to anything but the planned rectangle.
    fn check_whole(&self, mark: Mark) -> Result<(), CentresProblem> {
        let top = self.table.top(mark).ok_or(CentresProblem::NoSuchTop { top: mark })?;
        let sides = top.sides().len();
        let is_in = polygon::area(&top.outline_points());
        let planned = self.plan.raw_width_in * self.plan.raw_height_in;
        let off = (is_in - planned).abs() > OFF_IN * (self.plan.raw_width_in + self.plan.raw_height_in);
        if sides == 4 && !off {
            Ok(())
        } else {
            Err(CentresProblem::ComesOutOtherwise { partial: self.plan.partial_seams, sides })
        }
    }

    /// Turns the whole so that it stands as in the layout, its longest side level or upright. Until then
    /// it lies as the centre did that everything was sewn to.
    fn level(&mut self, mark: Mark, lies: Turn) -> Result<(), Problem> {
        let top = self.table.top(mark).ok_or(Problem::at(Rule::NoSuchSide, Place::Top(mark)))?;
        let outline = top.outline_points();
        let sides = polygon::edges(&outline).map(|(a, b)| lies.apply(b - a));
        let longest = sides.max_by(|a, b| a.length().total_cmp(&b.length()));
        let off = longest.and_then(Turn::towards).map_or(Turn::NONE, |along| {
            let quarters = [along, along.left(), along.opposite(), along.opposite().left()];
            quarters
                .into_iter()
                .reduce(|best, turn| if turn.cos > best.cos { turn } else { best })
                .unwrap_or(along)
        });
        let by = lies.then(off.inverse());
        if (by.vec() - Turn::NONE.vec()).length() > LEVEL {
            self.apply(Step::Turn { top: mark, by })?;
        }
        Ok(())
    }

    /// The raw outline of a unit, in the layout.
    fn outline(&self, unit: usize) -> Vec<Point> {
        let Unit { top, pose, .. } = &self.units[unit];
        self.table.top(*top).map(|top| pose.apply_all(&top.outline_points())).unwrap_or_default()
    }

    /// The side of a unit that lies along a planned seam: of the unit left of it or below it, or of
    /// the other.
    fn side(&self, unit: usize, seam: &CentreSeam, is_first: bool) -> Result<Found, Problem> {
        let Unit { top: mark, pose, .. } = self.units[unit];
        let none = Problem::at(Rule::NoSuchSide, Place::Top(mark));
        let top = self.table.top(mark).ok_or(none)?;
        let wanted = planned_line(seam, is_first);
        let [from, to] = match seam.sewn {
            Sewn::StopsShort { stops_at_in: at, open_at_far_end: true, .. } => [seam.from_in, at],
            Sewn::StopsShort { stops_at_in: at, .. } => [at, seam.to_in],
            _ => [seam.from_in, seam.to_in],
        };
        let overlap = |found: &Found| {
            let way = 1 - seam.runs.across();
            let at = |t: f64| if way == 0 { found.seam.point_at(t).x } else { found.seam.point_at(t).y };
            let (a, b) = (at(found.chord[0]), at(found.chord[1]));
            a.max(b).min(to) - a.min(b).max(from)
        };
        let found = sides(top, pose, self.plan.allowance_in).into_iter().filter(|found| {
            found.seam.turn_cosine(wanted) > 0.99 && (found.seam.at - wanted.at).abs() <= OFF_IN
        });
        let best = found.map(|found| (overlap(&found), found)).max_by(|a, b| a.0.total_cmp(&b.0));
        best.filter(|best| best.0 > 0.0).map(|best| best.1).ok_or(none)
    }
}

/// The seam line, its inside towards the unit asked for.
fn planned_line(seam: &CentreSeam, is_first: bool) -> Line {
    let normal = if seam.runs == Runs::Upright { Turn::NONE } else { Turn::QUARTER };
    let second = Line { normal, at: seam.at_in };
    if is_first { second.reversed() } else { second }
}

/// Which end of the side sewn onto stays open, and how much of it.
fn stop(seam: &CentreSeam, onto: &Found) -> Option<(End, f64)> {
    let Sewn::StopsShort { stops_at_in, open_at_far_end, .. } = seam.sewn else { return None };
    let at = match seam.runs {
        Runs::Upright => Point::new(seam.at_in, stops_at_in),
        Runs::Level => Point::new(stops_at_in, seam.at_in),
    };
    let unit = onto.seam.unit();
    let forward = if seam.runs == Runs::Upright { unit.y > 0.0 } else { unit.x > 0.0 };
    let at = onto.seam.along(at);
    Some(if forward == open_at_far_end {
        (End::End, onto.chord[1] - at)
    } else {
        (End::Start, at - onto.chord[0])
    })
}

/// The free sides of a top, moved into the layout.
fn sides(top: &Top, pose: Pose, allowance_in: f64) -> Vec<Found> {
    let sides = top.sides();
    let n = sides.len();
    let line = |i: usize| top.line(sides[i % n].bound);
    let open = |i: usize| match sides[i % n].bound {
        Bound::Seam(name) => top.seams().get(&name).is_some_and(|seam| seam.open.is_some()),
        Bound::Raw(_) => false,
    };
    let found = |i: usize| {
        let seam = line(i)?.inward(allowance_in);
        let end = |k: usize| Some(seam.along(seam.crossing(line(k)?)?));
        let (before, after) = (i + n - 1, i + 1);
        let ends = [end(before)?, end(after)?];
        let moved = seam.moved(pose);
        let chord = ends.map(|t| moved.along(pose.apply(seam.point_at(t))));
        let flanks = [line(before)?.moved(pose), line(after)?.moved(pose)];
        let at_open = [open(before), open(after)];
        Some(Found { name: sides[i].name()?, seam: moved, chord, flanks, at_open })
    };
    (0..n).filter_map(found).collect()
}
