//! Where the known piece lies when its new patches can't be told: by sides that are still free, and by the
//! colours of its patches. What is new is then one measured region.

use super::{Grown, Known, colours_off};
use crate::Flat;
use plane::{Line, Point, Pose, Region, difference, polygon};

/// Most that two sides' turn differs from that of the known ones, as a sine.
const TURN_OFF: f64 = 0.02;
/// Two sides that turn less than this don't say where a piece lies, as a sine.
const LEAST_TURN: f64 = 0.3;
/// How far outside of what was found a known corner may lie, in inches.
const OUTSIDE_IN: f64 = 0.1;
/// Most that the known colours are off in the mean, as CIEDE2000 gives it, and how many there must be.
const MOST_COLOURS_OFF: f64 = 8.0;
const LEAST_COLOURS: usize = 3;
/// How much better the colours must speak than for any other place.
const CLEARLY: f64 = 1.5;
/// Places nearer than this are one, in inches.
const ONE_IN: f64 = 0.5;
/// A smaller region is a raw edge that was measured otherwise, in square inches.
const LEAST_AREA: f64 = 0.25;

/// The known piece laid into a ring of lines, all that is new unknown; `None` when colours don't say where.
pub(super) fn laid(flat: &Flat, ring: &[Line], outline: &[Point], known: &Known) -> Option<Grown> {
    if known.colours.len() < LEAST_COLOURS {
        return None;
    }
    let sides: Vec<Line> = polygon::edges(&known.outline).filter_map(|(a, b)| Line::through(a, b)).collect();
    let mut places: Vec<(f64, Pose)> = Vec::new();
    for (i, one) in sides.iter().enumerate() {
        for other in &sides[i + 1..] {
            for here in ring {
                for there in ring {
                    let fits = (one.turn_sine(*other) - here.turn_sine(*there)).abs() < TURN_OFF
                        && one.turn_cosine(*other) * here.turn_cosine(*there) > 0.0
                        && one.turn_sine(*other).abs() > LEAST_TURN;
                    let pose = fits.then(|| onto([*one, *other], [*here, *there])).flatten();
                    let Some(pose) = pose.filter(|pose| inside(&known.outline, *pose, ring)) else {
                        continue;
                    };
                    places.push((colours_off(flat, known, pose), pose));
                }
            }
        }
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (off, pose) = *places.first()?;
    let middle = polygon::centroid(&known.outline)?;
    let corner = *known.outline.first()?;
    let same =
        |other: &Pose| [middle, corner].iter().all(|p| pose.apply(*p).distance(other.apply(*p)) < ONE_IN);
    let next = places.iter().find(|(_, other)| !same(other)).map_or(f64::INFINITY, |(off, _)| *off);
    if off > MOST_COLOURS_OFF || next < CLEARLY * off {
        return None;
    }
    let whole = Region::try_new(outline.to_vec(), Vec::new()).ok()?;
    let old = Region::try_new(pose.apply_all(&known.outline), Vec::new()).ok()?;
    let mut unknown = difference(&whole, &[old]);
    unknown.retain(|region| region.area() > LEAST_AREA);
    Some(Grown { pose, patches: Vec::new(), unknown, off_in: 0.0, colours_off: off })
}

/// The motion that lays the crossing of two lines on that of two others, and the first line on the first.
fn onto([one, other]: [Line; 2], [here, there]: [Line; 2]) -> Option<Pose> {
    let turn = plane::Turn::towards(plane::Vec2::new(one.turn_cosine(here), one.turn_sine(here)))?;
    Some(Pose::carrying(turn, one.crossing(other)?, here.crossing(there)?))
}

fn inside(outline: &[Point], pose: Pose, ring: &[Line]) -> bool {
    outline.iter().all(|p| ring.iter().all(|line| line.inside_by(pose.apply(*p)) > -OUTSIDE_IN))
}
