//! The eye check: what makes a grown piece good or bad to a maker's eye, as numbers.
//!
//! Fifteen qualities, each with a definition, a plain sentence, a grade and marks for the drawing.
//! For finished shapes i: area a, centroid c, least width m, diameter D; outline area A, centroid
//! c0, R = √(A/π), r = |c − c0| / R; N shapes. The thresholds are experience (common practice, no
//! source), set against regular polygons and measured sketches. Qualities aren't averaged away: four
//! of them are gates. Inches; pure and deterministic.

mod balance;
mod contrast;
mod drift;
mod form;
mod frame;
mod grain;
mod lines;
mod lost;
mod prints;
mod rank;
mod rays;
mod ring;
mod row;
mod scale;
mod seen;
mod shapes;
mod touch;
mod turns;
mod weights;

pub use balance::{balance_of, equilibrium_of, off_centre_percent};
pub use grain::{Bias, BiasEdge, bias_on_outer_edges};
pub use lines::longest_line;
pub use lost::{Lost, lost_in_seams};
pub use ring::roundness;
pub use row::{EyeMark, Quality, Row};
pub use scale::{Grade, Value};
pub use seen::{Cell, RingSeen, SeenEye, finished_from_raw, seen_eye};
pub use shapes::{SeamLine, Shape, Shapes, Shown, Touch};
pub use weights::{total_cost, weight};

use crate::wish::Wish;
use frame::Frame;
use serde::Serialize;

/// The eye check of a piece.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EyeCheck {
    /// One row for each quality, in the order of [`Quality::ALL`].
    pub rows: Vec<Row>,
    /// Whether no gate is in its poor column: no log-cabin, no bars, wedges rather than strips, and
    /// no print that touches itself.
    pub gates_passed: bool,
    /// How many rows are good or not wished for.
    pub good: usize,
}

impl EyeCheck {
    /// The row of a quality.
    #[must_use]
    pub fn row(&self, quality: Quality) -> Option<&Row> {
        self.rows.iter().find(|row| row.quality == quality)
    }
}

/// Looks at a piece. Of a piece without any finished shape every row says that it is too soon.
#[must_use]
pub fn eye_check(shapes: &Shapes, wish: &Wish) -> EyeCheck {
    let frame = Frame::of(shapes, wish);
    let rows: Vec<Row> = Quality::ALL
        .iter()
        .map(|&quality| match &frame {
            Some(frame) if shapes.shapes.len() >= quality.least_pieces() => judge(frame, quality),
            _ => Row::too_soon(quality),
        })
        .collect();
    let passes = |row: &Row| row.grade != Grade::Poor || !row.quality.is_gate();
    EyeCheck {
        gates_passed: rows.iter().all(passes),
        good: rows.iter().filter(|row| matches!(row.grade, Grade::Good | Grade::NotWished)).count(),
        rows,
    }
}

fn judge(frame: &Frame<'_>, quality: Quality) -> Row {
    match quality {
        Quality::Round => ring::round(frame),
        Quality::FirstInTheMiddle => ring::first_in_the_middle(frame),
        Quality::NoSideAhead => rays::no_side_ahead(frame),
        Quality::NoLogCabin => rays::no_log_cabin(frame),
        Quality::NoBars => form::no_bars(frame),
        Quality::Wedges => form::wedges(frame),
        Quality::SizeInStep => form::size_in_step(frame),
        Quality::NoLongLine => lines::no_long_line(frame),
        Quality::Balance => balance::balance(frame),
        Quality::Drift => drift::drift(frame),
        Quality::EdgesRead => contrast::edges_read(frame),
        Quality::HotSpots => contrast::hot_spots(frame),
        Quality::PrintsRest => prints::prints_rest(frame),
        Quality::DirectionsMixed => lines::directions_mixed(frame),
        Quality::Turns => turns::turns(frame),
    }
}
