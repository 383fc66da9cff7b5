//! Balance: the row of the eye check, and three published measures beside it.

use super::frame::Frame;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use plane::{Line, Point, Turn, Vec2, clip_half_plane, polygon};

/// **Balance.** |Σ w (c − c0)| / (R Σ w) with w = a (100 − L*): how far the centre of visual weight
/// lies off the centre, over R. Good: at most .04; poor: above .08 (common practice, no source).
pub(super) fn balance(frame: &Frame<'_>) -> Row {
    let weighed = frame.measures.iter().zip(&frame.piece.shapes);
    let (mut sum, mut total) = (Vec2::default(), 0.0);
    for (m, shape) in weighed {
        let weight = m.area * (100.0 - shape.lab.l).max(0.0);
        sum += (m.centroid - frame.centre) * weight;
        total += weight;
    }
    let off = if total > 0.0 { sum * (1.0 / total) } else { Vec2::default() };
    let share = off.length() / frame.radius;
    let values = vec![Value::at_most("off", share, 0.04, 0.08)];
    let words = format!("The centre of weight lies {} of the radius off the middle.", percent(share));
    Row::new(Quality::Balance, values, words, vec![EyeMark::Line(frame.centre, frame.centre + off)])
}

/// Balance measure BM: 1 − (|BMv| + |BMh|) / 2, where BMv = (wL − wR) / max(wL, wR), w the sum over
/// a side of area times distance from the frame's middle line, and BMh the same for top and bottom.
/// 1 is balanced. Shapes across a middle line are split by it.
///
/// Source: Ngo, Teo, Byrne, "Evaluating interface esthetics", Knowledge and Information Systems 4
/// (2002) 46-79.
#[must_use]
pub fn balance_of(low: Point, high: Point, shapes: &[Vec<Point>]) -> f64 {
    let middle = low.midpoint(high);
    let lean = |along: Turn| {
        let line = Line::from_point(middle, along);
        let weight = |line: Line| shapes.iter().map(|shape| moment(shape, line)).sum::<f64>();
        let (one, other) = (weight(line), weight(line.reversed()));
        let most = one.max(other);
        if most > 0.0 { (one - other) / most } else { 0.0 }
    };
    1.0 - f64::midpoint(lean(Turn::QUARTER).abs(), lean(Turn::NONE).abs())
}

/// Area times distance from a line, of the part inside it.
fn moment(shape: &[Point], line: Line) -> f64 {
    let part = clip_half_plane(shape, line, 0.0);
    polygon::centroid(&part).map_or(0.0, |c| polygon::area(&part).abs() * line.inside_by(c))
}

/// Equilibrium measure EM: 1 − (|EMx| + |EMy|) / 2, where EMx = 2 Σ a (x − xc) / (n b Σ a), b the
/// frame's width, and EMy the same with its height. 1 is balanced. The n in the divisor makes it
/// weaker as pieces multiply: for many pieces the eye check's row says more.
///
/// Source: as [`balance_of`].
#[must_use]
pub fn equilibrium_of(low: Point, high: Point, shapes: &[Vec<Point>]) -> f64 {
    let Some(off) = centre_of_mass(shapes).map(|c| c - low.midpoint(high)) else { return 1.0 };
    let (n, size) = (shapes.len() as f64, high - low);
    let share = |off: f64, size: f64| if size > 0.0 { (2.0 * off / (n * size)).abs() } else { 0.0 };
    1.0 - f64::midpoint(share(off.x, size.x), share(off.y, size.y))
}

/// Deviation of the centre of mass (DCM): how far the centroid of the shapes, weighed by area, lies
/// from the frame's middle, in percent of the frame's width and height.
///
/// Source: Huebner, Fillinger, Frontiers in Psychology 7:335 (2016). The paper's exact divisor was
/// not read; width and height, each for its own direction, is our reading of "percent of the image".
#[must_use]
pub fn off_centre_percent(low: Point, high: Point, shapes: &[Vec<Point>]) -> f64 {
    let Some(off) = centre_of_mass(shapes).map(|c| c - low.midpoint(high)) else { return 0.0 };
    let size = high - low;
    let share = |off: f64, size: f64| if size > 0.0 { 100.0 * off / size } else { 0.0 };
    Vec2::new(share(off.x, size.x), share(off.y, size.y)).length()
}

/// The centroid of several shapes, weighed by area.
fn centre_of_mass(shapes: &[Vec<Point>]) -> Option<Point> {
    let (mut sum, mut total) = (Vec2::default(), 0.0);
    for shape in shapes {
        let area = polygon::area(shape).abs();
        if let Some(c) = polygon::centroid(shape) {
            sum += c.to_vec2() * area;
            total += area;
        }
    }
    (total > 0.0).then(|| Point::ORIGIN + sum * (1.0 / total))
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOW: Point = Point::new(0.0, 0.0);
    const HIGH: Point = Point::new(10.0, 10.0);

    fn squares(middles: &[(f64, f64)]) -> Vec<Vec<Point>> {
        let square = |&(x, y): &(f64, f64)| {
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(u, v)| Point::new(x + u, y + v))
                .to_vec()
        };
        middles.iter().map(square).collect()
    }

    // Worked from the formulas of Ngo, Teo, Byrne 2002.
    #[test]
    fn balance_and_equilibrium_follow_their_publication() {
        for (middles, balance, equilibrium) in [
            (&[(2.0, 5.0), (7.0, 5.0)][..], 5.0 / 6.0, 0.975),
            (&[(1.0, 1.0)], 0.0, 0.2),
            (&[(1.0, 1.0), (9.0, 1.0)], 0.5, 0.8),
        ] {
            let shapes = squares(middles);
            assert!((balance_of(LOW, HIGH, &shapes) - balance).abs() < 1e-12);
            assert!((equilibrium_of(LOW, HIGH, &shapes) - equilibrium).abs() < 1e-12);
        }
    }

    // Squares at 2 and 7 have their centre of mass at 4.5; areas 4 and 12 at 2 and 10 give 8 (arithmetic).
    #[test]
    fn the_centre_of_mass_is_weighed_by_area() {
        let off = off_centre_percent(LOW, HIGH, &squares(&[(2.0, 5.0), (7.0, 5.0)]));
        assert!((off - 5.0).abs() < 1e-12);
        let mut shapes = squares(&[(2.0, 0.0)]);
        shapes.push(
            [(8.0, -1.5), (12.0, -1.5), (12.0, 1.5), (8.0, 1.5)].map(|(x, y)| Point::new(x, y)).to_vec(),
        );
        assert!((centre_of_mass(&shapes).unwrap().x - 8.0).abs() < 1e-12);
    }
}
