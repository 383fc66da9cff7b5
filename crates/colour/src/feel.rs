//! How a colour feels: warm or cool, heavy or light, active or quiet.
//!
//! Formulas: L.-C. Ou, M. R. Luo, A. Woodcock, A. Wright, "A study of colour emotion and colour
//! preference. Part I", Color Research and Application 29(3), 2004, 232-240. They were fitted to
//! single colours seen on grey; of a print they say no more than of its mean colour. Another study
//! (Gao and Xin 2006) finds that hue matters less for warm and cool than this formula has it.

use crate::Lab;

/// Warm (above 0) or cool (below 0), about -2 to 2.5. A grey is a little cool: -0.5.
#[must_use]
pub fn heat(lab: Lab) -> f64 {
    -0.5 + 0.02 * lab.chroma().powf(1.07) * cos_of_hue_less(lab, 50.0)
}

/// Heavy (above 0) or light (below 0), about -2 for white to 2.5 for the darkest.
#[must_use]
pub fn visual_weight(lab: Lab) -> f64 {
    -1.8 + 0.04 * (100.0 - lab.l) + 0.45 * cos_of_hue_less(lab, 100.0)
}

/// Active (above 0) or quiet (below 0), about -2 to 5.
#[must_use]
pub fn activity(lab: Lab) -> f64 {
    let (l, a, b) = (lab.l - 50.0, lab.a - 3.0, (lab.b - 17.0) / 1.4);
    -2.1 + 0.06 * (l * l + a * a + b * b).sqrt()
}

/// Cosine of the hue angle less so many degrees; a grey's hue counts as 0.
fn cos_of_hue_less(lab: Lab, degrees: f64) -> f64 {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let chroma = lab.chroma();
    if chroma < GREY { cos } else { (lab.a * cos + lab.b * sin) / chroma }
}

/// Chroma below which a colour has no hue: it is what rounding leaves.
const GREY: f64 = 1e-3;
