//! An outline put right by hand.

use plane::{Point, Region, RegionProblem};

/// An outline with its outer ring put right by the maker's points, in inches: each point takes the
/// place of the nearest corner within `reach_in`, and where none is so near it becomes a corner of
/// the nearest side. Holes stay.
///
/// # Errors
/// What [`Region::try_new`] finds wrong with the corrected outline; the old one is untouched.
pub fn corrected(outline: &Region, points: &[Point], reach_in: f64) -> Result<Region, RegionProblem> {
    let mut outer = outline.outer.clone();
    let mut moved = vec![false; outer.len()];
    for &point in points {
        let nearest = (0..outer.len())
            .filter(|&i| !moved[i] && outer[i].distance(point) <= reach_in)
            .min_by(|&a, &b| outer[a].distance(point).total_cmp(&outer[b].distance(point)));
        if let Some(i) = nearest {
            outer[i] = point;
            moved[i] = true;
            continue;
        }
        let off = |i: usize| super::trace::off_line(outer[i], outer[(i + 1) % outer.len()], point);
        let side = (0..outer.len()).min_by(|&a, &b| off(a).total_cmp(&off(b)));
        let place = side.map_or(0, |i| i + 1);
        outer.insert(place, point);
        moved.insert(place, true);
    }
    Region::try_new(outer, outline.holes.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_moves_the_near_corner_or_makes_one() {
        let square = Region::rectangle(4.0, 4.0);
        let moved = corrected(&square, &[Point::new(4.2, 4.1)], 0.5).unwrap();
        assert_eq!(moved.outer.len(), 4);
        assert_eq!(moved.outer[2], Point::new(4.2, 4.1));
        let bitten = corrected(&square, &[Point::new(2.0, 3.0)], 0.5).unwrap();
        assert_eq!(bitten.area(), 14.0);
        assert!(corrected(&square, &[Point::new(f64::NAN, 1.0)], 0.5).is_err());
        assert!(corrected(&square, &[Point::new(2.0, -0.2), Point::new(2.0, 5.0)], 0.5).is_ok());
    }
}
