//! Marks of the eye check, laid over a drawing: where a number was found.

use crate::{Item, Paint, Stroke, ink};
use plane::{Point, Vec2};
use quilt::eye::EyeMark;

/// Marks as items, for [`crate::Drawing::with`]: places as dots with a rim, lines, and shapes
/// tinted. `weight` is that of the drawing they go on.
#[must_use]
pub fn overlay(marks: &[EyeMark], weight: f64) -> Item {
    Item::group("eye-check", marks.iter().map(|mark| Item::group("mark", items(mark, weight))).collect())
}

fn items(mark: &EyeMark, weight: f64) -> Vec<Item> {
    match mark {
        EyeMark::Point(at) => {
            let radius = 0.12 * weight;
            let dot = Item::fill(circle(*at, radius, 24), Paint::solid(ink::MADDER));
            vec![dot, Item::closed(circle(*at, radius * 1.6, 32), Stroke::Mark)]
        }
        EyeMark::Line(from, to) => vec![Item::line(vec![*from, *to], Stroke::Mark)],
        EyeMark::Polygon(outline) => {
            let tint = Item::fill(outline.clone(), Paint::Colour(ink::MADDER, 0.22));
            vec![tint, Item::closed(outline.clone(), Stroke::Mark)]
        }
    }
}

/// A circle as a polygon of `corners` corners.
pub(crate) fn circle(centre: Point, radius: f64, corners: u32) -> Vec<Point> {
    let step = std::f64::consts::TAU / f64::from(corners);
    (0..corners)
        .map(|i| {
            let (sin, cos) = (f64::from(i) * step).sin_cos();
            centre + Vec2::new(cos * radius, sin * radius)
        })
        .collect()
}
