//! Where a shape is narrow: necks between two wider parts, and ends that stay narrow.
//!
//! The two places where an inside disc touches one ring part that ring in two. If both parts have
//! room for wider discs, it is a neck; if only one has, the other part is an end. Every corner is
//! the end of something, so an end counts only when it is longer than that of a tip of the least
//! angle would be.

use super::touch::{On, Touch};
use super::way::Way;
use plane::{Point, Region};

/// A narrow place between two wider parts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Neck {
    pub(super) centre: Point,
    pub(super) width_in: f64,
}

/// A part of a ring around a narrow end.
#[derive(Clone, Copy, Debug)]
pub(super) struct End {
    pub(super) ring: usize,
    /// Where on the ring it begins and, going on along the ring, where it ends.
    pub(super) from_in: f64,
    pub(super) to_in: f64,
    /// The corner furthest out, and how far along the ring it is.
    pub(super) tip: Point,
    pub(super) tip_in: f64,
    /// From where it begins to be narrow to the tip.
    pub(super) length_in: f64,
    /// Its width halfway: the median of what was measured.
    pub(super) width_in: f64,
}

/// How long the end of a tip of `angle_deg` is, measured from where the inside disc is `width_in`
/// wide to the point: `w/2 · cos h / tan h` with h half the angle.
pub(super) fn tip_length(width_in: f64, angle_deg: f64) -> f64 {
    let half = (angle_deg / 2.0).to_radians();
    width_in / 2.0 * half.cos() / half.tan()
}

/// The rings of a region and what was measured on them.
pub(super) struct Measured<'a> {
    pub(super) ways: Vec<Way<'a>>,
    touches: &'a [Touch],
}

impl<'a> Measured<'a> {
    pub(super) fn new(region: &'a Region, touches: &'a [Touch]) -> Self {
        let ways = std::iter::once(&region.outer).chain(&region.holes).map(|ring| Way::new(ring)).collect();
        Self { ways, touches }
    }

    /// Necks narrower than `width_in`, the narrowest first.
    pub(super) fn necks(&self, width_in: f64) -> Vec<Neck> {
        let wide = self.wide(width_in);
        let mut narrow: Vec<&Touch> = self
            .touches
            .iter()
            .filter(|touch| touch.width_in < width_in && self.is_neck(touch, &wide))
            .collect();
        narrow.sort_by(|a, b| a.width_in.total_cmp(&b.width_in));
        let mut kept: Vec<&Touch> = Vec::new();
        for touch in narrow {
            let known = kept.iter().any(|other| {
                self.joined(touch.from, other.from, &wide) || self.joined(touch.from, other.other, &wide)
            });
            if !known {
                kept.push(touch);
            }
        }
        kept.into_iter().map(|touch| Neck { centre: touch.centre, width_in: touch.width_in }).collect()
    }

    /// Ends narrower than `width_in` and longer than `longest_in`, none inside another.
    pub(super) fn ends(&self, width_in: f64, longest_in: f64) -> Vec<End> {
        let wide = self.wide(width_in);
        let mut parts: Vec<(On, On)> = self
            .touches
            .iter()
            .filter(|touch| touch.width_in < width_in)
            .filter_map(|touch| self.narrow_part(touch, &wide))
            .collect();
        let length = |(from, to): &(On, On)| self.ways[from.ring].forward(from.along_in, to.along_in);
        parts.sort_by(|a, b| length(b).total_cmp(&length(a)));
        let mut kept: Vec<(On, On)> = Vec::new();
        for part in parts {
            if !kept.iter().any(|other| self.overlap(*other, part)) {
                kept.push(part);
            }
        }
        kept.into_iter().filter_map(|part| self.end(part)).filter(|end| end.length_in > longest_in).collect()
    }

    /// For each ring the places, in order, where a disc of `width_in` has room.
    fn wide(&self, width_in: f64) -> Vec<Vec<f64>> {
        let mut wide = vec![Vec::new(); self.ways.len()];
        for touch in self.touches.iter().filter(|touch| touch.width_in >= width_in) {
            wide[touch.from.ring].push(touch.from.along_in);
        }
        wide
    }

    fn is_neck(&self, touch: &Touch, wide: &[Vec<f64>]) -> bool {
        touch.from.ring != touch.other.ring
            || (self.has_wide(touch.from, touch.other, wide) && self.has_wide(touch.other, touch.from, wide))
    }

    /// The part of the ring on the side of a touch where nothing is wide, if only one is so.
    fn narrow_part(&self, touch: &Touch, wide: &[Vec<f64>]) -> Option<(On, On)> {
        let (from, to) = (touch.from, touch.other);
        if from.ring != to.ring {
            return None;
        }
        match (self.has_wide(from, to, wide), self.has_wide(to, from, wide)) {
            (false, true) => Some((from, to)),
            (true, false) => Some((to, from)),
            _ => None,
        }
    }

    /// Whether something is wide between two places of one ring, going forward.
    fn has_wide(&self, from: On, to: On, wide: &[Vec<f64>]) -> bool {
        let places = &wide[from.ring];
        let (a, b) = (from.along_in, to.along_in);
        let from_a = places.partition_point(|&at| at <= a);
        let to_b = places.partition_point(|&at| at < b);
        if a <= b { from_a < to_b } else { from_a < places.len() || to_b > 0 }
    }

    /// Whether two places lie on one ring with nothing wide between them.
    fn joined(&self, a: On, b: On, wide: &[Vec<f64>]) -> bool {
        a.ring == b.ring && (!self.has_wide(a, b, wide) || !self.has_wide(b, a, wide))
    }

    fn overlap(&self, (a, b): (On, On), (c, _): (On, On)) -> bool {
        let way = &self.ways[a.ring];
        a.ring == c.ring && way.forward(a.along_in, c.along_in) <= way.forward(a.along_in, b.along_in)
    }

    fn end(&self, (from, to): (On, On)) -> Option<End> {
        let way = &self.ways[from.ring];
        let far = way.forward(from.along_in, to.along_in);
        let base = from.at.midpoint(to.at);
        let inside = |along_in: f64| way.forward(from.along_in, along_in) <= far;
        let tip = (0..way.corners.len())
            .filter(|&i| inside(way.at(i)))
            .max_by(|&a, &b| way.corners[a].distance(base).total_cmp(&way.corners[b].distance(base)))?;
        let mut widths: Vec<f64> = self
            .touches
            .iter()
            .filter(|touch| touch.from.ring == from.ring && inside(touch.from.along_in))
            .map(|touch| touch.width_in)
            .collect();
        widths.sort_by(f64::total_cmp);
        Some(End {
            ring: from.ring,
            from_in: from.along_in,
            to_in: to.along_in,
            tip: way.corners[tip],
            tip_in: way.at(tip),
            length_in: way.corners[tip].distance(base),
            width_in: widths.get(widths.len() / 2).copied()?,
        })
    }
}
