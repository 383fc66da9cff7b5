//! The part of a cloth that is seen: its mean colour, over it its picture, or, for a cloth that
//! was pieced, the cloths it was pieced from.

use crate::looks::Looks;
use crate::{Item, PictureItem, Placement, Shape, Stroke, Tag};
use plane::{Point, Region};
use quilt::cloth::{Cloth, ClothId};

/// Which side of the cloth is up, and whether pictures are wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Seen {
    /// The wrong side: paler.
    pub(crate) wrong_side: bool,
    /// Mean colours only.
    pub(crate) flat: bool,
}

/// Opacity of the print seen through to the wrong side.
const PRINT_THROUGH: f64 = 0.3;

/// Cloths pieced from pieced cloths are followed this deep; deeper ones show their mean colour.
const DEEPEST: usize = 4;

/// What shows of `cloth` in `region` (in drawing coordinates) when it lies as `placement` says,
/// from cloth to drawing. A cloth that isn't known shows a plain grey.
pub(crate) fn shows(
    looks: &Looks<'_>,
    cloth: ClothId,
    placement: Placement,
    region: &Region,
    seen: Seen,
) -> Vec<Item> {
    let mut items = Vec::new();
    add(&mut items, looks, cloth, placement, region, seen, DEEPEST);
    items
}

fn add(
    items: &mut Vec<Item>,
    looks: &Looks<'_>,
    id: ClothId,
    placement: Placement,
    region: &Region,
    seen: Seen,
    depth: usize,
) {
    let paint = looks.paint(id, seen.wrong_side);
    items.push(Item::new(Shape::Fill { region: region.clone(), paint }).tagged(Tag::class("cloth")));
    let Some(cloth) = looks.cloth(id) else { return };
    if let Some(picture) = looks.picture(id).filter(|_| !seen.flat) {
        let opacity = if seen.wrong_side { PRINT_THROUGH } else { 1.0 };
        items.push(Item::new(Shape::Picture(PictureItem {
            picture,
            placement,
            clip: region.clone(),
            opacity,
        })));
    } else if !cloth.parts.is_empty() && depth > 0 {
        let mut parts = Vec::new();
        for part in &cloth.parts {
            let shows = Region { outer: placement.apply_all(&part.shows), holes: Vec::new() };
            let lies = Placement::moved(part.pose).then(placement);
            add(&mut parts, looks, part.cloth, lies, &shows, seen, depth - 1);
        }
        parts.extend(joins(cloth, placement));
        let pieced = Shape::Group { clip: Some(region.clone()), items: parts };
        items.push(Item::new(pieced).tagged(Tag::class("pieced")));
    }
}

/// The seams of a pieced cloth: where two parts lie against each other. Each is drawn once.
fn joins(cloth: &Cloth, placement: Placement) -> Vec<Item> {
    let mut lines = Vec::new();
    for (i, part) in cloth.parts.iter().enumerate() {
        for (a, b) in plane::polygon::edges(&part.shows) {
            let middle = a.midpoint(b);
            let others = cloth.parts.iter().take(i);
            if others.into_iter().any(|other| on_edge(&other.shows, middle)) {
                lines.push(Item::line(placement.apply_all(&[a, b]), Stroke::Stitches));
            }
        }
    }
    lines
}

/// Whether `p` lies on the outline, to within 1/1024 inch.
fn on_edge(points: &[Point], p: Point) -> bool {
    plane::polygon::edges(points).any(|(a, b)| {
        let along = b - a;
        let length = along.length();
        length > 0.0 && {
            let t = (p - a).dot(along) / length;
            (p - a).cross(along).abs() / length < plane::READING && (0.0..=length).contains(&t)
        }
    })
}
