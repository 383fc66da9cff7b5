//! Digits for machines that draw with a pen or a blade: single strokes, set by hand on a grid of four by six.

use plane::{Point, Vec2};

/// Width of a digit, and of the way to the next, as shares of its height.
const WIDE: f64 = 4.0 / 6.0;
const STEP: f64 = 1.0;
/// The point is narrower.
const POINT_STEP: f64 = 2.5 / 6.0;
/// How far below the digits the line runs that tells which way they are read.
const UNDER: f64 = 0.25;

/// Width and height that a number takes in digits of height 1, with the line below it.
#[must_use]
pub fn pen_size(number: &str) -> [f64; 2] {
    let wide: f64 = number.chars().map(step).sum();
    [(wide - (STEP - WIDE)).max(0.0), 1.0 + UNDER]
}

/// A whole number, or one with points in it as in `12.1`, round a middle, in digits `high_in` inches high. A line
/// below tells 6 from 9 when it is seen from any side; what is neither digit nor point is left out.
#[must_use]
pub fn pen_number(number: &str, middle: Point, high_in: f64) -> Vec<Vec<Point>> {
    let [wide, tall] = pen_size(number);
    let corner = Vec2::new(-wide / 2.0, UNDER - tall / 2.0);
    let at = |x: f64, y: f64| middle + (corner + Vec2::new(x, y)) * high_in;
    let mut strokes = Vec::new();
    let mut left = 0.0;
    for sign in number.chars() {
        let place = |&(x, y): &(u8, u8)| at(left + f64::from(x) / 6.0, f64::from(y) / 6.0);
        strokes.extend(lines(sign).iter().map(|line| line.iter().map(place).collect::<Vec<Point>>()));
        left += step(sign);
    }
    if !strokes.is_empty() {
        strokes.push(vec![at(0.0, -UNDER), at(wide, -UNDER)]);
    }
    strokes
}

fn step(sign: char) -> f64 {
    match sign {
        '0'..='9' => STEP,
        '.' => POINT_STEP,
        _ => 0.0,
    }
}

/// The strokes of a sign, from its lower left corner.
fn lines(sign: char) -> &'static [&'static [(u8, u8)]] {
    match sign {
        '0' => &[&[(0, 1), (0, 5), (1, 6), (3, 6), (4, 5), (4, 1), (3, 0), (1, 0), (0, 1)]],
        '1' => &[&[(1, 5), (2, 6), (2, 0)], &[(1, 0), (3, 0)]],
        '2' => &[&[(0, 5), (1, 6), (3, 6), (4, 5), (4, 4), (0, 0), (4, 0)]],
        '3' => &[
            &[(0, 5), (1, 6), (3, 6), (4, 5), (4, 4), (3, 3), (4, 2), (4, 1), (3, 0), (1, 0), (0, 1)],
            &[(2, 3), (3, 3)],
        ],
        '4' => &[&[(3, 0), (3, 6), (0, 2), (4, 2)]],
        '5' => &[&[(4, 6), (0, 6), (0, 3), (3, 3), (4, 2), (4, 1), (3, 0), (1, 0), (0, 1)]],
        '6' => &[&[
            (4, 5),
            (3, 6),
            (1, 6),
            (0, 5),
            (0, 1),
            (1, 0),
            (3, 0),
            (4, 1),
            (4, 2),
            (3, 3),
            (1, 3),
            (0, 2),
        ]],
        '7' => &[&[(0, 6), (4, 6), (1, 0)]],
        '8' => &[
            &[(1, 3), (0, 4), (0, 5), (1, 6), (3, 6), (4, 5), (4, 4), (3, 3), (1, 3)],
            &[(1, 3), (0, 2), (0, 1), (1, 0), (3, 0), (4, 1), (4, 2), (3, 3)],
        ],
        '9' => &[&[
            (0, 1),
            (1, 0),
            (3, 0),
            (4, 1),
            (4, 5),
            (3, 6),
            (1, 6),
            (0, 5),
            (0, 4),
            (1, 3),
            (3, 3),
            (4, 4),
        ]],
        '.' => &[&[(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)]],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::polygon;

    fn rounded(strokes: &[Vec<Point>]) -> Vec<Vec<(i64, i64)>> {
        let whole = |p: &Point| ((p.x * 1e3).round() as i64, (p.y * 1e3).round() as i64);
        let mut all: Vec<Vec<(i64, i64)>> = strokes
            .iter()
            .map(|stroke| {
                let mut points: Vec<_> = stroke.iter().map(whole).collect();
                points.sort_unstable();
                points
            })
            .collect();
        all.sort();
        all
    }

    #[test]
    fn digits_differ_from_each_other_even_turned_over() {
        let mut seen = Vec::new();
        for sign in "0123456789".chars() {
            let strokes = pen_number(&sign.to_string(), Point::ORIGIN, 1.0);
            let over = strokes.iter().map(|stroke| stroke.iter().map(|p| Point::new(-p.x, -p.y)).collect());
            seen.push(rounded(&over.collect::<Vec<_>>()));
            seen.push(rounded(&strokes));
        }
        let count = seen.len();
        seen.sort();
        seen.dedup();
        assert_eq!((count, seen.len()), (20, 20));
    }

    #[test]
    fn a_number_fills_its_size_round_its_middle() {
        for number in ["4", "80", "12.5", "208"] {
            let middle = Point::new(3.0, -2.0);
            let strokes = pen_number(number, middle, 0.375);
            let (low, high) = polygon::bounds(&strokes.concat()).expect("strokes");
            let [wide, tall] = pen_size(number).map(|length| length * 0.375);
            assert!((high.x - low.x - wide).abs() < 1e-9 && (high.y - low.y - tall).abs() < 1e-9, "{number}");
            assert!(low.midpoint(high).distance(middle) < 1e-9, "{number}");
        }
        assert!(pen_number("", Point::ORIGIN, 1.0).is_empty());
    }
}
