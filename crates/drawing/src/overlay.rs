//! Marks of the eye check, laid over a drawing: where a number was found.

use crate::{Item, Paint, Stroke, TextItem, ink};
use plane::{Point, Vec2};

/// One mark.
#[derive(Clone, Debug, PartialEq)]
pub enum EyeMark {
    /// A place.
    Spot {
        /// Where.
        at: Point,
        /// What it says; may be empty.
        label: String,
    },
    /// A line through points.
    Path {
        /// Its points.
        points: Vec<Point>,
        /// What it says, at its middle; may be empty.
        label: String,
    },
    /// An area, tinted.
    Area {
        /// Its outline.
        outline: Vec<Point>,
        /// What it says, in its middle; may be empty.
        label: String,
    },
    /// A circle.
    Ring {
        /// Its middle.
        centre: Point,
        /// Its radius in inches.
        radius_in: f64,
        /// What it says, at its top; may be empty.
        label: String,
    },
}

/// Marks as items, for [`crate::Drawing::with`]. `weight` is that of the drawing they go on.
#[must_use]
pub fn overlay(marks: &[EyeMark], weight: f64) -> Item {
    Item::group("eye-check", marks.iter().map(|mark| Item::group("mark", items(mark, weight))).collect())
}

fn items(mark: &EyeMark, weight: f64) -> Vec<Item> {
    let (mut items, place, label) = match mark {
        EyeMark::Spot { at, label } => {
            let radius = 0.12 * weight;
            let dot = Item::fill(circle(*at, radius, 24), Paint::solid(ink::MADDER));
            let rim = Item::closed(circle(*at, radius * 1.6, 32), Stroke::Mark);
            (vec![dot, rim], *at + Vec2::new(0.0, 0.4 * weight), label)
        }
        EyeMark::Path { points, label } => {
            let middle = points.get(points.len() / 2).copied().unwrap_or_default();
            (vec![Item::line(points.clone(), Stroke::Mark)], middle, label)
        }
        EyeMark::Area { outline, label } => {
            let tint = Item::fill(outline.clone(), Paint::Colour(ink::MADDER, 0.22));
            let middle = plane::polygon::centroid(outline).unwrap_or_default();
            (vec![tint, Item::closed(outline.clone(), Stroke::Mark)], middle, label)
        }
        EyeMark::Ring { centre, radius_in, label } => {
            let ring = Item::closed(circle(*centre, *radius_in, 96), Stroke::Mark);
            (vec![ring], *centre + Vec2::new(0.0, *radius_in), label)
        }
    };
    if !label.is_empty() {
        let text = TextItem::level(place, 0.3 * weight, label.as_str());
        items.push(Item::text(TextItem { rim: true, colour: ink::MADDER, ..text }));
    }
    items
}

/// A circle as a polygon of `corners` corners.
fn circle(centre: Point, radius: f64, corners: u32) -> Vec<Point> {
    let step = std::f64::consts::TAU / f64::from(corners);
    (0..corners)
        .map(|i| {
            let (sin, cos) = (f64::from(i) * step).sin_cos();
            centre + Vec2::new(cos * radius, sin * radius)
        })
        .collect()
}
