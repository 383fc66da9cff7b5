//! Quilting: the lines of a design over the real outline, and everything they come to.
//!
//! The choice is what the log keeps; the lines are laid from it anew each time and are the same each
//! time. Lines may run to the raw edge, since a quilt is trimmed after it is quilted; `inside_in`
//! keeps them off it. What other stages have to do with it, a figure sewn on before and how the frame is
//! loaded, comes as [`Beside`]. On a frame starts, thread, bobbins and time are those of the lines as
//! the passes cut them.

mod beside;
mod caution;
mod choice;
mod density;
mod machine;
mod problem;

pub use beside::{Beside, Held, KeepOut};
pub use caution::Caution;
pub use choice::{DesignKind, Machine, QuiltingChoice, ThreadColour};
pub use density::{Density, Thickness};
pub use machine::{Across, Pass};
pub use problem::QuiltingProblem;

use super::enough::{self, StageName, WorkKind};
use super::habits::Habits;
use super::thread::{self, Work};
use machine::Passes;
use plane::fill::{Fill, Ground, Stroke, corner_gap};
use plane::gap::{self, Sides};
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
    /// On which stroke, from 1, as they are sewn.
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
    /// Lines as the design lays them.
    pub lines: usize,
    /// How many times sewing starts, and as many times stops: on a frame at every pass anew.
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
    /// How wide a spiral gapes at its corners; `None` for any other design.
    pub corner_gap_in: Option<f64>,
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
    /// The strokes in sewing order, as the design lays them.
    pub fill: Fill,
    /// The same as they are sewn: on a frame cut at the edges of the passes, pass by pass.
    pub sewn: Fill,
    /// What they come to.
    pub plan: QuiltingPlan,
}

/// Lays the lines of a design over a raw outline.
///
/// # Errors
/// What stands against the lines, with place and numbers; numbers of the machine or the thread that
/// make no sense.
pub fn lay(choice: &QuiltingChoice, outline: &[Point], beside: &Beside) -> Result<Fill, QuiltingProblem> {
    Ok(Laid::try_new(choice, outline, beside)?.fill)
}

/// Lays the lines and gives them as they are sewn: on a frame cut at the edges of the passes.
///
/// # Errors
/// As [`lay`].
pub fn sewn(choice: &QuiltingChoice, outline: &[Point], beside: &Beside) -> Result<Fill, QuiltingProblem> {
    let laid = Laid::try_new(choice, outline, beside)?;
    Ok(machine::passes(choice.machine, across(choice, beside), &laid.fill, outline).sewn)
}

/// Lays the lines and works out what they come to.
///
/// # Errors
/// As [`lay`].
pub fn plan(
    choice: &QuiltingChoice,
    outline: &[Point],
    beside: &Beside,
    habits: &Habits,
) -> Result<Quilting, QuiltingProblem> {
    habits.check()?;
    let Laid { fill, ground, inside, centre } = Laid::try_new(choice, outline, beside)?;
    let Passes { passes, sewn } = machine::passes(choice.machine, across(choice, beside), &fill, outline);
    let strokes_in: Vec<f64> = sewn.strokes.iter().map(Stroke::length).collect();
    let length_in: f64 = strokes_in.iter().sum();
    let thread = thread::plan(&habits.thread, &Work { quilting_strokes_in: strokes_in, ..Work::default() })?;
    let changes: Vec<Change> = thread
        .changes
        .iter()
        .filter_map(|change| {
            let at = along(sewn.strokes.get(change.stroke.checked_sub(1)?)?, change.at_in)?;
            Some(Change { stroke: change.stroke, along_in: change.along_in, at })
        })
        .collect();
    let mut plan = QuiltingPlan {
        length_in,
        stitches: thread::stitches(length_in, habits.thread.quilting_stitch_mm)?,
        lines: fill.starts(),
        starts: sewn.starts(),
        needle_in: thread.needle_in,
        bobbin_in: thread.bobbin_in,
        flat_ratio_in: thread.flat_ratio_in,
        bobbins: thread.bobbins,
        minutes: habits.rates.minutes_of(&work(&sewn, changes.len())),
        changes,
        widest_gap: widest(&inside, &beside::kept_free(&choice.keep_out, beside), &fill)?,
        most_gap_in: choice.most_gap_in,
        rows: rows(choice, &ground, &fill),
        corner_gap_in: (choice.design == DesignKind::CorneredSpiral)
            .then(|| corner_gap(choice.sides, choice.spacing_in)),
        smallest_curve: smallest_curve(&fill),
        density: density::of(&ground, &fill, centre),
        passes,
        cautions: Vec::new(),
    };
    plan.cautions = caution::of(choice, &plan);
    Ok(Quilting { fill, sewn, plan })
}

/// What there is to do for lines as they are sewn, with so many changes of bobbin.
#[must_use]
pub fn work(sewn: &Fill, changes: usize) -> [enough::Work; 3] {
    let of = |kind, amount| enough::Work { stage: StageName::Quilting, kind, amount };
    [
        of(WorkKind::Quilt, sewn.length()),
        of(WorkKind::Start, sewn.starts() as f64),
        of(WorkKind::Bobbin, changes as f64),
    ]
}

/// A design laid, with what it was laid on.
struct Laid {
    fill: Fill,
    /// What is quilted.
    ground: Ground,
    /// The same with all that is kept free.
    inside: Region,
    centre: Point,
}

impl Laid {
    fn try_new(choice: &QuiltingChoice, outline: &[Point], beside: &Beside) -> Result<Self, QuiltingProblem> {
        choice.check()?;
        let inside = inside(choice, outline)?;
        let middle = plane::polygon::centroid(&inside.outer).unwrap_or_default();
        let centre = choice.centre.unwrap_or(middle);
        let free: Vec<Region> =
            beside::kept_free(&choice.keep_out, beside).into_iter().map(|kept| kept.shape).collect();
        let ground = Ground::try_new(&inside, &free)?;
        let fill = choice.lay(&ground, centre)?;
        if fill.strokes.is_empty() {
            return Err(QuiltingProblem::NoLine { spacing_in: choice.spacing_in });
        }
        Ok(Self { fill, ground, inside, centre })
    }
}

/// The outline, drawn in as far as lines stay inside it.
fn inside(choice: &QuiltingChoice, outline: &[Point]) -> Result<Region, QuiltingProblem> {
    let raw = Region::try_new(outline.to_vec(), Vec::new()).map_err(QuiltingProblem::Outline)?;
    if choice.inside_in <= 0.0 {
        return Ok(raw);
    }
    let parts = plane::offset(&raw, -choice.inside_in, plane::MITRE_LIMIT);
    let most = plane::largest_disc(&raw, 1.0 / 64.0).map_or(0.0, |disc| disc.radius);
    let largest = parts.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    largest.ok_or(QuiltingProblem::NothingInside { inside_in: choice.inside_in, most_in: most })
}

/// What the passes divide: as the machine says, else as the layers are loaded.
fn across(choice: &QuiltingChoice, beside: &Beside) -> Across {
    let said = match choice.machine {
        Machine::Frame { width_along_rollers, .. } => width_along_rollers,
        Machine::Hand | Machine::Arm { .. } => None,
    };
    match said.or(beside.width_along_rollers) {
        Some(false) => Across::Width,
        Some(true) | None => Across::Height,
    }
}

/// The widest place where nothing holds the layers.
fn widest(inside: &Region, free: &[KeepOut], fill: &Fill) -> Result<Option<Found>, QuiltingProblem> {
    let of = |held: Held| free.iter().filter(move |kept| kept.held == held).map(|kept| kept.shape.clone());
    let layers = Ground::try_new(inside, &of(Held::Hole).collect::<Vec<_>>())?;
    let sewn: Vec<(Point, Point)> = of(Held::AtEdge)
        .flat_map(|shape| std::iter::once(shape.outer).chain(shape.holes))
        .flat_map(|ring| plane::polygon::edges(&ring).collect::<Vec<_>>())
        .collect();
    let disc = gap::widest_within(&layers.edges(true), fill, &sewn, gap::WIDEST_TOLERANCE);
    Ok(disc.map(|disc| Found { inches: 2.0 * disc.radius, at: disc.centre }))
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
