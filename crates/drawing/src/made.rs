//! What a part of a stage shows: its cloth where it is known, else its colour.

use crate::looks::Looks;
use crate::shows::{Seen, shows};
use crate::stages::Made;
use crate::{Item, Paint, Placement};
use colour::Srgb;
use plane::{Line, Point, Region, polygon};

/// What shows of it in a region, if its cloth lies as `placement` says.
pub(crate) fn made(
    looks: &Looks<'_>,
    made: Made,
    placement: Placement,
    outline: Vec<Point>,
    flat: bool,
) -> Vec<Item> {
    match made {
        Made::Of(cloth) => {
            let region = Region { outer: outline, holes: Vec::new() };
            shows(looks, cloth, placement, &region, Seen { wrong_side: false, flat })
        }
        Made::Plain(colour) => vec![plain(outline, colour)],
    }
}

/// An area of one colour.
pub(crate) fn plain(outline: Vec<Point>, colour: Srgb) -> Item {
    Item::fill(outline, Paint::solid(colour))
}

/// The corners of the line `by_in` inside every side of a counter-clockwise outline. Where two sides
/// run on in one line the corner moves straight in.
pub(crate) fn inset(outline: &[Point], by_in: f64) -> Vec<Point> {
    let lines: Vec<Option<Line>> = polygon::edges(outline).map(|(a, b)| Line::through(a, b)).collect();
    let n = lines.len();
    let corner = |(i, p): (usize, &Point)| {
        let (before, own) = (lines[(i + n - 1) % n]?, lines[i]?);
        let meet = before.inward(by_in).crossing(own.inward(by_in));
        // Nearly straight on, the crossing is far off or anywhere.
        let near = meet.filter(|meet| before.turn_sine(own).abs() > 1e-6 && meet.is_finite());
        Some(near.unwrap_or(*p + own.normal.vec() * by_in))
    };
    outline.iter().enumerate().map(|at| corner(at).unwrap_or(*at.1)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_side_of_an_inset_outline_has_moved_in() {
        // An L with a corner in the middle of its lower side.
        let points = |list: &[(f64, f64)]| list.iter().map(|&(x, y)| Point::new(x, y)).collect::<Vec<_>>();
        let l = points(&[(0.0, 0.0), (3.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 5.0), (0.0, 5.0)]);
        let inner =
            points(&[(0.5, 0.5), (3.0, 0.5), (5.5, 0.5), (5.5, 1.5), (1.5, 1.5), (1.5, 4.5), (0.5, 4.5)]);
        for (found, expected) in inset(&l, 0.5).iter().zip(&inner) {
            assert!(found.distance(*expected) < 1e-9, "{found:?} {expected:?}");
        }
    }
}
