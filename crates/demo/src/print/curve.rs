//! Curves as chains of points: smooth outlines through a few given places, waves and rings.

use plane::{Point, Pose, Turn, Vec2};

/// A glyph's own coordinates laid on the print: turned, scaled, perhaps facing the other way, and
/// set down at a place. (A design may hold a motif and its mirror; the cloth is never mirrored.)
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stamp {
    /// Where the glyph's origin comes to lie.
    pub(crate) at: Point,
    /// How far it is turned.
    pub(crate) turn_deg: f64,
    /// Inches for one of its units.
    pub(crate) scale: f64,
    /// Whether it faces the other way.
    pub(crate) faces_left: bool,
}

impl Stamp {
    /// Upright at a place.
    pub(crate) const fn upright(at: Point, scale: f64) -> Self {
        Self { at, turn_deg: 0.0, scale, faces_left: false }
    }

    /// Where one point of the glyph comes to lie.
    pub(crate) fn point(&self, x: f64, y: f64) -> Point {
        let across = if self.faces_left { -x } else { x };
        let pose = Pose::new(Turn::from_degrees(self.turn_deg), self.at.to_vec2());
        pose.apply(Point::new(across * self.scale, y * self.scale))
    }

    /// Where a list of points comes to lie.
    pub(crate) fn points(&self, list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| self.point(x, y)).collect()
    }
}

/// A smooth closed outline through the given places (Catmull-Rom, `steps` points a side).
pub(crate) fn closed(through: &[Point], steps: usize) -> Vec<Point> {
    let n = through.len();
    (0..n)
        .flat_map(|i| {
            let p = [0, 1, 2, 3].map(|k| through[(i + n + k - 1) % n]);
            (0..steps).map(move |s| spline(p, s as f64 / steps as f64))
        })
        .collect()
}

/// A smooth open line through the given places.
pub(crate) fn open(through: &[Point], steps: usize) -> Vec<Point> {
    let n = through.len();
    let mut points: Vec<Point> = (0..n.saturating_sub(1))
        .flat_map(|i| {
            let p = [i.saturating_sub(1), i, i + 1, (i + 2).min(n - 1)].map(|k| through[k]);
            (0..steps).map(move |s| spline(p, s as f64 / steps as f64))
        })
        .collect();
    points.extend(through.last());
    points
}

/// A place between the middle two of four (uniform Catmull-Rom).
fn spline(p: [Point; 4], t: f64) -> Point {
    let [a, b, c, d] = p.map(Point::to_vec2);
    let sum = b * 2.0
        + (c - a) * t
        + (a * 2.0 - b * 5.0 + c * 4.0 - d) * (t * t)
        + (b * 3.0 - a - c * 3.0 + d) * (t * t * t);
    Point::ORIGIN + sum * 0.5
}

/// An outline round a centre whose radius depends on the angle in degrees.
pub(crate) fn round(centre: Point, steps: usize, radius: impl Fn(f64) -> f64) -> Vec<Point> {
    (0..steps)
        .map(|i| {
            let degrees = i as f64 * 360.0 / steps as f64;
            centre + polar(degrees, radius(degrees))
        })
        .collect()
}

/// The displacement of so many inches in a direction.
pub(crate) fn polar(degrees: f64, length: f64) -> Vec2 {
    Turn::from_degrees(degrees).vec() * length
}

/// A pointed leaf from `base` along a direction, bellied by `width`.
pub(crate) fn leaf(base: Point, degrees: f64, length: f64, width: f64) -> Vec<Point> {
    let (along, across) = (polar(degrees, length), polar(degrees + 90.0, width / 2.0));
    let side = |t: f64, sign: f64| {
        // Fullest a little below the middle, pointed at both ends.
        let belly = (t * (1.0 - t)).powf(0.85) * (1.25 - 0.5 * t) * 3.3;
        base + along * t + across * (sign * belly)
    };
    let there = (0..=8).map(|i| side(f64::from(i) / 8.0, 1.0));
    let back = (1..8).rev().map(|i| side(f64::from(i) / 8.0, -1.0));
    there.chain(back).collect()
}
