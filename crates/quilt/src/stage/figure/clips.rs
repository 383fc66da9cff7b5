//! Where the allowance is clipped so that it turns: inside points once, inside curves at even
//! distances, never on outside curves.
//!
//! An inside curve is a run of corners that all turn inward, each with a radius (length over turn)
//! up to the rule's. What lies under a higher layer is left flat and not clipped.

use super::ClipRule;
use super::seen::Above;
use super::way::Way;
use plane::{Point, Region, Turn};
use serde::Serialize;

/// A corner turning inward by more than this is a point, not part of a curve, in degrees.
const POINT_DEG: f64 = 30.0;
/// A curve that turns inward by less than this in all needs no clip, in degrees.
const SLIGHT_DEG: f64 = 10.0;
/// So much of the turn-under is left unclipped at the line: "almost to the line".
const LEFT_IN: f64 = 1.0 / 32.0;

/// Clips at one inside point or along one inside curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Clips {
    /// The middle of it, on the drawn line.
    pub at: Point,
    /// Whether it is a point; otherwise a curve.
    pub is_point: bool,
    /// Length of the curve along the drawn line, in inches; 0 at a point.
    pub length_in: f64,
    /// Each clip: from the cut line to just short of the drawn line.
    pub clips: Vec<[Point; 2]>,
}

/// All clips of a shape.
pub(super) fn clips_of(drawn: &Region, turn_under_in: f64, rule: ClipRule, above: &Above<'_>) -> Vec<Clips> {
    let rings = std::iter::once(&drawn.outer).chain(&drawn.holes);
    let mut found = Vec::new();
    for ring in rings {
        let way = Way::new(ring);
        for run in runs(&way, rule) {
            let free: Vec<f64> =
                run.places(rule).into_iter().filter(|&at| !above.covers(way.point(at))).collect();
            if free.is_empty() {
                continue;
            }
            let clips = free.iter().map(|&at| clip(&way, at, turn_under_in)).collect();
            let middle = way.point(run.from_in + run.length_in / 2.0);
            found.push(Clips { at: middle, is_point: run.is_point, length_in: run.length_in, clips });
        }
    }
    found
}

struct Run {
    from_in: f64,
    length_in: f64,
    turn: f64,
    is_point: bool,
}

impl Run {
    /// Where along the ring the clips are set: evenly, no further apart than the rule says.
    fn places(&self, rule: ClipRule) -> Vec<f64> {
        if self.is_point {
            return vec![self.from_in];
        }
        let count = (self.length_in / rule.spacing_in).ceil().max(1.0) as u32;
        let each = self.length_in / f64::from(count);
        (0..count).map(|k| self.from_in + each * (f64::from(k) + 0.5)).collect()
    }
}

fn runs(way: &Way<'_>, rule: ClipRule) -> Vec<Run> {
    let n = way.corners.len();
    let kinds: Vec<Corner> = (0..n).map(|i| Corner::of(way, i, rule)).collect();
    // Begin where no curve runs on, so that none is cut in two.
    let Some(start) = kinds.iter().position(|kind| !matches!(kind, Corner::Curve(_))) else {
        return vec![Run { from_in: 0.0, length_in: way.length_in, turn: 0.0, is_point: false }];
    };
    let mut found: Vec<Run> = Vec::new();
    let mut open: Option<Run> = None;
    for k in 0..n {
        let i = (start + k) % n;
        match kinds[i] {
            Corner::Curve(turn) => {
                let run = open.get_or_insert_with(|| begun(way, i));
                run.turn += turn;
                run.length_in = way.forward(run.from_in, way.at(i) + shorter_side(way, i) / 2.0);
            }
            Corner::Point => {
                found.extend(open.take());
                found.push(Run { from_in: way.at(i), length_in: 0.0, turn: 0.0, is_point: true });
            }
            Corner::Other => found.extend(open.take()),
        }
    }
    found.extend(open);
    found.retain(|run| run.is_point || run.turn.to_degrees() >= SLIGHT_DEG);
    found
}

/// A run begins and ends half a side beyond its first and last corner; of the two sides at a corner
/// the shorter counts, since the other may be straight cloth.
fn begun(way: &Way<'_>, i: usize) -> Run {
    let from_in = way.held(way.at(i) - shorter_side(way, i) / 2.0);
    Run { from_in, length_in: 0.0, turn: 0.0, is_point: false }
}

fn shorter_side(way: &Way<'_>, i: usize) -> f64 {
    let n = way.corners.len();
    let here = way.corners[i];
    here.distance(way.corners[(i + n - 1) % n]).min(here.distance(way.corners[(i + 1) % n]))
}

#[derive(Clone, Copy)]
enum Corner {
    /// Part of an inside curve, turning by so many radians.
    Curve(f64),
    Point,
    Other,
}

impl Corner {
    fn of(way: &Way<'_>, i: usize, rule: ClipRule) -> Self {
        let inward = -way.turn(i);
        if inward.to_degrees() >= POINT_DEG {
            return Self::Point;
        }
        let curved = inward > 1e-6 && shorter_side(way, i) / inward <= rule.most_radius_in;
        if curved { Self::Curve(inward) } else { Self::Other }
    }
}

fn clip(way: &Way<'_>, along_in: f64, turn_under_in: f64) -> [Point; 2] {
    let step = 1.0 / 128.0;
    let p = way.point(along_in);
    let along = Turn::towards(way.point(along_in + step) - way.point(along_in - step)).unwrap_or(Turn::NONE);
    let outward = -along.left().vec();
    [p + outward * turn_under_in, p + outward * LEFT_IN]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(centre: (f64, f64), radius: f64, from: f64, to: f64, parts: u32) -> Vec<Point> {
        let at = |k: u32| Turn::from_degrees(from + (to - from) * f64::from(k) / f64::from(parts)).vec();
        (0..=parts).map(|k| Point::new(centre.0, centre.1) + at(k) * radius).collect()
    }

    fn clips(corners: Vec<Point>) -> Vec<Clips> {
        let region = Region::try_new(corners, Vec::new()).unwrap();
        clips_of(&region, 0.25, ClipRule::default(), &Above::new([]))
    }

    #[test]
    fn an_outside_curve_is_not_clipped() {
        let mut disc = arc((0.0, 0.0), 1.0, 0.0, 360.0, 60);
        disc.pop();
        assert!(clips(disc).is_empty());
    }

    // Common practice, no source: a clip for each quarter inch of an inside curve, one at a point.
    #[test]
    fn an_inside_curve_is_clipped_every_quarter_inch_and_a_point_once() {
        let mut bay = vec![Point::new(0.0, 0.0), Point::new(6.0, 0.0), Point::new(6.0, 3.0)];
        bay.extend(arc((3.0, 3.0), 1.0, 0.0, -180.0, 24));
        bay.push(Point::new(0.0, 3.0));
        let found = clips(bay);
        let curve: Vec<&Clips> = found.iter().filter(|c| !c.is_point).collect();
        assert_eq!(curve.len(), 1, "{found:?}");
        assert!((curve[0].length_in - std::f64::consts::PI).abs() < 0.2);
        assert_eq!(curve[0].clips.len(), 13);
        let notch = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.0, 1.0), (0.0, 3.0)];
        let found = clips(notch.map(|(x, y)| Point::new(x, y)).to_vec());
        assert_eq!(found.len(), 1);
        assert!(found[0].is_point && found[0].clips.len() == 1);
        let [from, to] = found[0].clips[0];
        assert!(
            from.distance(Point::new(2.0, 1.25)) < 1e-9 && to.distance(Point::new(2.0, 1.0 + LEFT_IN)) < 1e-9
        );
    }

    #[test]
    fn a_round_hole_is_clipped_all_round() {
        let mut hole = arc((3.0, 3.0), 1.0, 0.0, 360.0, 36);
        hole.pop();
        let region = Region::try_new(Region::rectangle(6.0, 6.0).outer, vec![hole]).unwrap();
        let found = clips_of(&region, 0.25, ClipRule::default(), &Above::new([]));
        assert_eq!((found.len(), found[0].clips.len()), (1, 26));
        // Towards the middle of the hole, where the allowance is.
        assert!(found[0].clips.iter().all(|[cut, _]| cut.distance(Point::new(3.0, 3.0)) < 0.76));
    }

    #[test]
    fn a_gentle_curve_is_turned_without_clips() {
        let mut bay =
            vec![Point::new(-9.0, 9.0), Point::new(-9.0, -2.0), Point::new(9.0, -2.0), Point::new(9.0, 9.0)];
        let mut curve = arc((0.0, 9.0), 8.0, -20.0, -160.0, 80);
        bay.append(&mut curve);
        assert!(clips(bay).iter().all(|c| c.is_point));
    }
}
