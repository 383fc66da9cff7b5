//! The corners of an edge: how the binding goes round each, by its real angle.
//!
//! Sewing stops where it is the seam `s` from both raw edges, `s cot(A/2)` before the corner along
//! the edge. The first fold lies on the bisector, the second square to the next side through the
//! corner point; then `2 s cot(A/2)` is tucked away in the mitre and the strip uses no length
//! beyond the raw edge, whatever the angle (geometry of the fold). Where the corner hardly turns
//! there is nothing to fold, and in a sharp tip there is no room to (common practice, no source).
//!
//! At an inside corner the cloth is clipped and pulled straight: the strip is sewn along the seam
//! line, which is `2 s |cot(A/2)|` longer than the raw edge there, and the surplus of the folded edge
//! makes the mitre.

use super::BindingChoice;
use crate::length::LengthUnit;
use plane::Point;
use serde::Serialize;

/// Gentle turns this close to one another, in inches, make a curve (common practice, no source).
const CURVE_SIDE_IN: f64 = 3.0;
/// An edge that bends by a larger radius lies straight enough for the straight grain, which gives half a
/// per cent: 1/2 inch of a binding's back over 100 (common practice, no source).
const MOST_RADIUS_IN: f64 = 100.0;
/// A run that turns less in all is no curve but an edge with a bend (common practice, no source).
const LEAST_CURVE_DEG: f64 = 10.0;
/// Corners that turn less are points on a straight side.
const IN_LINE_DEG: f64 = 0.01;

/// How a corner is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// The usual fold: up along the bisector, then down square to the next side.
    Fold,
    /// It hardly turns: needle down, turn, sew on.
    Pivot,
    /// Too sharp to fold: the sides are bound one by one, or the tip is cut off first.
    Apart,
    /// It turns inward: clip to the seam line, sew it as a straight line, lay the mitre after.
    Clip,
    /// Part of a curve, or no turn at all: sewn on without a stop.
    Curve,
}

/// One corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Corner {
    /// Which, from 1.
    pub corner: usize,
    /// Where, on the raw edge.
    pub at: Point,
    /// Inside angle of the raw outline.
    pub inside_deg: f64,
    /// How it is turned.
    pub way: Way,
    /// How far before the corner the sewing stops, along the raw edge; negative at an inside corner,
    /// where the seam lines meet beyond it.
    pub stop_in: f64,
    /// How much is tucked into the mitre.
    pub tuck_in: f64,
    /// What the strip uses beyond the raw edge.
    pub extra_in: f64,
    /// For a corner to clip: how deep, along the bisector, to the seam line.
    pub clip_in: Option<f64>,
    /// For a tip too sharp to fold: how far from its point to cut it off, square to the bisector, so
    /// that both new corners can be folded.
    pub blunt_in: Option<f64>,
}

impl Corner {
    /// Whether something is to be done there: on a curve nothing is.
    pub(super) fn is_told(&self) -> bool {
        self.way != Way::Curve
    }

    /// What to do there.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let no = self.corner;
        let [stop, tuck] = [self.stop_in.abs(), self.tuck_in].map(|length| unit.length(length, 16));
        match self.way {
            Way::Fold => format!(
                "Corner {no}: stop {stop} before it; fold up along the bisector, then down square to the next side. {tuck} is tucked in."
            ),
            Way::Pivot => {
                format!("Corner {no}: stop {stop} before it with the needle down, turn, and sew on.")
            }
            Way::Apart => {
                let blunt = self.blunt_in.map_or_else(String::new, |off| {
                    format!(", or cut the tip off {} from its point", unit.length(off, 8))
                });
                format!("Corner {no}: too sharp to fold. Bind its two sides one after the other{blunt}.")
            }
            Way::Clip => format!(
                "Corner {no}: staystitch, clip {} deep, pull the edge straight and sew on; fold {tuck} into the mitre after.",
                unit.length(self.clip_in.unwrap_or_default(), 16)
            ),
            Way::Curve => format!("Corner {no}: sewn on without a stop."),
        }
    }
}

/// A run of small turns, one close after the other.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Curve {
    /// The corner it begins at, from 1.
    pub first: usize,
    /// The corner it ends at.
    pub last: usize,
    /// Its tightest radius, from the sides and how much they turn.
    pub radius_in: f64,
}

/// Inside angles in degrees, counter-clockwise outline; over 180 at inside corners.
pub(super) fn inside_angles(outline: &[Point]) -> Vec<f64> {
    let n = outline.len();
    (0..n)
        .map(|i| {
            let (before, after) = (outline[i] - outline[(i + n - 1) % n], outline[(i + 1) % n] - outline[i]);
            180.0 - before.cross(after).atan2(before.dot(after)).to_degrees()
        })
        .collect()
}

/// `cot(A/2)`: what a corner takes off a line one inch inside, at each of its sides.
pub(super) fn half_cotangent(inside_deg: f64) -> f64 {
    1.0 / (inside_deg.to_radians() / 2.0).tan()
}

/// The corners of an outline, and its curves.
pub(super) fn corners(outline: &[Point], choice: &BindingChoice, back_in: f64) -> (Vec<Corner>, Vec<Curve>) {
    let angles = inside_angles(outline);
    let curves = curves(outline, &angles, choice.pivot_from_deg);
    let n = outline.len();
    let curved = |i: usize| {
        curves.iter().any(|curve| {
            let (first, last) = (curve.first - 1, curve.last - 1);
            (i + n - first) % n <= (last + n - first) % n
        })
    };
    let corner = |i: usize| turned(i, outline[i], angles[i], curved(i), choice, back_in);
    ((0..n).map(corner).collect(), curves)
}

fn turned(
    i: usize,
    at: Point,
    inside_deg: f64,
    curved: bool,
    choice: &BindingChoice,
    back_in: f64,
) -> Corner {
    let seam = choice.seam_in;
    let reach = half_cotangent(inside_deg);
    let way = way_of(inside_deg, curved, choice);
    let sine = (inside_deg.to_radians() / 2.0).sin();
    Corner {
        corner: i + 1,
        at,
        inside_deg,
        way,
        stop_in: if way == Way::Curve { 0.0 } else { seam * reach },
        tuck_in: if matches!(way, Way::Fold | Way::Clip) { 2.0 * seam * reach.abs() } else { 0.0 },
        extra_in: if inside_deg > 180.0 { 2.0 * seam * reach.abs() } else { 0.0 },
        clip_in: (way == Way::Clip).then_some(seam / sine),
        blunt_in: (way == Way::Apart && inside_deg < 180.0).then(|| blunt(inside_deg, back_in)),
    }
}

fn way_of(inside_deg: f64, curved: bool, choice: &BindingChoice) -> Way {
    // A notch is as sharp as the tip that would fill it.
    let (sharp, flat) = (choice.apart_below_deg, choice.pivot_from_deg);
    match inside_deg {
        a if curved || (a - 180.0).abs() < 1.0 => Way::Curve,
        a if a < sharp || a > 360.0 - sharp => Way::Apart,
        a if a < flat => Way::Fold,
        a if a <= 360.0 - flat => Way::Pivot,
        _ => Way::Clip,
    }
}

/// How far from the point to cut a tip off so that the new side holds the folds at both its ends.
fn blunt(tip_deg: f64, back_in: f64) -> f64 {
    let side = 2.0 * back_in * half_cotangent(90.0 + tip_deg / 2.0);
    // A quarter inch to sew between the folds.
    (side + 0.25) / (2.0 * (tip_deg.to_radians() / 2.0).tan())
}

/// Runs of three and more gentle corners joined by short sides that bend one way, by the radius and not
/// by the angle: points on a straight side, or a bend that is hardly one, make no curve.
fn curves(outline: &[Point], angles: &[f64], pivot_from_deg: f64) -> Vec<Curve> {
    let own: Vec<usize> = (0..outline.len()).filter(|&i| (angles[i] - 180.0).abs() > IN_LINE_DEG).collect();
    let n = own.len();
    let turn = |i: usize| 180.0 - angles[own[i % n]];
    let long = |i: usize| outline[own[i % n]].distance(outline[own[(i + 1) % n]]);
    let gentle = |i: usize| turn(i).abs() <= 180.0 - pivot_from_deg;
    // Side i joins corners i and i + 1.
    let radius = |i: usize| long(i) / turn(i).abs().max(turn(i + 1).abs()).to_radians();
    let bends = |i: usize| {
        let one_way = turn(i) * turn(i + 1) > 0.0;
        let short = long(i) <= CURVE_SIDE_IN && radius(i) <= MOST_RADIUS_IN;
        gentle(i) && gentle(i + 1) && one_way && short
    };
    let curve = |first: usize, sides: usize| Curve {
        first: own[first % n] + 1,
        last: own[(first + sides) % n] + 1,
        radius_in: (first..first + sides).map(radius).fold(f64::INFINITY, f64::min),
    };
    let Some(start) = (0..n).find(|&i| !bends(i)) else {
        return if n == 0 { Vec::new() } else { vec![Curve { last: own[n - 1] + 1, ..curve(0, n) }] };
    };
    let (mut found, mut from) = (Vec::new(), start + 1);
    for i in start + 1..=start + n {
        if bends(i) {
            continue;
        }
        let turned: f64 = (from..=i).map(turn).sum();
        if i - from >= 2 && turned.abs() >= LEAST_CURVE_DEG {
            found.push(curve(from, i - from));
        }
        from = i + 1;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::polygon;

    fn near(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }

    fn at(inside_deg: f64) -> Corner {
        turned(0, Point::ORIGIN, inside_deg, false, &BindingChoice::default(), 0.5)
    }

    // Common practice, no source; geometry.
    #[test]
    fn sewing_stops_and_tucks_by_the_real_angle() {
        for (angle, stop) in [(90.0, 0.250), (120.0, 0.144), (60.0, 0.433), (150.0, 0.067)] {
            near(at(angle).stop_in, stop, 0.0005);
        }
        near(at(90.0).tuck_in, 0.5, 1e-9);
        near(at(120.0).tuck_in, 0.289, 0.0005);
        assert_eq!(at(120.0).extra_in, 0.0);
    }

    // The stop is the seam from both edges: measured on the corner itself.
    #[test]
    fn the_stop_is_a_seam_from_both_edges() {
        for angle in [35.0_f64, 60.0, 77.0, 90.0, 118.0, 149.0] {
            let stop = at(angle).stop_in;
            // The corner at the origin, one side along x, the other at the angle.
            let needle = Point::new(stop, 0.25);
            let other = plane::Line::through(
                Point::ORIGIN,
                Point::new(angle.to_radians().cos(), angle.to_radians().sin()),
            );
            near(other.unwrap().inside_by(needle).abs(), 0.25, 1e-9);
        }
    }

    #[test]
    fn flat_corners_are_turned_and_sharp_ones_bound_apart() {
        for (angle, way) in [
            (59.0, Way::Apart),
            (60.0, Way::Fold),
            (149.9, Way::Fold),
            (150.0, Way::Pivot),
            (210.0, Way::Pivot),
            (211.0, Way::Clip),
            (270.0, Way::Clip),
            (301.0, Way::Apart),
        ] {
            assert_eq!(at(angle).way, way, "{angle}");
        }
        assert_eq!((at(155.0).tuck_in, at(45.0).tuck_in), (0.0, 0.0));
    }

    #[test]
    fn an_inside_corner_takes_more_and_is_clipped_to_the_seam() {
        let inside = at(270.0);
        near(inside.extra_in, 0.5, 1e-9);
        near(inside.stop_in, -0.25, 1e-9);
        near(inside.clip_in.unwrap(), 0.25 * std::f64::consts::SQRT_2, 1e-9);
    }

    #[test]
    fn a_blunted_tip_can_be_folded() {
        for tip in [20.0_f64, 35.0, 50.0] {
            let off = at(tip).blunt_in.unwrap();
            let side = 2.0 * off * (tip.to_radians() / 2.0).tan();
            let folds = 2.0 * 0.5 * half_cotangent(90.0 + tip / 2.0);
            near(side - folds, 0.25, 1e-9);
            assert_eq!(at(90.0 + tip / 2.0).way, Way::Fold);
        }
    }

    #[test]
    fn close_gentle_corners_are_a_curve() {
        let round: Vec<Point> = (0..60)
            .map(|i| std::f64::consts::TAU * f64::from(i) / 60.0)
            .map(|a| Point::new(15.0 * a.cos(), 15.0 * a.sin()))
            .collect();
        let (all, found) = corners(&round, &BindingChoice::default(), 0.5);
        assert_eq!((found.len(), found[0].first, found[0].last), (1, 1, 60));
        near(found[0].radius_in, 15.0, 0.05);
        assert!(all.iter().all(|corner| corner.way == Way::Curve));
        // A half disc: its flat side and two square corners are no curve.
        let half = &round[..31];
        let (all, found) = corners(half, &BindingChoice::default(), 0.5);
        assert_eq!((found[0].first, found[0].last), (2, 30));
        assert_eq!((all[0].way, all[30].way, all[15].way), (Way::Fold, Way::Fold, Way::Curve));
        // As finely as it is drawn, and with points between on its sides.
        let fine: Vec<Point> = (0..1440)
            .map(|i| std::f64::consts::TAU * f64::from(i) / 1440.0)
            .map(|a| Point::new(15.0 * a.cos(), 15.0 * a.sin()))
            .collect();
        let halved: Vec<Point> = polygon::edges(&round).flat_map(|(a, b)| [a, a.midpoint(b)]).collect();
        for drawn in [fine, halved] {
            let (_, found) = corners(&drawn, &BindingChoice::default(), 0.5);
            assert_eq!(found.len(), 1);
            near(found[0].radius_in, 15.0, 0.05);
        }
    }

    #[test]
    fn points_on_a_straight_side_are_no_curve() {
        let side = |bend: f64| -> Vec<Point> {
            [(0.0, 0.0), (4.0, -bend), (5.0, -bend), (6.0, -bend), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec()
        };
        for bend in [0.0, 1e-6, 0.01, 0.05] {
            let (_, found) = corners(&side(bend), &BindingChoice::default(), 0.5);
            assert_eq!(found, [], "bent by {bend}");
        }
        let (all, _) = corners(&side(0.0), &BindingChoice::default(), 0.5);
        assert_eq!((all[2].way, all[0].way), (Way::Curve, Way::Fold));
        // Drawn with a shaking hand, a straight side bends to and fro.
        let mut shaky: Vec<Point> =
            (0..40).map(|i| Point::new(f64::from(i) / 2.0, f64::from(i % 2) / 40.0)).collect();
        shaky.extend([(20.0, 10.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y)));
        assert_eq!(corners(&shaky, &BindingChoice::default(), 0.5).1, []);
    }
}
