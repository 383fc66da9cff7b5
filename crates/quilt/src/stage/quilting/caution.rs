//! What speaks against a design, with the number.

use super::{DesignKind, Machine, QuiltingChoice, QuiltingPlan, Thickness};
use crate::length::LengthUnit;
use serde::Serialize;

/// So many starts are a nuisance by hand, and so many on a frame a reason not to (common practice, no
/// source).
const MANY_STARTS: usize = 40;
const TOO_MANY_STARTS: usize = 200;
/// A middle so many times as dense as the rim draws up, and the rim ruffles (common practice, no
/// source).
const DENSER: f64 = 1.6;
/// A curve tighter than this can't be followed with the piece turned under the needle: 1/2 inch
/// (common practice, no source).
const TIGHT_IN: f64 = 0.5;

/// What speaks against a design.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Caution {
    /// Starts and stops without end.
    ManyStarts {
        /// How many.
        starts: usize,
        /// Whether that is a reason not to do it.
        dont: bool,
    },
    /// On a frame a line that runs on is cut at the edge of every pass.
    CutByPasses {
        /// Pieces that the frame makes of the lines.
        pieces: usize,
        /// How many lines there are.
        lines: usize,
        /// Whether that is a reason not to do it.
        dont: bool,
    },
    /// The middle is denser than the rim.
    DenseMiddle {
        /// How many times as dense.
        times: f64,
    },
    /// Only the middle is quilted.
    BareRim,
    /// The batting wants lines closer.
    WideGap {
        /// The widest gap.
        gap_in: f64,
        /// What the batting allows.
        most_in: f64,
    },
    /// A curve that can't be followed.
    TightCurve {
        /// Its radius.
        radius_in: f64,
    },
    /// Dense lines all one way pull the piece out of square.
    PullsOneWay,
}

impl std::fmt::Display for Caution {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.sentence(LengthUnit::Inches))
    }
}

impl Caution {
    /// What speaks against it, and what would be better.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        match *self {
            Self::ManyStarts { starts, dont: true } => format!(
                "{starts} starts and stops: don't. Take a design that goes in one stroke, or wider rows."
            ),
            Self::ManyStarts { starts, dont: false } => {
                format!("{starts} starts and stops: each wants its threads brought up and fastened.")
            }
            Self::CutByPasses { pieces, lines, dont } => format!(
                "On the frame its {lines} {} fall into {pieces} pieces, one start each{}",
                if lines == 1 { "line" } else { "lines" },
                if dont { ": don't. Take rows along the rollers." } else { "." }
            ),
            Self::DenseMiddle { times } => format!(
                "The middle is quilted {times:.1} times as densely as the rim: it draws up and the rim ruffles."
            ),
            Self::BareRim => "Only the middle is quilted: it draws up and the rim ruffles.".to_owned(),
            Self::WideGap { gap_in, most_in } => format!(
                "The widest gap is {} across; the batting allows {}.",
                unit.length(gap_in, 16),
                unit.length(most_in, 8)
            ),
            Self::TightCurve { radius_in } => format!(
                "The smallest curve has a radius of {}: tighter than {}{} is hard to follow.",
                unit.length(radius_in, 16),
                unit.length(TIGHT_IN, 8),
                unit.name_after(TIGHT_IN)
            ),
            Self::PullsOneWay => {
                "Dense lines all one way pull the piece out of square: sew every other one back, or cross them."
                    .to_owned()
            }
        }
    }
}

pub(super) fn of(choice: &QuiltingChoice, plan: &QuiltingPlan) -> Vec<Caution> {
    let mut found = Vec::new();
    let on_frame = matches!(choice.machine, Machine::Frame { .. });
    if on_frame && plan.starts > plan.lines + MANY_STARTS {
        let dont = plan.starts > TOO_MANY_STARTS;
        found.push(Caution::CutByPasses { pieces: plan.starts, lines: plan.lines, dont });
    } else if plan.starts > MANY_STARTS {
        found.push(Caution::ManyStarts { starts: plan.starts, dont: plan.starts > TOO_MANY_STARTS });
    }
    let times = plan.density.middle_over_rim();
    if times.is_infinite() {
        found.push(Caution::BareRim);
    } else if times > DENSER {
        found.push(Caution::DenseMiddle { times });
    }
    if let Some(gap) = plan.widest_gap.filter(|gap| gap.inches > plan.most_gap_in) {
        found.push(Caution::WideGap { gap_in: gap.inches, most_in: plan.most_gap_in });
    }
    if let Some(curve) = plan.smallest_curve.filter(|curve| curve.inches < TIGHT_IN - 1e-3) {
        found.push(Caution::TightCurve { radius_in: curve.inches });
    }
    let one_way = choice.design == DesignKind::Lines && choice.sewing == plane::fill::Sewing::OneWay;
    if one_way && matches!(plan.density.class, Thickness::Matchstick | Thickness::Dense) {
        found.push(Caution::PullsOneWay);
    }
    found
}
