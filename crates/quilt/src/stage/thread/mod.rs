//! Thread for a whole piece: every job by the lockstitch formula or by hand, the trade's flat ratio
//! beside it, and the bobbins that the quilting takes.
//!
//! A layer of cloth and the batting are reckoned as they lie squeezed under the foot: cloth .01 inch
//! and batting .04 make .06 for the three layers, .02 for a pieced seam (common practice, no source; no
//! measured thread lengths in a quilt are published that we know of).

mod bobbin;
mod problem;
mod spool;

pub use bobbin::{BobbinChange, bobbin_changes};
pub use problem::ThreadProblem;
pub use spool::{Spool, SpoolMatch, contrasting, nearest};

use crate::length::{MM_PER_IN, within};
use crate::sums::{self, FLAT_RATIO};
use crate::table::Top;
use serde::{Deserialize, Serialize};

/// The maker's stitches and thread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ThreadChoice {
    /// Stitch for piecing (stashbandit.net: 2.0).
    pub piecing_stitch_mm: f64,
    /// Stitch for quilting and for sewing the binding on (2.5 to 3.0).
    pub quilting_stitch_mm: f64,
    /// Thickness of a layer of cloth, squeezed.
    pub cloth_in: f64,
    /// Thickness of the batting, squeezed.
    pub batting_in: f64,
    /// Hand stitches an inch: about 1/8 apart (kathykwylie.com 2015).
    pub hand_stitches_per_in: f64,
    /// How deep a hand stitch dips through fold and ground, at a slant: 1/16 (common practice, no source).
    pub bite_in: f64,
    /// What is threaded into a needle at once (common practice, no source).
    pub needleful_in: f64,
    /// What of it can't be sewn: the knot and the last inches (common practice, no source).
    pub needleful_lost_in: f64,
    /// What hangs out at a start and at a stop, above and below (common practice, no source).
    pub tail_in: f64,
    /// What a bobbin holds: 60 yards of 50 weight on a class 15, wound at home (common practice, no
    /// source; makers of thread give none for it).
    pub bobbin_yd: f64,
    /// What comes on top for waste, in the hundred.
    pub waste_percent: f64,
}

impl Default for ThreadChoice {
    fn default() -> Self {
        Self {
            piecing_stitch_mm: 2.0,
            quilting_stitch_mm: 2.5,
            cloth_in: 0.01,
            batting_in: 0.04,
            hand_stitches_per_in: 8.0,
            bite_in: 1.0 / 16.0,
            needleful_in: 18.0,
            needleful_lost_in: 4.0,
            tail_in: 6.0,
            bobbin_yd: 60.0,
            waste_percent: 10.0,
        }
    }
}

/// What is to be sewn. Lengths of line, not of thread.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Work {
    /// Seams of the piece: how many, and how long together.
    pub pieced: Pieced,
    /// The strokes of the quilting, in the order in which they are sewn.
    pub quilting_strokes_in: Vec<f64>,
    /// Binding sewn on by machine.
    pub binding_in: f64,
    /// Binding stitched down by hand.
    pub binding_by_hand_in: f64,
    /// The edge of figures, sewn down by hand.
    pub applique_in: f64,
    /// Rows of back stitch by hand.
    pub stitched_rows_in: f64,
    /// Quilting by hand, through all layers.
    pub quilting_by_hand_in: f64,
}

/// Seams that were sewn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Pieced {
    /// How many.
    pub seams: usize,
    /// How long together.
    pub length_in: f64,
}

impl Pieced {
    /// The seams of a top, each as long as it was sewn.
    #[must_use]
    pub fn of(top: &Top) -> Self {
        let seams = top.seams();
        Self { seams: seams.len(), length_in: seams.values().map(|seam| seam.sewn_in).sum() }
    }
}

/// A kind of sewing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Job {
    /// The seams of the piece.
    Piecing,
    /// Quilting by machine.
    Quilting,
    /// Sewing the binding on.
    Binding,
    /// Stitching the binding down by hand.
    BindingByHand,
    /// Sewing figures down by hand.
    Applique,
    /// Rows of back stitch by hand.
    StitchedRows,
    /// Quilting by hand.
    QuiltingByHand,
}

/// The thread of one job, without waste.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct JobThread {
    /// Which job.
    pub job: Job,
    /// Length of the line.
    pub line_in: f64,
    /// Thread above; by hand, all of it.
    pub needle_in: f64,
    /// Thread below; none by hand.
    pub bobbin_in: f64,
    /// What the trade's flat ratio says for a machine, above and below together; it knows neither
    /// batting nor tails.
    pub flat_ratio_in: Option<f64>,
}

/// Thread for everything.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadPlan {
    /// The jobs that there are.
    pub jobs: Vec<JobThread>,
    /// Above and by hand, waste included.
    pub needle_in: f64,
    /// Below, waste included.
    pub bobbin_in: f64,
    /// What the flat ratio says to all that the machine sews, without waste.
    pub flat_ratio_in: f64,
    /// How many bobbins to wind for all of it.
    pub bobbins: u32,
    /// Where in the quilting the bobbin runs out.
    pub changes: Vec<BobbinChange>,
    /// What a bobbin was taken to hold; common practice, no source, so set it from your own.
    pub bobbin_yd: f64,
}

impl ThreadPlan {
    /// Above and below together, in yards, waste included.
    #[must_use]
    pub fn total_yd(&self) -> f64 {
        (self.needle_in + self.bobbin_in) / 36.0
    }
}

/// Thread for this work.
///
/// # Errors
/// Numbers that make no sense, or a bobbin that its tails use up.
pub fn plan(choice: &ThreadChoice, work: &Work) -> Result<ThreadPlan, ThreadProblem> {
    choice.check()?;
    let jobs: Vec<JobThread> = [
        piecing(choice, work.pieced)?,
        quilting(choice, &work.quilting_strokes_in)?,
        binding(choice, work.binding_in)?,
        by_hand(choice, Job::BindingByHand, work.binding_by_hand_in)?,
        by_hand(choice, Job::Applique, work.applique_in)?,
        by_hand(choice, Job::StitchedRows, work.stitched_rows_in)?,
        by_hand(choice, Job::QuiltingByHand, work.quilting_by_hand_in)?,
    ]
    .into_iter()
    .filter(|job| job.line_in > 0.0)
    .collect();
    let quilting_ratio = ratio(choice.quilting_stitch_mm, layers(choice))?;
    let changes = bobbin_changes(
        &work.quilting_strokes_in,
        quilting_ratio / 2.0,
        36.0 * choice.bobbin_yd,
        choice.tail_in,
    )?;
    let below: f64 = jobs.iter().map(|job| job.bobbin_in).sum();
    let bobbin_in = sums::with_waste(below, choice.waste_percent)?;
    let by_length = (bobbin_in / (36.0 * choice.bobbin_yd) - 1e-9).ceil().max(0.0) as u32;
    // Each change wastes two tails, so that the line may take one bobbin more than its length.
    let on_the_line = if work.quilting_strokes_in.is_empty() { 0 } else { changes.len() as u32 + 1 };
    Ok(ThreadPlan {
        needle_in: sums::with_waste(jobs.iter().map(|job| job.needle_in).sum(), choice.waste_percent)?,
        bobbin_in,
        flat_ratio_in: jobs.iter().filter_map(|job| job.flat_ratio_in).sum(),
        bobbins: by_length.max(on_the_line),
        changes,
        bobbin_yd: choice.bobbin_yd,
        jobs,
    })
}

impl ThreadChoice {
    /// # Errors
    /// The first number that makes no sense, and what it must be.
    pub fn check(&self) -> Result<(), ThreadProblem> {
        sums::stitches_per_in(self.piecing_stitch_mm)?;
        sums::stitches_per_in(self.quilting_stitch_mm)?;
        within("hand stitches an inch", self.hand_stitches_per_in, [1.0, 30.0], "from 1 to 30")?;
        within("depth of a hand stitch", self.bite_in, [0.0, 0.5], "from 0 to 1/2 inch")?;
        within("thickness of the cloth", self.cloth_in, [0.001, 0.25], "from 1/1000 to 1/4 inch")?;
        within("thickness of the batting", self.batting_in, [0.0, 0.5], "from 0 to 1/2 inch")?;
        within("tail", self.tail_in, [0.0, 36.0], "from 0 to 36 inches")?;
        within("bobbin", self.bobbin_yd, [1.0, 2000.0], "from 1 to 2000 yards")?;
        within("needleful", self.needleful_in, [6.0, 120.0], "from 6 to 120 inches")?;
        let most_lost = self.needleful_in - 1.0;
        let must = "0 or more, and at least an inch less than the needleful";
        within("lost part of a needleful", self.needleful_lost_in, [0.0, most_lost], must)?;
        within("waste", self.waste_percent, [0.0, 100.0], "from 0 to 100 percent")?;
        Ok(())
    }

    /// Whole needlefuls for so much hand sewing.
    ///
    /// # Errors
    /// A length below 0.
    pub fn needlefuls(&self, job: Job, line_in: f64) -> Result<f64, ThreadProblem> {
        let depth = if job == Job::QuiltingByHand { layers(self) } else { self.bite_in };
        let once = sums::hand_ratio(depth, self.hand_stitches_per_in)?;
        // A back stitch goes one stitch forward on the front and two behind.
        let ratio = if job == Job::StitchedRows { once + 2.0 } else { once };
        let sewn_of_each = self.needleful_in - self.needleful_lost_in;
        Ok((line(line_in)? * ratio / sewn_of_each - 1e-9).ceil().max(0.0))
    }
}

/// The three layers, squeezed.
fn layers(choice: &ThreadChoice) -> f64 {
    2.0 * choice.cloth_in + choice.batting_in
}

fn ratio(stitch_mm: f64, thickness_in: f64) -> Result<f64, ThreadProblem> {
    Ok(sums::lockstitch_ratio(thickness_in, sums::stitches_per_in(stitch_mm)?)?)
}

/// A job of the machine: half the thread above, half below, and so much more for tails on each.
fn by_machine(job: Job, line_in: f64, ratio: f64, tails_in: f64) -> Result<JobThread, ThreadProblem> {
    let line_in = line(line_in)?;
    let half = line_in * ratio / 2.0 + tails_in;
    Ok(JobThread {
        job,
        line_in,
        needle_in: half,
        bobbin_in: half,
        flat_ratio_in: Some(line_in * FLAT_RATIO),
    })
}

fn line(inches: f64) -> Result<f64, ThreadProblem> {
    Ok(within("length of the line", inches, [0.0, 1e7], "from 0 to 10,000,000 inches")?)
}

/// Seams run on from one to the next or are cut short, so an inch of tail at either end is enough
/// (common practice, no source).
fn piecing(choice: &ThreadChoice, pieced: Pieced) -> Result<JobThread, ThreadProblem> {
    let ratio = ratio(choice.piecing_stitch_mm, 2.0 * choice.cloth_in)?;
    by_machine(Job::Piecing, pieced.length_in, ratio, 2.0 * pieced.seams as f64)
}

fn quilting(choice: &ThreadChoice, strokes_in: &[f64]) -> Result<JobThread, ThreadProblem> {
    let ratio = ratio(choice.quilting_stitch_mm, layers(choice))?;
    let tails = 2.0 * choice.tail_in * strokes_in.len() as f64;
    by_machine(Job::Quilting, strokes_in.iter().sum(), ratio, tails)
}

/// A binding is sewn through the three layers and both of its own.
fn binding(choice: &ThreadChoice, line_in: f64) -> Result<JobThread, ThreadProblem> {
    let ratio = ratio(choice.quilting_stitch_mm, layers(choice) + 2.0 * choice.cloth_in)?;
    by_machine(Job::Binding, line_in, ratio, 2.0 * choice.tail_in)
}

fn by_hand(choice: &ThreadChoice, job: Job, line_in: f64) -> Result<JobThread, ThreadProblem> {
    let needle_in = choice.needlefuls(job, line_in)? * choice.needleful_in;
    Ok(JobThread { job, line_in, needle_in, bobbin_in: 0.0, flat_ratio_in: None })
}

/// How many stitches a line of quilting has.
///
/// # Errors
/// A length below 0 or a stitch that no machine makes.
pub fn stitches(line_in: f64, stitch_mm: f64) -> Result<f64, ThreadProblem> {
    sums::stitches_per_in(stitch_mm)?;
    Ok((line(line_in)? * MM_PER_IN / stitch_mm).ceil())
}
