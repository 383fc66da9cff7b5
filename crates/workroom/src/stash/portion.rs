//! A portion of a cloth as a cloth: the same coordinates, picture and print; seams and flaws cut
//! to what is left.

use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId, Part};

/// Parts and flaws smaller than this many square inches are not carried on.
pub(crate) const CRUMB_IN2: f64 = 1e-6;

/// The portion of `cloth` that `outline` covers, called `id`. With another id than the cloth's it
/// is its child.
#[must_use]
pub fn portion(cloth: &Cloth, outline: Region, id: ClothId) -> Cloth {
    let flaws = cloth.flaws.iter().flat_map(|flaw| plane::intersection(flaw, &outline));
    let flaws = flaws.filter(|flaw| flaw.area() > CRUMB_IN2).collect();
    let parts = cloth.parts.iter().flat_map(|part| cut_part(part, &outline)).collect();
    let parent = if id == cloth.id { cloth.parent } else { Some(cloth.id) };
    Cloth { id, flaws, parts, outline, parent, ..cloth.clone() }
}

fn cut_part(part: &Part, outline: &Region) -> Vec<Part> {
    let shows = Region { outer: part.shows.clone(), holes: Vec::new() };
    plane::intersection(&shows, outline)
        .into_iter()
        .flat_map(hole_free)
        .filter(|shows| polygon::area(shows) > CRUMB_IN2)
        .map(|shows| Part { shows, ..part.clone() })
        .collect()
}

/// A region as polygons without holes: sliced through the middle of each hole.
#[must_use]
pub fn hole_free(region: Region) -> Vec<Vec<Point>> {
    let Some(((lo, hi), (low, high))) =
        region.holes.first().and_then(|hole| polygon::bounds(hole)).zip(polygon::bounds(&region.outer))
    else {
        return vec![region.outer];
    };
    let middle = f64::midpoint(lo.x, hi.x);
    let slab = |from: f64, to: f64| Region {
        outer: vec![
            Point::new(from, low.y - 1.0),
            Point::new(to, low.y - 1.0),
            Point::new(to, high.y + 1.0),
            Point::new(from, high.y + 1.0),
        ],
        holes: Vec::new(),
    };
    let halves = [slab(low.x - 1.0, middle), slab(middle, high.x + 1.0)];
    let halves = halves.iter().flat_map(|slab| plane::intersection(&region, slab));
    halves.filter(|half| half.area() > CRUMB_IN2).flat_map(hole_free).collect()
}
