//! The main radial bend of a lens, by the division model: `straight = bent / (1 + k r²)`, r from the
//! middle of the picture in halves of its diagonal. One number, and exact both ways. (A. Fitzgibbon,
//! "Simultaneous linear estimation of multiple view geometry and lens distortion", 2001.)

use plane::Point;

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
    pub(super) fn straight(&self, px: Point, k: f64) -> Point {
        let bent = (px - self.middle) * (1.0 / self.half);
        Point::ORIGIN + bent * (1.0 / (1.0 + k * bent.dot(bent)))
    }

    /// The way back, in pixels. Not finite where no place in the picture is bent so.
    pub(super) fn bent(&self, straight: Point, k: f64) -> Point {
        let v = straight.to_vec2();
        self.middle + v * (2.0 * self.half / (1.0 + (1.0 - 4.0 * k * v.dot(v)).sqrt()))
    }
}

#[cfg(test)]
mod tests {
    use super::Frame;
    use plane::Point;

    #[test]
    fn straightening_is_undone_by_bending() {
        let frame = Frame::of([4000, 3000]);
        for k in [-0.2, -0.03, 0.0, 0.05, 0.15] {
            for p in [Point::new(0.5, 2999.5), Point::new(2000.0, 1500.0), Point::new(3100.0, 200.0)] {
                assert!(frame.bent(frame.straight(p, k), k).distance(p) < 1e-8);
            }
        }
    }
}
