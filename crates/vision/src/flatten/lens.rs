//! How a lens bends: `straight = bent / (1 + k r² + m r⁴) + lean r²`, places from the middle of the
//! picture, r and all lengths in halves of its diagonal.
//!
//! The denominator is the division model (A. Fitzgibbon, "Simultaneous linear estimation of multiple
//! view geometry and lens distortion", 2001) with a second term; the lean is what glass that sits
//! askew adds. Of its two parts only the one along r² is needed: the other is a perspective.

use plane::{Point, Vec2};

/// How many numbers a lens has.
pub(super) const NUMBERS: usize = 4;

/// The numbers of a lens; of one that doesn't bend all are nought.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Lens {
    /// Bend in r² and in r⁴.
    pub(super) bend: [f64; 2],
    /// Lean.
    pub(super) lean: Vec2,
}

impl Lens {
    /// A lens with a bend in r² only.
    pub(super) fn of_bend(k: f64) -> Self {
        Self { bend: [k, 0.0], lean: Vec2::default() }
    }

    pub(super) fn numbers(self) -> [f64; NUMBERS] {
        [self.bend[0], self.bend[1], self.lean.x, self.lean.y]
    }

    /// The lens with its numbers moved.
    pub(super) fn shifted(self, by: [f64; NUMBERS]) -> Self {
        let [k, m, x, y] = by;
        Self { bend: [self.bend[0] + k, self.bend[1] + m], lean: self.lean + Vec2::new(x, y) }
    }

    fn straight(self, bent: Vec2) -> Vec2 {
        let (square, [k, m]) = (bent.dot(bent), self.bend);
        bent * (1.0 / (1.0 + square * (k + m * square))) + self.lean * square
    }

    /// The way back by Newton's steps; not finite where no place is bent so.
    fn bent(self, straight: Vec2) -> Vec2 {
        let [k, m] = self.bend;
        let nowhere = Vec2::new(f64::NAN, f64::NAN);
        // Exact where there is a bend in r² only.
        let mut bent = straight * (2.0 / (1.0 + (1.0 - 4.0 * k * straight.dot(straight)).max(0.0).sqrt()));
        for _ in 0..STEPS {
            let square = bent.dot(bent);
            let divisor = 1.0 + square * (k + m * square);
            let off = straight - bent * (1.0 / divisor) - self.lean * square;
            let steep = bent * (-2.0 * (k + 2.0 * m * square) / (divisor * divisor));
            let along = |v: Vec2, unit: Vec2| unit * (1.0 / divisor) + bent * v.dot(unit);
            let right = along(steep, Vec2::new(1.0, 0.0)) + self.lean * (2.0 * bent.x);
            let down = along(steep, Vec2::new(0.0, 1.0)) + self.lean * (2.0 * bent.y);
            let turns = right.cross(down);
            // Where places run back on themselves, the picture shows nothing.
            if divisor <= 0.0 || turns <= 0.0 || turns.is_nan() {
                return nowhere;
            }
            let step = Vec2::new(off.cross(down) / turns, right.cross(off) / turns);
            bent += step;
            if step.dot(step) < NEAR * NEAR {
                return bent;
            }
        }
        nowhere
    }
}

/// Newton's steps, at most: from so near a start four do.
const STEPS: usize = 12;
/// A step this small, in half diagonals, is the last.
const NEAR: f64 = 1e-9;

/// Where a picture's middle is and how large it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    middle: Point,
    /// Half its diagonal in pixels.
    pub(super) half: f64,
}

impl Frame {
    pub(super) fn of(size_px: [u32; 2]) -> Self {
        let [width, height] = size_px.map(f64::from);
        Self { middle: Point::new(width / 2.0, height / 2.0), half: (width.hypot(height) / 2.0).max(1.0) }
    }

    /// A place in pixels, straightened, in half diagonals from the middle; y down.
    pub(super) fn straight(&self, px: Point, lens: Lens) -> Point {
        Point::ORIGIN + lens.straight((px - self.middle) * (1.0 / self.half))
    }

    /// The way back, in pixels. Not finite where no place in the picture is bent so.
    pub(super) fn bent(&self, straight: Point, lens: Lens) -> Point {
        self.middle + lens.bent(straight.to_vec2()) * self.half
    }
}

#[cfg(test)]
mod tests {
    use super::{Frame, Lens};
    use plane::{Point, Vec2};

    #[test]
    fn straightening_is_undone_by_bending() {
        let frame = Frame::of([4000, 3000]);
        for k in [-0.2, -0.03, 0.0, 0.05, 0.15] {
            for (m, lean) in [(0.0, 0.0), (0.03, 0.002), (-0.03, -0.004)] {
                let lens = Lens { bend: [k, m], lean: Vec2::new(lean, lean / 2.0) };
                for p in [Point::new(0.5, 2999.5), Point::new(2000.0, 1500.0), Point::new(3100.0, 200.0)] {
                    let back = frame.bent(frame.straight(p, lens), lens);
                    assert!(back.distance(p) < 1e-8, "{lens:?} {p:?} {back:?}");
                }
            }
        }
    }

    #[test]
    fn nothing_is_shown_where_places_would_run_back() {
        let frame = Frame::of([4000, 3000]);
        // At a bend of 0.2, r / (1 + 0.2 r²) never exceeds 1.118.
        assert!(!frame.bent(Point::new(1.2, 0.0), Lens::of_bend(0.2)).is_finite());
        assert!(frame.bent(Point::new(1.1, 0.0), Lens::of_bend(0.2)).is_finite());
    }
}
