//! How a cloth would look in a cell: on its way outward, against its neighbours, at rest from its
//! own print, and in the balance of the whole.

use crate::centre::{Centre, Placed};
use crate::heap::Group;
use crate::split::Cell;
use crate::target::Target;
use colour::{Lab, Quick};
use plane::Vec2;
use quilt::wish::Wish;

/// Parts of the score of a cloth in a cell; each 0 (good) to about 1.5.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct LookParts {
    pub(crate) drift: f64,
    pub(crate) contrast: f64,
    pub(crate) rest: f64,
    pub(crate) balance: f64,
    /// How much it stands out from what lies around it, where no spark is wished.
    pub(crate) loud: f64,
}

/// What surrounds a cell, gathered once for all cloths.
pub(crate) struct Surroundings {
    /// What it will be sewn to: index of the patch and length of the seam.
    pub(crate) touching: Vec<(usize, f64)>,
    /// For each group, how little its print has rested.
    restless: Vec<f64>,
    wished: Option<Quick>,
    /// The mean colour that will lie around it: the wished one, or that of what lies there now.
    around: Option<Quick>,
    /// How large the cell is for its distance.
    large: f64,
    /// Whether this is a place for a spark.
    pub(crate) spark: bool,
    share: f64,
}

/// An area-weighted mean colour.
#[derive(Default)]
struct Mean {
    area: f64,
    sum: [f64; 3],
}

impl Mean {
    fn add(&mut self, placed: &Placed) {
        self.area += placed.area;
        let lab = [placed.lab.l, placed.lab.a, placed.lab.b];
        for (sum, part) in self.sum.iter_mut().zip(lab) {
            *sum += part * placed.area;
        }
    }

    fn colour(&self) -> Option<Lab> {
        let [l, a, b] = self.sum.map(|sum| sum / self.area);
        (self.area > 0.0).then(|| Lab::new(l, a, b))
    }
}

/// Colours within this share of the radius count as nearby.
const AROUND: f64 = 0.35;

/// How many of the patches sewn last are looked at for prints that come again.
const RECENT: usize = 160;

/// Colour difference times size over radius at which a patch begins to stand out.
const LOUD: f64 = 3.0;

/// Colour difference that a spark should have from the colours around it.
const SPARK: f64 = 26.0;

/// How far from its own place on the drift a spark's colour should lie, 0 to 1.
const SPARK_AWAY: f64 = 0.45;

/// A cell is a spark when its centroid lies within this share of its size from a spark's place.
pub(crate) const SPARK_REACH: f64 = 0.46;

/// Places of the sparks, as angle in degrees and share of the way; turned by the seed.
pub(crate) const SPARKS: [(f64, f64); 3] = [(0.0, 0.62), (125.0, 0.72), (240.0, 0.66)];

pub(crate) fn surroundings(
    centre: &Centre,
    target: &Target,
    wish: &Wish,
    cell: &Cell,
    touching: Vec<(usize, f64)>,
    sparks_turn_deg: f64,
) -> Surroundings {
    let from_middle = cell.centroid - centre.middle;
    let share = target.share(from_middle);
    let mut restless = vec![0.0; centre.heap.groups().len()];
    let count = centre.placed.len();
    let mut nearby = Mean::default();
    for i in count.saturating_sub(RECENT)..count {
        let placed = centre.placed.get(i);
        if placed.centroid.distance(cell.centroid) < AROUND * target.radius {
            nearby.add(placed);
        }
        if let Some(sum) = restless.get_mut(placed.group) {
            *sum += unrest(centre, wish, placed, cell, share);
        }
    }
    let spark = wish.sparks > 0.0 && is_spark(centre, target, from_middle, cell, sparks_turn_deg);
    let wished = wish.colour_at(share).map(Quick::new);
    let large = cell.area.sqrt() / target.radius;
    Surroundings {
        touching,
        restless,
        wished,
        around: wished.or(nearby.colour().map(Quick::new)),
        large,
        spark,
        share,
    }
}

/// How much a patch of the same print nearby disturbs.
fn unrest(centre: &Centre, wish: &Wish, placed: &Placed, cell: &Cell, share: f64) -> f64 {
    let gap = placed.centroid.distance(cell.centroid);
    let near = (1.0 - gap / wish.rest_in.max(0.1)).max(0.0);
    let ring = |share: f64| (share * 4.0) as usize;
    if ring(placed.share) != ring(share) {
        return 0.7 * near;
    }
    let there = placed.centroid - centre.middle;
    let here = cell.centroid - centre.middle;
    let angle = there.cross(here).abs().atan2(there.dot(here)).to_degrees();
    let crowded = (1.0 - angle / 100.0).max(0.0);
    0.7 * near + 1.2 * crowded
}

fn is_spark(centre: &Centre, target: &Target, from_middle: Vec2, cell: &Cell, turn_deg: f64) -> bool {
    let here = cell.area.sqrt() * SPARK_REACH;
    let unused = |i: usize| centre.sparks & (1 << i) == 0;
    (0..SPARKS.len()).any(|i| unused(i) && spark_place(target, i, turn_deg).is_near(from_middle, here))
}

/// Which of the sparks a cell at this place would be, if any.
pub(crate) fn spark_at(target: &Target, from_middle: Vec2, size: f64, turn_deg: f64) -> Option<usize> {
    (0..SPARKS.len()).find(|&i| spark_place(target, i, turn_deg).is_near(from_middle, size))
}

struct SparkPlace(Vec2);

impl SparkPlace {
    fn is_near(&self, place: Vec2, within: f64) -> bool {
        (self.0 - place).length() < within
    }
}

fn spark_place(target: &Target, i: usize, turn_deg: f64) -> SparkPlace {
    let (angle, share) = SPARKS[i];
    let (sin, cos) = (angle + turn_deg).to_radians().sin_cos();
    SparkPlace(Vec2::new(cos, sin) * (share * target.radius))
}

/// Scores a group of cloths in a cell; `None` where its print would touch itself.
pub(crate) fn look(
    centre: &Centre,
    wish: &Wish,
    around: &Surroundings,
    cell: &Cell,
    (group, cloth): (usize, &Group),
    on_drift: Option<f64>,
) -> Option<LookParts> {
    let mut parts = LookParts { rest: around.restless[group].min(1.5), ..LookParts::default() };
    let (mut sum, mut length) = (0.0, 0.0);
    for &(i, touch) in &around.touching {
        let other = centre.placed.get(i);
        if other.group == group || (cloth.print.is_some() && other.print == cloth.print) {
            return None;
        }
        sum += contrast(wish, cloth.quick.difference(other.quick)) * touch;
        length += touch;
    }
    parts.contrast = if length > 0.0 { sum / length } else { 0.0 };
    if let Some(wished) = around.wished {
        let off = cloth.quick.difference(wished);
        let astray = on_drift.map_or(0.0, |place| (place - around.share.min(1.0)).abs());
        parts.drift = if around.spark {
            ((off - SPARK).abs() / 28.0 + (astray - SPARK_AWAY).abs() / 0.4).min(1.5) - 0.8
        } else {
            (0.6 * off / 24.0 + 0.5 * astray / 0.3).min(1.8)
        };
    }
    if let (Some(around_it), false) = (around.around, around.spark) {
        let stands = cloth.quick.difference(around_it) * around.large;
        parts.loud = ((stands - LOUD) / LOUD).clamp(0.0, 2.0);
    }
    let weight = cell.area * (100.0 - cloth.lab.l);
    let moment = centre.moment + (cell.centroid - centre.middle) * weight;
    let radius = (centre.area.max(1.0) / std::f64::consts::PI).sqrt();
    let tilt = moment.length() / (radius * (centre.weight + weight).max(1.0));
    parts.balance = ((tilt - 0.02) / 0.08).clamp(0.0, 1.0) * around.share.min(1.0);
    Some(parts)
}

/// How badly an edge between two colours reads, or shouts.
pub(crate) fn contrast(wish: &Wish, difference: f64) -> f64 {
    let [least, most] = wish.contrast;
    let least = least + 2.0;
    ((least - difference) / least).max(0.0) + ((difference - most) / 40.0).clamp(0.0, 0.5)
}
