//! The rectangle around a piece that a back is squared to.

use super::problem::LayersProblem;
use plane::{Point, Region, Turn, polygon};
use serde::{Deserialize, Serialize};

/// Sides whose rectangles are this near in area count as the same, as a share.
const TIE: f64 = 1e-9;

/// Which way the rectangle lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Squared {
    /// Turned so that it takes the least cloth: along a side of the piece's hull.
    #[default]
    Least,
    /// Upright on the wall. Strips of a print with a top stand upright in the rectangle: this is
    /// how they stand upright on the wall too.
    Upright,
}

/// A rectangle around the piece, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rectangle {
    /// Its lower left corner.
    pub low: Point,
    /// The direction of its width, within 45 degrees of x.
    pub across: Turn,
    /// Its width.
    pub width_in: f64,
    /// Its length, up the wall or nearly.
    pub length_in: f64,
}

impl Rectangle {
    /// The rectangle around an outline.
    ///
    /// # Errors
    /// An outline that is none.
    pub fn around(outline: &[Point], squared: Squared) -> Result<Self, LayersProblem> {
        let hull = polygon::hull(outline);
        let is_flat = polygon::area(&hull) < plane::DECISION;
        let upright = Self::along(&hull, Turn::NONE).filter(|_| !is_flat);
        let upright = upright.ok_or_else(|| no_outline(outline))?;
        if squared == Squared::Upright {
            return Ok(upright);
        }
        let turned = polygon::edges(&hull)
            .filter_map(|(a, b)| Self::along(&hull, nearest_x(Turn::towards(b - a)?)))
            .fold(upright, |best, next| if next.is_before(&best) { next } else { best });
        Ok(turned)
    }

    fn along(hull: &[Point], across: Turn) -> Option<Self> {
        let back = across.inverse();
        let turned: Vec<Point> = hull.iter().map(|p| after(back, *p)).collect();
        let (low, high) = polygon::bounds(&turned)?;
        let [width_in, length_in] = [high.x - low.x, high.y - low.y];
        let sound = width_in > 0.0 && length_in > 0.0 && (width_in * length_in).is_finite();
        sound.then(|| Self { low: after(across, low), across, width_in, length_in })
    }

    /// Less area, or as much and nearer upright.
    fn is_before(&self, other: &Self) -> bool {
        let (own, theirs) = (self.area_in2(), other.area_in2());
        own < theirs * (1.0 - TIE)
            || (own <= theirs * (1.0 + TIE) && self.across.cos > other.across.cos + TIE)
    }

    /// Its area, in square inches.
    #[must_use]
    pub fn area_in2(&self) -> f64 {
        self.width_in * self.length_in
    }

    /// The rectangle with so much more on each side.
    #[must_use]
    pub fn grown(&self, by_in: f64) -> Self {
        let low = self.point(-by_in, -by_in);
        Self { low, width_in: self.width_in + 2.0 * by_in, length_in: self.length_in + 2.0 * by_in, ..*self }
    }

    /// The point so far across and so far up from the lower left corner.
    #[must_use]
    pub fn point(&self, across_in: f64, up_in: f64) -> Point {
        self.low + self.across.vec() * across_in + self.across.left().vec() * up_in
    }

    /// Its corners, counter-clockwise from the lower left.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        let (w, l) = (self.width_in, self.length_in);
        [(0.0, 0.0), (w, 0.0), (w, l), (0.0, l)].map(|(x, y)| self.point(x, y)).to_vec()
    }
}

/// Checks an outline and says why it is none.
pub(super) fn checked(outline: &[Point]) -> Result<Vec<Point>, LayersProblem> {
    Region::try_new(outline.to_vec(), Vec::new()).map(|region| region.outer).map_err(LayersProblem::Outline)
}

fn no_outline(outline: &[Point]) -> LayersProblem {
    let corners = outline.len();
    let ring = plane::Ring::Outer;
    LayersProblem::Outline(if corners < 3 {
        plane::RegionProblem::TooFewCorners { ring, corners }
    } else {
        plane::RegionProblem::NoArea { ring }
    })
}

fn after(turn: Turn, p: Point) -> Point {
    let v = turn.apply(p.to_vec2());
    Point::new(v.x, v.y)
}

/// The direction, turned by quarters until it is within 45 degrees of x.
fn nearest_x(mut along: Turn) -> Turn {
    for _ in 0..3 {
        if along.cos >= along.sin.abs() {
            break;
        }
        along = along.left();
    }
    along
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    // T22: lupinelongarmquilting.com; sewberrychic.com; quiltingjules.com.
    #[test]
    fn four_inches_on_each_side_are_eight_in_all() {
        for (size, needed) in [((60.0, 80.0), (68.0, 88.0)), ((60.0, 60.0), (68.0, 68.0))] {
            let top = Region::rectangle(size.0, size.1).outer;
            for squared in [Squared::Least, Squared::Upright] {
                let back = Rectangle::around(&top, squared).unwrap().grown(4.0);
                assert_eq!((back.width_in, back.length_in), needed);
            }
        }
    }

    #[test]
    fn the_rectangle_holds_the_piece_however_it_lies() {
        for degrees in 0..180 {
            let turn = Turn::from_degrees(f64::from(degrees));
            let nine =
                points(&[(0.0, 0.0), (31.0, -4.0), (47.0, 6.0), (52.0, 33.0), (30.0, 41.0), (3.0, 28.0)]);
            let nine: Vec<Point> = nine.iter().map(|&p| after(turn, p)).collect();
            let least = Rectangle::around(&nine, Squared::Least).unwrap();
            let upright = Rectangle::around(&nine, Squared::Upright).unwrap();
            assert!(least.area_in2() <= upright.area_in2() * (1.0 + 1e-9));
            assert!(least.across.cos > std::f64::consts::FRAC_1_SQRT_2 - 1e-9, "{degrees}");
            for rectangle in [least, upright, least.grown(2.0)] {
                let region = Region { outer: rectangle.corners(), holes: Vec::new() };
                assert!(nine.iter().all(|p| plane::depth_inside(&region, *p) > -1e-9), "{degrees}");
            }
        }
    }

    #[test]
    fn a_turned_square_is_squared_along_its_sides() {
        let diamond = points(&[(10.0, 0.0), (20.0, 10.0), (10.0, 20.0), (0.0, 10.0)]);
        let least = Rectangle::around(&diamond, Squared::Least).unwrap();
        assert!((least.area_in2() - 200.0).abs() < 1e-9);
        assert!((Rectangle::around(&diamond, Squared::Upright).unwrap().area_in2() - 400.0).abs() < 1e-9);
        let square = Region::rectangle(10.0, 10.0).outer;
        assert_eq!(Rectangle::around(&square, Squared::Least).unwrap().across, Turn::NONE);
    }

    #[test]
    fn an_outline_of_nothing_is_refused() {
        for none in [vec![], points(&[(0.0, 0.0), (1.0, 0.0)]), points(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])]
        {
            assert!(matches!(Rectangle::around(&none, Squared::Least), Err(LayersProblem::Outline(_))));
            assert!(matches!(checked(&none), Err(LayersProblem::Outline(_))));
        }
    }
}
