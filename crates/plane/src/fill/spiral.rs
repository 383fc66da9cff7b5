//! Spirals from a centre: round, and with 3 to 12 sides.
//!
//! The round one is Archimedean: its first turn begins at the least radius and every turn is one
//! spacing wider. Past the nearest edge it falls apart into arcs, each a stroke of its own. The
//! one with corners has sides each `spacing / sides` further out than the one before, so that
//! neighbouring rows are exactly one spacing apart; at its corners they gape to
//! `2 spacing / (1 + sin(A / 2))` across, A the angle of the corner.

use super::spacing::MOST_LENGTH;
use super::spacing::number;
use super::{CHORD_ERROR, Fill, FillProblem, Ground, Spacing, Stroke, Wobble};
use crate::{Line, Point, Turn, Vec2};
use serde::{Deserialize, Serialize};
use std::f64::consts::{PI, TAU};

/// Chords are laid to this share of the chord error, so that lengths are right to 1 in 2,000.
const SHARE: f64 = 0.3;

/// A round spiral.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoundSpiral {
    /// Its middle.
    pub centre: Point,
    /// Distance of rows.
    pub spacing: Spacing,
    /// Radius at which the first turn begins, in inches.
    pub least_radius_in: f64,
    /// Direction in which it begins, counter-clockwise from the right.
    #[serde(default)]
    pub start_deg: f64,
    /// Whether it turns clockwise.
    #[serde(default)]
    pub clockwise: bool,
    /// A hand's wobble.
    #[serde(default)]
    pub wobble: Option<Wobble>,
}

/// A spiral with corners.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CorneredSpiral {
    /// Its middle.
    pub centre: Point,
    /// How many sides: 3 to 12.
    pub sides: usize,
    /// Distance of rows.
    pub spacing: Spacing,
    /// Distance of the first side from the centre, in inches.
    pub least_radius_in: f64,
    /// Direction in which the first side faces, counter-clockwise from the right.
    #[serde(default)]
    pub start_deg: f64,
    /// Whether it turns clockwise.
    #[serde(default)]
    pub clockwise: bool,
    /// A hand's wobble; it dies down towards the corners.
    #[serde(default)]
    pub wobble: Option<Wobble>,
}

/// Lays a round spiral over the ground.
///
/// # Errors
/// Numbers that make no sense, a wobble beyond the bounds, a centre outside or in a keep-out.
pub fn round_spiral(ground: &Ground, choice: &RoundSpiral) -> Result<Fill, FillProblem> {
    let RoundSpiral { centre, spacing, least_radius_in: first, start_deg, clockwise, wobble } = *choice;
    check(ground, centre, &spacing, first, wobble)?;
    number("the start direction in degrees", start_deg, -3600.0, 3600.0)?;
    let growth = spacing.wish_in / TAU;
    let reach = ground.reach(centre);
    let (mut angle, mut row_inches) = (0.0, 0.0);
    let mut line = Vec::with_capacity((6.0 * reach * reach / spacing.wish_in) as usize + 16);
    let hand = if clockwise { -1.0 } else { 1.0 };
    loop {
        let radius = first + growth * angle;
        let off = wobble.map_or(0.0, |wobble| wobble.at(0, row_inches) * (angle / TAU).min(1.0));
        let at = Turn::from_degrees(start_deg + hand * angle.to_degrees()).vec();
        line.push(centre + at * (radius + off));
        if radius > reach + spacing.wish_in {
            break;
        }
        let step =
            chord_angle(radius, growth).min(wobble.map_or(1.0, |wobble| wobble.step() / radius.max(0.1)));
        row_inches += step * radius;
        angle += step;
    }
    Ok(clipped(ground, &Stroke::open(line)))
}

/// The turn over which an arc strays from its chord by no more than the chord error.
fn chord_angle(radius: f64, growth: f64) -> f64 {
    (8.0 * SHARE * CHORD_ERROR / (radius + growth)).sqrt().min(0.4)
}

/// Lays a spiral with corners over the ground.
///
/// # Errors
/// As for [`round_spiral`]; a number of sides that isn't 3 to 12.
pub fn cornered_spiral(ground: &Ground, choice: &CorneredSpiral) -> Result<Fill, FillProblem> {
    let CorneredSpiral { centre, sides, spacing, least_radius_in: first, start_deg, clockwise, wobble } =
        *choice;
    number("the number of sides", sides as f64, 3.0, 12.0)?;
    check(ground, centre, &spacing, first, wobble)?;
    number("the start direction in degrees", start_deg, -3600.0, 3600.0)?;
    let per_side = spacing.wish_in / sides as f64;
    let reach = ground.reach(centre) + spacing.wish_in;
    let facing = |side: i64| {
        let hand = if clockwise { -1.0 } else { 1.0 };
        Turn::from_degrees(start_deg + hand * 360.0 * side as f64 / sides as f64)
    };
    let line_of = |side: i64| {
        let normal = facing(side);
        Line { normal, at: normal.vec().dot(centre.to_vec2()) + first + per_side * side as f64 }
    };
    let mut corner = line_of(-1).crossing(line_of(0)).unwrap_or(centre);
    let mut line = vec![corner];
    let mut side = 0;
    while first + per_side * ((side - sides as i64) as f64) < reach {
        let next = line_of(side).crossing(line_of(side + 1)).unwrap_or(corner);
        lay_side(&mut line, corner, next, facing(side).vec(), wobble, side);
        corner = next;
        side += 1;
    }
    Ok(clipped(ground, &Stroke::open(line)))
}

fn lay_side(line: &mut Vec<Point>, from: Point, to: Point, outward: Vec2, wobble: Option<Wobble>, side: i64) {
    if let Some(wobble) = wobble {
        let long = from.distance(to);
        let steps = (long / wobble.step()).ceil() as i64;
        for i in 1..steps {
            let along = long * i as f64 / steps as f64;
            let fade = (along.min(long - along) / (0.5 * wobble.wave_in)).min(1.0);
            line.push(from.lerp(to, along / long) + outward * (fade * wobble.at(side, along)));
        }
    }
    line.push(to);
}

/// Widest gap at the corners of a spiral with so many sides, in inches: twice the spacing over
/// one more than the sine of half the corner's angle.
#[must_use]
pub fn corner_gap(sides: usize, spacing_in: f64) -> f64 {
    let half_angle = PI / 2.0 - PI / sides as f64;
    2.0 * spacing_in / (1.0 + half_angle.sin())
}

/// Length in inches of a round spiral from its very centre out to a radius.
#[must_use]
pub fn spiral_length(radius_in: f64, spacing_in: f64) -> f64 {
    let turned = TAU * radius_in / spacing_in;
    spacing_in / (4.0 * PI) * (turned * (1.0 + turned * turned).sqrt() + turned.asinh())
}

fn check(
    ground: &Ground,
    centre: Point,
    spacing: &Spacing,
    first: f64,
    wobble: Option<Wobble>,
) -> Result<(), FillProblem> {
    spacing.check(ground)?;
    spacing.check_wobble(wobble, spacing.wish_in)?;
    number("the first turn's radius", first, 0.0, 1000.0)?;
    // Turns are laid out to the farthest corner and then cut off.
    let laid = PI * ground.reach(centre).powi(2) / spacing.wish_in;
    if laid > MOST_LENGTH {
        return Err(FillProblem::TooMuch { length: laid, most: MOST_LENGTH });
    }
    if !(centre.is_finite() && ground.contains(centre)) {
        return Err(FillProblem::CentreOutside { at: centre });
    }
    let room = ground.distance_to_edge(centre);
    if room < first { Err(FillProblem::CentreTooTight { at: centre, radius: first, room }) } else { Ok(()) }
}

fn clipped(ground: &Ground, stroke: &Stroke) -> Fill {
    Fill { strokes: ground.clip(stroke) }
}
