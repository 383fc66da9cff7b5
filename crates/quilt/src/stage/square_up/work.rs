//! The table as it becomes while a piece is squared up, with the steps that make it so.

use super::SquareProblem;
use crate::log::{Mark, Name, Step};
use crate::stage::trim::Paper;
use crate::table::{Table, Top};
use crate::{Problem, Rule};
use plane::{Line, Point, polygon};

/// A cut that the table refuses may be left out when it would take off no more than this, in inches.
const NEAR_IN: f64 = 1.0 / 64.0;

/// The table as it becomes, with the steps that made it so.
pub(super) struct Work {
    pub(super) table: Table,
    pub(super) mark: Mark,
    pub(super) first: Mark,
    pub(super) steps: Vec<Step>,
}

impl Work {
    fn next(&self) -> Mark {
        Mark(self.first.0 + self.steps.len() as u32)
    }

    pub(super) fn apply(&mut self, step: Step) -> Result<(), Problem> {
        self.table.apply(self.next(), &step)?;
        self.steps.push(step);
        Ok(())
    }

    /// The next cut along a line, if it takes anything off.
    fn cut(&self, line: Line) -> Option<Step> {
        let top = self.table.top(self.mark)?;
        let side = |side: &crate::table::Side| Some((side.name()?, top.line(side.bound)?));
        let sides: Vec<(Name, Line)> = top.sides().iter().filter_map(side).collect();
        Paper { sides }.cut(self.mark, line, self.next())
    }

    /// Cuts along every line. One that is refused because it runs in line with a side, or nearly so,
    /// is tried again after the others, which may take that side away.
    pub(super) fn cut_all(&mut self, lines: &[Line]) -> Result<(), SquareProblem> {
        let mut waiting = lines.to_vec();
        while !waiting.is_empty() {
            let (count, mut refused, mut later) = (waiting.len(), None, Vec::new());
            for line in waiting {
                let Some(step) = self.cut(line) else { continue };
                match self.apply(step) {
                    Ok(()) => {}
                    Err(problem) if matches!(problem.rule, Rule::InLine | Rule::CutMisses) => {
                        refused = Some(problem);
                        later.push(line);
                    }
                    Err(problem) => return Err(SquareProblem::Step(problem)),
                }
            }
            if later.len() == count {
                let corners = self.table.top(self.mark).map(Top::outline_points).unwrap_or_default();
                return match refused {
                    Some(problem) if apart(&corners, &later) > NEAR_IN => Err(SquareProblem::Step(problem)),
                    _ => Ok(()),
                };
            }
            waiting = later;
        }
        Ok(())
    }
}

pub(super) fn lines_of(corners: &[Point]) -> Vec<Line> {
    polygon::edges(corners).filter_map(|(a, b)| Line::through(a, b)).collect()
}

/// How far points lie outside lines at most.
pub(super) fn apart(points: &[Point], lines: &[Line]) -> f64 {
    let out = |p: &Point| lines.iter().map(|line| -line.inside_by(*p)).fold(0.0, f64::max);
    points.iter().map(out).fold(0.0, f64::max)
}
