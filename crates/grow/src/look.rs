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

/// Shares of the way at which a few sparks lie, in turn.
const SPARK_SHARES: [f64; 3] = [0.62, 0.72, 0.66];

/// Up to so many sparks lie on one ring, every other one so far off its even place, in degrees.
const ONE_RING: usize = 4;
const UNEVEN_DEG: f64 = 5.0;

/// More of them fill the part of the piece between these shares of the way, each turned from the one
/// before by the golden angle in degrees, so that they lie evenly (Vogel 1979, the sunflower).
const SPARK_FIELD: [f64; 2] = [0.35, 0.85];
const GOLDEN_DEG: f64 = 137.507_764;

/// Place of one of so many sparks, as angle in degrees and share of the way; turned by the seed.
fn spark_polar(i: usize, count: usize) -> (f64, f64) {
    if count <= ONE_RING {
        let uneven = if i % 2 == 1 { UNEVEN_DEG } else { 0.0 };
        return (360.0 * i as f64 / count as f64 + uneven, SPARK_SHARES[i % SPARK_SHARES.len()]);
    }
    let [inner, outer] = SPARK_FIELD.map(|share| share * share);
    let area = (i as f64 + 0.5) / count as f64;
    (GOLDEN_DEG * i as f64, (inner + (outer - inner) * area).sqrt())
}

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
    let spark = is_spark(centre, target, from_middle, cell, sparks_turn_deg);
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
    (0..target.sparks).any(|i| unused(i) && spark_place(target, i, turn_deg).is_near(from_middle, here))
}

/// Which of the sparks a cell at this place would be, if any.
pub(crate) fn spark_at(target: &Target, from_middle: Vec2, size: f64, turn_deg: f64) -> Option<usize> {
    (0..target.sparks).find(|&i| spark_place(target, i, turn_deg).is_near(from_middle, size))
}

struct SparkPlace(Vec2);

impl SparkPlace {
    fn is_near(&self, place: Vec2, within: f64) -> bool {
        (self.0 - place).length() < within
    }
}

fn spark_place(target: &Target, i: usize, turn_deg: f64) -> SparkPlace {
    let (angle, share) = spark_polar(i, target.sparks);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::search::Goal;

    #[test]
    fn sparks_are_the_wished_share_of_the_pieces() {
        let count =
            |sparks: f64, goal: Goal| Target::new(&Wish { sparks, ..Wish::default() }, goal, 0.0).sparks;
        assert_eq!(count(0.0, Goal::Pieces(300)), 0);
        assert_eq!(count(0.06, Goal::Pieces(60)), 3);
        assert_eq!(count(0.06, Goal::SizeWith(300)), 18);
        assert_eq!(count(0.01, Goal::Pieces(20)), 1);
        assert_eq!(count(0.12, Goal::Pieces(60)), 7);
        let usual = count(Wish::default().sparks, Goal::Size);
        assert!((2..=4).contains(&usual), "{usual} in a piece of the usual size");
    }

    #[test]
    fn sparks_lie_apart_and_inside() {
        for sparks in 2..=24 {
            let mut target = Target::new(&Wish::default(), Goal::Size, 0.0);
            target.sparks = sparks;
            let places: Vec<Vec2> = (0..sparks).map(|i| spark_place(&target, i, 20.0).0).collect();
            for (i, a) in places.iter().enumerate() {
                assert!(a.length() < 0.9 * target.radius);
                for b in &places[..i] {
                    let apart = (*a - *b).length() / target.radius;
                    assert!(apart > 1.1 / (sparks as f64).sqrt(), "{sparks} sparks, {apart} apart");
                }
            }
        }
    }
}
