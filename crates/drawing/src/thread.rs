//! Thread that lies on top of cloth, in its own colour and true width.
//!
//! A seam's stitches are drawn as what they mean ([`crate::Stroke`]); quilting is seen as what it is.

use colour::Srgb;
use plane::{Point, fill};

/// Lines of thread of one colour and width.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadItem {
    /// The lines, in sewing order.
    pub strokes: Vec<fill::Stroke>,
    /// Colour of the thread.
    pub colour: Srgb,
    /// Its true width in inches, whatever the weight of the drawing.
    pub width_in: f64,
    /// Length of stitch and gap in inches; `None` for a plain line.
    pub dash_in: Option<[f64; 2]>,
    /// How far a soft shade reaches out beside it: thread sinks into the layers, and without a shade
    /// it can't be seen on cloth of its own colour. 0 for none.
    pub shade_in: f64,
}

impl ThreadItem {
    /// Length of all lines in inches.
    #[must_use]
    pub fn length_in(&self) -> f64 {
        self.strokes.iter().map(fill::Stroke::length).sum()
    }

    /// The same thread at so many pixels an inch: as plain lines where the gaps between stitches are too
    /// small to be seen and would only shimmer.
    #[must_use]
    pub fn told_apart(mut self, pixels_per_in: f64) -> Self {
        self.dash_in = self.dash_in.filter(|[_, gap]| gap * pixels_per_in >= LEAST_GAP_PX);
        self
    }
}

/// Gaps smaller than this run together.
const LEAST_GAP_PX: f64 = 1.5;

/// How many places in a row may be left out.
const MOST_LEFT_OUT: usize = 32;

/// The places of a line without those that lie within `off_in` of the straight way past them.
pub(crate) fn thinned(points: &[Point], off_in: f64) -> Vec<Point> {
    let mut kept: Vec<Point> = points.first().copied().into_iter().collect();
    let mut last = 0;
    for next in 2..points.len() {
        let (from, to) = (points[last], points[next]);
        let between = &points[last + 1..next];
        let is_far = |p: &Point| off_way(*p, from, to) > off_in;
        if between.len() > MOST_LEFT_OUT || between.iter().any(is_far) {
            last = next - 1;
            kept.push(points[last]);
        }
    }
    kept.extend(points.get(1..).and_then(<[Point]>::last));
    kept
}

/// Distance from a straight piece.
fn off_way(p: Point, from: Point, to: Point) -> f64 {
    let along = to - from;
    let square = along.dot(along);
    let share = if square > 0.0 { ((p - from).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(from.lerp(to, share))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_out_lies_on_the_way() {
        let wave = |i: u32| Point::new(f64::from(i) / 16.0, (f64::from(i) / 20.0).sin());
        let points: Vec<Point> = (0..400).map(wave).collect();
        let kept = thinned(&points, 1.0 / 160.0);
        assert!(kept.len() < points.len() / 4, "{}", kept.len());
        assert_eq!((kept.first(), kept.last()), (points.first(), points.last()));
        for p in &points {
            let off = kept.windows(2).map(|w| off_way(*p, w[0], w[1])).fold(f64::INFINITY, f64::min);
            assert!(off <= 1.0 / 160.0);
        }
        for few in 0..3 {
            assert_eq!(thinned(&points[..few], 1.0), points[..few]);
        }
    }
    #[test]
    fn stitches_are_drawn_where_they_can_be_told_apart() {
        let strokes = vec![fill::Stroke::open(vec![Point::ORIGIN, Point::new(4.0, 0.0)])];
        let colour = crate::INK;
        let thread =
            ThreadItem { strokes, colour, width_in: 0.03, dash_in: Some([0.08, 0.03]), shade_in: 0.0 };
        assert_eq!(thread.clone().told_apart(50.0).dash_in, Some([0.08, 0.03]));
        assert_eq!(thread.told_apart(49.0).dash_in, None);
    }
}
