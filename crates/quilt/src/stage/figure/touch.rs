//! How wide a region is at each place of its outline: the largest disc inside it that touches the
//! outline there. Exact for the polygon at each place looked at; places lie at most 1/32 inch apart,
//! and at inside corners every direction is looked into in steps of 5 degrees.

use plane::{Point, Region, Vec2, polygon};

/// Most places looked at.
const MOST_PLACES: f64 = 6_000.0;
/// Distance between places, in inches, while they are not too many.
const STEP_IN: f64 = 1.0 / 32.0;
/// Step between directions at inside corners, in radians.
const FAN: f64 = 0.087;

/// A place on a ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct On {
    /// Which ring: 0 the outline, then the holes.
    pub(super) ring: usize,
    /// How far along it from its first corner, in inches.
    pub(super) along_in: f64,
    pub(super) at: Point,
}

/// The largest disc inside that touches the outline at a place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Touch {
    pub(super) from: On,
    /// Where the disc touches again.
    pub(super) other: On,
    pub(super) centre: Point,
    pub(super) width_in: f64,
}

/// The touches of a region, ring by ring, in order along each.
pub(super) fn touches(region: &Region) -> Vec<Touch> {
    let sides = sides_of(region);
    let all: f64 = sides.iter().map(|side| side.length).sum();
    let step = STEP_IN.max(all / MOST_PLACES);
    let mut found = Vec::new();
    for (i, side) in sides.iter().enumerate() {
        let before = side.before;
        if sides[before].along.cross(side.along) < 0.0 {
            let fan = directions(sides[before].along.left(), side.along.left());
            found.extend(fan.into_iter().filter_map(|way| disc_at(&sides, side.on(0.0), way, &[before, i])));
        }
        let parts = (side.length / step).ceil().max(1.0) as usize;
        found.extend((0..parts).filter_map(|k| {
            let t = (k as f64 + 0.5) / parts as f64;
            disc_at(&sides, side.on(t), side.along.left(), &[i])
        }));
    }
    found
}

struct Side {
    ring: usize,
    a: Point,
    /// Unit vector along it, the inside on its left.
    along: Vec2,
    length: f64,
    from_in: f64,
    /// The side before it on its ring.
    before: usize,
}

impl Side {
    fn on(&self, t: f64) -> On {
        On {
            ring: self.ring,
            along_in: self.from_in + self.length * t,
            at: self.a + self.along * (self.length * t),
        }
    }
}

fn sides_of(region: &Region) -> Vec<Side> {
    let mut sides: Vec<Side> = Vec::new();
    for (ring, points) in std::iter::once(&region.outer).chain(&region.holes).enumerate() {
        let first = sides.len();
        let mut from_in = 0.0;
        for (a, b) in polygon::edges(points) {
            let length = a.distance(b);
            let before = sides.len().saturating_sub(1);
            sides.push(Side { ring, a, along: (b - a) * (1.0 / length), length, from_in, before });
            from_in += length;
        }
        let last = sides.len().saturating_sub(1);
        if let Some(first) = sides.get_mut(first) {
            first.before = last;
        }
    }
    sides
}

/// Unit vectors from one to the other, clockwise, without the ends.
fn directions(from: Vec2, to: Vec2) -> Vec<Vec2> {
    let angle = from.cross(to).atan2(from.dot(to));
    let parts = (angle.abs() / FAN).ceil().max(1.0) as usize;
    (0..parts)
        .map(|k| {
            let (sin, cos) = (angle * (k as f64 + 0.5) / parts as f64).sin_cos();
            Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos)
        })
        .collect()
}

/// The disc that touches at `from` with its centre in the direction `inward`, grown until it meets
/// another side than those left out.
fn disc_at(sides: &[Side], from: On, inward: Vec2, left_out: &[usize]) -> Option<Touch> {
    let mut best: Option<(f64, usize, f64)> = None;
    for (i, side) in sides.iter().enumerate().filter(|(i, _)| !left_out.contains(i)) {
        if let Some((radius, t)) = radius_to(side, from.at, inward)
            && best.is_none_or(|(least, _, _)| radius < least)
        {
            best = Some((radius, i, t));
        }
    }
    let (radius, i, t) = best?;
    Some(Touch { from, other: sides[i].on(t), centre: from.at + inward * radius, width_in: 2.0 * radius })
}

/// The radius at which a disc growing from `p` towards `inward` meets a side, and where on the side.
fn radius_to(side: &Side, p: Point, inward: Vec2) -> Option<(f64, f64)> {
    let w = p - side.a;
    let normal = side.along.left();
    let (height, normal) =
        if w.dot(normal) < 0.0 { (-w.dot(normal), -normal) } else { (w.dot(normal), normal) };
    let facing = inward.dot(normal);
    if facing < 1.0 - 1e-12 {
        let radius = height / (1.0 - facing);
        let foot = (w + inward * radius).dot(side.along) / side.length;
        if (0.0..=1.0).contains(&foot) {
            return Some((radius, foot));
        }
    }
    let end = |t: f64| {
        let q = side.a + side.along * (side.length * t) - p;
        let ahead = q.dot(inward);
        (ahead > 1e-12 * q.length()).then(|| (q.dot(q) / (2.0 * ahead), t))
    };
    match (end(0.0), end(1.0)) {
        (Some(a), Some(b)) => Some(if a.0 <= b.0 { a } else { b }),
        (a, b) => a.or(b),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn region(corners: &[(f64, f64)]) -> Region {
        Region::try_new(corners.iter().map(|&(x, y)| Point::new(x, y)).collect(), Vec::new()).unwrap()
    }

    #[test]
    fn a_strip_is_as_wide_as_it_is_but_at_its_ends() {
        let strip = region(&[(0.0, 0.0), (4.0, 0.0), (4.0, 0.5), (0.0, 0.5)]);
        for touch in touches(&strip) {
            let from_end = touch.from.at.x.min(4.0 - touch.from.at.x);
            if from_end > 0.25 {
                assert!((touch.width_in - 0.5).abs() < 1e-9, "{touch:?}");
                assert!((touch.other.at.x - touch.from.at.x).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn no_disc_reaches_over_the_outline() {
        let odd =
            region(&[(0.0, 0.0), (3.0, 0.4), (2.0, 1.0), (2.6, 2.2), (1.4, 1.3), (0.2, 2.0), (0.7, 1.0)]);
        let discs = touches(&odd);
        assert!(discs.len() > 200);
        for touch in discs {
            let depth = plane::depth_inside(&odd, touch.centre);
            assert!((depth - touch.width_in / 2.0).abs() < 1e-9, "{touch:?}: {depth}");
        }
    }

    #[test]
    fn between_two_inside_points_the_width_is_their_distance() {
        let waist = region(&[(0.0, 0.0), (2.0, 0.0), (1.1, 1.0), (2.0, 2.0), (0.0, 2.0), (0.9, 1.0)]);
        let least = touches(&waist)
            .into_iter()
            .filter(|touch| (touch.centre.y - 1.0).abs() < 0.2)
            .map(|touch| touch.width_in)
            .fold(f64::INFINITY, f64::min);
        assert!((least - 0.2).abs() < 0.001, "{least}");
    }
}
