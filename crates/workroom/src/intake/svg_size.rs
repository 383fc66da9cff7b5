//! The true size of an SVG: from its own units to inches.

use super::IntakeProblem;
use kurbo::Affine;
use roxmltree::Node;
use svgtypes::{Align, AspectRatio, LengthUnit, ViewBox};

/// CSS pixels in an inch, by definition (CSS Values and Units, absolute lengths).
const PIXELS_PER_IN: f64 = 96.0;

/// The motion from the drawing's units, y down, to inches, y up.
///
/// # Errors
/// A width or height that is missing or has no unit of the real world; a view box that makes no
/// sense.
pub(super) fn size_of(root: Node<'_, '_>) -> Result<Affine, IntakeProblem> {
    let (width_in, height_in) = (side_of(root, "width")?, side_of(root, "height")?);
    let (x, y, w, h) = match root.attribute("viewBox") {
        Some(text) => {
            let bad = |_| {
                IntakeProblem::NotSvg(format!(
                    "its viewBox `{text}` is not four numbers, the last two above 0"
                ))
            };
            let ViewBox { x, y, w, h } = text.parse().map_err(bad)?;
            (x, y, w, h)
        }
        None => (0.0, 0.0, width_in * PIXELS_PER_IN, height_in * PIXELS_PER_IN),
    };
    let (across, up) = (width_in / w, height_in / h);
    let ratio = root.attribute("preserveAspectRatio").and_then(|text| text.parse::<AspectRatio>().ok());
    let (across, up) = match ratio {
        Some(AspectRatio { align: Align::None, .. }) => (across, up),
        Some(AspectRatio { slice: true, .. }) => (across.max(up), across.max(up)),
        _ => (across.min(up), across.min(up)),
    };
    let sound = across.is_finite() && up.is_finite() && across > 0.0 && up > 0.0;
    if !sound {
        return Err(IntakeProblem::NotSvg("its size and viewBox make no scale".to_owned()));
    }
    Ok(Affine::new([across, 0.0, 0.0, -up, -x * across, y * up]))
}

/// Width or height in inches.
fn side_of(root: Node<'_, '_>, attribute: &'static str) -> Result<f64, IntakeProblem> {
    let none = |found: String| IntakeProblem::NoUnits { attribute, found };
    let text = root.attribute(attribute).ok_or_else(|| none("missing".to_owned()))?;
    let unclear = || none(format!("`{text}`"));
    let length = text.trim().parse::<svgtypes::Length>().map_err(|_| unclear())?;
    let per_in = match length.unit {
        LengthUnit::In => 1.0,
        LengthUnit::Cm => 2.54,
        LengthUnit::Mm => 25.4,
        LengthUnit::Pt => 72.0,
        LengthUnit::Pc => 6.0,
        LengthUnit::Px => PIXELS_PER_IN,
        LengthUnit::None | LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => return Err(unclear()),
    };
    let inches = length.number / per_in;
    if inches.is_finite() && inches > 0.0 { Ok(inches) } else { Err(unclear()) }
}
