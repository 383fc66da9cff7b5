//! Cuts along given lines, worked out on paper: where each begins on a side, and how it is turned.

use super::strips::corners_of;
use crate::log::{Along, Keep, Mark, Name, Step};
use plane::{Line, READING, Turn};

/// A convex outline on paper: its sides with their lines, counter-clockwise.
#[derive(Clone, Debug)]
pub(super) struct Paper {
    pub(super) sides: Vec<(Name, Line)>,
}

impl Paper {
    /// The cut that leaves what lies inside `line`; its side is named by `mark`. `None` when it would
    /// take nothing off that can be read on a ruler, or everything.
    pub(super) fn cut(&mut self, top: Mark, line: Line, mark: Mark) -> Option<Step> {
        let lines: Vec<Line> = self.sides.iter().map(|side| side.1).collect();
        let corners = corners_of(&lines);
        let n = corners.len();
        let inside: Vec<f64> = corners.iter().map(|&p| line.inside_by(p)).collect();
        if n < 3 || n != lines.len() || inside.iter().all(|&d| d > -READING) {
            return None;
        }
        let from = (0..n).find(|&i| inside[i] > 0.0 && inside[(i + 1) % n] <= 0.0)?;
        let to = (0..n).find(|&i| inside[i] <= 0.0 && inside[(i + 1) % n] > 0.0)?;
        let (side, own) = self.sides[from];
        let at_in = corners[from].distance(own.crossing(line)?);
        let turn = own.direction().inverse().then(line.direction());
        let kept = (0..n).map(|k| (to + k) % n).take((from + n - to) % n + 1).map(|i| self.sides[i]);
        let mut sides: Vec<(Name, Line)> = kept.collect();
        sides.push((Name::new(mark, 0), line));
        self.sides = sides;
        Some(cut(top, side, at_in, turn))
    }
}

fn cut(top: Mark, side: Name, at_in: f64, turn: Turn) -> Step {
    Step::Cut { top, along: Along::From { side, at_in, turn }, keep: Keep::Left }
}
