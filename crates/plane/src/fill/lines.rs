//! Straight lines at any angle, lines that cross, and waves.

use super::rows::{Sewing, sew};
use super::spacing::number;
use super::{CHORD_ERROR, Fill, FillProblem, Ground, Spacing, Wobble};
use crate::{Point, Turn, Vec2};
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// Straight lines.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lines {
    /// Their direction, counter-clockwise from the right.
    pub angle_deg: f64,
    /// Distance of rows; matchstick is 1/8.
    pub spacing: Spacing,
    /// A place on one of the rows; by default the outermost row is half a spacing inside.
    #[serde(default)]
    pub through: Option<Point>,
    /// Order and direction.
    #[serde(default)]
    pub sewing: Sewing,
    /// A hand's wobble.
    #[serde(default)]
    pub wobble: Option<Wobble>,
}

/// Two sets of straight lines across each other.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Crossed {
    /// The first set.
    pub first: Lines,
    /// The second, at another angle.
    pub second: Lines,
}

/// Waves side by side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Waves {
    /// The rows that the waves swing about.
    pub lines: Lines,
    /// Swing to either side, in inches.
    pub height_in: f64,
    /// From crest to crest, in inches.
    pub length_in: f64,
}

/// Lays straight lines over the ground.
///
/// # Errors
/// Numbers that make no sense; a wobble beyond the bounds.
pub fn lines(ground: &Ground, choice: &Lines) -> Result<Fill, FillProblem> {
    choice.check(ground)?;
    choice.spacing.check_wobble(choice.wobble, choice.spacing.wish_in)?;
    let step = choice.wobble.map_or(f64::INFINITY, |wobble| wobble.step());
    Ok(choice.lay(ground, 0.0, step, |row, along| choice.wobble.map_or(0.0, |wobble| wobble.at(row, along))))
}

/// Lays two sets of lines, one after the other.
///
/// # Errors
/// As for [`lines()`]; directions less than a degree apart.
pub fn crossed(ground: &Ground, choice: &Crossed) -> Result<Fill, FillProblem> {
    let turned = (choice.second.angle_deg - choice.first.angle_deg).rem_euclid(180.0);
    number("the angle between the two sets, in degrees,", turned, 1.0, 179.0)?;
    let mut fill = lines(ground, &choice.first)?;
    fill.strokes.extend(lines(ground, &choice.second)?.strokes);
    Ok(fill)
}

/// Lays waves over the ground.
///
/// # Errors
/// As for [`lines()`]; [`FillProblem::Steep`] where rows come closer on the flanks than allowed.
pub fn waves(ground: &Ground, choice: &Waves) -> Result<Fill, FillProblem> {
    let Waves { lines, height_in: height, length_in: length } = *choice;
    lines.check(ground)?;
    number("the waves' length", length, 0.25, 1000.0)?;
    number("the waves' height", height, 0.0, 100.0)?;
    let lean = TAU * height / length;
    let narrowest = lines.spacing.wish_in / (1.0 + lean * lean).sqrt();
    if narrowest < lines.spacing.least_in {
        let slack = lines.spacing.wish_in / lines.spacing.least_in;
        let most_height = (slack * slack - 1.0).max(0.0).sqrt() * length / TAU;
        return Err(FillProblem::Steep { height, narrowest, least: lines.spacing.least_in, most_height });
    }
    lines.spacing.check_wobble(lines.wobble, lines.spacing.wish_in)?;
    if let Some(wobble) = lines.wobble {
        let steepest = lean + wobble.steepest();
        let apart = lines.spacing.wish_in - 2.0 * wobble.amplitude_in;
        let narrowest = apart / (1.0 + steepest * steepest).sqrt();
        if narrowest < lines.spacing.least_in {
            return Err(FillProblem::Steep {
                height,
                narrowest,
                least: lines.spacing.least_in,
                most_height: 0.0,
            });
        }
    }
    let bend = height * (TAU / length).powi(2);
    let chord = (8.0 * 0.6 * CHORD_ERROR / bend.max(1e-9)).sqrt().min(length / 8.0);
    let step = lines.wobble.map_or(chord, |wobble| chord.min(wobble.step()));
    let swing = |row: i64, along: f64| {
        height * (TAU * along / length).sin() + lines.wobble.map_or(0.0, |wobble| wobble.at(row, along))
    };
    Ok(lines.lay(ground, height, step, swing))
}

impl Lines {
    fn check(&self, ground: &Ground) -> Result<(), FillProblem> {
        number("the lines' angle in degrees", self.angle_deg, -3600.0, 3600.0)?;
        if let Some(through) = self.through.filter(|through| !through.is_finite()) {
            number("the place that a line goes through", through.x + through.y, -1e6, 1e6)?;
        }
        self.spacing.check(ground)
    }

    /// Lays rows that swing by `swing(row, along)` inches, at most `height` without the wobble.
    fn lay(&self, ground: &Ground, height: f64, step: f64, swing: impl Fn(i64, f64) -> f64) -> Fill {
        let along = Turn::from_degrees(self.angle_deg).vec();
        let across = along.left();
        let extent = |axis: Vec2| {
            let ends = ground.open().iter().flat_map(|part| &part.outer).map(move |p| axis.dot(p.to_vec2()));
            ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
        };
        let ((left, right), (low, high)) = (extent(along), extent(across));
        let margin = height + self.wobble.map_or(0.0, |wobble| wobble.amplitude_in);
        let p = self.spacing.wish_in;
        let base = self.through.map_or(low + p / 2.0, |through| across.dot(through.to_vec2()));
        let first = ((low - margin - base) / p).ceil() as i64;
        let last = ((high + margin - base) / p).floor() as i64;
        let steps = ((right - left + 2.0) / step).ceil().max(1.0) as i64;
        let rows: Vec<Vec<Point>> = (first..=last)
            .map(|row| {
                let place = |i: i64| {
                    let x = left - 1.0 + (right - left + 2.0) * i as f64 / steps as f64;
                    Point::ORIGIN + along * x + across * (base + p * row as f64 + swing(row, x))
                };
                (0..=steps).map(place).collect()
            })
            .collect();
        sew(ground, &rows, self.sewing)
    }
}
