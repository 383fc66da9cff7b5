//! What is worth knowing of a region before anything is tried in it, computed once.
//!
//! All lengths in inches. Every entry is exact but `disc`, whose radius is at most
//! `disc_short_by` below the largest. Meant for quick rejection: a piece with more area, a
//! greater diameter, a greater least width, a larger disc or a longer hull than its cloth has no
//! room there.

use crate::{DECISION, Disc, Point, Region, difference, largest_disc, polygon};

/// Measures of a region; see the module.
#[derive(Clone, Debug)]
pub struct ShapeSummary {
    /// Area without holes, in square inches; where holes overlap it is taken off once.
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
    /// Lower left corner of the bounding box.
    pub low: Point,
    /// Upper right corner of the bounding box.
    pub high: Point,
    /// Whether the outline is convex and there are no holes.
    pub is_convex: bool,
}

impl ShapeSummary {
    /// Measures a region; `None` when it has no area. Cost: 1 to 5 microseconds when
    /// convex, 10 to 40 with 8 to 24 corners.
    #[must_use]
    pub fn of(region: &Region) -> Option<Self> {
        let (low, high) = polygon::bounds(&region.outer)?;
        let hull = polygon::hull(&region.outer);
        let diameter = polygon::diameter(&hull);
        let is_convex = region.holes.is_empty() && polygon::is_convex(&region.outer, 0.0);
        let disc_short_by = if is_convex { DECISION } else { diameter / 256.0 };
        let disc = largest_disc(region, disc_short_by)?;
        Some(Self {
            area: covered(region),
            hull_perimeter: polygon::perimeter(&hull),
            least_width: polygon::least_width(&hull),
            diameter,
            disc,
            disc_short_by: disc_short_by.max(diameter * 1e-7),
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

fn covered(region: &Region) -> f64 {
    if region.holes.is_empty() {
        return region.area();
    }
    difference(region, &[]).iter().map(Region::area).sum()
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
