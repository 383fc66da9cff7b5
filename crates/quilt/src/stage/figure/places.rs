//! Where a figure may lie: the places of its middle at which all of it keeps clear of the binding.
//!
//! At a given turn that set is the inside of the clear ground less every place at which a side of the
//! ground would run through the figure (the inner fit). On convex ground half-planes do. Ground with
//! inside corners is kept clear of with mitres, and there a figure of many corners is taken 1/32 larger;
//! both are on the safe side. The figure's holes are taken to be filled.

use super::simple::coarse;
use plane::{
    Line, MITRE_LIMIT, Point, READING, Region, Turn, Vec2, clip_half_plane, convex_parts, difference, offset,
    polygon,
};
use serde::Serialize;

/// The places of a figure's middle at one turn.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Places {
    /// Where the middle may be; empty when there is no place.
    pub regions: Vec<Region>,
}

/// Sliding along one side of the outline, at the distance of the place wished for.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Slide {
    /// Which side, counted from 1.
    pub side: usize,
    /// How far the middle is from that side, bound.
    pub from_side_in: f64,
    /// The ways that are free, each from a place to a place.
    pub ways: Vec<[Point; 2]>,
}

/// What is left of the bound outline further than `clear_in` from its edge. It is taken 1/1024 wider,
/// so that what fits exactly fits.
#[must_use]
pub fn clear_ground(outline: &Region, clear_in: f64) -> Vec<Region> {
    let inward = clear_in - READING;
    if inward.abs() < READING / 2.0 { vec![outline.clone()] } else { offset(outline, -inward, MITRE_LIMIT) }
}

impl Places {
    /// The places on clear ground for a figure given as outlines relative to its middle.
    #[must_use]
    pub fn of(ground: &[Region], figure: &[Vec<Point>]) -> Self {
        let regions = ground
            .iter()
            .flat_map(|part| {
                if part.holes.is_empty() && polygon::is_convex(&part.outer, 1e-12) {
                    on_convex(&part.outer, figure)
                } else {
                    on_any(part, figure)
                }
            })
            .collect();
        Self { regions }
    }

    /// Whether the middle may be here.
    #[must_use]
    pub fn holds(&self, p: Point) -> bool {
        self.regions.iter().any(|region| plane::depth_inside(region, p) >= -plane::DECISION)
    }

    /// The nearest place to here; `None` when there is none.
    #[must_use]
    pub fn nearest(&self, p: Point) -> Option<Point> {
        if self.holds(p) {
            return Some(p);
        }
        let rings =
            self.regions.iter().flat_map(|region| std::iter::once(&region.outer).chain(&region.holes));
        let on = rings.flat_map(|ring| polygon::edges(ring)).map(|(a, b)| nearest_on(a, b, p));
        on.min_by(|a, b| a.distance(p).total_cmp(&b.distance(p)))
    }

    /// The free ways through `p` along a direction, in order.
    #[must_use]
    pub fn along(&self, p: Point, direction: Turn) -> Vec<[Point; 2]> {
        let u = direction.vec();
        let mut cuts: Vec<f64> = Vec::new();
        for region in &self.regions {
            for ring in std::iter::once(&region.outer).chain(&region.holes) {
                for (a, b) in polygon::edges(ring) {
                    let (from, to) = (u.cross(a - p), u.cross(b - p));
                    if (from > 0.0) != (to > 0.0) {
                        cuts.push(a.lerp(b, from / (from - to)).to_vec2().dot(u) - p.to_vec2().dot(u));
                    }
                }
            }
        }
        cuts.sort_by(f64::total_cmp);
        let ways = cuts.windows(2).filter(|pair| {
            pair[1] - pair[0] > plane::DECISION && self.holds(p + u * f64::midpoint(pair[0], pair[1]))
        });
        ways.map(|pair| [p + u * pair[0], p + u * pair[1]]).collect()
    }

    /// Sliding along every side of the outline that has a free way at the distance of `p`.
    #[must_use]
    pub fn slides(&self, outline: &Region, p: Point) -> Vec<Slide> {
        let sides = polygon::edges(&outline.outer).enumerate();
        let found = sides.filter_map(|(i, (a, b))| {
            let line = Line::through(a, b)?;
            let ways = self.along(p, line.direction());
            (!ways.is_empty()).then(|| Slide { side: i + 1, from_side_in: line.inside_by(p), ways })
        });
        found.collect()
    }
}

fn nearest_on(a: Point, b: Point, p: Point) -> Point {
    let along = b - a;
    let t = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
    if t.is_nan() { a } else { a.lerp(b, t) }
}

/// Each side of the ground moved inward as far as the figure reaches towards it; outward where its
/// middle lies outside itself.
fn on_convex(ground: &[Point], figure: &[Vec<Point>]) -> Vec<Region> {
    let reach: Vec<Vec2> = polygon::hull(&figure.concat()).into_iter().map(Point::to_vec2).collect();
    let furthest = reach.iter().map(|v| v.length()).fold(0.0, f64::max);
    let Some((lo, hi)) = polygon::bounds(ground) else { return Vec::new() };
    let room = Region::rectangle(hi.x - lo.x + 2.0 * furthest, hi.y - lo.y + 2.0 * furthest);
    let room = room.moved(plane::Pose::new(Turn::NONE, lo.to_vec2() - Vec2::new(furthest, furthest)));
    let sides = polygon::edges(ground).filter_map(|(a, b)| Line::through(a, b));
    let outer = sides.fold(room.outer, |kept, line| {
        let normal = line.direction().left().vec();
        let most = reach.iter().map(|v| -normal.dot(*v)).fold(f64::NEG_INFINITY, f64::max);
        if kept.is_empty() { kept } else { clip_half_plane(&kept, line.inward(most), 0.0) }
    });
    if polygon::area(&outer) > 0.0 { vec![Region { outer, holes: Vec::new() }] } else { Vec::new() }
}

/// The ground, moved so that one point of each part of the figure lies in it, less the places at
/// which one of its sides meets the part.
fn on_any(ground: &Region, figure: &[Vec<Point>]) -> Vec<Region> {
    let mut left: Option<Vec<Region>> = None;
    for outline in figure {
        let outline = &coarse(outline);
        let Some(&first) = outline.first() else { continue };
        let moved = ground.moved(plane::Pose::new(Turn::NONE, -first.to_vec2()));
        let places = difference(&moved, &forbidden(ground, outline));
        left = Some(match left {
            None => places,
            Some(before) => {
                let pairs = before.iter().flat_map(|a| places.iter().map(move |b| (a, b)));
                pairs.flat_map(|(a, b)| plane::intersection(a, b)).collect()
            }
        });
    }
    left.unwrap_or_default()
}

/// The places at which a side of the ground meets the figure: each side and each convex part of the
/// figure, turned by half, added up.
fn forbidden(ground: &Region, outline: &[Point]) -> Vec<Region> {
    let parts = convex_parts(outline);
    let rings = std::iter::once(&ground.outer).chain(&ground.holes);
    let mut found = Vec::new();
    for (a, b) in rings.flat_map(|ring| polygon::edges(ring)) {
        for part in &parts {
            let sums = part.iter().flat_map(|&v| [a - v.to_vec2(), b - v.to_vec2()]);
            found.push(Region { outer: polygon::hull(&sums.collect::<Vec<_>>()), holes: Vec::new() });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    fn near(a: Point, b: Point) -> bool {
        a.distance(b) < 1e-6
    }

    #[test]
    fn a_small_square_in_a_large_one_has_a_square_of_places() {
        let figure = vec![points(&[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])];
        let places = Places::of(&[Region::rectangle(10.0, 8.0)], &figure);
        assert!((places.regions[0].area() - 48.0).abs() < 1e-9);
        assert!(places.holds(Point::new(1.0, 1.0)) && !places.holds(Point::new(0.99, 4.0)));
        assert!(near(places.nearest(Point::new(0.0, 20.0)).unwrap(), Point::new(1.0, 7.0)));
        let slide = &places.slides(&Region::rectangle(10.0, 8.0), Point::new(3.0, 2.0))[0];
        assert_eq!((slide.side, slide.from_side_in), (1, 2.0));
        assert!(near(slide.ways[0][0], Point::new(1.0, 2.0)) && near(slide.ways[0][1], Point::new(9.0, 2.0)));
    }

    #[test]
    fn both_ways_to_find_the_places_agree_on_convex_ground() {
        let ground =
            Region::try_new(points(&[(0.0, 0.0), (9.0, 1.0), (10.0, 6.0), (4.0, 9.0), (-1.0, 5.0)]), vec![])
                .unwrap();
        let hook = points(&[(-1.0, -1.0), (1.5, -1.0), (1.5, -0.5), (-0.5, -0.5), (-0.5, 1.0), (-1.0, 1.0)]);
        let convex = on_convex(&ground.outer, std::slice::from_ref(&hook));
        let any = on_any(&ground, &[hook]);
        let area = |regions: &[Region]| regions.iter().map(Region::area).sum::<f64>();
        assert!((area(&convex) - area(&any)).abs() < 1e-6, "{} {}", area(&convex), area(&any));
    }

    #[test]
    fn in_an_ell_a_figure_lies_in_either_arm_and_hooks_round_the_corner() {
        let ell = Region::try_new(
            points(&[(0.0, 0.0), (8.0, 0.0), (8.0, 2.0), (2.0, 2.0), (2.0, 8.0), (0.0, 8.0)]),
            vec![],
        )
        .unwrap();
        let bar = vec![points(&[(-1.5, -0.5), (1.5, -0.5), (1.5, 0.5), (-1.5, 0.5)])];
        let places = Places::of(std::slice::from_ref(&ell), &bar);
        assert!(places.holds(Point::new(4.0, 1.0)) && !places.holds(Point::new(1.0, 5.0)));
        // Its hull would cross the inside corner; the figure itself doesn't.
        let hook =
            vec![points(&[(-1.0, -1.0), (3.0, -1.0), (3.0, -0.6), (-0.6, -0.6), (-0.6, 3.0), (-1.0, 3.0)])];
        let places = Places::of(std::slice::from_ref(&ell), &hook);
        assert!(places.holds(Point::new(1.5, 1.5)) && !places.holds(Point::new(3.7, 1.5)));
        for region in &places.regions {
            for p in &region.outer {
                let moved: Vec<Point> = hook[0].iter().map(|v| *p + v.to_vec2()).collect();
                let out = difference(&Region { outer: moved, holes: vec![] }, std::slice::from_ref(&ell));
                assert!(out.iter().map(Region::area).sum::<f64>() < 1e-6, "{p:?}");
            }
        }
    }

    #[test]
    fn clear_ground_keeps_its_distance_and_lets_an_exact_fit_in() {
        let outline = Region::rectangle(10.0, 10.0);
        let ground = clear_ground(&outline, 1.0);
        let exact = vec![points(&[(-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)])];
        let places = Places::of(&ground, &exact);
        assert!(places.holds(Point::new(5.0, 5.0)) && !places.holds(Point::new(5.002, 5.0)));
        assert!(clear_ground(&outline, 6.0).is_empty());
        assert_eq!(clear_ground(&outline, 0.0).len(), 1);
    }
}
