//! Each shape judged: sewn, sewn without its narrow ends, or made a line; and why.

use super::centre::centre_line;
use super::cut::hole_width;
use super::finding::{FigureRule, Finding, larger, narrower_turn_under};
use super::laid::LaidShape;
use super::line::FigureLine;
use super::narrow::{End, Measured, tip_length};
use super::seen::Above;
use super::touch::touches;
use super::{FigureChoice, TURN_UNDER_IN, Thin};
use plane::{READING, Region, polygon};

/// Tips sharper than this show their allowance too far (common practice, no source).
pub const LEAST_TIP_DEG: f64 = 25.0;
/// Necks narrower than this have no room for two turn-unders (common practice, no source).
pub const LEAST_NECK_IN: f64 = 2.0 * TURN_UNDER_IN[0];
/// Scales tried for an end, in steps of a twentieth.
const LARGEST_SCALE: u32 = 80;

/// What becomes of a shape.
pub(super) struct Judged {
    pub(super) sewn: Option<Region>,
    pub(super) lines: Vec<FigureLine>,
    pub(super) findings: Vec<Finding>,
}

pub(super) fn judge(shape: &LaidShape, choice: &FigureChoice, above: &Above<'_>) -> Judged {
    let word = choice.answers.get(&shape.id).copied();
    let small = too_small(shape, choice.turn_under_in);
    let whole_line = match word {
        Some(Thin::Stitched | Thin::BiasStem { .. }) => true,
        Some(Thin::AsDrawn) => false,
        Some(Thin::EndsStitched) => small.is_some(),
        None => small.is_some() && choice.thin != Thin::AsDrawn,
    };
    if whole_line {
        let (points, widest_in) = centre_line(&shape.drawn.outer);
        let line = FigureLine::new(shape, word.unwrap_or(choice.thin), points, widest_in, choice, above);
        let findings = small.into_iter().map(|found| Finding { became_line: true, ..found }).collect();
        return Judged { sewn: None, lines: vec![line], findings };
    }
    let mut judged = sewn(shape, choice, above, word == Some(Thin::EndsStitched));
    judged.findings.extend(small);
    judged
}

/// The finding that turning under from both sides takes more than the shape's widest place.
fn too_small(shape: &LaidShape, turn_under_in: f64) -> Option<Finding> {
    let disc = plane::largest_disc(&shape.drawn, READING / 4.0)?;
    let (measured, limit) = (disc.radius * 2.0, turn_under_in * 2.0);
    (measured + READING < limit).then(|| Finding {
        works_at_scale: larger(limit, measured),
        works_with_turn_under_in: narrower_turn_under(measured, turn_under_in),
        ..finding(shape, FigureRule::TooSmall, disc.centre, measured, limit)
    })
}

fn finding(shape: &LaidShape, rule: FigureRule, at: plane::Point, measured: f64, limit: f64) -> Finding {
    Finding {
        shape: shape.id.clone(),
        rule,
        at,
        measured,
        limit,
        for_in: None,
        works_at_scale: None,
        works_with_turn_under_in: None,
        became_line: false,
    }
}

fn sewn(shape: &LaidShape, choice: &FigureChoice, above: &Above<'_>, ends_stitched: bool) -> Judged {
    let discs = touches(&shape.drawn);
    let measured = Measured::new(&shape.drawn, &discs);
    let mut judged = Judged { sewn: None, lines: Vec::new(), findings: Vec::new() };
    let necks = measured.necks(LEAST_NECK_IN).into_iter().filter(|neck| !above.covers(neck.centre));
    judged.findings.extend(necks.filter(|neck| neck.width_in + READING < LEAST_NECK_IN).map(|neck| {
        Finding {
            works_at_scale: larger(LEAST_NECK_IN, neck.width_in),
            ..finding(shape, FigureRule::ThinNeck, neck.centre, neck.width_in, LEAST_NECK_IN)
        }
    }));
    let longest = tip_length(LEAST_NECK_IN, LEAST_TIP_DEG);
    let mut cut_off = Vec::new();
    let ends = measured.ends(LEAST_NECK_IN, longest);
    for end in ends.iter().filter(|end| !above.covers(end.tip)) {
        let found = judge_end(shape, choice, &measured, end);
        judged.findings.push(Finding { became_line: ends_stitched, ..found });
        if ends_stitched {
            let outer = measured.ways[end.ring].part(end.from_in, end.to_in);
            let (points, widest_in) = centre_line(&outer);
            judged.lines.push(FigureLine::new(shape, Thin::Stitched, points, widest_in, choice, above));
            cut_off.push(Region { outer, holes: Vec::new() });
        }
    }
    judged.findings.extend(lone_tips(shape, choice, &measured, &ends, above));
    judged.findings.extend(small_holes(shape, choice, above));
    judged.sewn = Some(without(&shape.drawn, &cut_off));
    judged
}

fn without(drawn: &Region, cut_off: &[Region]) -> Region {
    if cut_off.is_empty() {
        return drawn.clone();
    }
    let left = plane::difference(drawn, cut_off);
    left.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_else(|| drawn.clone())
}

/// A long narrow end: a sharp tip if it has one, else a thin strip.
fn judge_end(shape: &LaidShape, choice: &FigureChoice, measured: &Measured<'_>, end: &End) -> Finding {
    let way = &measured.ways[end.ring];
    let arm = choice.turn_under_in.min(end.length_in / 2.0).min(way.length_in / 8.0);
    let tip_deg = way.angle_deg(end.tip_in, arm);
    if tip_deg < LEAST_TIP_DEG {
        return sharp_tip(shape, choice, end.tip, tip_deg);
    }
    Finding {
        for_in: Some(end.length_in),
        works_at_scale: scale_for(measured, end),
        ..finding(shape, FigureRule::NarrowEnd, end.tip, end.width_in, LEAST_NECK_IN)
    }
}

/// An allowance a shows beside a tip of angle b within a / sin b of its point (common practice, no
/// source; the width of the wedge at that distance is the allowance).
fn sharp_tip(shape: &LaidShape, choice: &FigureChoice, at: plane::Point, tip_deg: f64) -> Finding {
    let shows = |turn_under_in: f64| turn_under_in / tip_deg.max(0.1).to_radians().sin();
    Finding {
        for_in: Some(shows(choice.turn_under_in)),
        ..finding(shape, FigureRule::SharpTip, at, tip_deg, LEAST_TIP_DEG)
    }
}

/// The least scale, in twentieths, at which this end is no longer too narrow for too long: its cloth
/// grows and what turning under takes doesn't.
fn scale_for(measured: &Measured<'_>, end: &End) -> Option<f64> {
    let longest = tip_length(LEAST_NECK_IN, LEAST_TIP_DEG);
    (21..=LARGEST_SCALE).map(|k| f64::from(k) / 20.0).find(|scale| {
        let still = measured.ends(LEAST_NECK_IN / scale, longest / scale);
        still.iter().all(|other| other.ring != end.ring || other.tip.distance(end.tip) > end.length_in)
    })
}

/// Sharp corners that no long end has: of short points with wide cloth behind them.
fn lone_tips(
    shape: &LaidShape,
    choice: &FigureChoice,
    measured: &Measured<'_>,
    ends: &[End],
    above: &Above<'_>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    for (ring, way) in measured.ways.iter().enumerate() {
        let arm = choice.turn_under_in.min(way.length_in / 8.0);
        for i in (0..way.corners.len()).filter(|&i| way.turn(i).to_degrees() > 90.0) {
            let (at, along) = (way.corners[i], way.at(i));
            let known = ends.iter().any(|end| {
                end.ring == ring && way.forward(end.from_in, along) <= way.forward(end.from_in, end.to_in)
            });
            let tip_deg = way.angle_deg(along, arm);
            if !known && tip_deg < LEAST_TIP_DEG && !above.covers(at) {
                found.push(sharp_tip(shape, choice, at, tip_deg));
            }
        }
    }
    found
}

fn small_holes(shape: &LaidShape, choice: &FigureChoice, above: &Above<'_>) -> Vec<Finding> {
    let limit = 2.0 * choice.turn_under_in;
    let holes = shape.drawn.holes.iter().filter_map(|hole| {
        let (measured, at) = (hole_width(hole), polygon::centroid(hole)?);
        (measured + READING < limit && !above.covers(at)).then(|| Finding {
            works_at_scale: larger(limit, measured),
            works_with_turn_under_in: narrower_turn_under(measured, choice.turn_under_in),
            ..finding(shape, FigureRule::HoleTooSmall, at, measured, limit)
        })
    });
    holes.collect()
}
