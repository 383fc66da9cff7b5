//! Level bands across an outline: where a strip of cloth lies wholly inside.

use plane::{Point, polygon};

/// The stretches of x at which the outline holds everything from `bottom` to `top`, left to right.
/// Exact: a stretch ends where an edge enters the band.
pub(super) fn free(outline: &[Point], [bottom, top]: [f64; 2]) -> Vec<[f64; 2]> {
    let Some((lo, hi)) = polygon::bounds(outline) else { return Vec::new() };
    let mut taken: Vec<[f64; 2]> =
        polygon::edges(outline).filter_map(|(a, b)| within_band(a, b, [bottom, top])).collect();
    taken.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let (mut open, mut at) = (Vec::new(), lo.x - 1.0);
    for [from, to] in taken.into_iter().chain([[hi.x + 1.0; 2]]) {
        let middle = Point::new(at.midpoint(from), bottom.midpoint(top));
        if from > at && polygon::contains(outline, middle) {
            open.push([at, from]);
        }
        at = at.max(to);
    }
    open
}

/// The x that an edge takes inside a band, if it enters it.
fn within_band(a: Point, b: Point, [bottom, top]: [f64; 2]) -> Option<[f64; 2]> {
    if a.y.max(b.y) <= bottom || a.y.min(b.y) >= top {
        return None;
    }
    let at = |y: f64| {
        let share = if a.y == b.y { 0.0 } else { (y - a.y) / (b.y - a.y) };
        a.lerp(b, share.clamp(0.0, 1.0)).x
    };
    let ends = if a.y == b.y { [a.x, b.x] } else { [at(bottom), at(top)] };
    Some([ends[0].min(ends[1]), ends[0].max(ends[1])])
}

/// The highest point of an outline at `x`.
pub(super) fn highest(outline: &[Point], x: f64) -> Option<f64> {
    let crossed = polygon::edges(outline).filter(|(a, b)| (a.x > x) != (b.x > x));
    crossed.map(|(a, b)| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)).reduce(f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_band_is_free_where_no_edge_enters_it() {
        let square = points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        assert_eq!(free(&square, [2.0, 5.0]), [[0.0, 10.0]]);
        assert_eq!(free(&square, [8.0, 11.0]), Vec::<[f64; 2]>::new());
        let prongs = points(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (7.0, 10.0),
            (7.0, 4.0),
            (3.0, 4.0),
            (3.0, 10.0),
            (0.0, 10.0),
        ]);
        assert_eq!(free(&prongs, [6.0, 9.0]), [[0.0, 3.0], [7.0, 10.0]]);
        assert_eq!(free(&prongs, [1.0, 3.0]), [[0.0, 10.0]]);
        assert_eq!(free(&prongs, [3.0, 5.0]), [[0.0, 3.0], [7.0, 10.0]]);
        let tent = points(&[(0.0, 0.0), (10.0, 0.0), (5.0, 10.0)]);
        assert_eq!(free(&tent, [2.0, 6.0]), [[3.0, 7.0]]);
        assert_eq!(highest(&tent, 2.5), Some(5.0));
        assert_eq!(highest(&tent, 11.0), None);
    }
}
