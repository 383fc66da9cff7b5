//! The unbroken spiral: one stroke that starts as a circle at the centre and ends as the outline.
//!
//! Rows are level lines of a height over the ground (`field`), joined into one by a steady climb
//! (`climb`) and followed from inside to outside (`trace`). Convex and notched outlines and any
//! number of keep-outs go; keep-outs are passed outside their convex hulls, and those too close
//! for a row to pass between are passed as one.
//!
//! No spiral from a centre has rows more even than its farthest side is to its nearest: the same
//! number of rows lies before each. What really came out is measured at every quarter inch, from
//! each row to the next outward, and refused with its figure if it isn't within the bounds. At
//! sharp corners of the first turns, and where rows turn off to pass a keep-out, they are
//! further apart for a bit than along the sides.

mod climb;
mod field;
mod levels;
mod plot;
mod trace;

use super::spacing::number;
use super::{Fill, FillProblem, Ground, Spacing, Stroke, Wobble};
use crate::Point;
use crate::gap::{RowSpacing, Sides, spacing};
use climb::Climb;
use field::Field;
use plot::Plot;
use serde::{Deserialize, Serialize};

/// Spacing is measured at every so many inches.
const EVERY: f64 = 0.25;
/// The step of the last turns is so many rows long.
const STEP_ROWS: f64 = 8.0;
/// So often the number of rows is mended before the spiral is refused.
const TRIES: usize = 4;

/// An unbroken spiral, as a maker chooses it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnbrokenSpiral {
    /// The middle of the first circle.
    pub centre: Point,
    /// Distance of rows.
    pub spacing: Spacing,
    /// Radius of the first circle, in inches.
    pub least_radius_in: f64,
    /// Direction in which it starts and ends, counter-clockwise from the right; where it is not
    /// given, the one furthest from all keep-outs.
    #[serde(default)]
    pub start_deg: Option<f64>,
    /// Whether it turns clockwise.
    #[serde(default)]
    pub clockwise: bool,
    /// A hand's wobble; the last turn has none.
    #[serde(default)]
    pub wobble: Option<Wobble>,
}

/// An unbroken spiral and what came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Unbroken {
    /// One stroke.
    pub fill: Fill,
    /// From each row to the next outward, at every quarter inch.
    pub spacing: RowSpacing,
    /// How many times it goes round before the outline.
    pub rows: usize,
    /// Farthest over nearest side, seen from the centre.
    pub sides_ratio: f64,
}

/// Lays an unbroken spiral.
///
/// # Errors
/// Numbers that make no sense; a centre outside or too near the edge; keep-outs that part the
/// ground; [`FillProblem::NoWay`] where rows can't pass; [`FillProblem::Uneven`] with the ratio
/// that this spiral can give; [`FillProblem::Wobble`] where only the wobble breaks the bounds.
pub fn unbroken_spiral(ground: &Ground, choice: &UnbrokenSpiral) -> Result<Unbroken, FillProblem> {
    let plot = Plot::new(ground, choice)?;
    let wished = ((plot.mean - plot.field.first) / choice.spacing.wish_in).round().max(3.0);
    let mut best: Option<Laid> = None;
    let mut rows = wished;
    for attempt in 0..TRIES {
        let laid = lay(&plot, choice, rows);
        let mended = laid.as_ref().ok().and_then(|laid| laid.mended(&choice.spacing));
        let neighbour = wished + [1.0, -1.0, 2.0, -2.0][attempt % 4];
        match (laid, best.as_ref().map(|best| best.misses(&choice.spacing))) {
            (Err(problem), None) if attempt + 1 == TRIES => return Err(problem),
            (Ok(laid), least) if least.is_none_or(|least| laid.misses(&choice.spacing) < least) => {
                best = Some(laid);
            }
            _ => {}
        }
        if best.as_ref().is_some_and(|best| best.misses(&choice.spacing) == 0.0) {
            break;
        }
        rows = mended.filter(|&mended| mended != rows).unwrap_or(neighbour).max(3.0);
    }
    match best {
        Some(laid) if laid.misses(&choice.spacing) == 0.0 => Ok(laid.finished(&plot)),
        Some(laid) => Err(laid.refused(&plot, choice)),
        None => Err(FillProblem::NoWay { near: choice.centre }),
    }
}

/// A spiral in the plot's own frame.
struct Laid {
    stroke: Stroke,
    spacing: RowSpacing,
    rows: f64,
}

fn lay(plot: &Plot, choice: &UnbrokenSpiral, rows: f64) -> Result<Laid, FillProblem> {
    let lost = |near| FillProblem::NoWay { near: plot.frame.leave(near) };
    let field = Field { rows, even: rows / (plot.mean - plot.field.first), ..plot.field.clone() };
    let apart = 1.0 / field.even;
    let climb = Climb {
        rows,
        step: (STEP_ROWS * apart / (std::f64::consts::TAU * plot.ahead)).min(0.2),
        wobble: choice.wobble.map(|wobble| wobble.in_rows(rows / (plot.farthest() - field.first))),
        first: field.first,
        apart,
    };
    let field = levels::set(field, &climb, &plot.edge).map_err(lost)?;
    let points = trace::trace(&field, &climb, plot.most_length).map_err(lost)?;
    let stroke = Stroke::open(points);
    let reach = 2.0 * choice.spacing.most_in.max(apart);
    let spacing = spacing(std::slice::from_ref(&stroke), &plot.walls, Sides::Right, EVERY, reach);
    let spacing = spacing.ok_or_else(|| lost(Point::ORIGIN))?;
    if let Some(alone) = spacing.alone_at {
        return Err(lost(alone));
    }
    Ok(Laid { stroke, spacing, rows })
}

impl Laid {
    /// How many times too narrow or too wide, as a logarithm; 0 within the bounds.
    fn misses(&self, bounds: &Spacing) -> f64 {
        let narrow = (bounds.least_in / self.spacing.least_in).ln().max(0.0);
        narrow + (self.spacing.most_in / bounds.most_in).ln().max(0.0)
    }

    /// The number of rows that would put this spacing in the middle of the bounds, if it is even
    /// enough for them.
    fn mended(&self, bounds: &Spacing) -> Option<f64> {
        if self.spacing.most_in / self.spacing.least_in > bounds.ratio() {
            return None;
        }
        let by = (self.spacing.least_in * self.spacing.most_in / (bounds.least_in * bounds.most_in)).sqrt();
        Some((self.rows * by).round())
    }

    fn finished(self, plot: &Plot) -> Unbroken {
        let points = self.stroke.points.iter().map(|&p| plot.frame.leave(p)).collect();
        Unbroken {
            fill: Fill { strokes: vec![Stroke::open(points)] },
            spacing: RowSpacing {
                least_at: plot.frame.leave(self.spacing.least_at),
                most_at: plot.frame.leave(self.spacing.most_at),
                ..self.spacing
            },
            rows: self.rows as usize,
            sides_ratio: plot.sides_ratio(),
        }
    }

    fn refused(&self, plot: &Plot, choice: &UnbrokenSpiral) -> FillProblem {
        FillProblem::Uneven {
            centre: choice.centre,
            narrowest: self.spacing.least_in,
            narrowest_at: plot.frame.leave(self.spacing.least_at),
            widest: self.spacing.most_in,
            widest_at: plot.frame.leave(self.spacing.most_at),
            ratio: self.spacing.most_in / self.spacing.least_in,
            sides: plot.sides_ratio(),
            allowed: choice.spacing.ratio(),
        }
    }
}
