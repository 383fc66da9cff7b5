//! Quilting: the lines of a design over the real outline, and everything they come to.
//!
//! The choice is what the log keeps; the lines are laid from it anew each time and are the same each
//! time. Lines may run to the raw edge, since a quilt is trimmed after it is quilted; `inside_in`
//! keeps them off it. A figure that is sewn on before is a keep-out.

mod caution;
mod choice;
mod density;
mod machine;
mod problem;

pub use caution::Caution;
pub use choice::{DesignKind, Machine, QuiltingChoice, ThreadColour};
pub use density::{Density, Thickness};
pub use machine::Pass;
pub use problem::QuiltingProblem;

use super::enough::{self, StageName, WorkKind};
use super::habits::Habits;
use super::thread::{self, Work};
use plane::fill::{Fill, Ground, Stroke};
use plane::gap::{self, KeepOuts, Sides};
use plane::{Point, Region};
use serde::Serialize;

/// Spacing is measured at every so many inches of line.
const EVERY_IN: f64 = 0.25;

/// A place and a length there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Found {
    /// How much, in inches.
    pub inches: f64,
    /// Where.
    pub at: Point,
}

/// How far apart rows really lie.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rows {
    /// The least, and where.
    pub least: Found,
    /// As many lie closer as further apart.
    pub median_in: f64,
    /// The most, and where.
    pub most: Found,
}

/// A place at which the bobbin runs out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Change {
    /// On which stroke, from 1.
    pub stroke: usize,
    /// How far along all strokes together, in inches.
    pub along_in: f64,
    /// Where.
    pub at: Point,
}

/// What the lines come to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct QuiltingPlan {
    /// Length of line.
    pub length_in: f64,
    /// Stitches.
    pub stitches: f64,
    /// How many times sewing starts, and as many times stops.
    pub starts: usize,
    /// Thread from above, waste included.
    pub needle_in: f64,
    /// Thread from below, waste included.
    pub bobbin_in: f64,
    /// What the trade's flat ratio says to the same line.
    pub flat_ratio_in: f64,
    /// Bobbins to wind.
    pub bobbins: u32,
    /// Where the bobbin runs out.
    pub changes: Vec<Change>,
    /// Minutes at the machine.
    pub minutes: f64,
    /// The widest place without a line: a disc's diameter, to 1/16 inch, and its middle.
    pub widest_gap: Option<Found>,
    /// What the batting allows.
    pub most_gap_in: f64,
    /// How far apart rows lie; `None` for a design of one row.
    pub rows: Option<Rows>,
    /// The smallest curve's radius; `None` where all is straight.
    pub smallest_curve: Option<Found>,
    /// How close the quilting is, in the middle and at the rim.
    pub density: Density,
    /// The passes of a machine with a fixed reach.
    pub passes: Vec<Pass>,
    /// What speaks against the design.
    pub cautions: Vec<Caution>,
}

/// Lines and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Quilting {
    /// The strokes in sewing order.
    pub fill: Fill,
    /// What they come to.
    pub plan: QuiltingPlan,
}

/// Lays the lines of a design over a raw outline.
///
/// # Errors
/// What stands against the lines, with place and numbers; numbers of the machine or the thread that
/// make no sense.
pub fn lay(choice: &QuiltingChoice, outline: &[Point]) -> Result<Fill, QuiltingProblem> {
    let (ground, centre) = ground(choice, outline)?;
    Ok(choice.lay(&ground, centre)?)
}

/// Lays the lines and works out what they come to.
///
/// # Errors
/// As [`lay`].
pub fn plan(
    choice: &QuiltingChoice,
    outline: &[Point],
    habits: &Habits,
) -> Result<Quilting, QuiltingProblem> {
    choice.check()?;
    habits.check()?;
    let (ground, centre) = ground(choice, outline)?;
    let fill = choice.lay(&ground, centre)?;
    if fill.strokes.is_empty() {
        return Err(QuiltingProblem::NoLine { spacing_in: choice.spacing_in });
    }
    let strokes_in: Vec<f64> = fill.strokes.iter().map(Stroke::length).collect();
    let length_in: f64 = strokes_in.iter().sum();
    let thread = thread::plan(&habits.thread, &Work { quilting_strokes_in: strokes_in, ..Work::default() })?;
    let changes: Vec<Change> = thread
        .changes
        .iter()
        .filter_map(|change| {
            let at = along(fill.strokes.get(change.stroke.checked_sub(1)?)?, change.at_in)?;
            Some(Change { stroke: change.stroke, along_in: change.along_in, at })
        })
        .collect();
    let density = density::of(&ground, &fill, centre);
    let passes = machine::passes(choice.machine, &fill, outline);
    let mut plan = QuiltingPlan {
        length_in,
        stitches: thread::stitches(length_in, habits.thread.quilting_stitch_mm)?,
        starts: fill.starts(),
        needle_in: thread.needle_in,
        bobbin_in: thread.bobbin_in,
        flat_ratio_in: thread.flat_ratio_in,
        bobbins: thread.bobbins,
        minutes: habits.rates.minutes_of(&work(&fill, changes.len())),
        changes,
        widest_gap: gap::widest(&ground, &fill, KeepOuts::Closed, gap::WIDEST_TOLERANCE)
            .map(|disc| Found { inches: 2.0 * disc.radius, at: disc.centre }),
        most_gap_in: choice.most_gap_in,
        rows: rows(choice, &ground, &fill),
        smallest_curve: smallest_curve(&fill),
        density,
        passes,
        cautions: Vec::new(),
    };
    plan.cautions = caution::of(choice, &plan);
    Ok(Quilting { fill, plan })
}

/// What there is to do for these lines, with so many changes of bobbin.
#[must_use]
pub fn work(fill: &Fill, changes: usize) -> [enough::Work; 3] {
    let of = |kind, amount| enough::Work { stage: StageName::Quilting, kind, amount };
    [
        of(WorkKind::Quilt, fill.length()),
        of(WorkKind::Start, fill.starts() as f64),
        of(WorkKind::Bobbin, changes as f64),
    ]
}

/// The ground that is quilted, and the design's middle.
fn ground(choice: &QuiltingChoice, outline: &[Point]) -> Result<(Ground, Point), QuiltingProblem> {
    let raw = Region::try_new(outline.to_vec(), Vec::new()).map_err(QuiltingProblem::Outline)?;
    let inside = if choice.inside_in > 0.0 {
        let parts = plane::offset(&raw, -choice.inside_in, plane::MITRE_LIMIT);
        let most = plane::largest_disc(&raw, 1.0 / 64.0).map_or(0.0, |disc| disc.radius);
        let largest = parts.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
        largest.ok_or(QuiltingProblem::NothingInside { inside_in: choice.inside_in, most_in: most })?
    } else {
        raw
    };
    let middle = plane::polygon::centroid(&inside.outer).unwrap_or_default();
    let centre = choice.centre.unwrap_or(middle);
    Ok((Ground::try_new(&inside, &choice.keep_out)?, centre))
}

/// Where a stroke has come after so many inches.
fn along(stroke: &Stroke, mut inches: f64) -> Option<Point> {
    for (a, b) in stroke.segments() {
        let length = a.distance(b);
        if inches <= length {
            return Some(if length > 0.0 { a + (b - a) * (inches / length) } else { a });
        }
        inches -= length;
    }
    stroke.points.last().copied()
}

fn rows(choice: &QuiltingChoice, ground: &Ground, fill: &Fill) -> Option<Rows> {
    let reach = 3.0 * choice.spacing_in;
    let found = gap::spacing(&fill.strokes, &ground.edges(true), Sides::Both, EVERY_IN, reach)?;
    Some(Rows {
        least: Found { inches: found.least_in, at: found.least_at },
        median_in: found.median_in,
        most: Found { inches: found.most_in, at: found.most_at },
    })
}

fn smallest_curve(fill: &Fill) -> Option<Found> {
    let found = gap::tightest(&fill.strokes);
    found.at.filter(|_| found.radius_in.is_finite()).map(|at| Found { inches: found.radius_in, at })
}

#[cfg(test)]
mod tests;
