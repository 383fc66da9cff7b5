//! The largest shape of a kind that fits inside an outline, turned as it likes.
//!
//! In a convex outline the scale at one turn is a linear programme, solved exactly; over the
//! turns it is sampled and the best places are refined to 1e-9. In other outlines, and with holes, the fit of one
//! piece ([`crate::fits`]) is asked at halving scales, to 1/1024 inch; there a search that runs out of its
//! budget makes the answer smaller than it might be, never larger.

mod rectangle;

pub use rectangle::largest_rectangle;

use crate::slack::{HalfPlane, most_room, planes_of, surrounding};
use crate::{FitCloth, FitPiece, Point, READING, Region, THOROUGH, Turn, Turning, Vec2, polygon, try_fit};

pub use crate::disc::largest_disc;

/// Turns tried before the best are refined.
const TURNS: usize = 720;

/// A shape placed inside an outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Largest {
    /// Its corners, counter-clockwise, in inches.
    pub corners: Vec<Point>,
    /// How often the shape as given goes into it.
    pub scale: f64,
    /// How it is turned against the shape as given.
    pub turn: Turn,
}

/// The largest regular polygon with so many sides; `None` for fewer than three or without room.
#[must_use]
pub fn largest_regular(region: &Region, sides: usize) -> Option<Largest> {
    if sides < 3 {
        return None;
    }
    let corner = |i: usize| {
        let turn = Turn::from_degrees(360.0 * i as f64 / sides as f64);
        Point::ORIGIN + turn.vec()
    };
    let shape: Vec<Point> = (0..sides).map(corner).collect();
    largest(region, &shape, 360.0 / sides as f64)
}

/// The largest square.
#[must_use]
pub fn largest_square(region: &Region) -> Option<Largest> {
    largest_regular(region, 4)
}

/// The largest rectangle whose width is `ratio` times its height; `None` without room, or when the ratio
/// isn't between 1/1000 and 1000.
#[must_use]
pub fn largest_of_ratio(region: &Region, ratio: f64) -> Option<Largest> {
    if !(1e-3..=1e3).contains(&ratio) {
        return None;
    }
    largest(region, &Region::rectangle(ratio, 1.0).outer, 180.0)
}

/// The largest copy of a convex shape; after `period_deg` degrees of turning it looks the same.
#[must_use]
pub fn largest(region: &Region, shape: &[Point], period_deg: f64) -> Option<Largest> {
    let middle = polygon::centroid(shape)?;
    let spokes: Vec<Vec2> = shape.iter().map(|&p| p - middle).collect();
    let placed = |scale: f64, turn: Turn, at: Point| Largest {
        corners: spokes.iter().map(|&v| at + turn.apply(v) * scale).collect(),
        scale,
        turn,
    };
    if region.holes.is_empty() && polygon::is_convex(&region.outer, 0.0) {
        let room = Room::new(&region.outer)?;
        let degrees =
            best_turn(period_deg, |degrees| room.scale(&spokes, degrees).map_or(0.0, |(scale, _)| scale));
        let (scale, at) = room.scale(&spokes, degrees)?;
        return Some(placed(scale, Turn::from_degrees(degrees), at));
    }
    let piece = |scale: f64| -> Vec<Point> { spokes.iter().map(|&v| Point::ORIGIN + v * scale).collect() };
    let cloth = FitCloth::new(region)?;
    let radius = spokes.iter().map(|v| v.length()).fold(f64::INFINITY, f64::min);
    let (mut low, mut high, mut best) = (0.0, polygon::diameter(&region.outer) / radius, None);
    while (high - low) * radius > READING {
        let middle = f64::midpoint(low, high);
        let found = FitPiece::new(&piece(middle), &[])
            .and_then(|piece| try_fit(&piece, &cloth, Turning::Any, Turn::NONE, THOROUGH).pose());
        match found {
            Some(pose) => (low, best) = (middle, Some((middle, pose))),
            None => high = middle,
        }
    }
    best.map(|(scale, pose)| placed(scale, pose.turn, pose.apply(Point::ORIGIN)))
}

/// The largest copy of a convex shape at one turn, in a convex outline; `None` in another, with holes, or
/// without room.
#[must_use]
pub fn largest_at(region: &Region, shape: &[Point], turn: Turn) -> Option<Largest> {
    if !region.holes.is_empty() || !polygon::is_convex(&region.outer, 0.0) {
        return None;
    }
    let middle = polygon::centroid(shape)?;
    let spokes: Vec<Vec2> = shape.iter().map(|&p| turn.apply(p - middle)).collect();
    let (scale, at) = Room::new(&region.outer)?.scale_of(&spokes)?;
    Some(Largest { corners: spokes.iter().map(|&v| at + v * scale).collect(), scale, turn })
}

/// The inside of a convex outline, ready for asking.
struct Room {
    planes: Vec<HalfPlane>,
    basis: [usize; 3],
}

impl Room {
    fn new(convex: &[Point]) -> Option<Self> {
        let planes = planes_of(convex);
        let basis = surrounding(&planes)?;
        Some(Self { planes, basis })
    }

    /// The largest scale of a shape at a turn, and where its middle lies.
    fn scale(&self, spokes: &[Vec2], degrees: f64) -> Option<(f64, Point)> {
        let turn = Turn::from_degrees(degrees);
        let spokes: Vec<Vec2> = spokes.iter().map(|&v| turn.apply(v)).collect();
        self.scale_of(&spokes)
    }

    /// The same of a shape as it lies. Each side keeps the shape's deepest point in:
    /// `normal · middle >= at + scale depth`; over the depth that is a plain question for the most
    /// room.
    fn scale_of(&self, spokes: &[Vec2]) -> Option<(f64, Point)> {
        let scaled: Vec<HalfPlane> = self
            .planes
            .iter()
            .map(|plane| {
                let depth = spokes.iter().map(|&v| -plane.normal.dot(v)).fold(1e-12, f64::max);
                HalfPlane { normal: plane.normal * (1.0 / depth), at: plane.at / depth }
            })
            .collect();
        let room = most_room(&scaled, self.basis)?;
        (room.slack > 0.0).then(|| (room.slack, Point::new(room.place.x, room.place.y)))
    }
}

/// The turn from 0 to `period` degrees at which `size` is greatest.
fn best_turn(period: f64, size: impl Fn(f64) -> f64) -> f64 {
    let step = period / TURNS as f64;
    let sizes: Vec<f64> = (0..TURNS).map(|i| size(i as f64 * step)).collect();
    let at = |i: usize| sizes[i % TURNS];
    let mut peaks: Vec<usize> =
        (0..TURNS).filter(|&i| at(i) >= at(i + 1) && at(i) >= at(i + TURNS - 1)).collect();
    peaks.sort_by(|&i, &j| at(j).total_cmp(&at(i)));
    let refined = peaks.into_iter().take(12).map(|i| {
        let middle = i as f64 * step;
        let best = peak(middle - step, middle + step, &size);
        (size(best), best)
    });
    refined.max_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |(_, degrees)| degrees)
}

/// Where a function with one peak between `low` and `high` is greatest, by golden sections.
fn peak(mut low: f64, mut high: f64, size: &impl Fn(f64) -> f64) -> f64 {
    let golden = (5_f64.sqrt() - 1.0) / 2.0;
    let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_a, mut at_b) = (size(a), size(b));
    for _ in 0..60 {
        if at_a >= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - golden * (high - low);
            at_a = size(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + golden * (high - low);
            at_b = size(b);
        }
    }
    f64::midpoint(low, high)
}
