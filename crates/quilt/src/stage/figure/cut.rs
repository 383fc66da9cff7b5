//! The cut line: everything within a turn-under of the drawn shape.

use plane::{Point, Region, Turn, offset, polygon, union};

/// Tips stay pointed down to 60 degrees; sharper ones are cut blunt, no nearer than the turn-under.
const MITRE: f64 = 2.0;

/// The shape with its allowance, holes made smaller by it; holes without room for it are closed.
pub(super) fn cut_line(drawn: &Region, turn_under_in: f64) -> Region {
    let grown = offset(drawn, turn_under_in, MITRE);
    let blunted = blunt_tips(drawn, turn_under_in);
    let parts: Vec<Region> = grown.into_iter().chain(blunted).collect();
    let whole = union(&parts);
    whole.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_else(|| drawn.clone())
}

/// A disc's worth of cloth, as sixteen sides around it, about every tip that the mitre leaves off.
fn blunt_tips(drawn: &Region, turn_under_in: f64) -> Vec<Region> {
    let mut found = Vec::new();
    for ring in std::iter::once(&drawn.outer).chain(&drawn.holes) {
        let way = super::way::Way::new(ring);
        let tips = (0..ring.len()).filter(|&i| way.turn(i).to_degrees() >= 119.0);
        found.extend(tips.map(|i| around(ring[i], turn_under_in)));
    }
    found
}

fn around(p: Point, radius_in: f64) -> Region {
    let reach = radius_in / (std::f64::consts::PI / 16.0).cos();
    let corner = |k: u32| p + Turn::from_degrees(22.5 * f64::from(k)).vec() * reach;
    Region { outer: (0..16).map(corner).collect(), holes: Vec::new() }
}

/// Widest place of a hole: the diameter of the largest disc in it.
pub(super) fn hole_width(hole: &[Point]) -> f64 {
    let mut outer = hole.to_vec();
    if polygon::area(&outer) < 0.0 {
        outer.reverse();
    }
    let region = Region { outer, holes: Vec::new() };
    plane::largest_disc(&region, plane::READING).map_or(0.0, |disc| disc.radius * 2.0)
}
