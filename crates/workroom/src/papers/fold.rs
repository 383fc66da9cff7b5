//! Binding close by: the fold at a corner's own angle.
//!
//! A strip folded over the bisector of a corner goes on in line with the next side, whatever the angle: the
//! bisector carries the direction of one side into that of the other, backwards. A strip folded in half is
//! `d` wide; seen at a corner of inside angle `A` the fold reaches `d / sin(A/2)` along the bisector.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use colour::Srgb;
use drawing::{MADDER, Stroke};
use plane::{Point, Vec2};
use quilt::stage::binding::{BindingChoice, Corner};

/// The binding, so that it stands out from the piece.
const STRIP: Srgb = Srgb::from_number(0xd9_a9_8f);
/// How large corners are drawn.
const SCALE: f64 = 0.56;
/// How much of each side is drawn.
const SIDE_IN: f64 = 2.4;

/// Room for the drawings of a corner, in inches.
const ROOM_IN: f64 = 3.0;
/// A corner laid so that the side before it runs to the right and the piece lies above; the corner is the
/// origin.
pub(super) struct Bend {
    /// Along the side after the corner.
    after: Vec2,
    /// From the corner along the bisector.
    bisector: Vec2,
    half_sine: f64,
    seam_in: f64,
    /// How wide the folded strip is.
    wide_in: f64,
}

impl Bend {
    pub(super) fn new(corner: &Corner, choice: &BindingChoice) -> Self {
        let turn = (180.0 - corner.inside_deg).to_radians();
        let half = (corner.inside_deg / 2.0).to_radians();
        let towards = std::f64::consts::PI - half;
        Self {
            after: Vec2::new(turn.cos(), turn.sin()),
            bisector: Vec2::new(towards.cos(), towards.sin()),
            half_sine: half.sin().max(0.05),
            seam_in: choice.seam_in,
            wide_in: choice.strip_width_in / 2.0,
        }
    }

    fn side(&self) -> [Point; 3] {
        [Point::new(-SIDE_IN, 0.0), Point::ORIGIN, Point::ORIGIN + self.after * SIDE_IN]
    }

    /// Where the seam lines of both sides meet.
    fn seams_meet(&self) -> Point {
        Point::ORIGIN + self.bisector * (self.seam_in / self.half_sine)
    }

    /// Where the inner edges of the strips meet.
    fn inner_meet(&self) -> Point {
        Point::ORIGIN + self.bisector * (self.wide_in / self.half_sine)
    }

    fn piece(&self, pad: &mut Pad, by: Vec2) {
        let [a, b, c] = self.side().map(|p| p + by);
        let (lift, inward) = (Vec2::new(0.0, 1.7), self.after.left() * 1.7);
        let inner = Point::ORIGIN + self.bisector * (1.7 / self.half_sine) + by;
        pad.area(vec![a, b, c, c + inward, inner, a + lift], drawing::CALICO, 1.0);
        pad.line(vec![a, b, c], Stroke::Outline);
    }

    fn strip_before(&self, pad: &mut Pad, by: Vec2) {
        let start = Point::new(-SIDE_IN, 0.0);
        let lies = vec![start, Point::ORIGIN, self.inner_meet(), start + Vec2::new(0.0, self.wide_in)];
        band(pad, lies.into_iter().map(|p| p + by).collect());
    }

    fn strip_after(&self, pad: &mut Pad, by: Vec2) {
        let (left, end) = (self.after.left() * self.wide_in, Point::ORIGIN + self.after * SIDE_IN);
        let lies = vec![Point::ORIGIN, end, end + left, Point::ORIGIN + left];
        band(pad, lies.into_iter().map(|p| p + by).collect());
    }

    fn seam_before(&self, pad: &mut Pad, by: Vec2) {
        let stop = self.seams_meet() + by;
        pad.seam(&[Point::new(-SIDE_IN, self.seam_in) + by, stop], false);
        pad.dot(stop, 0.045, MADDER);
    }

    fn seam_after(&self, pad: &mut Pad, by: Vec2, from: Point) {
        let end = Point::ORIGIN + self.after * SIDE_IN + self.after.left() * self.seam_in;
        pad.seam(&[from + by, end + by], false);
    }

    /// The next drawing stands so far to the right.
    fn next(&self) -> Vec2 {
        let reach = (self.after.x * SIDE_IN).max(0.0).max((-self.after.x * 1.6).max(0.0));
        Vec2::new(SIDE_IN + reach + 0.5, 0.0)
    }

    /// Up over the bisector, then down square to the next side.
    pub(super) fn folded(&self) -> Pad {
        let mut pad = Pad::at_scale(self.fitting());
        self.piece(&mut pad, Vec2::new(0.0, 0.0));
        self.strip_before(&mut pad, Vec2::new(0.0, 0.0));
        // Folded up it goes on in line with the next side, backwards.
        let (back, left) = (self.after * -1.5, self.after.left() * self.wide_in);
        let up = vec![Point::ORIGIN, Point::ORIGIN + back, Point::ORIGIN + back + left, self.inner_meet()];
        band(&mut pad, up);
        pad.line(vec![Point::ORIGIN, self.inner_meet()], Stroke::Mark);
        self.seam_before(&mut pad, Vec2::new(0.0, 0.0));
        let by = self.next();
        self.piece(&mut pad, by);
        self.strip_before(&mut pad, by);
        self.strip_after(&mut pad, by);
        let fold = Point::ORIGIN + self.after.left() * self.wide_in;
        pad.line(vec![Point::ORIGIN + by, fold + by], Stroke::Mark);
        self.seam_before(&mut pad, by);
        self.seam_after(&mut pad, by, Point::ORIGIN + self.after.left() * self.seam_in);
        for (no, by) in [("1", Vec2::new(0.0, 0.0)), ("2", by)] {
            pad.bold(Point::new(-SIDE_IN + 0.2, 1.45) + by, NUMBER_PT, no);
        }
        pad
    }

    /// Two drawings beside each other must have room on the page's share.
    fn fitting(&self) -> f64 {
        let left = self.inner_meet().x.min(-SIDE_IN);
        let right = (self.after.x * SIDE_IN).max(0.0).max(-self.after.x * 1.5);
        let wide = self.next().x + right - left + 0.3;
        SCALE.min(ROOM_IN / wide)
    }

    pub(super) fn turned(&self) -> Pad {
        let mut pad = Pad::at_scale(SCALE);
        let none = Vec2::new(0.0, 0.0);
        self.piece(&mut pad, none);
        self.strip_before(&mut pad, none);
        let (left, end) = (self.after.left() * self.wide_in, Point::ORIGIN + self.after * SIDE_IN);
        band(&mut pad, vec![Point::ORIGIN, end, end + left, self.inner_meet()]);
        self.seam_before(&mut pad, none);
        self.seam_after(&mut pad, none, self.seams_meet());
        pad
    }

    pub(super) fn clipped(&self, corner: &Corner) -> Pad {
        let mut pad = Pad::at_scale(SCALE);
        let none = Vec2::new(0.0, 0.0);
        self.piece(&mut pad, none);
        self.seam_before(&mut pad, none);
        self.seam_after(&mut pad, none, self.seams_meet());
        let deep = corner.clip_in.unwrap_or_default();
        pad.line(vec![Point::ORIGIN, Point::ORIGIN + self.bisector * deep], Stroke::Mark);
        let out = self.bisector * -1.0;
        pad.beside(Point::ORIGIN, out, LENGTH_PT, "clip");
        pad
    }

    pub(super) fn apart(&self, corner: &Corner) -> Pad {
        let mut pad = Pad::at_scale(SCALE);
        let none = Vec2::new(0.0, 0.0);
        self.piece(&mut pad, none);
        let start = Point::new(-SIDE_IN, 0.0);
        let up = Vec2::new(0.0, self.wide_in);
        let out = Vec2::new(0.3, 0.0);
        band(&mut pad, vec![start, Point::ORIGIN + out, Point::ORIGIN + out + up, start + up]);
        let end = Point::ORIGIN + self.after * SIDE_IN;
        let (left, before) = (self.after.left() * self.wide_in, self.after * -0.3);
        band(&mut pad, vec![Point::ORIGIN + before, end, end + left, Point::ORIGIN + before + left]);
        pad.bold(Point::new(-SIDE_IN + 0.3, self.wide_in / 2.0), NUMBER_PT, "1");
        pad.bold(end + left * 0.5 - self.after * 0.3, NUMBER_PT, "2");
        if let Some(off) = corner.blunt_in {
            let at = Point::ORIGIN + self.bisector * off;
            let across = self.bisector.left() * 0.8;
            pad.line(vec![at - across, at + across], Stroke::Mark);
        }
        pad
    }
}

/// A strip of binding, so that what lies under it is guessed.
pub(super) fn band(pad: &mut Pad, points: Vec<Point>) {
    pad.area(points.clone(), STRIP, 0.85);
    pad.closed(points, Stroke::CutLine);
}

#[cfg(test)]
mod tests {
    use super::*;
    use quilt::stage::binding::Way;

    fn bend(inside_deg: f64) -> Bend {
        let corner = Corner {
            corner: 1,
            at: Point::ORIGIN,
            inside_deg,
            way: Way::Fold,
            stop_in: 0.0,
            tuck_in: 0.0,
            extra_in: 0.0,
            clip_in: None,
            blunt_in: None,
        };
        Bend::new(&corner, &BindingChoice::default())
    }

    /// The sewing stops where the two seam lines meet, `seam cot(A/2)` before the corner, and the fold lies
    /// on the bisector: both checked without it.
    #[test]
    fn a_corner_is_drawn_at_its_own_angle() {
        for inside_deg in [60.0, 90.0, 128.57, 150.0, 230.0] {
            let bend = bend(inside_deg);
            let (before, after) = (Vec2::new(-1.0, 0.0), bend.after);
            let between = before.dot(after).acos().to_degrees();
            assert!((between - inside_deg.min(360.0 - inside_deg)).abs() < 1e-9, "{inside_deg}: {between}");
            let met = bend.seams_meet();
            assert!((met.y - bend.seam_in).abs() < 1e-9, "{inside_deg}: {met:?}");
            assert!((met.to_vec2().dot(after.left()) - bend.seam_in).abs() < 1e-9, "{inside_deg}: {met:?}");
            let stop_in = bend.seam_in / (inside_deg / 2.0).to_radians().tan();
            assert!((met.x + stop_in).abs() < 1e-9, "{inside_deg}: {met:?}");
        }
    }

    /// Folded over the bisector, the strip goes on in line with the next side.
    #[test]
    fn a_fold_over_the_bisector_turns_one_side_into_the_other() {
        for inside_deg in [45.0, 90.0, 135.0] {
            let bend = bend(inside_deg);
            let along = Vec2::new(1.0, 0.0);
            let folded = bend.bisector * (2.0 * along.dot(bend.bisector)) - along;
            assert!((folded + bend.after).length() < 1e-9, "{inside_deg}: {folded:?}");
        }
    }
}
