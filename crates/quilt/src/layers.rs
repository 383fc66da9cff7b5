//! How many layers of cloth lie over a point.
//!
//! A seam's two allowances lie in a band along it, as wide as the allowance, on the side it is
//! pressed to; over that band lie the patch that shows and two layers more. Where the seam runs into
//! a later one its end is folded in with that one's allowance and lies `allowance` further. A seam
//! counts once at a point however it is folded, so `n` seams stacked there make `2n + 1` layers: one
//! crossing 5, a third 7, a fourth 9 (common practice, no source). A seam pressed open lays one
//! layer on each side instead of two on one.
//!
//! Inches. Seams that later ones swallowed wholly are not counted. Places narrower than 1/64 inch
//! are not looked at: cloth doesn't lie so exactly. The grid by which allowances are found has cells
//! of an inch, or so large that 256 cover the longer way across: its size is bounded, and what is
//! found doesn't depend on it.

use crate::log::{Bound, Name, Press};
use crate::table::{Seam, Top};
use plane::{Line, Point, clip_half_plane, polygon};
use serde::Serialize;
use std::collections::BTreeMap;

/// Half the width of the narrowest place that is looked at, in inches.
const FINEST_IN: f64 = 1.0 / 64.0;

/// Most cells of the grid along each way.
const MOST_CELLS: f64 = 256.0;

/// A place where layers pile up: more than anywhere around it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThickPoint {
    /// Where.
    pub at: Point,
    /// How many layers.
    pub layers: u32,
    /// The seams that lie there, oldest first.
    pub seams: Vec<Name>,
}

/// The folded allowances of a top, ready to be asked.
#[derive(Clone, Debug, Default)]
pub struct Layers {
    bands: Vec<Band>,
    cells: Cells,
    grid: BTreeMap<(i32, i32), Vec<usize>>,
}

/// A convex strip of folded allowance.
#[derive(Clone, Debug)]
struct Band {
    seam: Name,
    order: u32,
    adds: u32,
    points: Vec<Point>,
    lo: Point,
    hi: Point,
}

/// The places where at least `at_least` layers lie, thickest first.
#[must_use]
pub fn thickest(top: &Top, at_least: u32) -> Vec<ThickPoint> {
    Layers::of(top).thickest(at_least)
}

impl Layers {
    /// The folded allowances of all seams of a top.
    #[must_use]
    pub fn of(top: &Top) -> Self {
        let seams = top.seams().iter();
        let bands = seams.flat_map(|(&name, seam)| {
            let bands = seam_bands(top, name, seam).into_iter();
            bands.filter_map(move |(points, adds)| Band::of(name, seam.order, adds, points))
        });
        Self::over_bands(bands.collect())
    }

    fn over_bands(bands: Vec<Band>) -> Self {
        let cells = Cells::over(&bands);
        let mut grid: BTreeMap<(i32, i32), Vec<usize>> = BTreeMap::new();
        for (index, band) in bands.iter().enumerate() {
            let (a, b) = (cells.at(band.lo), cells.at(band.hi));
            for x in a.0..=b.0 {
                for y in a.1..=b.1 {
                    if cells.meet(&band.points, (x, y)) {
                        grid.entry((x, y)).or_default().push(index);
                    }
                }
            }
        }
        Self { bands, cells, grid }
    }

    /// Layers over a point inside the top.
    #[must_use]
    pub fn at(&self, p: Point) -> u32 {
        1 + self.over(p).values().map(|(_, adds)| adds).sum::<u32>()
    }

    /// The places where at least `at_least` layers lie, thickest first. Of places nearer together
    /// than half an inch only the thickest is named.
    #[must_use]
    pub fn thickest(&self, at_least: u32) -> Vec<ThickPoint> {
        let mut found: Vec<(u32, Point)> = Vec::new();
        let least = at_least.max(2);
        for (i, band) in self.bands.iter().enumerate() {
            for (a, b) in polygon::edges(&band.points) {
                self.probe(i, a, b, &mut |p| {
                    let layers = self.at(p);
                    if layers >= least {
                        found.push((layers, p));
                    }
                });
            }
        }
        found.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.x.total_cmp(&b.1.x)).then(a.1.y.total_cmp(&b.1.y)));
        let mut kept: Vec<ThickPoint> = Vec::new();
        for (layers, at) in found {
            if kept.iter().all(|k| k.at.distance(at) >= 0.5) {
                kept.push(ThickPoint { at, layers, seams: self.seams_at(at) });
            }
        }
        kept
    }

    fn seams_at(&self, p: Point) -> Vec<Name> {
        let mut seams: Vec<(u32, Name)> =
            self.over(p).into_iter().map(|(n, (order, _))| (order, n)).collect();
        seams.sort_unstable();
        seams.into_iter().map(|(_, name)| name).collect()
    }

    /// The seams over a point: their order and how many layers each lays there.
    fn over(&self, p: Point) -> BTreeMap<Name, (u32, u32)> {
        let mut seams = BTreeMap::new();
        for &i in self.grid.get(&self.cells.at(p)).map_or(&[][..], Vec::as_slice) {
            let band = &self.bands[i];
            if band.covers(p) {
                let entry = seams.entry(band.seam).or_insert((band.order, 0));
                entry.1 = entry.1.max(band.adds);
            }
        }
        seams
    }

    /// Calls `visit` with a point beside each place where the edge `a b` of band `i` meets the
    /// edge of another band, and beside `a`. A place thicker than all around it lies inside every
    /// band at its rim, so the point lies inside both edges.
    fn probe(&self, i: usize, a: Point, b: Point, visit: &mut dyn FnMut(Point)) {
        let own = &self.bands[i];
        let Some(edge) = Line::through(a, b) else { return };
        if let Some(middle) = polygon::centroid(&own.points) {
            visit(a.lerp(middle, (2.0 * FINEST_IN / a.distance(middle).max(FINEST_IN)).min(1.0)));
        }
        let mut near: Vec<usize> = self
            .cells
            .along(a, b)
            .filter_map(|at| self.grid.get(&at))
            .flatten()
            .copied()
            .filter(|&j| j > i && self.bands[j].near(own))
            .collect();
        near.sort_unstable();
        near.dedup();
        for j in near {
            for (c, d) in polygon::edges(&self.bands[j].points) {
                let Some(p) = crossing(a, b, c, d) else { continue };
                let Some(other) = Line::through(c, d) else { continue };
                let inside = edge.normal.vec() + other.normal.vec();
                visit(p + inside * (2.0 * FINEST_IN / inside.length().max(0.1)));
            }
        }
    }
}

impl Band {
    /// `None` for a strip too small to be looked at.
    fn of(seam: Name, order: u32, adds: u32, points: Vec<Point>) -> Option<Self> {
        let (lo, hi) = polygon::bounds(&points)?;
        let counts = polygon::area(&points) >= FINEST_IN * FINEST_IN && lo.is_finite() && hi.is_finite();
        counts.then_some(Self { seam, order, adds, points, lo, hi })
    }

    fn covers(&self, p: Point) -> bool {
        p.x >= self.lo.x
            && p.x <= self.hi.x
            && p.y >= self.lo.y
            && p.y <= self.hi.y
            && polygon::edges(&self.points).all(|(a, b)| (b - a).cross(p - a) >= 0.0)
    }

    fn near(&self, other: &Self) -> bool {
        self.lo.x <= other.hi.x
            && other.lo.x <= self.hi.x
            && self.lo.y <= other.hi.y
            && other.lo.y <= self.hi.y
    }
}

/// The bands of one seam, each with the layers it adds.
fn seam_bands(top: &Top, name: Name, seam: &Seam) -> Vec<(Vec<Point>, u32)> {
    let (Some(line), Some((a, b))) = (top.line(Bound::Seam(name)), top.seam_points(name)) else {
        return Vec::new();
    };
    let wide = seam.allowance_in;
    let sides: &[(bool, u32)] = match seam.press {
        Press::Over => &[(true, 2)],
        Press::Back => &[(false, 2)],
        Press::Open => &[(true, 1), (false, 1)],
    };
    let ends = seam.ends().map(|end| End::of(top, end, seam.order, a.midpoint(b)));
    let mut bands = Vec::new();
    for &(outside, adds) in sides {
        // The inside of a seam's line is towards what it was sewn onto; over is the other way.
        let near = if outside { line.reversed() } else { line };
        let strip = strip(near, a, b, wide);
        let body = ends
            .iter()
            .flatten()
            .fold(strip.clone(), |kept, end| clip_half_plane(&kept, end.line, plane::DECISION));
        bands.push((body, adds));
        for end in ends.iter().flatten() {
            let beyond = clip_half_plane(&strip, end.line.reversed(), plane::DECISION);
            let within = clip_half_plane(&beyond, end.line.inward(-end.wide), plane::DECISION);
            if let Some(folded) = end.folded(&within) {
                bands.push((folded, adds));
            }
        }
    }
    bands
}

/// The strip `wide` inside `line`, reaching one inch or four widths beyond both points.
fn strip(line: Line, a: Point, b: Point, wide: f64) -> Vec<Point> {
    let (s, t) = (line.along(a).min(line.along(b)), line.along(a).max(line.along(b)));
    let over = (4.0 * wide).max(1.0);
    let inner = line.inward(wide);
    vec![line.point_at(s - over), line.point_at(t + over), inner.point_at(t + over), inner.point_at(s - over)]
}

/// What a seam ends at: a line with its inside towards the seam's middle.
struct End {
    line: Line,
    wide: f64,
    /// For a later seam: whether the allowance beyond it is folded back towards the seam.
    back: Option<bool>,
}

impl End {
    fn of(top: &Top, bound: Bound, order: u32, middle: Point) -> Option<Self> {
        let line = top.line(bound)?;
        let inside = line.inside_by(middle) >= 0.0;
        let towards = if inside { line } else { line.reversed() };
        let later = match bound {
            Bound::Seam(name) => top.seams().get(&name).filter(|seam| seam.order > order),
            Bound::Raw(_) => None,
        };
        Some(Self {
            line: towards,
            wide: later.map_or(0.0, |seam| seam.allowance_in),
            back: later.map(|seam| match seam.press {
                Press::Over => !inside,
                Press::Back => inside,
                Press::Open => true,
            }),
        })
    }

    /// Where the part of the strip beyond the end lies once that seam is pressed.
    fn folded(&self, beyond: &[Point]) -> Option<Vec<Point>> {
        let back = self.back?;
        if !back {
            return Some(beyond.to_vec());
        }
        let mirror = |p: &Point| *p - self.line.normal.vec() * (2.0 * self.line.inside_by(*p));
        Some(beyond.iter().rev().map(mirror).collect())
    }
}

/// Where two edges cross; `None` when they don't or are parallel.
fn crossing(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (u, v) = (b - a, d - c);
    let det = u.cross(v);
    if det.abs() < 1e-12 {
        return None;
    }
    let (t, s) = ((c - a).cross(v) / det, (c - a).cross(u) / det);
    ((0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&s)).then(|| a.lerp(b, t))
}

/// The cells of the grid.
#[derive(Clone, Copy, Debug, Default)]
struct Cells {
    lo: Point,
    size_in: f64,
}

impl Cells {
    /// Cells of an inch over all bands, or larger ones where that would be too many.
    fn over(bands: &[Band]) -> Self {
        let corners: Vec<Point> = bands.iter().flat_map(|band| [band.lo, band.hi]).collect();
        let (lo, hi) = polygon::bounds(&corners).unwrap_or_default();
        Self { lo, size_in: ((hi.x - lo.x).max(hi.y - lo.y) / MOST_CELLS).max(1.0) }
    }

    fn at(self, p: Point) -> (i32, i32) {
        let from = p - self.lo;
        ((from.x / self.size_in).floor() as i32, (from.y / self.size_in).floor() as i32)
    }

    fn middle(self, (x, y): (i32, i32)) -> Point {
        self.lo + plane::Vec2::new(f64::from(x) + 0.5, f64::from(y) + 0.5) * self.size_in
    }

    /// The cells that an edge may run through.
    fn along(self, a: Point, b: Point) -> impl Iterator<Item = (i32, i32)> {
        let lo = self.at(Point::new(a.x.min(b.x), a.y.min(b.y)));
        let hi = self.at(Point::new(a.x.max(b.x), a.y.max(b.y)));
        let edge = Line::through(a, b);
        (lo.0..=hi.0).flat_map(move |x| (lo.1..=hi.1).map(move |y| (x, y))).filter(move |&cell| {
            edge.is_none_or(|edge| edge.inside_by(self.middle(cell)).abs() <= 0.75 * self.size_in)
        })
    }

    /// Whether a convex band may reach into a cell.
    fn meet(self, points: &[Point], cell: (i32, i32)) -> bool {
        let middle = self.middle(cell);
        polygon::edges(points)
            .filter_map(|(a, b)| Line::through(a, b))
            .all(|line| line.inside_by(middle) >= -0.75 * self.size_in)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::Mark;

    /// Seams that all run past the origin, one at each angle, as bands of their own.
    fn past_the_origin(angles: &[f64]) -> Layers {
        let bands = angles.iter().enumerate().filter_map(|(i, degrees)| {
            let along = plane::Turn::from_degrees(*degrees);
            let line = Line::from_point(Point::new(0.1, -0.05), along).inward(-0.03 * i as f64);
            let band = strip(line, Point::ORIGIN, Point::ORIGIN, 0.25);
            Band::of(Name::new(Mark(i as u32), 0), i as u32, 2, band)
        });
        Layers::over_bands(bands.collect())
    }

    #[test]
    fn a_top_of_any_size_has_a_grid_of_bounded_size_and_its_thick_places() {
        let far = 1e7;
        let (a, b) = (Point::new(-far, -far), Point::new(far, far));
        let (c, d) = (Point::new(-far, far), Point::new(far, -far));
        let bands = [(a, b), (c, d)].into_iter().zip(0..).filter_map(|((from, to), no)| {
            let band = strip(Line::through(from, to)?, from, to, 0.25);
            Band::of(Name::new(Mark(no), 0), no, 2, band)
        });
        let layers = Layers::over_bands(bands.collect());
        assert!(layers.grid.len() < 4_000, "{}", layers.grid.len());
        let thick = layers.thickest(5);
        assert!(thick.len() == 1 && thick[0].at.distance(Point::ORIGIN) < 1.0, "{thick:?}");
    }

    // One seam crossing another 5, a third 7, a fourth 9 (common practice, no source).
    #[test]
    fn stacked_seams_make_twice_their_number_and_one() {
        for (angles, layers) in
            [(&[0.0][..], 3), (&[0.0, 90.0], 5), (&[0.0, 90.0, 45.0], 7), (&[0.0, 90.0, 45.0, 20.0], 9)]
        {
            let found = past_the_origin(angles).thickest(3);
            assert_eq!(found.first().map(|t| (t.layers, t.seams.len())), Some((layers, angles.len())));
        }
    }

    #[test]
    fn the_thickest_place_is_as_thick_as_a_fine_grid_finds() {
        let layers = past_the_origin(&[0.0, 72.0, 130.0, 200.0, 310.0]);
        let grid = (-150..150).flat_map(|x| (-150..150).map(move |y| (x, y)));
        let most = grid
            .map(|(x, y)| layers.at(Point::new(f64::from(x) / 100.0 + 0.0037, f64::from(y) / 100.0 + 0.0071)))
            .max();
        assert_eq!(layers.thickest(3).first().map(|t| t.layers), most);
    }
}
