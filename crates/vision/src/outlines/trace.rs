//! Outlines of masks, and their straight runs.

use super::mask::Mask;
use plane::Point;

/// The rings round the set cells, along the cells' edges, in cells: outer rings run one way, holes the
/// other (the cloth lies to the right in the picture, where y runs down).
pub(super) fn rings(mask: &Mask) -> Vec<Vec<Point>> {
    let (width, height) = (mask.width as i64, mask.height as i64);
    // Whether the upper edge of a set cell, walked to the right, has been walked.
    let mut walked = Mask::new(mask.width, mask.height);
    let mut rings = Vec::new();
    for row in 0..height {
        for column in 0..width {
            let i = (row * width + column) as usize;
            if mask.at(column, row) && !mask.at(column, row - 1) && !walked.cells[i] {
                rings.push(walk(mask, &mut walked, column, row));
            }
        }
    }
    rings
}

/// Walks along the edge of the set cells, cloth to the right.
fn walk(mask: &Mask, walked: &mut Mask, column: i64, row: i64) -> Vec<Point> {
    let start = (column, row, 0_usize);
    let (mut x, mut y, mut way) = start;
    let mut ring = Vec::new();
    loop {
        let (dx, dy) = WAYS[way];
        if way == 0 {
            walked.cells[(y * mask.width as i64 + x) as usize] = true;
        }
        // The middle of each walked edge: half a cell off at most, and no stairs along slants.
        ring.push(Point::new(x as f64 + 0.5 * dx as f64, y as f64 + 0.5 * dy as f64));
        (x, y) = (x + dx, y + dy);
        let cell = |right: i64, ahead: i64| {
            // The cell ahead on the right side (1) or the left side (0) of the way.
            let (rx, ry) = (-dy, dx);
            let cx = 2 * x + dx * ahead + rx * right;
            let cy = 2 * y + dy * ahead + ry * right;
            mask.at(cx.div_euclid(2), cy.div_euclid(2))
        };
        way = match (cell(-1, 1), cell(1, 1)) {
            (_, false) => (way + 1) % 4,
            (false, true) => way,
            (true, true) => (way + 3) % 4,
        };
        if (x, y, way) == start {
            return ring;
        }
    }
}

/// Right, down, left, up.
const WAYS: [(i64, i64); 4] = [(1, 0), (0, 1), (-1, 0), (0, -1)];

/// The places of a ring that are its corners: every place in between is within `tolerance` of the
/// straight line between its corners (Douglas and Peucker 1973), from two places far apart.
pub(super) fn corners(ring: &[Point], tolerance: f64) -> Vec<usize> {
    let n = ring.len();
    if n < 4 {
        return (0..n).collect();
    }
    let farthest = |from: usize| {
        (0..n).max_by(|&a, &b| ring[a].distance(ring[from]).total_cmp(&ring[b].distance(ring[from])))
    };
    let first = farthest(0).unwrap_or(0);
    let second = farthest(first).unwrap_or(n / 2);
    let (low, high) = (first.min(second), first.max(second));
    let mut kept = vec![low, high];
    keep(&|i| ring[i % n], low, high, tolerance, &mut kept);
    keep(&|i| ring[i % n], high, low + n, tolerance, &mut kept);
    let mut kept: Vec<usize> = kept.into_iter().map(|i| i % n).collect();
    kept.sort_unstable();
    kept.dedup();
    kept
}

/// The corners between two places of an open path.
pub(super) fn bends(path: &[Point], tolerance: f64) -> Vec<usize> {
    let mut kept = Vec::new();
    if path.len() > 2 {
        keep(&|i| path[i], 0, path.len() - 1, tolerance, &mut kept);
    }
    kept.sort_unstable();
    kept
}

fn keep(at: &dyn Fn(usize) -> Point, from: usize, to: usize, tolerance: f64, kept: &mut Vec<usize>) {
    let mut open = vec![(from, to)];
    while let Some((from, to)) = open.pop() {
        let (a, b) = (at(from), at(to));
        let farthest =
            (from + 1..to).map(|i| (off_line(a, b, at(i)), i)).max_by(|one, other| one.0.total_cmp(&other.0));
        if let Some((_, i)) = farthest.filter(|(off, _)| *off > tolerance) {
            kept.push(i);
            open.extend([(from, i), (i, to)]);
        }
    }
}

/// Distance of a place from the straight piece between two others.
pub(super) fn off_line(a: Point, b: Point, p: Point) -> f64 {
    let (along, to) = (b - a, p - a);
    let length = along.dot(along);
    let t = if length > 0.0 { (along.dot(to) / length).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(a.lerp(b, t))
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::polygon;

    #[test]
    fn a_ring_goes_round_and_a_hole_the_other_way() {
        let mut mask = Mask::new(12, 10);
        for row in 1..9 {
            for column in 2..10 {
                mask.cells[row * 12 + column] = !((4..6).contains(&row) && (5..8).contains(&column));
            }
        }
        let rings = rings(&mask);
        let areas: Vec<f64> = rings.iter().map(|ring| polygon::area(ring)).collect();
        assert_eq!(rings.len(), 2);
        // The corners are cut off: four triangles of half by half a cell.
        assert_eq!(areas, [64.0 - 0.5, -(6.0 - 0.5)]);
        assert_eq!(corners(&rings[0], 0.8).len(), 4);
    }

    #[test]
    fn rings_have_the_areas_another_library_finds() {
        let table = include_str!("../../tests/data/contours.csv");
        let mut count = 0;
        for line in table.lines().filter(|line| !line.starts_with('#')) {
            let mut fields = line.split(',');
            let width: usize = fields.next().unwrap().parse().unwrap();
            let cells: Vec<bool> = fields.next().unwrap().chars().map(|cell| cell == '1').collect();
            let wanted: Vec<f64> = fields.map(|area| area.parse().unwrap()).collect();
            let mask = Mask { width, height: cells.len() / width, cells };
            let mut areas: Vec<f64> = rings(&mask).iter().map(|ring| polygon::area(ring)).collect();
            areas.sort_by(f64::total_cmp);
            assert_eq!(areas.len(), wanted.len(), "{line}");
            assert!(areas.iter().zip(&wanted).all(|(a, b)| (a - b).abs() < 1e-6), "{areas:?} {line}");
            count += wanted.len();
        }
        assert!(count > 300, "{count}");
    }
}
