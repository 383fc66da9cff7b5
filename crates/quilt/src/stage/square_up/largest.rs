//! The largest rectangle, square or scaled shape in a convex outline.
//!
//! At a fixed turn the scale of a shape is largest where its clearance from every side, measured in
//! supports, is equal: found by halving, each time asking whether the outline shrunk by the supports
//! still has a point. Turns are tried 3 degrees apart and along the sides, the best refined. Within
//! 1e-4 inch of the largest where the best turn is found, which nearby optima may hide.

use plane::{Line, Point, Turn, Vec2, clip_half_plane, polygon};

/// Steps of halving: 10,000 inches to 1e-6.
const HALVINGS: usize = 34;

/// Steps of a golden section: a factor of 1e-4.
const GOLDEN: usize = 20;

/// A convex outline to put shapes in.
pub(super) struct Room {
    lines: Vec<Line>,
    corners: Vec<Point>,
}

/// A shape that fits, about a point.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) corners: Vec<Point>,
    pub(super) scale: f64,
}

impl Room {
    pub(super) fn new(corners: &[Point]) -> Self {
        let lines = polygon::edges(corners).filter_map(|(a, b)| Line::through(a, b)).collect();
        Self { lines, corners: corners.to_vec() }
    }

    /// Where the middle of a shape, given by its spokes, may lie.
    pub(super) fn middles(&self, spokes: &[Vec2]) -> Vec<Point> {
        self.lines.iter().fold(self.corners.clone(), |kept, line| {
            let normal = line.normal.vec();
            let support = spokes.iter().map(|v| -normal.dot(*v)).fold(f64::NEG_INFINITY, f64::max);
            clip_half_plane(&kept, line.inward(support), 0.0)
        })
    }

    fn scale_of(&self, spokes: &[Vec2]) -> (f64, Point) {
        let reach = spokes.iter().map(|v| v.length()).fold(0.0, f64::max).max(1e-9);
        let (mut lo, mut hi) = (0.0, polygon::diameter(&self.corners) / reach);
        let mut middle = polygon::centroid(&self.corners).unwrap_or(Point::ORIGIN);
        for _ in 0..HALVINGS {
            let scale = f64::midpoint(lo, hi);
            let scaled: Vec<Vec2> = spokes.iter().map(|v| *v * scale).collect();
            match mean(&self.middles(&scaled)) {
                Some(found) => (lo, middle) = (scale, found),
                None => hi = scale,
            }
        }
        (lo, middle)
    }

    fn at(&self, spokes: &[Vec2], turn: Turn) -> Found {
        let turned: Vec<Vec2> = spokes.iter().map(|v| turn.apply(*v)).collect();
        let (scale, middle) = self.scale_of(&turned);
        Found { corners: turned.iter().map(|v| middle + *v * scale).collect(), scale }
    }

    /// The largest copy of a shape given by its spokes, at any turn below `period_deg`.
    pub(super) fn largest(&self, spokes: &[Vec2], period_deg: f64) -> Found {
        let (found, _) = self.best_turn(period_deg, |turn| {
            let found = self.at(spokes, turn);
            (found.scale, found)
        });
        found
    }

    /// The largest rectangle of any proportion.
    pub(super) fn largest_rectangle(&self) -> Found {
        let at = |turn: Turn, ratio: f64| {
            let (w, h) = ((ratio / 2.0).exp() / 2.0, (-ratio / 2.0).exp() / 2.0);
            let spokes = [(-w, -h), (w, -h), (w, h), (-w, h)].map(|(x, y)| Vec2::new(x, y));
            let found = self.at(&spokes, turn);
            (found.scale, found)
        };
        self.best_turn(180.0, |turn| golden(-2.5, 2.5, |ratio| at(turn, ratio))).0
    }

    fn best_turn(&self, period_deg: f64, at: impl Fn(Turn) -> (f64, Found)) -> (Found, f64) {
        let mut turns: Vec<f64> = (0..).map(|i| f64::from(i) * 3.0).take_while(|t| *t < period_deg).collect();
        turns.extend(self.lines.iter().map(|line| line.direction().to_degrees()));
        let mut tried: Vec<(f64, f64, Found)> = turns
            .into_iter()
            .map(|deg| {
                let (worth, found) = at(Turn::from_degrees(deg));
                (worth, deg, found)
            })
            .collect();
        tried.sort_by(|a, b| b.0.total_cmp(&a.0));
        let refined = tried
            .iter()
            .take(3)
            .map(|(_, deg, _)| golden(deg - 3.0, deg + 3.0, |deg| at(Turn::from_degrees(deg))));
        let refined: Vec<(f64, Found)> = refined.collect();
        let plain = tried.into_iter().map(|(worth, _, found)| (worth, found)).take(1);
        let best = refined.into_iter().chain(plain).max_by(|a, b| a.0.total_cmp(&b.0));
        best.map_or((Found { corners: Vec::new(), scale: 0.0 }, 0.0), |(worth, found)| (found, worth))
    }
}

fn mean(points: &[Point]) -> Option<Point> {
    let sum = points.iter().fold(Vec2::default(), |sum, p| sum + p.to_vec2());
    (!points.is_empty()).then(|| Point::ORIGIN + sum * (1.0 / points.len() as f64))
}

/// The best value of a function with one peak between two bounds.
fn golden(lo: f64, hi: f64, at: impl Fn(f64) -> (f64, Found)) -> (f64, Found) {
    const G: f64 = 0.618_033_988_749_895;
    let (mut lo, mut hi) = (lo, hi);
    let (mut x, mut y) = (hi - G * (hi - lo), lo + G * (hi - lo));
    let (mut fx, mut fy) = (at(x), at(y));
    for _ in 0..GOLDEN {
        if fx.0 >= fy.0 {
            (hi, y) = (y, x);
            fy = fx;
            x = hi - G * (hi - lo);
            fx = at(x);
        } else {
            (lo, x) = (x, y);
            fx = fy;
            y = lo + G * (hi - lo);
            fy = at(y);
        }
    }
    if fx.0 >= fy.0 { fx } else { fy }
}
