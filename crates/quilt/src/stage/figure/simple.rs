//! Lines with fewer points.

use plane::{Point, grow_outline};

/// The line without the points that lie within `by` inches of the line between those kept
/// (Ramer, Douglas and Peucker).
pub(super) fn simpler(line: &[Point], by: f64) -> Vec<Point> {
    let [first, .., last] = line else { return line.to_vec() };
    let off = |p: &Point| {
        let along = *last - *first;
        let t = ((*p - *first).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        if t.is_nan() { p.distance(*first) } else { p.distance(first.lerp(*last, t)) }
    };
    let furthest = line.iter().enumerate().max_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)));
    match furthest {
        Some((i, p)) if off(p) > by && i > 0 && i + 1 < line.len() => {
            let mut kept = simpler(&line[..=i], by);
            kept.extend(simpler(&line[i..], by).into_iter().skip(1));
            kept
        }
        _ => vec![*first, *last],
    }
}

/// How far a coarse outline may lie outside the one it stands for, in inches, but for mitres.
pub(super) const COARSE_IN: f64 = 1.0 / 32.0;
/// Outlines of no more corners stay as they are.
const FEW: usize = 48;

/// An outline around the one given with far fewer corners, for searching: a curve is grown by 1/64 and
/// straightened by no more than that.
pub(super) fn coarse(outline: &[Point]) -> Vec<Point> {
    if outline.len() <= FEW {
        return outline.to_vec();
    }
    let mut grown = grow_outline(outline, COARSE_IN / 2.0);
    let Some(&first) = grown.first() else { return outline.to_vec() };
    grown.push(first);
    let mut ring = simpler(&grown, COARSE_IN / 2.0);
    ring.pop();
    let sound = plane::Region::try_new(ring, Vec::new());
    sound.map_or_else(|_| outline.to_vec(), |region| region.outer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Region, Turn, depth_inside};

    #[test]
    fn a_coarse_outline_goes_round_the_fine_one_closely() {
        let petal = |k: u32| {
            let deg = f64::from(k) * 0.75;
            Point::ORIGIN + Turn::from_degrees(deg).vec() * (2.0 + (deg * 5.0).to_radians().sin())
        };
        let fine: Vec<Point> = (0..480).map(petal).collect();
        let coarse = Region { outer: coarse(&fine), holes: Vec::new() };
        assert!(coarse.outer.len() < 100, "{}", coarse.outer.len());
        for p in fine {
            let depth = depth_inside(&coarse, p);
            assert!((-1e-9..2.0 * COARSE_IN).contains(&depth), "{depth} at {p:?}");
        }
    }
}
