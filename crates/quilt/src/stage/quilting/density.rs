//! How close the quilting is, and whether evenly so.

use plane::Point;
use plane::fill::{Fill, Ground};
use serde::Serialize;

/// Classes of closeness by mean spacing (own wording; matchstick is at most 1/4 by several teachers'
/// pages, epidastudio.com and quiltadvice.com).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Thickness {
    /// Rows at most 1/4 inch apart.
    Matchstick,
    /// At most 1/2.
    Dense,
    /// At most 1.
    Close,
    /// At most 2.
    Medium,
    /// More.
    Open,
}

impl Thickness {
    /// The class of a mean spacing in inches.
    #[must_use]
    pub fn of(spacing_in: f64) -> Self {
        match spacing_in {
            s if s <= 0.25 => Self::Matchstick,
            s if s <= 0.5 => Self::Dense,
            s if s <= 1.0 => Self::Close,
            s if s <= 2.0 => Self::Medium,
            _ => Self::Open,
        }
    }
}

/// Closeness of lines. A mean spacing is area over length.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Density {
    /// Over all.
    pub mean_spacing_in: f64,
    /// Its class.
    pub class: Thickness,
    /// Inches of line a square inch within half the way from the middle to the rim.
    pub middle: f64,
    /// The same beyond it.
    pub rim: f64,
}

impl Density {
    /// How many times as dense the middle is as the rim; infinite where only the middle is quilted.
    #[must_use]
    pub fn middle_over_rim(&self) -> f64 {
        match (self.middle > 0.0, self.rim > 0.0) {
            (_, true) => self.middle / self.rim,
            (true, false) => f64::INFINITY,
            (false, false) => 1.0,
        }
    }
}

/// Pieces of line of this length are counted where their middle lies.
const STEP_IN: f64 = 0.25;

pub(super) fn of(ground: &Ground, fill: &Fill, centre: Point) -> Density {
    let area = ground.area();
    let length = fill.length();
    let mean_spacing_in = if length > 0.0 { area / length } else { f64::INFINITY };
    let half = half_way(ground, centre);
    let inner_outline: Vec<Point> = half.clone();
    let inner = plane::Region { outer: inner_outline, holes: Vec::new() };
    let inner_area: f64 = ground.open().iter().map(|part| shared(part, &inner)).sum();
    let mut within = 0.0;
    for stroke in &fill.strokes {
        for (a, b) in stroke.segments() {
            let long = a.distance(b);
            let parts = (long / STEP_IN).ceil().max(1.0) as usize;
            let inside = (0..parts).filter(|i| {
                let t = (*i as f64 + 0.5) / parts as f64;
                plane::polygon::contains(&half, a + (b - a) * t)
            });
            within += long * inside.count() as f64 / parts as f64;
        }
    }
    let share = |length: f64, area: f64| if area > 1e-9 { length / area } else { 0.0 };
    Density {
        mean_spacing_in,
        class: Thickness::of(mean_spacing_in),
        middle: share(within, inner_area),
        rim: share(length - within, area - inner_area),
    }
}

/// The outline drawn in half way to the middle.
fn half_way(ground: &Ground, centre: Point) -> Vec<Point> {
    ground.edges(false).iter().map(|(from, _)| centre + (*from - centre) * 0.5).collect()
}

fn shared(part: &plane::Region, inner: &plane::Region) -> f64 {
    plane::intersection(part, inner).iter().map(plane::Region::area).sum()
}
