//! Applying one step: the only writer of the table.

use super::{Patch, Table, Top, cut, frame, measure, sew};
use crate::length::MOST_IN;
use crate::log::{Along, Bound, Entry, FrameStrip, Keep, Mark, Name, Sewing, Step};
use crate::problem::{Place, Problem, Rule};
use plane::{Point, Pose, Region, RegionProblem, Turn, Vec2};

impl Table {
    /// Applies the step called `mark`. On an error the table is unchanged.
    ///
    /// # Errors
    /// The rule that the step breaks, with the place and the numbers.
    pub fn apply(&mut self, mark: Mark, step: &Step) -> Result<(), Problem> {
        match step {
            Step::Lay { cloth, at, cut } => {
                self.lay(mark, Patch { cloth: *cloth, at: *at, cut: cut.clone() })
            }
            Step::Sew(Sewing::Close { seam }) => self.close(*seam),
            Step::Sew(join @ Sewing::Join { .. }) => self.join(mark, join),
            Step::Sew(Sewing::Frame { strips, allowance_in, aim_in, press }) => {
                let how = frame::How {
                    mark,
                    allowance_in: *allowance_in,
                    aim_in: *aim_in,
                    press: *press,
                    order: self.seams_sewn + 1,
                };
                self.frame(strips, &how)
            }
            Step::Cut { top, along, keep } => {
                let found = self.tops.get(top).ok_or(Problem::at(Rule::NoSuchTop, Place::Step(*top)))?;
                let line = cut::line_of(found, *along)?;
                // What is kept right of a side's line lies beyond the side: the cut has its own name.
                let bound = match (along, keep) {
                    (Along::Side(side), Keep::Left | Keep::Both) => Bound::Raw(*side),
                    _ => Bound::Raw(Name::new(mark, 0)),
                };
                self.cut(mark, *top, line, bound, *keep)
            }
            Step::Measure { top, sides, .. } => {
                let found = self.tops.get(top).ok_or(Problem::at(Rule::NoSuchTop, Place::Step(*top)))?;
                let moved = measure::measured(found, sides)?;
                self.tops.insert(*top, moved);
                Ok(())
            }
            Step::Choose(stage) => {
                self.stages.push(stage.clone());
                Ok(())
            }
            Step::Note(_) => Ok(()),
            Step::Turn { top, by } => self.turn(mark, *top, *by),
            Step::Aside { top } => {
                let gone = self.tops.remove(top);
                gone.map(drop).ok_or(Problem::at(Rule::NoSuchTop, Place::Step(*top)))
            }
        }
    }

    /// Applies an entry of a log.
    ///
    /// # Errors
    /// As [`Table::apply`].
    pub fn apply_entry(&mut self, entry: &Entry) -> Result<(), Problem> {
        self.apply(entry.mark, &entry.step)
    }

    fn lay(&mut self, mark: Mark, patch: Patch) -> Result<(), Problem> {
        let place = Place::Step(mark);
        if self.patches.contains_key(&mark) || self.tops.contains_key(&mark) {
            return Err(Problem::at(Rule::MarkTaken, place));
        }
        if !is_unit(patch.at.turn) || !patch.at.by.x.is_finite() || !patch.at.by.y.is_finite() {
            return Err(Problem::at(Rule::Nonsense, place));
        }
        check_cut(&patch.cut, place)?;
        let top = Top::from_patch(mark, &patch.cut).ok_or(Problem::at(Rule::Nonsense, place))?;
        let runs = top.runs(top.outline());
        if let Some(no) =
            (0..patch.cut.len()).find(|&no| runs.get(no).is_none_or(|run| run.bound != top.outline()[no]))
        {
            return Err(Problem::at(Rule::StraightCorner, Place::At(patch.cut[no])));
        }
        self.tops.insert(mark, top);
        self.patches.insert(mark, patch);
        Ok(())
    }

    fn turn(&mut self, mark: Mark, top: Mark, by: Turn) -> Result<(), Problem> {
        if !is_unit(by) {
            return Err(Problem::at(Rule::Nonsense, Place::Step(mark)));
        }
        let found = self.tops.get_mut(&top).ok_or(Problem::at(Rule::NoSuchTop, Place::Step(top)))?;
        found.move_by(Pose { turn: by, by: Vec2::default() });
        Ok(())
    }

    fn join(&mut self, mark: Mark, join: &Sewing) -> Result<(), Problem> {
        let Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press } = join.clone() else {
            return Ok(());
        };
        let no_side = |side| Problem::at(Rule::NoSuchSide, Place::Side(side, None));
        let onto_top = self.top_with_side(onto).ok_or_else(|| no_side(onto))?;
        let with_top = self.top_with_side(with).ok_or_else(|| no_side(with))?;
        if onto_top == with_top {
            return Err(Problem::at(Rule::SameTop, Place::Side(with, None)));
        }
        let sound = slide_in.is_finite()
            && allowance_in.is_finite()
            && (0.0..=2.0).contains(&allowance_in)
            && stop.is_none_or(|(_, open)| open.is_finite() && open >= 0.0);
        if !sound {
            return Err(Problem::at(Rule::Nonsense, Place::Step(mark)));
        }
        let patch = self.tops.get(&with_top).cloned().ok_or_else(|| no_side(with))?;
        let top = self.tops.get_mut(&onto_top).ok_or_else(|| no_side(onto))?;
        let order = self.seams_sewn + 1;
        let how = sew::Join {
            mark,
            onto,
            with,
            slide_in,
            allowance_in,
            stop,
            flush,
            press,
            order,
            added: with_top,
        };
        let plan = sew::plan(top, &patch, &how)?;
        self.offcuts.extend(sew::join(top, patch, &plan, &how)?);
        self.tops.remove(&with_top);
        self.seams_sewn = order;
        Ok(())
    }

    fn frame(&mut self, strips: &[FrameStrip], how: &frame::How) -> Result<(), Problem> {
        let no_side = |side| Problem::at(Rule::NoSuchSide, Place::Side(side, None));
        let sound = (0.0..=2.0).contains(&how.allowance_in)
            && (0.0..=MOST_IN).contains(&how.aim_in)
            && strips.iter().all(|strip| strip.slide_in.is_finite());
        let Some(first) = strips.first().filter(|_| sound) else {
            return Err(Problem::at(Rule::Nonsense, Place::Step(how.mark)));
        };
        let onto = self.top_with_side(first.onto).ok_or_else(|| no_side(first.onto))?;
        let mut tops = Vec::with_capacity(strips.len());
        for strip in strips {
            let top = self.top_with_side(strip.with).ok_or_else(|| no_side(strip.with))?;
            if top == onto || tops.contains(&top) {
                return Err(Problem::at(Rule::SameTop, Place::Side(strip.with, None)));
            }
            tops.push(top);
        }
        let laid: Vec<(Mark, Top)> =
            tops.iter().filter_map(|mark| Some((*mark, self.tops.get(mark)?.clone()))).collect();
        let top = self.tops.get(&onto).ok_or_else(|| no_side(first.onto))?;
        let framed = frame::framed(top, laid, strips, how)?;
        self.tops.insert(onto, framed.top);
        self.offcuts.extend(framed.offcut);
        tops.iter().for_each(|mark| drop(self.tops.remove(mark)));
        self.seams_sewn = framed.seams_sewn;
        Ok(())
    }

    fn close(&mut self, seam: Name) -> Result<(), Problem> {
        if self.tops.values_mut().any(|top| top.pruned.close(seam)) {
            return Ok(());
        }
        let found = self.tops.values_mut().find_map(|top| top.seams.get_mut(&seam));
        let open = found.and_then(|found| found.open.take().map(|(_, open)| (found, open)));
        let (found, open) = open.ok_or(Problem::at(Rule::NoSuchSeam, Place::Seam(seam)))?;
        found.sewn_in += open;
        Ok(())
    }

    fn cut(
        &mut self,
        mark: Mark,
        name: Mark,
        line: plane::Line,
        bound: Bound,
        keep: Keep,
    ) -> Result<(), Problem> {
        let no_top = Problem::at(Rule::NoSuchTop, Place::Step(name));
        let top = self.tops.get_mut(&name).ok_or(no_top)?;
        match keep {
            Keep::Left | Keep::Right => {
                let line = if keep == Keep::Left { line } else { line.reversed() };
                let (line, bound) = cut::older_in_line(top, line, bound);
                self.offcuts.extend(cut::trim(top, line, bound, mark)?);
            }
            Keep::Both => {
                let right = cut::divide(top, line, mark)?;
                self.tops.insert(mark, right);
            }
        }
        Ok(())
    }
}

fn is_unit(turn: Turn) -> bool {
    (turn.vec().length() - 1.0).abs() < 1e-9
}

/// Whether what is to be cut is a simple outline, counter-clockwise and no larger than any cloth.
fn check_cut(cut: &[Point], place: Place) -> Result<(), Problem> {
    let far = cut.iter().map(|p| p.x.abs().max(p.y.abs())).fold(0.0, f64::max);
    if far > MOST_IN {
        return Err(Problem { rule: Rule::TooFar, place, measured_in: far, limit_in: MOST_IN });
    }
    match Region::try_new(cut.to_vec(), Vec::new()) {
        Ok(region) if region.outer == cut => Ok(()),
        Err(RegionProblem::SidesCross { first, second, near, .. }) => Err(Problem {
            rule: Rule::SidesCross,
            place: Place::At(near),
            measured_in: first as f64,
            limit_in: second as f64,
        }),
        _ => Err(Problem::at(Rule::Nonsense, place)),
    }
}
