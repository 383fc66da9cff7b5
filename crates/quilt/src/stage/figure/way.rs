//! A closed ring as a way that is walked: places by the inches from its first corner.

use plane::Point;

/// A ring with the distance of each corner from the first.
#[derive(Clone, Debug)]
pub(super) struct Way<'a> {
    pub(super) corners: &'a [Point],
    at_in: Vec<f64>,
    pub(super) length_in: f64,
}

impl<'a> Way<'a> {
    pub(super) fn new(corners: &'a [Point]) -> Self {
        let mut length_in = 0.0;
        let at_in = plane::polygon::edges(corners)
            .map(|(a, b)| {
                let at = length_in;
                length_in += a.distance(b);
                at
            })
            .collect();
        Self { corners, at_in, length_in }
    }

    /// How far corner `i` is along.
    pub(super) fn at(&self, i: usize) -> f64 {
        self.at_in[i % self.at_in.len()]
    }

    /// Where one is after so many inches; beyond the end it goes round again.
    pub(super) fn point(&self, along_in: f64) -> Point {
        let along = self.held(along_in);
        let i = self.at_in.partition_point(|&at| at <= along).saturating_sub(1);
        let (a, b) = (self.corners[i], self.corners[(i + 1) % self.corners.len()]);
        let side = a.distance(b);
        if side > 0.0 { a.lerp(b, ((along - self.at_in[i]) / side).min(1.0)) } else { a }
    }

    /// The same place within once round.
    pub(super) fn held(&self, along_in: f64) -> f64 {
        let held = along_in.rem_euclid(self.length_in);
        if held < self.length_in { held } else { 0.0 }
    }

    /// How far it is forward from one place to another.
    pub(super) fn forward(&self, from_in: f64, to_in: f64) -> f64 {
        self.held(to_in - from_in)
    }

    /// The part from one place forward to another, both ends included.
    pub(super) fn part(&self, from_in: f64, to_in: f64) -> Vec<Point> {
        let far = self.forward(from_in, to_in);
        let mut between: Vec<(f64, Point)> = (0..self.corners.len())
            .map(|i| (self.forward(from_in, self.at_in[i]), self.corners[i]))
            .filter(|(at, _)| *at > 0.0 && *at < far)
            .collect();
        between.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut part = vec![self.point(from_in)];
        part.extend(between.into_iter().map(|(_, p)| p));
        part.push(self.point(to_in));
        part.dedup_by(|a, b| a.distance(*b) < plane::DECISION);
        part
    }

    /// How far the way turns at corner `i`, in radians, left positive.
    pub(super) fn turn(&self, i: usize) -> f64 {
        let n = self.corners.len();
        let (a, b, c) = (self.corners[(i + n - 1) % n], self.corners[i % n], self.corners[(i + 1) % n]);
        (b - a).cross(c - b).atan2((b - a).dot(c - b))
    }

    /// The angle at a place between the places so many inches before and after it, in degrees.
    pub(super) fn angle_deg(&self, along_in: f64, arm_in: f64) -> f64 {
        let p = self.point(along_in);
        let (back, on) = (self.point(along_in - arm_in) - p, self.point(along_in + arm_in) - p);
        back.cross(on).abs().atan2(back.dot(on)).to_degrees()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_walked_round() {
        let square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y));
        let way = Way::new(&square);
        assert_eq!(way.length_in, 8.0);
        assert_eq!(way.point(3.0), Point::new(2.0, 1.0));
        assert_eq!(way.point(-1.0), Point::new(0.0, 1.0));
        assert_eq!(way.point(9.0), Point::new(1.0, 0.0));
        assert_eq!(way.forward(7.0, 1.0), 2.0);
        assert_eq!(
            way.part(7.0, 3.0),
            [(0.0, 1.0), (0.0, 0.0), (2.0, 0.0), (2.0, 1.0)].map(|(x, y)| Point::new(x, y))
        );
        assert!((way.turn(1).to_degrees() - 90.0).abs() < 1e-12);
        assert!((way.angle_deg(2.0, 0.5) - 90.0).abs() < 1e-9);
    }
}
