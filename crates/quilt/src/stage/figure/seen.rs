//! Which parts of an outline lie free, and which under higher layers, where the edge is left flat.

use plane::{Point, Region, polygon};

/// The higher layers, with their bounds.
pub(super) struct Above<'a>(Vec<(&'a Region, Point, Point)>);

impl<'a> Above<'a> {
    pub(super) fn new(regions: impl IntoIterator<Item = &'a Region>) -> Self {
        let bounded = |region: &'a Region| {
            let (lo, hi) = polygon::bounds(&region.outer)?;
            Some((region, lo, hi))
        };
        Self(regions.into_iter().filter_map(bounded).collect())
    }

    /// Whether a place lies under one of them.
    pub(super) fn covers(&self, p: Point) -> bool {
        self.0.iter().any(|(region, lo, hi)| {
            p.x >= lo.x && p.x <= hi.x && p.y >= lo.y && p.y <= hi.y && region.contains(p)
        })
    }

    /// The parts of the straight line from `a` to `b` that lie free.
    pub(super) fn free_parts(&self, a: Point, b: Point) -> Vec<(Point, Point)> {
        let mut cuts = vec![0.0, 1.0];
        let (lo, hi) = (Point::new(a.x.min(b.x), a.y.min(b.y)), Point::new(a.x.max(b.x), a.y.max(b.y)));
        for (region, low, high) in &self.0 {
            if hi.x < low.x || hi.y < low.y || high.x < lo.x || high.y < lo.y {
                continue;
            }
            let rings = std::iter::once(&region.outer).chain(&region.holes);
            cuts.extend(rings.flat_map(|ring| polygon::edges(ring)).filter_map(|side| crossing(a, b, side)));
        }
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2)
            .filter(|pair| pair[1] - pair[0] > 1e-12)
            .map(|pair| (a.lerp(b, pair[0]), a.lerp(b, pair[1])))
            .filter(|(from, to)| !self.covers(from.midpoint(*to)))
            .collect()
    }
}

/// Where a line crosses a side, as a share of the line.
fn crossing(a: Point, b: Point, (c, d): (Point, Point)) -> Option<f64> {
    let (u, v) = (b - a, d - c);
    let cross = u.cross(v);
    if cross == 0.0 {
        return None;
    }
    let (t, s) = ((c - a).cross(v) / cross, (c - a).cross(u) / cross);
    ((0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&s)).then_some(t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_under_a_higher_layer_is_not_free() {
        let mut ring = Region::rectangle(4.0, 4.0);
        ring.holes =
            vec![[(1.0, 1.0), (1.0, 3.0), (3.0, 3.0), (3.0, 1.0)].map(|(x, y)| Point::new(x, y)).to_vec()];
        let above = Above::new([&ring]);
        let parts = above.free_parts(Point::new(-2.0, 2.0), Point::new(6.0, 2.0));
        let lengths: Vec<f64> = parts.iter().map(|(a, b)| a.distance(*b)).collect();
        assert_eq!(lengths, vec![2.0, 2.0, 2.0]);
        assert!(above.covers(Point::new(0.5, 2.0)) && !above.covers(Point::new(2.0, 2.0)));
        assert_eq!(Above::new([]).free_parts(Point::ORIGIN, Point::new(1.0, 0.0)).len(), 1);
    }
}
