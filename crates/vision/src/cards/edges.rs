//! A card's edges and corners to a small part of a pixel.
//!
//! Across each edge the light is read along many short profiles. Where a profile's light adds up to
//! the same as that of a sharp step, there the edge lies: whatever the blur, as long as it is even.
//! Light is what adds up, so screen numbers are turned back into it first. Through the profiles of
//! an edge a flat curve is laid, heeding outliers little; the corners are where curves cross. The
//! curve may bow as far as a lens bends lines, and no farther.

use super::grey::Grey;
use super::quad::crossing;
use crate::flatten::homography::eliminate;
use plane::{Point, Vec2, polygon};

/// An edge as a curve over the line from one coarse corner to the next.
#[derive(Clone, Copy, Debug)]
struct Edge {
    from: Point,
    along: Vec2,
    out: Vec2,
    half: f64,
    /// Offset outwards: `bow[0] + bow[1] t + bow[2] t²`, t from -1 to 1 along the edge.
    bow: [f64; 3],
}

/// What the profiles across all edges say.
#[derive(Clone, Copy, Debug)]
pub(super) struct Refined {
    pub(super) corners: [Point; 4],
    /// Standard deviation of the blur across the edges, in pixels.
    pub(super) blur_px: f64,
    /// The same where it reaches farther than the profiles do.
    pub(super) far_blur_px: f64,
    /// How far single profiles lie off the edge's curve: standard deviation in pixels.
    pub(super) rough_px: f64,
    /// Light of the white margin and of the black border, 0 to 1.
    pub(super) white: f64,
    pub(super) black: f64,
}

/// One profile: place along the edge, offset outwards, blur's variance, light inside and outside.
struct Profile {
    t: f64,
    off: f64,
    variance: f64,
    black: f64,
    white: f64,
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

impl Edge {
    fn between(a: Point, b: Point) -> Self {
        let half = a.distance(b) / 2.0;
        let along = (b - a) * (0.5 / half.max(1e-9));
        // Corners run anticlockwise as seen with y down, so outwards is to the right of y-up.
        Self { from: a.midpoint(b), along, out: along.left(), half, bow: [0.0; 3] }
    }

    fn offset(&self, t: f64) -> f64 {
        self.bow[0] + t * (self.bow[1] + t * self.bow[2])
    }

    fn at(&self, t: f64) -> Point {
        self.from + self.along * (t * self.half) + self.out * self.offset(t)
    }

    /// Two places of the tangent at `t`.
    fn tangent(&self, t: f64) -> (Point, Point) {
        let slope = self.bow[1] + 2.0 * t * self.bow[2];
        let at = self.at(t);
        (at, at + self.along * self.half + self.out * slope)
    }

    fn t_of(&self, p: Point) -> f64 {
        (p - self.from).dot(self.along) / self.half
    }

    /// How many profiles are read.
    fn places(&self) -> usize {
        ((self.half * 2.0) as usize).clamp(12, 160)
    }

    /// Reads the profiles within `reach` pixels of the curve.
    fn profiles(&self, grey: &Grey, how: How<'_>) -> Vec<Profile> {
        let How { reach, step, shows, cell, .. } = how;
        let many = self.places();
        let samples = (2.0 * reach / step).round() as usize + 1;
        let mut values = vec![0.0; samples];
        let mut profiles = Vec::with_capacity(many);
        for i in 0..many {
            let t = -0.9 + 1.8 * (i as f64 + 0.5) / many as f64;
            let middle = self.at(t);
            // The middle of the border, and a little farther along it.
            let border =
                [-0.3, 0.3].map(|along| middle - self.out * (0.5 * cell) + self.along * (along * cell));
            if shows.is_some_and(|shows| !border.iter().all(|p| polygon::contains(shows, *p))) {
                continue;
            }
            let read = values.iter_mut().enumerate().all(|(k, value)| {
                let p = middle + self.out * (k as f64 * step - reach);
                grey.light(p.x, p.y).map(|light| *value = light).is_some()
            });
            if read {
                profiles.push(Profile::of(t, self.offset(t), &values, how));
            }
        }
        profiles
    }
}

impl Profile {
    /// By the steepest rise, wherever else the light may change nearby.
    fn steepest(t: f64, curve: f64, values: &[f64], how: How<'_>) -> Self {
        let rise = |k: usize| values[k + 2] - values[k];
        let best = (0..values.len() - 2).max_by(|a, b| rise(*a).total_cmp(&rise(*b))).unwrap_or(0);
        let off = (best + 1) as f64 * how.step - how.reach;
        Self { t, off: curve + off, variance: 0.0, black: values[best], white: values[best + 2] }
    }

    fn of(t: f64, curve: f64, values: &[f64], how: How<'_>) -> Self {
        let How { reach, step, steepest, .. } = how;
        let n = values.len();
        if steepest {
            return Self::steepest(t, curve, values, how);
        }
        let (black, white) = ((values[0] + values[1]) / 2.0, (values[n - 2] + values[n - 1]) / 2.0);
        let (mut sum, mut first, mut second) = (0.0, 0.0, 0.0);
        for (k, pair) in values.windows(2).enumerate() {
            let rise = pair[1] - pair[0];
            let at = (k as f64 + 0.5) * step - reach;
            sum += rise;
            first += rise * at;
            second += rise * at * at;
        }
        let off = first / sum;
        Self { t, off: curve + off, variance: second / sum - off * off, black, white }
    }
}

/// How profiles are read: within how many pixels, how far apart, and whether the steepest rise
/// counts (before the edge is known well) or the sum of light.
#[derive(Clone, Copy)]
struct How<'a> {
    reach: f64,
    step: f64,
    steepest: bool,
    /// What shows of a card that is hidden in part: where its border doesn't, nothing is read.
    shows: Option<&'a [Point]>,
    /// Width of the border, in pixels.
    cell: f64,
}

/// Lays a curve through profiles: three rounds of least squares with outliers weighed down; the bow
/// is held to what a lens does. Returns the profiles' scatter.
fn lay(edge: &mut Edge, profiles: &[Profile], bow_sd: f64) -> Option<f64> {
    let mut scatter = 1.0;
    for round in 0..4 {
        let mut normal = vec![vec![0.0; 4]; 3];
        for p in profiles {
            let away = (p.off - edge.offset(p.t)) / (3.0 * scatter);
            let weight = match round {
                0 => 1.0 / (1.0 + away * away),
                _ if away.abs() < 1.0 => (1.0 - away * away).powi(2),
                _ => continue,
            };
            let basis = [1.0, p.t, p.t * p.t];
            for (row, a) in normal.iter_mut().zip(basis) {
                for (cell, b) in row.iter_mut().zip(basis.into_iter().chain([p.off])) {
                    *cell += weight * a * b;
                }
            }
        }
        normal[2][2] += (scatter / bow_sd).powi(2);
        edge.bow = eliminate(normal)?.try_into().ok()?;
        let off = profiles.iter().map(|p| (p.off - edge.offset(p.t)).abs()).collect();
        scatter = (1.4826 * median(off)).clamp(0.02, 3.0);
    }
    Some(scatter)
}

/// Where an edge's end begins, and the share of its profiles that must be readable there: of all, about
/// one in six lies in each end.
const END: f64 = 0.6;
const MOST_OF_END: f64 = 0.1;

/// The corners again, from edges read within `reach` pixels of the coarse ones.
fn round(grey: &Grey, corners: [Point; 4], how: How<'_>) -> Option<Refined> {
    let frame = (grey.width as f64).hypot(grey.height as f64) / 2.0;
    let mut edges = Vec::with_capacity(4);
    let (mut blurs, mut whites, mut blacks, mut rough) = (Vec::new(), Vec::new(), Vec::new(), 0.0_f64);
    for i in 0..4 {
        let mut edge = Edge::between(corners[i], corners[(i + 1) % 4]);
        let mut profiles = edge.profiles(grey, how);
        let all = if how.shows.is_some() { edge.places() } else { profiles.len() };
        let step_up = median(profiles.iter().map(|p| p.white - p.black).collect());
        if step_up < 0.004 || step_up.is_nan() {
            return None;
        }
        profiles.retain(|p| p.white - p.black > 0.4 * step_up && p.off.is_finite());
        if profiles.len() * 2 < all || profiles.len() < 6 {
            return None;
        }
        // A bend of a tenth over the picture, at its rim, bows a side by so much.
        let bow_sd = (edge.half * edge.half * 4.0 / (40.0 * frame)).max(0.005);
        // Where the light of an end can't be read, a bow would run wild there.
        let [near, far] = [-1.0, 1.0].map(|end| profiles.iter().filter(|p| p.t * end > END).count());
        let bow_sd = if (near.min(far) as f64) < MOST_OF_END * all as f64 { bow_sd * 0.1 } else { bow_sd };
        rough += lay(&mut edge, &profiles, bow_sd)? / 4.0;
        blurs.extend(profiles.iter().map(|p| p.variance));
        whites.extend(profiles.iter().map(|p| p.white));
        blacks.extend(profiles.iter().map(|p| p.black));
        edges.push(edge);
    }
    let mut found = [Point::ORIGIN; 4];
    for (i, corner) in found.iter_mut().enumerate() {
        let (before, after) = (&edges[(i + 3) % 4], &edges[i]);
        let (mut s, mut t) = (1.0, -1.0);
        for _ in 0..3 {
            let ((a, b), (c, d)) = (before.tangent(s), after.tangent(t));
            *corner = crossing(a, b, c, d)?;
            (s, t) = (before.t_of(*corner), after.t_of(*corner));
        }
        if corner.distance(corners[i]) > 2.5 * how.reach + 1.0 {
            return None;
        }
    }
    let blur_px = median(blurs).max(0.0).sqrt();
    let (white, black) = (median(whites), median(blacks));
    Some(Refined { corners: found, blur_px, far_blur_px: blur_px, rough_px: rough, white, black })
}

/// Blur from how steeply the light rises at the edges between white and ink, which sends back a
/// twentieth of it: a step of height h rises by h over the root of 2 pi deviations.
fn flat_blur(grey: &Grey, card: &Refined, cell: f64) -> Option<f64> {
    let corners = card.corners;
    let mut steepness = Vec::new();
    for i in 0..4 {
        let edge = Edge::between(corners[i], corners[(i + 1) % 4]);
        for t in (-8..=8).map(|k| f64::from(k) / 10.0) {
            let light = |out: f64| {
                let p = edge.at(t) + edge.out * out;
                grey.light(p.x, p.y)
            };
            let (inner, outer, white) = (light(-1.0)?, light(1.0)?, light(0.9 * cell)?);
            steepness.push((outer - inner) / 2.0 / (0.95 * white));
        }
    }
    let steepness = median(steepness);
    (steepness > 0.0).then(|| 1.0 / (std::f64::consts::TAU.sqrt() * steepness))
}

/// Corners found within about `doubt` pixels, refined.
pub(super) fn refine(
    grey: &Grey,
    corners: [Point; 4],
    doubt: f64,
    shows: Option<&[Point]>,
) -> Option<Refined> {
    let cell = (0..4).map(|i| corners[i].distance(corners[(i + 1) % 4])).fold(f64::MAX, f64::min) / 8.0;
    let reach = (2.0 * doubt + 2.0).min(0.95 * cell).max(1.5);
    let sharp = How { reach, step: 0.5, steepest: true, shows, cell };
    let wide = round(grey, corners, sharp)?;
    let first =
        round(grey, wide.corners, How { reach: (0.6 * cell).clamp(1.5, 4.0), steepest: false, ..sharp })?;
    // Beyond a narrow margin, or across the narrow border, the light changes again.
    let most = if cell < 6.0 { 0.6 * cell } else { 0.9 * cell };
    let needed = |blur_px: f64| 3.0 * blur_px + 1.0;
    let reach = needed(first.blur_px).clamp(2.0, 8.0).min(most).max(1.5);
    let mut refined = round(grey, first.corners, How { reach, steepest: false, ..sharp })?;
    // Much blur shows in part only within that reach.
    if needed(refined.blur_px) > reach {
        refined.far_blur_px = refined.blur_px.max(flat_blur(grey, &refined, cell).unwrap_or(0.0));
    }
    Some(refined)
}
