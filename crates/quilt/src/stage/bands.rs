//! Bars in a band of cloth: where a strip of a width fits across a real outline, and how bars with
//! leaning ends lie one behind the other in it.
//!
//! Coordinates are the cloth's, turned so that bars lie along x. A span is a stretch of a band over
//! which the whole width of the band is cloth: bars are kept inside spans, so what is found lies in
//! the real outline. Where an outline leans, a bar with an end that leans along might reach further;
//! that is not looked for here.

use plane::{DECISION, Region, polygon};

/// A bar with two parallel long edges: where its lower and its upper edge start and end along x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bar {
    pub(super) low: [f64; 2],
    pub(super) high: [f64; 2],
}

impl Bar {
    pub(super) fn from(self) -> f64 {
        self.low[0].min(self.high[0])
    }

    pub(super) fn to(self) -> f64 {
        self.low[1].max(self.high[1])
    }

    /// Length along x.
    pub(super) fn long(self) -> f64 {
        self.to() - self.from()
    }

    /// The bar after half a turn about the origin of x: head to foot.
    pub(super) fn turned(self) -> Self {
        Self { low: [-self.high[1], -self.high[0]], high: [-self.low[1], -self.low[0]] }
    }
}

/// The stretches of x over which the band from `low` to `low + deep` lies wholly in the region.
pub(super) fn spans(region: &Region, low: f64, deep: f64) -> Vec<[f64; 2]> {
    let Some((lo, hi)) = polygon::bounds(&region.outer) else { return Vec::new() };
    let (bottom, top) = (low + DECISION, low + deep - DECISION);
    if bottom < lo.y - DECISION || top > hi.y + DECISION {
        return Vec::new();
    }
    let mut blocked: Vec<[f64; 2]> = Vec::new();
    for ring in std::iter::once(&region.outer).chain(&region.holes) {
        for (a, b) in polygon::edges(ring) {
            let (below, above) = if a.y <= b.y { (a, b) } else { (b, a) };
            if above.y <= bottom || below.y >= top {
                continue;
            }
            let rise = above.y - below.y;
            let at = |y: f64| {
                if rise < DECISION { below.x } else { below.x + (above.x - below.x) * (y - below.y) / rise }
            };
            let (x0, x1) = (at(below.y.max(bottom)), at(above.y.min(top)));
            let (x0, x1) = if rise < DECISION { (a.x, b.x) } else { (x0, x1) };
            blocked.push([x0.min(x1), x0.max(x1)]);
        }
    }
    blocked.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut free = Vec::new();
    let mut reached = f64::NEG_INFINITY;
    for [from, to] in blocked {
        if from > reached + DECISION && reached.is_finite() {
            let middle = plane::Point::new(f64::midpoint(reached, from), low + deep / 2.0);
            if region.contains(middle) {
                free.push([reached, from]);
            }
        }
        reached = reached.max(to);
    }
    free
}

/// A span being filled from its start.
#[derive(Clone, Debug)]
pub(super) struct Shelf {
    /// Which part of the cloth, and where the band lies in it.
    pub(super) low: f64,
    pub(super) span: [f64; 2],
    /// The last bar laid, where it lies.
    last: Option<Bar>,
}

impl Shelf {
    pub(super) const fn new(low: f64, span: [f64; 2]) -> Self {
        Self { low, span, last: None }
    }

    /// How far a bar must be moved along x to lie behind the last one.
    pub(super) fn shift(&self, bar: Bar) -> f64 {
        let first = self.span[0] - bar.from();
        self.last.map_or(first, |last| first.max(last.low[1] - bar.low[0]).max(last.high[1] - bar.high[0]))
    }

    /// What is left of the span when the bar has been laid; negative when it doesn't fit.
    pub(super) fn left(&self, bar: Bar) -> f64 {
        self.span[1] - bar.to() - self.shift(bar)
    }

    /// Lays the bar; returns how far it was moved along x.
    pub(super) fn lay(&mut self, bar: Bar) -> f64 {
        let by = self.shift(bar);
        let moved = |edge: [f64; 2]| edge.map(|x| x + by);
        self.last = Some(Bar { low: moved(bar.low), high: moved(bar.high) });
        by
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Point;

    #[test]
    fn a_span_ends_at_a_notch_and_at_a_hole() {
        let corners = [
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 10.0),
            (25.0, 10.0),
            (25.0, 6.0),
            (20.0, 6.0),
            (20.0, 10.0),
            (0.0, 10.0),
        ];
        let outer = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        let hole = [(5.0, 1.0), (5.0, 2.0), (6.0, 2.0), (6.0, 1.0)].map(|(x, y)| Point::new(x, y)).to_vec();
        let region = Region { outer, holes: vec![hole] };
        assert_eq!(spans(&region, 0.0, 4.0), [[0.0, 5.0], [6.0, 40.0]]);
        assert_eq!(spans(&region, 2.0, 4.0), [[0.0, 40.0]]);
        assert_eq!(spans(&region, 6.0, 4.0), [[0.0, 20.0], [25.0, 40.0]]);
        assert!(spans(&region, 7.0, 4.0).is_empty() && spans(&region, -1.0, 4.0).is_empty());
    }

    #[test]
    fn trapezoids_lie_closer_head_to_foot() {
        let bar = Bar { low: [0.0, 10.0], high: [2.0, 8.0] };
        let mut shelf = Shelf::new(0.0, [0.0, 30.0]);
        shelf.lay(bar);
        assert_eq!(shelf.left(bar), 10.0);
        assert_eq!(shelf.left(bar.turned()), 12.0);
        assert_eq!(bar.turned().turned(), bar);
    }
}
