//! What was sewn to a piece since it was last known, from one picture of it.
//!
//! A patch that was sewn on last covers one whole side: its seam runs from one neighbouring side to the
//! other. So such a seam is looked for inside each side, and where one shows all along, the patch is
//! taken off again: the side that it was sewn to lies an allowance outside the seam. Taking off goes on
//! until what is left has the outline that was known, at some turn; of several ways the one that shows
//! best is taken. That gives the patches, their order, and where the known piece lies, at once.
//!
//! It reads pieces whose patches each cover one whole side and are trimmed in line with the
//! neighbours. Anything else is not guessed.

mod ditch;
mod fit;
mod peel;
mod rest;
mod sides;

use crate::Flat;
use crate::share::LIGHT;
use colour::{Lab, Linear};
use ditch::Ditches;
use plane::{Line, Point, Pose, Region, polygon};
pub(crate) use sides::{places, refitted, simplified};

/// A piece as it was known: in its own inches, counter-clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// Corners of its raw outline.
    pub outline: Vec<Point>,
    /// Places well inside its patches and the mean colour that each should have, to tell turns apart
    /// that the outline can't.
    pub colours: Vec<(Point, Lab)>,
}

/// A patch that was sewn on.
#[derive(Clone, Debug, PartialEq)]
pub struct NewPatch {
    /// Which side of the outline it was sewn to, counted as in the known outline; each patch takes over
    /// the number of the side that it covers.
    pub side: usize,
    /// Its seam line on the table, the piece on the left.
    pub seam: Line,
    /// Its outer raw edge when it had been sewn, the piece on the left.
    pub outer: Line,
    /// What showed of it then, in inches on the table, counter-clockwise: outer edge first, then the
    /// flanks and the seam.
    pub outline: Vec<Point>,
    /// How dark the ditch of the seam is at its faintest stretch, as a logarithm of light.
    pub ditch: f64,
    /// How well the seam shows: over 0 when darkness and the colours on both sides speak for one.
    pub shows: f64,
}

/// What was sewn on.
#[derive(Clone, Debug, PartialEq)]
pub struct Grown {
    /// From the known piece's inches to the table's.
    pub pose: Pose,
    /// The patches in the order of sewing (where order can't be told apart, any that is possible).
    pub patches: Vec<NewPatch>,
    /// What is new and can't be told into patches, in inches on the table, one region for each stretch that
    /// hangs together. It was sewn before all of `patches`, which may lie on it; where it isn't empty, a patch
    /// whose seam runs along it was sewn to it and not to the known side of its number.
    pub unknown: Vec<Region>,
    /// How far the corners of what is left lie from the known ones, root of the mean square, in inches.
    pub off_in: f64,
    /// Mean difference of the known patches' colours, as CIEDE2000 gives it; 0 when none were given.
    pub colours_off: f64,
}

/// Finds what was sewn to a known piece. `outline` is its raw outline now, on the table in inches,
/// counter-clockwise. Where no way of taking patches off leads to the known outline, but its sides and
/// colours say where it lies, there are no patches and all that is new is unknown. `None` when they don't.
#[must_use]
pub fn grown(flat: &Flat, outline: &[Point], known: &Known, allowance_in: f64) -> Option<Grown> {
    let sound = |ring: &[Point]| ring.len() >= 3 && polygon::area(ring) > 0.0;
    if !sound(outline) || !sound(&known.outline) || allowance_in.is_nan() || allowance_in < 0.0 {
        return None;
    }
    let ditches = Ditches::of(flat)?;
    let ring = sides::sides(outline, known.outline.len());
    let ways = peel::ways(&ditches, ring.clone(), &known.outline, allowance_in);
    let told = ways
        .into_iter()
        .map(|(shows, mut way)| {
            way.colours_off = colours_off(flat, known, way.pose);
            (shows - way.colours_off * COLOUR_WEIGHT - way.off_in * OFF_WEIGHT, way)
        })
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, way)| way);
    told.or_else(|| rest::laid(flat, &ring, outline, known))
}

/// How much a difference of colour counts against the darkness of seams, and a distance in inches.
const COLOUR_WEIGHT: f64 = 0.02;
const OFF_WEIGHT: f64 = 1.0;

/// Mean difference of what is seen from what should be.
fn colours_off(flat: &Flat, known: &Known, pose: Pose) -> f64 {
    let off = |(place, lab): &(Point, Lab)| {
        mean_colour(flat, pose.apply(*place)).map(|seen| colour::difference(seen, *lab))
    };
    let all: Vec<f64> = known.colours.iter().filter_map(off).collect();
    if all.is_empty() { 0.0 } else { all.iter().sum::<f64>() / all.len() as f64 }
}

/// The mean colour of what the camera saw about a place.
fn mean_colour(flat: &Flat, at: Point) -> Option<Lab> {
    let px = flat.in_picture(at);
    let reach = (MEAN_REACH_IN * flat.pixels_per_in) as i64;
    let step = (reach / 8).max(1);
    let (mut sum, mut count) = ([0.0_f64; 3], 0.0);
    for dy in (-reach..=reach).step_by(step as usize) {
        for dx in (-reach..=reach).step_by(step as usize) {
            let (x, y) = (px.x as i64 + dx, px.y as i64 + dy);
            if x < 0 || y < 0 || x >= i64::from(flat.picture.width) || y >= i64::from(flat.picture.height) {
                continue;
            }
            let rgb = flat.picture.at(x, y).map(|part| f64::from(LIGHT[usize::from(part)]));
            (0..3).for_each(|k| sum[k] += rgb[k]);
            count += 1.0;
        }
    }
    let [r, g, b] = sum.map(|part| part / count);
    (count > 0.0).then(|| Lab::from(Linear::new(r, g, b)))
}

/// Half the width of what is averaged for a mean colour, in inches.
const MEAN_REACH_IN: f64 = 0.4;
