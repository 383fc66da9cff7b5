//! A piece and a cloth made ready for asking whether one fits into the other.
//!
//! The cloth is its convex hull less *obstacles*: the pockets between outline and hull, and the
//! holes, each cut into convex parts. The piece is its hull for keeping inside the cloth's hull,
//! and convex parts for keeping off the obstacles. Both are shifted so that their middle is the
//! origin, which keeps the sums small.

use crate::slack::{HalfPlane, planes_of, surrounding};
use crate::{Point, Region, ShapeSummary, Vec2, convex_parts, grow_sides, polygon};

/// Pockets shallower and obstacles narrower than this many inches are not there.
const FLAT: f64 = 2e-10;

/// A convex polygon with the insides of its sides.
#[derive(Clone, Debug)]
pub(crate) struct Convex {
    pub(crate) points: Vec<Point>,
    pub(crate) sides: Vec<HalfPlane>,
    /// Sides on the cloth's hull: nothing can lie beyond them.
    pub(crate) lid: Vec<bool>,
    pub(crate) low: Point,
    pub(crate) high: Point,
}

impl Convex {
    fn new(points: &[Point]) -> Option<Self> {
        let points = polygon::hull(points);
        let (low, high) = polygon::bounds(&points)?;
        let sides = planes_of(&points);
        (sides.len() >= 3 && sides.len() == points.len()).then(|| Self {
            lid: vec![false; sides.len()],
            points,
            sides,
            low,
            high,
        })
    }
}

/// A piece made ready: how it must be asked about, and its measures.
#[derive(Clone, Debug)]
pub struct FitPiece {
    pub(crate) hull: Convex,
    pub(crate) parts: Vec<Convex>,
    pub(crate) middle: Vec2,
    /// The outline with its margin, where the piece was given.
    pub outline: Vec<Point>,
    /// Its measures.
    pub summary: ShapeSummary,
}

impl FitPiece {
    /// A piece from its counter-clockwise corners and the extra inches outside each side (none
    /// when empty); `None` when it has no area.
    #[must_use]
    pub fn new(piece: &[Point], margin: &[f64]) -> Option<Self> {
        if !piece.iter().all(|p| p.is_finite()) {
            return None;
        }
        let mut outline = piece.to_vec();
        if polygon::area(&outline) < 0.0 {
            return None;
        }
        if margin.iter().any(|&m| m > 0.0) {
            outline = grow_sides(&outline, margin);
        }
        let region = Region { outer: outline, holes: Vec::new() };
        let summary = ShapeSummary::of(&region)?;
        let outline = region.outer;
        let middle = polygon::centroid(&polygon::hull(&outline))?.to_vec2();
        let centred: Vec<Point> = outline.iter().map(|&p| p - middle).collect();
        let hull = Convex::new(&centred)?;
        let parts = if nearly_convex(&centred, &hull) {
            vec![hull.clone()]
        } else {
            convex_parts(&centred).into_iter().filter_map(|p| Convex::new(&p)).collect()
        };
        Some(Self { hull, parts, middle, outline, summary })
    }

    /// Whether the piece is convex.
    #[must_use]
    pub fn is_convex(&self) -> bool {
        self.parts.len() == 1
    }
}

/// A cloth made ready; keep it as long as the cloth stays as it is.
#[derive(Clone, Debug)]
pub struct FitCloth {
    pub(crate) region: Region,
    pub(crate) hull: Convex,
    pub(crate) basis: [usize; 3],
    pub(crate) obstacles: Vec<Convex>,
    pub(crate) middle: Vec2,
    /// Its measures.
    pub summary: ShapeSummary,
}

impl FitCloth {
    /// A cloth from its outline and holes (flaws are holes); `None` when it has no area.
    #[must_use]
    pub fn new(cloth: &Region) -> Option<Self> {
        let summary = ShapeSummary::of(cloth)?;
        let middle = polygon::centroid(&polygon::hull(&cloth.outer))?.to_vec2();
        let shift = |ring: &[Point]| ring.iter().map(|&p| p - middle).collect::<Vec<_>>();
        let region =
            Region { outer: shift(&cloth.outer), holes: cloth.holes.iter().map(|h| shift(h)).collect() };
        let hull = Convex::new(&region.outer)?;
        let basis = surrounding(&hull.sides)?;
        let mut obstacles = pockets(&region.outer, &hull.points);
        for hole in &region.holes {
            let mut ring = hole.clone();
            if polygon::area(&ring) < 0.0 {
                ring.reverse();
            }
            add_obstacles(&ring, None, &mut obstacles);
        }
        Some(Self { region, hull, basis, obstacles, middle, summary })
    }

    /// Whether the cloth is convex and whole.
    #[must_use]
    pub fn is_convex(&self) -> bool {
        self.obstacles.is_empty()
    }
}

fn nearly_convex(points: &[Point], hull: &Convex) -> bool {
    points.iter().all(|&p| {
        hull.sides.iter().map(|s| s.normal.dot(p.to_vec2()) - s.at).fold(f64::INFINITY, f64::min) <= FLAT
    })
}

/// The parts between a counter-clockwise outline and its hull.
fn pockets(outer: &[Point], hull: &[Point]) -> Vec<Convex> {
    let mut found = Vec::new();
    let n = outer.len();
    let index: Vec<usize> = hull.iter().filter_map(|h| outer.iter().position(|p| p == h)).collect();
    for (k, &from) in index.iter().enumerate() {
        let to = index[(k + 1) % index.len()];
        let inner = (to + n - from) % n;
        let chain: Vec<Point> = (0..=inner).map(|s| outer[(from + s) % n]).collect();
        let Some(lid) = crate::Line::through(outer[from], outer[to]) else { continue };
        let mut start = 0;
        for s in 1..chain.len() {
            if lid.inside_by(chain[s]) > FLAT {
                continue;
            }
            if s > start + 1 {
                let mut ring = chain[start..=s].to_vec();
                ring.reverse();
                add_obstacles(&ring, Some((chain[start], chain[s])), &mut found);
            }
            start = s;
        }
    }
    found
}

fn add_obstacles(ring: &[Point], lid: Option<(Point, Point)>, found: &mut Vec<Convex>) {
    for part in convex_parts(ring) {
        if polygon::least_width(&part) <= FLAT {
            continue;
        }
        let Some(mut convex) = Convex::new(&part) else { continue };
        if let Some((from, to)) = lid {
            let is_lid = |(a, b): (Point, Point)| a == from && b == to;
            convex.lid = polygon::edges(&convex.points).map(is_lid).collect();
        }
        found.push(convex);
    }
}
