//! Pins in a square grid about the centre, and along the edge where the grid leaves it bare.
//!
//! No pin is nearer to the raw edge than asked. Every place on the line so far inside the edge has
//! a pin within one spacing, and so every place inside it has one within 1.71 spacings, the worst near
//! a corner; between the pins of the grid it is 0.71.

use super::super::choice::Pins;
use super::super::problem::LayersProblem;
use super::{BastingPlan, With, centre, inside, spaced};
use plane::{Point, Region, Vec2, depth_inside, polygon};

/// More pins than anyone sets.
const MOST_PINS: u32 = 20_000;

pub(super) fn pins(choice: &Pins, outline: &[Point]) -> Result<BastingPlan, LayersProblem> {
    spaced(choice.spacing_in, choice.edge_in)?;
    let count = polygon::area(outline) / (choice.spacing_in * choice.spacing_in);
    if count > f64::from(MOST_PINS) {
        let takes_in = (polygon::area(outline) / f64::from(MOST_PINS)).sqrt();
        let spacing_in = choice.spacing_in;
        return Err(LayersProblem::TooManyPins { spacing_in, count, most: MOST_PINS, takes_in });
    }
    let rim = inside(outline, choice.edge_in)?;
    let middle = centre(outline);
    let mut places = grid(outline, middle, choice);
    for part in &rim {
        along(&part.outer, choice.spacing_in, &mut places);
        part.holes.iter().for_each(|hole| along(hole, choice.spacing_in, &mut places));
    }
    from_the_centre(&mut places, middle);
    Ok(BastingPlan { with: With::Pins(places), spacing_in: choice.spacing_in, edge_in: choice.edge_in })
}

/// The places of a grid through the centre that are far enough from the edge.
fn grid(outline: &[Point], middle: Point, choice: &Pins) -> Vec<Point> {
    let piece = Region { outer: outline.to_vec(), holes: Vec::new() };
    let Some((low, high)) = polygon::bounds(outline) else { return Vec::new() };
    let s = choice.spacing_in;
    let steps = |from: f64, to: f64| ((from / s).ceil() as i64)..=((to / s).floor() as i64);
    let columns = steps(low.x - middle.x, high.x - middle.x);
    let at = |i: i64, j: i64| middle + Vec2::new(i as f64, j as f64) * s;
    columns
        .flat_map(|i| steps(low.y - middle.y, high.y - middle.y).map(move |j| at(i, j)))
        .filter(|p| depth_inside(&piece, *p) >= choice.edge_in)
        .collect()
}

/// Adds a pin wherever a ring would otherwise lie farther than one spacing from any. Places are looked
/// at in steps of 1/32 of a spacing, and that much sooner.
fn along(ring: &[Point], spacing_in: f64, places: &mut Vec<Point>) {
    let step = spacing_in / 32.0;
    for (a, b) in polygon::edges(ring) {
        let steps = (a.distance(b) / step).ceil().max(1.0) as u32;
        for k in 0..steps {
            let p = a.lerp(b, f64::from(k) / f64::from(steps));
            if places.iter().all(|pin| pin.distance(p) > spacing_in - step) {
                places.push(p);
            }
        }
    }
}

fn from_the_centre(places: &mut [Point], middle: Point) {
    let around = |p: &Point| (p.y - middle.y).atan2(p.x - middle.x);
    places.sort_by(|a, b| {
        let (near, far) = (a.distance(middle), b.distance(middle));
        near.total_cmp(&far).then(around(a).total_cmp(&around(b)))
    });
}
