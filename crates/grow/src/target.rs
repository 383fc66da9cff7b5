//! Where growing should end, and how large pieces should be on the way.

use plane::{Point, Vec2, polygon};
use quilt::wish::{Towards, Wish};

/// The wished outline about the centre of the first patch, finished, and the wished sizes.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    outline: Vec<Point>,
    /// Radius of the circle of the same area.
    pub(crate) radius: f64,
    sizes: [f64; 2],
    /// Sides wished.
    pub(crate) sides: usize,
}

impl Target {
    /// The target of a wish. With `pieces`, the sizes are scaled so that about so many fill it.
    pub(crate) fn new(wish: &Wish, pieces: Option<usize>, turn_deg: f64) -> Self {
        let outline = match &wish.towards {
            Towards::Polygon(points) if points.len() > 2 => points.clone(),
            Towards::Rectangle { width_in, height_in } => {
                let (x, y) = (width_in / 2.0, height_in / 2.0);
                [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y)).to_vec()
            }
            Towards::Round { sides } => regular(usize::from(*sides).clamp(3, 12), wish.across_in, turn_deg),
            Towards::Polygon(_) | Towards::Free => regular(7, wish.across_in, turn_deg),
        };
        let radius = (polygon::area(&outline) / std::f64::consts::PI).sqrt();
        let sides = outline.len();
        let mut target = Self { outline, radius, sizes: wish.piece_in, sides };
        if let Some(pieces) = pieces {
            let scale = (target.pieces() / pieces.max(1) as f64).sqrt();
            target.sizes = target.sizes.map(|size| size * scale);
        }
        target
    }

    /// Finished distance from the centre at which a side facing `outward` should end.
    pub(crate) fn reach(&self, outward: Vec2) -> f64 {
        // The side of the target that faces most nearly the same way.
        let facing = polygon::edges(&self.outline)
            .filter_map(|(a, b)| plane::Line::through(a, b))
            .max_by(|a, b| a.normal.vec().dot(-outward).total_cmp(&b.normal.vec().dot(-outward)));
        facing.map_or(self.radius, |line| line.inside_by(Point::ORIGIN))
    }

    /// Share of the way from the centre to the rim, 0 to about 1, of a place relative to the
    /// centre.
    pub(crate) fn share(&self, from_centre: Vec2) -> f64 {
        let most = polygon::edges(&self.outline)
            .filter_map(|(a, b)| plane::Line::through(a, b))
            .map(|line| -line.normal.vec().dot(from_centre) / line.inside_by(Point::ORIGIN).max(1e-6))
            .fold(0.0, f64::max);
        most.min(1.2)
    }

    /// Wished finished size of a piece at a share of the way, in inches.
    pub(crate) fn size(&self, share: f64) -> f64 {
        let [inner, outer] = self.sizes;
        inner * (outer / inner).powf(share.clamp(0.0, 1.0))
    }

    /// How many pieces of the wished sizes fill the target, about.
    pub(crate) fn pieces(&self) -> f64 {
        const RINGS: usize = 64;
        (0..RINGS)
            .map(|i| {
                let share = (i as f64 + 0.5) / RINGS as f64;
                let ring = std::f64::consts::TAU * share * self.radius * self.radius / RINGS as f64;
                ring / self.size(share).powi(2)
            })
            .sum()
    }

    /// Finished depth of the next course for a side `done` of `reach` inches away from the centre:
    /// a whole number of courses fills the way. `None` when the side has arrived.
    pub(crate) fn course(&self, done: f64, reach: f64) -> Option<Course> {
        let left = reach - done;
        if left < 0.4 * self.size(1.0).min(1.2) {
            return None;
        }
        let (mut at, mut steps) = (done, Vec::new());
        while at < reach {
            let size = self.size(at / reach);
            steps.push(size);
            at += size;
        }
        let over = at - reach;
        if steps.len() > 1 && over > steps[steps.len() - 1] / 2.0 {
            steps.pop();
        }
        let sum: f64 = steps.iter().sum();
        let depth = steps[0] * left / sum;
        Some(Course { depth, left: steps.len() })
    }
}

/// What is planned for a side.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Course {
    /// Finished depth of the next piece, in inches.
    pub(crate) depth: f64,
    /// Courses left, this one included.
    pub(crate) left: usize,
}

/// A regular polygon with the area of a circle `across` wide.
fn regular(sides: usize, across: f64, turn_deg: f64) -> Vec<Point> {
    let step = std::f64::consts::TAU / sides as f64;
    let circle = std::f64::consts::PI * across * across / 4.0;
    let radius = (circle / (sides as f64 / 2.0 * step.sin())).sqrt();
    (0..sides)
        .map(|i| {
            let angle = turn_deg.to_radians() + step * i as f64;
            Point::new(radius * angle.cos(), radius * angle.sin())
        })
        .collect()
}
