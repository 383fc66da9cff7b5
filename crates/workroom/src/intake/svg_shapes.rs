//! Shapes of an SVG as rings of points in inches.

use super::IntakeProblem;
use super::outline::MOST_CORNERS;
use super::svg::line_of;
use super::svg_path::path_of;
use kurbo::{Affine, BezPath, Circle, Ellipse, PathEl, Rect, RoundedRect, Shape};
use plane::{Point, READING};
use roxmltree::Node;
use svgtypes::{LengthUnit, PointsParser, Transform};

/// The transform of a node within the drawing: those of everything it stands in, outermost first.
pub(super) fn transform_of(node: Node<'_, '_>) -> Result<Affine, IntakeProblem> {
    let mut all = Affine::IDENTITY;
    for above in node.ancestors().filter(Node::is_element) {
        if let Some(text) = above.attribute("transform") {
            let t: Transform = text
                .parse()
                .map_err(|e: svgtypes::Error| wrong(above, format!("its transform `{text}`: {e}")))?;
            all = Affine::new([t.a, t.b, t.c, t.d, t.e, t.f]) * all;
        }
    }
    Ok(all)
}

pub(super) fn wrong(node: Node<'_, '_>, why: String) -> IntakeProblem {
    IntakeProblem::Shape { shape: node.tag_name().name().to_owned(), line: line_of(node), why }
}

/// The rings of a shape after `motion`; `None` for elements that aren't shapes.
pub(super) fn rings_of(node: Node<'_, '_>, motion: Affine) -> Result<Option<Vec<Vec<Point>>>, IntakeProblem> {
    // A hundred times finer than needed, in the shape's own units.
    let fine = READING / 100.0 / motion.determinant().abs().sqrt().max(1e-9);
    let Some(path) = shape_path(node, fine)? else { return Ok(None) };
    let rings = flatten(&(motion * path), READING);
    check_corners(node, rings.iter().map(Vec::len).sum())?;
    if rings.is_empty() {
        return Err(wrong(node, "it encloses nothing".to_owned()));
    }
    Ok(Some(rings))
}

pub(super) fn check_corners(node: Node<'_, '_>, corners: usize) -> Result<(), IntakeProblem> {
    if corners > MOST_CORNERS {
        return Err(wrong(node, format!("it has {corners} corners; at most {MOST_CORNERS} can be read")));
    }
    Ok(())
}

/// A shape as a path in its own units, arcs within `fine` of it; `None` for elements that aren't
/// shapes.
pub(super) fn shape_path(node: Node<'_, '_>, fine: f64) -> Result<Option<BezPath>, IntakeProblem> {
    let number = |attribute, otherwise| number_of(node, attribute, otherwise);
    let path = match node.tag_name().name() {
        "path" => {
            let data = node.attribute("d").unwrap_or("");
            path_of(data, fine).map_err(|e| wrong(node, format!("its outline: {e}")))?
        }
        "polygon" | "polyline" => polygon_path(node),
        "rect" => {
            let (x, y) = (number("x", 0.0)?, number("y", 0.0)?);
            let rect = Rect::new(x, y, x + number("width", 0.0)?, y + number("height", 0.0)?);
            let (rx, ry) = (number("rx", -1.0)?, number("ry", -1.0)?);
            rounded(rect, if rx < 0.0 { ry } else { rx }, if ry < 0.0 { rx } else { ry }, fine)
        }
        "circle" => Circle::new((number("cx", 0.0)?, number("cy", 0.0)?), number("r", 0.0)?).to_path(fine),
        "ellipse" => {
            let radii = (number("rx", 0.0)?, number("ry", 0.0)?);
            Ellipse::new((number("cx", 0.0)?, number("cy", 0.0)?), radii, 0.0).to_path(fine)
        }
        _ => return Ok(None),
    };
    Ok(Some(path))
}

/// A coordinate or size in the drawing's own units.
fn number_of(node: Node<'_, '_>, attribute: &str, otherwise: f64) -> Result<f64, IntakeProblem> {
    let Some(text) = node.attribute(attribute) else { return Ok(otherwise) };
    let unclear = || wrong(node, format!("its {attribute} is `{text}`: write a number without a unit"));
    let length = text.trim().parse::<svgtypes::Length>().map_err(|_| unclear())?;
    match length.unit {
        LengthUnit::None | LengthUnit::Px if length.number.is_finite() => Ok(length.number),
        _ => Err(unclear()),
    }
}

fn polygon_path(node: Node<'_, '_>) -> BezPath {
    let mut path = BezPath::new();
    for (i, (x, y)) in PointsParser::from(node.attribute("points").unwrap_or("")).enumerate() {
        path.push(if i == 0 { PathEl::MoveTo((x, y).into()) } else { PathEl::LineTo((x, y).into()) });
    }
    path
}

fn rounded(rect: Rect, rx: f64, ry: f64, fine: f64) -> BezPath {
    let (rx, ry) = (rx.min(rect.width() / 2.0), ry.min(rect.height() / 2.0));
    if rx <= 0.0 || ry <= 0.0 {
        return rect.to_path(fine);
    }
    // Round corners of another height than width: drawn round, then squeezed.
    let squeeze = Affine::scale_non_uniform(1.0, ry / rx);
    let high = Rect::new(rect.x0, rect.y0 * rx / ry, rect.x1, rect.y1 * rx / ry);
    squeeze * RoundedRect::from_rect(high, rx).to_path(fine)
}

/// The rings of a path to within `fine`, each closed whether it says so or not; rings of fewer than three corners
/// enclose nothing and are left out.
pub(super) fn flatten(path: &BezPath, fine: f64) -> Vec<Vec<Point>> {
    let mut rings: Vec<Vec<Point>> = Vec::new();
    kurbo::flatten(path, fine, |el| match el {
        PathEl::MoveTo(p) => rings.push(vec![Point::new(p.x, p.y)]),
        PathEl::LineTo(p) => {
            if let Some(ring) = rings.last_mut()
                && ring.len() <= MOST_CORNERS
            {
                ring.push(Point::new(p.x, p.y));
            }
        }
        _ => {}
    });
    for ring in &mut rings {
        ring.dedup_by(|a, b| a.distance(*b) < fine / 8.0);
        while ring.len() > 1
            && ring.first().zip(ring.last()).is_some_and(|(a, b)| a.distance(*b) < fine / 8.0)
        {
            ring.pop();
        }
    }
    rings.retain(|ring| ring.len() > 2);
    rings
}
