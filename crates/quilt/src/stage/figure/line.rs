//! Shapes that are lines: rows of stitches, stems of bias cloth, knots.

use super::laid::LaidShape;
use super::seen::Above;
use super::{FigureChoice, LEAST_NECK_IN, Thin};
use crate::cloth::ClothId;
use plane::{Point, polygon};
use serde::Serialize;

/// How a line is made.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LineKind {
    /// Rows of stitches side by side.
    Stitched {
        /// How many.
        rows: u32,
    },
    /// A strip cut on the bias, both its edges turned under.
    BiasStem {
        /// Finished width.
        finished_in: f64,
        /// Width to cut: the finished width and a least turn-under on both sides (common practice,
        /// no source).
        cut_width_in: f64,
        /// Length to cut: the line and a turn-under at both ends.
        cut_length_in: f64,
    },
    /// A few stitches in one place.
    Knot,
}

/// A shape that is not cut from cloth as drawn, or a narrow end of one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FigureLine {
    /// The shape it stands for.
    pub shape: String,
    /// The cloth that the shape was to be cut from: the colour of the thread.
    pub cloth: Option<ClothId>,
    /// How it is made.
    pub kind: LineKind,
    /// Along its middle, on the piece: of a stitched line the longest part that no higher layer covers;
    /// none when all is covered. One point for a knot.
    pub points: Vec<Point>,
    /// Its length.
    pub length_in: f64,
    /// How wide the shape was drawn at its widest.
    pub drawn_width_in: f64,
}

impl FigureLine {
    pub(super) fn new(
        shape: &LaidShape,
        thin: Thin,
        points: Vec<Point>,
        drawn_width_in: f64,
        choice: &FigureChoice,
        above: &Above<'_>,
    ) -> Self {
        // Stitches stop at a higher layer; a stem is tucked under it.
        let stitched = !matches!(thin, Thin::BiasStem { .. });
        let points = if stitched { longest_free(&points, above) } else { points };
        let length_in: f64 = points.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
        let (id, cloth) = (shape.id.clone(), shape.cloth);
        let middle = polygon::centroid(&shape.drawn.outer);
        let is_knot = !points.is_empty() && length_in <= LEAST_NECK_IN;
        if let Some(middle) = middle.filter(|_| is_knot) {
            let (points, kind) = (vec![middle], LineKind::Knot);
            return Self { shape: id, cloth, kind, points, length_in: 0.0, drawn_width_in };
        }
        let kind = match thin {
            Thin::BiasStem { finished_in } => LineKind::BiasStem {
                finished_in,
                cut_width_in: finished_in + LEAST_NECK_IN,
                cut_length_in: length_in + 2.0 * choice.turn_under_in,
            },
            _ => LineKind::Stitched { rows: (drawn_width_in / choice.row_in).round().max(1.0) as u32 },
        };
        Self { shape: id, cloth, kind, points, length_in, drawn_width_in }
    }

    /// Inches of turned edge and of stitched rows.
    pub(super) fn work_in(&self) -> (f64, f64) {
        match self.kind {
            LineKind::Stitched { rows } => (0.0, self.length_in * f64::from(rows)),
            LineKind::BiasStem { finished_in, .. } => (2.0 * (self.length_in + finished_in), 0.0),
            LineKind::Knot => (0.0, self.drawn_width_in),
        }
    }
}

/// The longest run of a line that lies free.
fn longest_free(line: &[Point], above: &Above<'_>) -> Vec<Point> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (from, to) in line.windows(2).flat_map(|pair| above.free_parts(pair[0], pair[1])) {
        match runs.last_mut().filter(|run| run.last().is_some_and(|p| p.distance(from) < plane::DECISION)) {
            Some(run) => run.push(to),
            None => runs.push(vec![from, to]),
        }
    }
    let length = |run: &Vec<Point>| run.windows(2).map(|pair| pair[0].distance(pair[1])).sum::<f64>();
    runs.into_iter().max_by(|a, b| length(a).total_cmp(&length(b))).unwrap_or_default()
}
