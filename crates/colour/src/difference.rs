//! How different two colours look.
//!
//! Formula: CIEDE2000 as G. Sharma, W. Wu, E. N. Dalal give it, "The CIEDE2000 color-difference
//! formula: implementation notes, supplementary test data, and mathematical observations", Color
//! Research and Application 30(1), 2005, 21-30, with all three weights 1.
//!
//! It is called millions of times, so the angles are avoided: the mean hue is the direction of the
//! sum of the two unit vectors, its multiples follow by the addition theorems, and the hue
//! difference from the two products of the vectors. Where the formula turns its axes in the blues,
//! only the square of an angle is wanted, which is a short series in the cosine.

use crate::Lab;

/// Difference of 1976: straight distance in CIELAB.
#[must_use]
pub fn plain_difference(one: Lab, other: Lab) -> f64 {
    let (l, a, b) = (one.l - other.l, one.a - other.a, one.b - other.b);
    (l * l + a * a + b * b).sqrt()
}

/// Difference of 2000 (CIEDE2000): about 1 is just seen, above 20 are plainly two colours.
///
/// At hues exactly opposite each other the published formula jumps; the mean hue is then the one
/// on the side that the formula's "at most 180°" takes.
#[must_use]
pub fn difference(one: Lab, other: Lab) -> f64 {
    let stretch = stretch((one.chroma() + other.chroma()) / 2.0);
    let (p, q) = ([one.a * stretch, one.b], [other.a * stretch, other.b]);
    let (chroma_p, chroma_q) = (length(p), length(q));
    let mean_chroma = (chroma_p + chroma_q) / 2.0;
    let (hue, delta_hue) = hues(p, chroma_p, q, chroma_q);

    let off_middle = (one.l + other.l) / 2.0 - 50.0;
    let square = off_middle * off_middle;
    let light = (other.l - one.l) / (1.0 + 0.015 * square / (20.0 + square).sqrt());
    let chroma = (chroma_q - chroma_p) / (1.0 + 0.045 * mean_chroma);
    let hue_part = delta_hue / (1.0 + 0.015 * mean_chroma * by_hue(hue));
    let rotation = blue_corner(hue) * seventh(mean_chroma);
    let square = light * light + chroma * chroma + hue_part * hue_part + rotation * chroma * hue_part;
    // Rounding may leave a little less than nothing; what is not a number stays so.
    if square < 0.0 { 0.0 } else { square.sqrt() }
}

/// 1 + G of the formula: by how much it stretches a* near grey.
pub(crate) fn stretch(chroma: f64) -> f64 {
    1.5 - 0.5 * seventh(chroma)
}

fn length([x, y]: [f64; 2]) -> f64 {
    (x * x + y * y).sqrt()
}

/// √(C⁷ / (C⁷ + 25⁷)): 0 for greys, near 1 for strong colours.
fn seventh(chroma: f64) -> f64 {
    let share = chroma * 0.04;
    let cube = share * share * share;
    let power = cube * cube * share;
    // Written so that a huge chroma gives 1, not infinity over infinity.
    if power < 1e12 { (power / (power + 1.0)).sqrt() } else { 1.0 }
}

/// The mean hue as a unit vector, and the signed hue difference ΔH'.
fn hues(p: [f64; 2], chroma_p: f64, q: [f64; 2], chroma_q: f64) -> ([f64; 2], f64) {
    let product = chroma_p * chroma_q;
    let dot = p[0] * q[0] + p[1] * q[1];
    if dot <= -0.5 * product {
        return far_hues(p, chroma_p, q, chroma_q, dot);
    }
    // With x the angle between the two: product * cos²(x/2).
    let half = (product + dot) / 2.0;
    let scale = 0.5 / (product * half).sqrt();
    let delta = (p[0] * q[1] - p[1] * q[0]) / half.sqrt();
    let along = |k: usize| (p[k] * chroma_q + q[k] * chroma_p) * scale;
    ([along(0), along(1)], delta)
}

/// The same for hues more than 120° apart, where the short way loses digits, and for greys.
#[cold]
fn far_hues(p: [f64; 2], chroma_p: f64, q: [f64; 2], chroma_q: f64, dot: f64) -> ([f64; 2], f64) {
    let product = chroma_p * chroma_q;
    if product == 0.0 {
        let sum = [p[0] + q[0], p[1] + q[1]];
        let size = length(sum);
        let hue = if size > 0.0 { [sum[0] / size, sum[1] / size] } else { [1.0, 0.0] };
        return (hue, 0.0);
    }
    let sum = [p[0] * chroma_q + q[0] * chroma_p, p[1] * chroma_q + q[1] * chroma_p];
    let size = length(sum);
    if size <= OPPOSITE * product {
        let p_above = p[1] > 0.0 || (p[1] == 0.0 && p[0] > 0.0);
        let (up, chroma) = if p_above { (p, chroma_p) } else { (q, chroma_q) };
        let delta = 2.0 * product.sqrt() * if p_above { 1.0 } else { -1.0 };
        return ([-up[1] / chroma, up[0] / chroma], delta);
    }
    let cross = p[0] * q[1] - p[1] * q[0];
    ([sum[0] / size, sum[1] / size], (2.0 * (product - dot)).sqrt().copysign(cross))
}

/// Hues whose unit vectors add up to less are opposite each other: a dozen roundings.
const OPPOSITE: f64 = 4e-15;

/// T of the formula: how much more a hue difference counts at some hues than at others.
fn by_hue([cos, sin]: [f64; 2]) -> f64 {
    let (cos2, sin2) = (cos * cos - sin * sin, 2.0 * sin * cos);
    let (cos3, sin3) = (cos2 * cos - sin2 * sin, sin2 * cos + cos2 * sin);
    let (cos4, sin4) = (cos2 * cos2 - sin2 * sin2, 2.0 * sin2 * cos2);
    1.0 - 0.17 * (cos * COS_30 + sin * 0.5) + 0.24 * cos2 + 0.32 * (cos3 * COS_6 - sin3 * SIN_6)
        - 0.20 * (cos4 * COS_63 + sin4 * SIN_63)
}

const COS_30: f64 = 0.866_025_403_784_438_6;
const COS_6: f64 = 0.994_521_895_368_273_3;
const SIN_6: f64 = 0.104_528_463_267_653_47;
const COS_63: f64 = 0.453_990_499_739_546_8;
const SIN_63: f64 = 0.891_006_524_188_367_9;

/// The part of the rotation term that depends on hue: -2 sin(2Δθ), about 0 outside the blues.
fn blue_corner([cos, sin]: [f64; 2]) -> f64 {
    // 4 sin²(x/2), with x the angle from 275°.
    let chord = 2.0 * (1.0 - (cos * COS_275 + sin * SIN_275));
    // From 114° off the bell is under 1e-9. It isn't periodic: from 0° up it is 0 again.
    if chord > 2.8 || (sin >= 0.0 && cos > 0.0) {
        return 0.0;
    }
    -2.0 * sine(THIRD_TURN * (-squared_angle(chord) * BELL_WIDTH * BELL_WIDTH).exp())
}

const COS_275: f64 = 0.087_155_742_747_658_17;
const SIN_275: f64 = -0.996_194_698_091_745_5;
/// One over 25°, in radians.
const BELL_WIDTH: f64 = 180.0 / (25.0 * std::f64::consts::PI);
/// 60°, the most that 2Δθ can be.
const THIRD_TURN: f64 = std::f64::consts::FRAC_PI_3;

/// The square of an angle from its squared chord, by the series Σ 2 cⁿ / (n² (2n over n)). Eight
/// terms leave 5e-9 at 45° and 5e-7 at 60°; farther off, where they leave more, the bell is
/// nearly 0.
fn squared_angle(chord: f64) -> f64 {
    let square = chord * chord;
    let odd = 1.0 + square * (1.0 / 90.0 + square * (1.0 / 3_150.0 + square / 84_084.0));
    let even = 1.0 / 12.0 + square * (1.0 / 560.0 + square * (1.0 / 16_632.0 + square / 411_840.0));
    chord * odd + square * even
}

/// Sine by its series, for 0 to 60°: to 2e-12.
fn sine(x: f64) -> f64 {
    let s = x * x;
    let series = 1.0 / 120.0
        - s * (1.0 / 5040.0 - s * (1.0 / 362_880.0 - s * (1.0 / 39_916_800.0 - s / 6_227_020_800.0)));
    x * (1.0 - s * (1.0 / 6.0 - s * series))
}
