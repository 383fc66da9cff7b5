//! A figure from an SVG file: every closed shape a layer, in the order they are drawn, lowest first.
//!
//! Curves are kept as curves, since the size isn't known yet; a file without a true size will do. Read
//! are the same shapes, under any transforms, as for scraps. Rings of one shape nest: outlines and holes
//! in them. Ends that all but meet are joined; shapes that are open are refused, and so are text,
//! pictures and links, which would get lost unseen. A shape may name its cloth in `data-cloth`.

use super::svg::{document_of, drawn_nodes, line_of, name_of, nested, text_of};
use super::svg_shapes::{check_corners, flatten, shape_path, transform_of, wrong};
use super::svg_size::size_of;
use super::{IntakeProblem, short_name};
use kurbo::{Affine, BezPath, PathEl, Shape as _};
use plane::{Point, Region};
use quilt::cloth::ClothId;
use quilt::stage::figure::{Figure, MOST_POINTS, Path, Segment, Shape};
use roxmltree::Node;

/// Elements that show something which is no shape.
const LOST: [&str; 5] = ["text", "textPath", "tspan", "image", "a"];
/// Ends nearer than this share of a shape's size are joined.
const NEARLY_CLOSED: f64 = 1e-3;
/// Curves are flattened to this share of a shape's size to see how its rings nest.
const NESTING: f64 = 1e-4;
/// Arcs become curves within this many units of the drawing.
const FINE: f64 = 1e-5;

/// Reads a figure. Where the file has a true size, a unit of the figure is an inch.
///
/// # Errors
/// What is wrong with it, with the line.
pub fn read_figure(name: &str, bytes: &[u8]) -> Result<Figure, IntakeProblem> {
    let document = document_of(text_of(bytes)?)?;
    document.descendants().filter(Node::is_element).try_for_each(check_shows_shapes)?;
    let (motion, unit_in) = match size_of(document.root_element()) {
        Ok(to_inches) => (to_inches, Some(1.0)),
        Err(IntakeProblem::NoUnits { .. }) => (Affine::FLIP_Y, None),
        Err(other) => return Err(other),
    };
    let mut shapes: Vec<Shape> = Vec::new();
    let mut points = 0;
    for node in drawn_nodes(&document) {
        let Some(path) = shape_path(node, FINE)? else { continue };
        points += path.elements().len();
        if points > MOST_POINTS {
            let what = "the number of points of the figure";
            return Err(IntakeProblem::TooMuch { what, found: points, most: MOST_POINTS });
        }
        let motion = motion * transform_of(node)?;
        add_shapes(node, &(motion * path), &mut shapes)?;
    }
    if shapes.is_empty() {
        return Err(IntakeProblem::Nothing);
    }
    Ok(Figure { name: short_name(name, "figure"), shapes, unit_in })
}

fn check_shows_shapes(node: Node<'_, '_>) -> Result<(), IntakeProblem> {
    let name = node.tag_name().name();
    let refuse = |what: String| Err(IntakeProblem::NotADrawing { what, line: line_of(node) });
    if LOST.contains(&name) {
        return refuse(format!("an element `{name}`"));
    }
    let link = node.attributes().find(|a| a.name() == "href" && !a.value().trim_start().starts_with('#'));
    match link {
        Some(_) => refuse(format!("a link in its `{name}`")),
        None => Ok(()),
    }
}

/// The layers of one element: one for each of its outlines, with the holes in it.
fn add_shapes(node: Node<'_, '_>, path: &BezPath, shapes: &mut Vec<Shape>) -> Result<(), IntakeProblem> {
    let parts = subpaths(path);
    let must_close = node.tag_name().name() != "polygon";
    let mut paths = Vec::with_capacity(parts.len());
    let mut rings = Vec::with_capacity(parts.len());
    for part in &parts {
        let size = part.bounding_box().size().max_side();
        if !size.is_finite() || size <= 0.0 {
            return Err(wrong(node, "it encloses nothing".to_owned()));
        }
        if must_close {
            check_closed(node, part, size)?;
        }
        let Some(ring) = flatten(part, size * NESTING).pop() else {
            return Err(wrong(node, "it encloses nothing".to_owned()));
        };
        rings.push(ring);
        paths.push(to_path(part));
    }
    if paths.is_empty() {
        return Err(wrong(node, "it encloses nothing".to_owned()));
    }
    check_corners(node, rings.iter().map(Vec::len).sum())?;
    let nested = nested(&rings);
    let many = nested.len() > 1;
    let given = short_name(&name_of(node).unwrap_or_default(), &format!("shape {}", shapes.len() + 1));
    let cloth = cloth_of(node)?;
    for (k, (outer, holes)) in nested.into_iter().enumerate() {
        let ring = |i: usize| rings.get(i).cloned().unwrap_or_default();
        let whole = Region::try_new(ring(outer), holes.iter().map(|&i| ring(i)).collect());
        whole.map_err(|problem| wrong(node, problem.to_string()))?;
        let id = if many { format!("{given} {}", k + 1) } else { given.clone() };
        let of = std::iter::once(outer).chain(holes).filter_map(|i| paths.get(i).cloned());
        shapes.push(Shape { id: unused(&id, shapes), cloth, paths: of.collect() });
    }
    Ok(())
}

fn cloth_of(node: Node<'_, '_>) -> Result<Option<ClothId>, IntakeProblem> {
    let read = |text: &str| ClothId::try_from(text.to_owned());
    node.attribute("data-cloth").map(read).transpose().map_err(|why| wrong(node, why))
}

/// The name, with a number if another shape has it already.
fn unused(name: &str, shapes: &[Shape]) -> String {
    let taken = |name: &str| shapes.iter().any(|shape| shape.id == name);
    let numbered = (2..).map(|k| format!("{name} {k}"));
    std::iter::once(name.to_owned()).chain(numbered).find(|name| !taken(name)).unwrap_or_default()
}

/// The parts of a path between moves; moves without a line are left out.
fn subpaths(path: &BezPath) -> Vec<BezPath> {
    let mut parts: Vec<BezPath> = Vec::new();
    for &element in path.elements() {
        match (element, parts.last_mut()) {
            (PathEl::MoveTo(_), _) | (_, None) => parts.push(BezPath::from_vec(vec![element])),
            (_, Some(part)) => part.push(element),
        }
    }
    parts.retain(|part| part.elements().len() > 1);
    parts
}

fn check_closed(node: Node<'_, '_>, part: &BezPath, size: f64) -> Result<(), IntakeProblem> {
    let elements = part.elements();
    let closed = elements.iter().any(|element| matches!(element, PathEl::ClosePath));
    let ends = elements.first().and_then(PathEl::end_point).zip(elements.last().and_then(PathEl::end_point));
    match ends {
        Some((first, last)) if !closed && first.distance(last) > size * NEARLY_CLOSED => {
            let gap = first.distance(last);
            Err(IntakeProblem::Open { shape: node.tag_name().name().to_owned(), line: line_of(node), gap })
        }
        _ => Ok(()),
    }
}

/// The same way with cubic curves only.
fn to_path(part: &BezPath) -> Path {
    let place = |p: kurbo::Point| Point::new(p.x, p.y);
    let mut start = Point::ORIGIN;
    let mut at = kurbo::Point::ORIGIN;
    let mut segments = Vec::with_capacity(part.elements().len());
    for &element in part.elements() {
        match element {
            PathEl::MoveTo(p) => start = place(p),
            PathEl::LineTo(p) => segments.push(Segment::Line(place(p))),
            PathEl::QuadTo(control, p) => {
                let toward = |from: kurbo::Point| place(from.lerp(control, 2.0 / 3.0));
                segments.push(Segment::Curve(toward(at), toward(p), place(p)));
            }
            PathEl::CurveTo(first, second, p) => {
                segments.push(Segment::Curve(place(first), place(second), place(p)));
            }
            PathEl::ClosePath => {}
        }
        at = element.end_point().unwrap_or(at);
    }
    Path { start, segments }
}
