//! Whether what is left of a cloth is still worth keeping.

use plane::{Region, polygon};
use serde::{Deserialize, Serialize};

/// How far the disc found may be short of the largest, in inches.
const SHORT_IN: f64 = 0.01;

/// From which size on a leftover is cloth and not waste. Both limits must be met.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Usable {
    /// Least width in inches.
    pub least_width_in: f64,
    /// Least area in square inches.
    pub least_area_in2: f64,
}

impl Default for Usable {
    /// A piece that finishes an inch wide and some (common practice, no source).
    fn default() -> Self {
        Self { least_width_in: 1.5, least_area_in2: 4.0 }
    }
}

impl Usable {
    /// Whether a region meets both limits.
    ///
    /// The hull of a thin L is wide, so a region that isn't convex must also hold a disc as wide
    /// as the least width.
    #[must_use]
    pub fn keeps(&self, region: &Region) -> bool {
        if region.area() < self.least_area_in2 || polygon::least_width(&region.outer) < self.least_width_in {
            return false;
        }
        let convex = region.holes.is_empty() && polygon::is_convex(&region.outer, plane::DECISION);
        let radius = || plane::largest_disc(region, SHORT_IN).map_or(0.0, |disc| disc.radius);
        convex || 2.0 * (radius() + SHORT_IN) >= self.least_width_in
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Point;

    #[test]
    fn a_thin_l_is_waste_though_its_hull_is_wide() {
        let l = [(0.0, 0.0), (8.0, 0.0), (8.0, 0.6), (0.6, 0.6), (0.6, 8.0), (0.0, 8.0)];
        let thin = Region::try_new(l.map(|(x, y)| Point::new(x, y)).to_vec(), vec![]).unwrap();
        assert!(thin.area() > 4.0 && polygon::least_width(&thin.outer) > 1.5);
        assert!(!Usable::default().keeps(&thin));
    }

    #[test]
    fn both_limits_count_and_a_triangle_of_just_that_width_is_kept() {
        let rule = Usable::default();
        assert!(rule.keeps(&Region::rectangle(1.5, 3.0)));
        assert!(!rule.keeps(&Region::rectangle(1.49, 30.0)));
        assert!(!rule.keeps(&Region::rectangle(1.9, 1.9)));
        let height = 3.0_f64;
        let half = height / 3.0_f64.sqrt();
        let corners = [(-half, 0.0), (half, 0.0), (0.0, height)].map(|(x, y)| Point::new(x, y));
        let triangle = Region { outer: corners.to_vec(), holes: vec![] };
        assert!(Usable { least_width_in: 2.999, least_area_in2: 4.0 }.keeps(&triangle));
    }
}
