//! Outlines that scraps in a basket really have: mostly quadrilaterals with a slanted side or two,
//! strips, triangles, odd pentagons, and some with a bite out.

use crate::dice::Dice;
use plane::{Point, Region, polygon};

/// What sort of scrap an outline is.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Sort {
    Quad,
    Strip,
    Triangle,
    Pentagon,
    Bitten,
}

/// How often each sort comes. Ours, from what is left on a cutting table; no source.
const SORTS: [(Sort, f64); 5] = [
    (Sort::Quad, 0.46),
    (Sort::Strip, 0.18),
    (Sort::Triangle, 0.17),
    (Sort::Pentagon, 0.12),
    (Sort::Bitten, 0.07),
];

/// An outline about so long, its first side along x from about the origin; a checked region.
/// Holes come to one in thirty.
pub(crate) fn outline(dice: &mut Dice, long_in: f64) -> Region {
    for _ in 0..TRIES {
        let outer = corners(dice, long_in);
        let holes = if dice.chance(1.0 / 30.0) { hole(dice, &outer) } else { None };
        let holes = holes.into_iter().collect();
        if let Ok(region) = Region::try_new(outer, holes) {
            let thick = region.area() > 0.2 * long_in * LEAST_WIDTH;
            if thick && polygon::least_width(&region.outer) >= LEAST_WIDTH {
                return region;
            }
        }
    }
    Region::rectangle(long_in, (long_in * 0.6).max(LEAST_WIDTH))
}

/// A stain or thin place: a small four-sided patch somewhere inside.
pub(crate) fn flaw(dice: &mut Dice, region: &Region) -> Option<Region> {
    let spot = hole(dice, &region.outer)?;
    Region::try_new(spot, Vec::new()).ok().filter(|_| region.holes.is_empty())
}

fn corners(dice: &mut Dice, long: f64) -> Vec<Point> {
    match dice.pick(&SORTS).unwrap_or(Sort::Quad) {
        Sort::Quad => {
            let height = long * dice.between(0.5, 0.98);
            quad(dice, long, height, 0.16)
        }
        Sort::Strip => {
            let height = (long * dice.between(0.18, 0.36)).max(LEAST_WIDTH * 1.15);
            quad(dice, long, height, 0.08)
        }
        Sort::Triangle => {
            let height = long * dice.between(0.5, 0.9);
            let apex = long * dice.pick(&[(0.0, 0.45), (0.5, 0.2), (0.8, 0.35)]).unwrap_or(0.0);
            vec![at(0.0, 0.0), at(long, 0.0), at(apex + long * dice.between(0.0, 0.2), height)]
        }
        Sort::Pentagon => {
            let height = long * dice.between(0.6, 0.95);
            let mut outer = quad(dice, long, height, 0.14);
            let (a, b) = (dice.between(0.25, 0.6), dice.between(0.25, 0.6));
            cut_corner(&mut outer, dice, a, b);
            outer
        }
        Sort::Bitten => {
            let height = long * dice.between(0.6, 0.95);
            let mut outer = quad(dice, long, height, 0.10);
            bite(&mut outer, dice);
            outer
        }
    }
}

/// A quadrilateral: each upper corner and one lower corner off by up to `off` of the length, two
/// times in three with one side left true.
fn quad(dice: &mut Dice, long: f64, height: f64, off: f64) -> Vec<Point> {
    let true_side = dice.chance(0.4);
    let mut slip = |scale: f64| dice.between(-off, off) * scale;
    let left = if true_side { 0.0 } else { slip(long) };
    vec![
        at(0.0, 0.0),
        at(long, slip(height) * 0.5),
        at(long + slip(long), height + slip(height)),
        at(left, height + slip(height)),
    ]
}

/// Takes one corner off, leaving so much of its two sides.
fn cut_corner(outer: &mut Vec<Point>, dice: &mut Dice, a: f64, b: f64) {
    let n = outer.len();
    let i = dice.below(n);
    let (before, corner, after) = (outer[(i + n - 1) % n], outer[i], outer[(i + 1) % n]);
    outer.splice(i..=i, [corner.lerp(before, a), corner.lerp(after, b)]);
}

/// Takes a bite out of a side or a corner, as when something was cut from the middle of an edge.
fn bite(outer: &mut Vec<Point>, dice: &mut Dice) {
    let n = outer.len();
    let i = dice.below(n);
    let (a, b) = (outer[i], outer[(i + 1) % n]);
    let inward = (b - a).left();
    let (from, to) = (dice.between(0.15, 0.4), dice.between(0.55, 0.85));
    let depth = dice.between(0.18, 0.42);
    let at = |t: f64, depth: f64| a.lerp(b, t) + inward * depth;
    let mut notch = vec![at(from, 0.0), at(from + 0.05, depth)];
    if dice.chance(0.5) {
        notch.push(at(to - 0.05, depth * dice.between(0.7, 1.0)));
    }
    notch.push(at(to, 0.0));
    outer.splice(i + 1..i + 1, notch);
}

/// A small four-sided hole wholly inside, a fair way from the edge, if one is found.
fn hole(dice: &mut Dice, outer: &[Point]) -> Option<Vec<Point>> {
    let centre = polygon::centroid(outer)?;
    let size = polygon::least_width(outer) * dice.between(0.08, 0.16);
    let off = polygon::diameter(outer) * 0.12;
    let middle = at(centre.x + dice.between(-off, off), centre.y + dice.between(-off, off));
    let ring: Vec<Point> = [(-1.0, -0.8), (1.0, -1.0), (0.8, 1.0), (-1.0, 0.9)]
        .iter()
        .map(|&(x, y)| at(middle.x + x * size, middle.y + y * size))
        .collect();
    let reach = |p: &Point| middle.lerp(*p, 2.2);
    ring.iter().all(|p| polygon::contains(outer, reach(p))).then_some(ring)
}

const fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// No scrap that is kept is narrower, in inches.
const LEAST_WIDTH: f64 = 1.25;
/// Outlines drawn before a plain rectangle is taken.
const TRIES: usize = 32;
