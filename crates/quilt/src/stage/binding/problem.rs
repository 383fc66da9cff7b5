//! Why an edge can't be finished as wished, where, by how much, and what to do.

use crate::cloth::Kind;
use crate::length::{MeasureProblem, fraction, many, round_up};
use crate::sums::{LAP_IN, binding_back, binding_width};
use plane::RegionProblem;

/// Why there is no binding or facing as wished. Sides and corners are counted from 1; side `n` runs
/// from corner `n` to the next.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BindingProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// The outline isn't one.
    #[error("The outline can't be bound: {0}.")]
    Outline(RegionProblem),
    /// The strip doesn't reach over the seam line on the back.
    #[error(
        "A strip cut {} wide doesn't close over a seam of {}: it must be {} or wider. Cut it wider{}.",
        fraction(*strip_width_in, 16), fraction(*seam_in, 16), fraction(round_up(*needs_in, 16), 16), or_sew(*seam_fits_in)
    )]
    StripTooNarrow {
        /// Cut width.
        strip_width_in: f64,
        /// The seam wished.
        seam_in: f64,
        /// Least cut width for that seam.
        needs_in: f64,
        /// The seam that the strip does fill; 0 when there is none.
        seam_fits_in: f64,
    },
    /// A side too short for the folds at its two ends.
    #[error(
        "Side {side} is {} long, and the folds at its ends take {}: {}",
        fraction(*length_in, 16), fraction(round_up(*needs_in, 16), 16), narrower(*most_finished_in, *seam_in, *thickness_in)
    )]
    ShortSide {
        /// Which side.
        side: usize,
        /// Its raw length.
        length_in: f64,
        /// What the folds at both its ends take on the back.
        needs_in: f64,
        /// The widest binding, finished, that folds there; 0 or less when none does.
        most_finished_in: f64,
        /// The seam that it is sewn with.
        seam_in: f64,
        /// Thickness of the edge that it goes round.
        thickness_in: f64,
    },
    /// Two sides so near each other that their bindings or facings meet on the back.
    #[error(
        "Sides {first} and {second} lie so near each other that on the back what is {} deep from each would meet. Make it narrower, or cut the neck off.",
        fraction(*deep_in, 16)
    )]
    Neck {
        /// The first side.
        first: usize,
        /// The second.
        second: usize,
        /// How far it reaches in.
        deep_in: f64,
    },
    /// A curve with a strip on the straight grain.
    #[error(
        "From corner {first} to corner {last} the edge is a curve of about {} radius: a strip on the straight grain won't lie flat there. Cut it on the bias.",
        fraction(*radius_in, 1)
    )]
    CurveNeedsBias {
        /// Where the curve begins.
        first: usize,
        /// Where it ends.
        last: usize,
        /// Its tightest radius, about.
        radius_in: f64,
    },
    /// Leftovers, or strips at hand, that don't reach round.
    #[error(
        "The binding at hand is {} short: joined it gives {}, and {} are needed with the closing join. Join on a bit, or cut new strips.",
        fraction(*short_in, 16), fraction(*has_in, 16), fraction(*needed_in, 16)
    )]
    LeftoverShort {
        /// What it gives once it is joined.
        has_in: f64,
        /// Net length and closing overlap.
        needed_in: f64,
        /// What is missing.
        short_in: f64,
    },
    /// A leftover that is narrower than the strip must be.
    #[error(
        "The leftover is {} wide and {} is needed: sew it with a narrower seam, or take another.",
        fraction(*has_in, 16), fraction(*needed_in, 16)
    )]
    LeftoverNarrow {
        /// Its width.
        has_in: f64,
        /// The strip's width.
        needed_in: f64,
    },
    /// A cloth that is no leftover of binding.
    #[error("That cloth is no leftover of binding but a {}. Cut strips from it first.", kind_word(*.0))]
    NotBinding(Kind),
    /// A cloth that doesn't hold the strips.
    #[error(
        "`{name}` holds {} {} wide of 6 inches or more, as it lies and {along}: joined they give {}, and {} are needed. {} are missing: name another cloth, join the strips straight, or cut them narrower.",
        many(*strips, "strip", "strips"), fraction(*strip_width_in, 16), fraction(*has_in, 8), fraction(round_up(*needed_in, 8), 8), fraction(round_up(*short_in, 8), 8)
    )]
    ClothShort {
        /// What it is called.
        name: String,
        /// How many strips lie in it.
        strips: usize,
        /// Their cut width.
        strip_width_in: f64,
        /// Which way they lie best, in words.
        along: &'static str,
        /// What they give once they are joined.
        has_in: f64,
        /// What is needed.
        needed_in: f64,
        /// What is missing.
        short_in: f64,
    },
    /// A cloth that doesn't hold the square for one strip of bias.
    #[error(
        "`{name}` has no room for a square of {} on the straight grain, which the bias takes in one piece. Cut bias strips one by one (supply = \"bias_strips\"), or name another cloth.",
        fraction(*side_in, 8)
    )]
    NoSquare {
        /// What the cloth is called.
        name: String,
        /// Side of the square.
        side_in: f64,
    },
    /// More bias than a square or a length of cloth gives.
    #[error(
        "{needed_in:.0} inches of bias are more than can be cut in one go: cut it in two, or take the straight grain where the edge is straight."
    )]
    TooMuchBias {
        /// What is needed.
        needed_in: f64,
    },
}

/// The narrowest seam that a binding is sewn with, in inches.
pub(super) const LEAST_SEAM_IN: f64 = 1.0 / 16.0;

/// The seam that a strip fills, down to what a ruler shows; none below the least.
fn or_sew(seam_fits_in: f64) -> String {
    let seam = rounded_down(seam_fits_in, 64.0);
    if seam < LEAST_SEAM_IN { String::new() } else { format!(", or sew it with {}", fraction(seam, 64)) }
}

/// Narrower strips where the seam can stay as it is, else a narrower seam with its strip.
fn narrower(most_finished_in: f64, seam_in: f64, thickness_in: f64) -> String {
    if let Some(strip_in) = widest_strip(most_finished_in, seam_in, thickness_in) {
        return format!("cut its strips {} wide or less, or cut the corner off.", fraction(strip_in, 8));
    }
    match widest(most_finished_in, thickness_in) {
        Some((seam_in, strip_in)) => format!(
            "sew it with a seam of {} and strips cut {}, or cut the corner off.",
            fraction(seam_in, 16),
            fraction(strip_in, 8)
        ),
        None => "no binding folds there. Cut the corner off so that the side is gone, or face the edge."
            .to_owned(),
    }
}

/// The widest strip, to 1/8, that with this seam lies no deeper on the back than a binding of
/// `most_finished_in` does, and closes.
fn widest_strip(most_finished_in: f64, seam_in: f64, thickness_in: f64) -> Option<f64> {
    let most_in = 2.0 * (most_finished_in + LAP_IN + 2.0 * seam_in + thickness_in) - 1e-6;
    let strip_in = (most_in * 8.0).floor() / 8.0;
    (strip_in >= binding_width(seam_in, thickness_in).ok()?).then_some(strip_in)
}

/// The widest seam, to 1/16, and its strip, to 1/8, that lie no deeper on the back than a binding of
/// `most_finished_in` does.
pub(super) fn widest(most_finished_in: f64, thickness_in: f64) -> Option<(f64, f64)> {
    let most = (most_finished_in * 16.0 + 1e-9).floor().max(0.0) as u32;
    (1..=most).rev().map(|sixteenths| f64::from(sixteenths) / 16.0).find_map(|seam_in| {
        let strip_in = round_up(binding_width(seam_in, thickness_in).ok()?, 8);
        let back_in = binding_back(strip_in, seam_in, thickness_in).ok()?;
        (back_in <= most_finished_in + LAP_IN + 1e-9).then_some((seam_in, strip_in))
    })
}

fn rounded_down(inches: f64, parts: f64) -> f64 {
    (inches * parts + 1e-9).floor() / parts
}

const fn kind_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Scrap => "scrap",
        Kind::Length => "length off the bolt",
        Kind::StripSet => "strip set",
        Kind::Binding => "binding",
        Kind::Pieced => "pieced bit",
        Kind::Backing => "back",
        Kind::Batting => "batting",
    }
}
