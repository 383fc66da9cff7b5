//! What is worth knowing of a region before anything is tried in it, computed once.
//!
//! All lengths in inches. Every entry is exact but `disc`, whose radius is at most
//! `disc_short_by` below the largest. Meant for quick rejection: a piece with more area, a
//! greater diameter, a greater least width, a larger disc or a longer hull than its cloth has no
//! room there.

use crate::{DECISION, Disc, Point, Region, Turn, largest_disc, polygon};

/// Directions in which the longest chord is known: every 5 degrees of a half turn.
pub const CHORD_DIRECTIONS: usize = 36;

/// Measures of a region; see the module.
#[derive(Clone, Debug)]
pub struct ShapeSummary {
    /// Area without holes, in square inches.
    pub area: f64,
    /// Length round the convex hull.
    pub hull_perimeter: f64,
    /// Least width of the convex hull.
    pub least_width: f64,
    /// Greatest distance between two points.
    pub diameter: f64,
    /// The largest disc inside, about.
    pub disc: Disc,
    /// At most so much is the disc's radius short of the largest.
    pub disc_short_by: f64,
    /// The longest straight cut inside, in direction `k * 5` degrees from x.
    pub chords: [f64; CHORD_DIRECTIONS],
    /// Lower left corner of the bounding box.
    pub low: Point,
    /// Upper right corner of the bounding box.
    pub high: Point,
    /// Whether the outline is convex and there are no holes.
    pub is_convex: bool,
}

impl ShapeSummary {
    /// Measures a region; `None` when it has no area. Cost: 10 to 100 microseconds for 4 to 24
    /// corners.
    #[must_use]
    pub fn of(region: &Region) -> Option<Self> {
        let (low, high) = polygon::bounds(&region.outer)?;
        let hull = polygon::hull(&region.outer);
        let diameter = polygon::diameter(&hull);
        let is_convex = region.holes.is_empty() && polygon::is_convex(&region.outer, 0.0);
        let disc_short_by = if is_convex { DECISION } else { diameter / 256.0 };
        let disc = largest_disc(region, disc_short_by)?;
        Some(Self {
            area: region.area(),
            hull_perimeter: polygon::perimeter(&hull),
            least_width: polygon::least_width(&hull),
            diameter,
            disc,
            disc_short_by: disc_short_by.max(diameter * 1e-7),
            chords: std::array::from_fn(|k| longest_chord(region, chord_direction(k))),
            low,
            high,
            is_convex,
        })
    }

    /// The first measure, in words, by which `piece` is too large for this cloth however it is
    /// turned, or `None` when the measures leave it open.
    #[must_use]
    pub fn forbids(&self, piece: &Self) -> Option<TooLarge> {
        let over = |piece: f64, cloth: f64| piece > cloth + DECISION * 10.0;
        if over(piece.area, self.area + DECISION * self.hull_perimeter) {
            Some(TooLarge::Area)
        } else if over(piece.diameter, self.diameter) {
            Some(TooLarge::Diameter)
        } else if over(piece.least_width, self.least_width) {
            Some(TooLarge::Width)
        } else if over(piece.disc.radius, self.disc.radius + self.disc_short_by) {
            Some(TooLarge::Disc)
        } else if over(piece.hull_perimeter, self.hull_perimeter) {
            Some(TooLarge::Perimeter)
        } else {
            None
        }
    }
}

/// By which measure a piece is too large.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooLarge {
    /// Its area.
    Area,
    /// The distance between its farthest points.
    Diameter,
    /// Its least width.
    Width,
    /// The largest disc inside it.
    Disc,
    /// The way round its hull.
    Perimeter,
}

/// The direction of entry `k` of [`ShapeSummary::chords`].
#[must_use]
pub fn chord_direction(k: usize) -> Turn {
    Turn::from_degrees(5.0 * (k % CHORD_DIRECTIONS) as f64)
}

/// The longest straight piece of a line in direction `along` that lies inside the region, in
/// inches. Between two neighbouring corners, seen along the direction, all chords change
/// linearly, so the longest one ends a slab between two corners.
#[must_use]
pub fn longest_chord(region: &Region, along: Turn) -> f64 {
    let back = along.inverse();
    let rings: Vec<Vec<Point>> = std::iter::once(&region.outer)
        .chain(&region.holes)
        .map(|ring| ring.iter().map(|p| turned(back, *p)).collect())
        .collect();
    let mut heights: Vec<f64> = rings.iter().flatten().map(|p| p.y).collect();
    heights.sort_unstable_by(f64::total_cmp);
    heights.dedup();
    let mut longest = 0.0_f64;
    let mut crossings: Vec<(f64, f64)> = Vec::new();
    for slab in heights.windows(2) {
        let (low, high) = (slab[0], slab[1]);
        crossings.clear();
        for (a, b) in rings.iter().flat_map(|ring| polygon::edges(ring)) {
            if a.y.min(b.y) <= low && a.y.max(b.y) >= high {
                let at = |y: f64| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
                crossings.push((at(low), at(high)));
            }
        }
        crossings.sort_unstable_by(|p, q| (p.0 + p.1).total_cmp(&(q.0 + q.1)));
        for pair in crossings.chunks_exact(2) {
            longest = longest.max(pair[1].0 - pair[0].0).max(pair[1].1 - pair[0].1);
        }
    }
    longest
}

fn turned(turn: Turn, p: Point) -> Point {
    let v = turn.apply(p.to_vec2());
    Point::new(v.x, v.y)
}
