//! What shape a squared piece has, and how far it leans.
//!
//! A rectangle stands upright when its wished width is level. Where neither side was wished as the width,
//! and for a square, it is turned the least that levels a side.

use super::{Goal, LargestKind};
use plane::{Point, Turn, polygon};
use serde::Serialize;

/// What differs from a right angle by less is one: half a degree is 1/8 in 14 inches.
const RIGHT_SINE: f64 = 0.008_726_5;
/// What leans less stands, in degrees: over 100 inches that is 1/500.
const STANDS_DEG: f64 = 0.001;

/// The shape of a squared piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// A rectangle, as it stands upright.
    Rectangle {
        /// Raw width in inches.
        width_in: f64,
        /// Raw height in inches.
        height_in: f64,
    },
    /// A circle.
    Circle {
        /// Raw width across in inches.
        diameter_in: f64,
    },
    /// Any other.
    Polygon {
        /// How many sides it has.
        sides: usize,
    },
}

const fn is_round(goal: &Goal) -> bool {
    matches!(goal, Goal::Circle { .. } | Goal::Largest { kind: LargestKind::Circle })
}

/// What comes out, by the corners wished and cut.
pub(super) fn shape(goal: &Goal, target: &[Point], cut: &[Point]) -> Shape {
    if is_round(goal) {
        // The circle touches all its cuts: area is half its radius times the way round.
        let radius = 2.0 * polygon::area(cut) / polygon::perimeter(cut);
        return Shape::Circle { diameter_in: 2.0 * radius };
    }
    let level = lean(goal, target, cut).unwrap_or(Turn::NONE);
    match cut {
        [..] if is_rectangle(cut) => {
            let upright: Vec<Point> = cut.iter().map(|p| Point::ORIGIN + level.apply(p.to_vec2())).collect();
            let (lo, hi) = polygon::bounds(&upright).unwrap_or_default();
            Shape::Rectangle { width_in: hi.x - lo.x, height_in: hi.y - lo.y }
        }
        _ => Shape::Polygon { sides: cut.len() },
    }
}

/// How a rectangle is to be turned so that it stands upright; `None` when it does, and for other shapes.
pub(super) fn lean(goal: &Goal, target: &[Point], cut: &[Point]) -> Option<Turn> {
    if is_round(goal) || !is_rectangle(cut) {
        return None;
    }
    let has_width = matches!(goal, Goal::Rectangle { .. } | Goal::RectangleByCorners { .. });
    // The first side wished is the width.
    let corners = if has_width { target } else { cut };
    let along = Turn::towards(*corners.get(1)? - *corners.first()?)?.inverse();
    let ways = if has_width {
        vec![along, along.opposite()]
    } else {
        vec![along, along.left(), along.opposite(), along.opposite().left()]
    };
    // The first of equals, so that what leans by a half or a quarter turn is always turned the same way.
    let least = ways.into_iter().reduce(|best, way| if way.cos > best.cos + 1e-9 { way } else { best })?;
    (least.to_degrees().abs() > STANDS_DEG).then_some(least)
}

fn is_rectangle(corners: &[Point]) -> bool {
    let square = |i: usize| {
        let [a, b, c] = [i, i + 1, i + 2].map(|k| corners[k % 4]);
        let (one, next) = (b - a, c - b);
        one.dot(next).abs() <= RIGHT_SINE * one.length() * next.length()
    };
    corners.len() == 4 && (0..4).all(square)
}
