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
        if n < 3 || n != lines.len() {
            return None;
        }
        // From the corner farthest out, back and on to those that stay.
        let worst = (0..n).min_by(|&a, &b| inside[a].total_cmp(&inside[b]))?;
        let is_out = |i: usize| inside[i % n] < 0.0;
        if inside[worst] > -READING {
            return None;
        }
        let from = (1..n).map(|k| (worst + n - k) % n).find(|&i| !is_out(i))?;
        let to = (0..n).map(|k| (worst + k) % n).find(|&i| !is_out(i + 1))?;
        let (side, own) = self.sides[from];
        let along = own.along(own.crossing(line)?) - own.along(corners[from]);
        let at_in = along.clamp(0.0, corners[from].distance(corners[(from + 1) % n]));
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
