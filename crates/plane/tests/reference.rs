//! Areas of clips, unions, differences and offsets against shapely (GEOS), on 10,000 random
//! cases made again here from their seeds; `xtask/refs/geometry.py` describes the generator and
//! wrote the table.

use plane::{Line, Point, Region, Turn, clip_half_plane, difference, intersection, offset, polygon, union};
use std::path::Path;

const SEED: u64 = 20;

struct Dice(u64);

impl Dice {
    fn for_case(case: u64) -> Self {
        Self(SEED * 1_000_003 + case)
    }

    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        (z >> 11) as f64 * 2_f64.powi(-53)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    fn below(&mut self, n: u32) -> i32 {
        (self.share() * f64::from(n)) as i32
    }

    fn round_outline(&mut self) -> Vec<Point> {
        let n = 3 + self.below(8);
        let (w, h) = (self.between(0.5, 4.0), self.between(0.5, 4.0));
        let (x, y) = (self.between(-2.0, 2.0), self.between(-2.0, 2.0));
        (0..n)
            .map(|k| {
                let p = around((f64::from(k) + self.share() * 0.9) / f64::from(n));
                Point::new(p.x * w + x, p.y * h + y)
            })
            .collect()
    }

    fn star_outline(&mut self) -> Vec<Point> {
        let n = 5 + self.below(12);
        let size = self.between(0.5, 4.0);
        let (x, y) = (self.between(-2.0, 2.0), self.between(-2.0, 2.0));
        (0..n)
            .map(|k| {
                let p = around((f64::from(k) + self.share() * 0.9) / f64::from(n));
                let reach = size * self.between(0.3, 1.0);
                Point::new(p.x * reach + x, p.y * reach + y)
            })
            .collect()
    }

    fn skyline(&mut self) -> Vec<Point> {
        let columns = 2 + self.below(6);
        let mut x = self.below(17) - 8;
        let (mut bottoms, mut tops) = (Vec::new(), Vec::new());
        for _ in 0..columns {
            let bottom = self.below(17) - 8;
            let top = bottom + 1 + self.below(8);
            let at = |y: i32| Point::new(f64::from(x) / 64.0, f64::from(y) / 64.0);
            bottoms.push(at(bottom));
            tops.push(at(top));
            x += 1 + self.below(6);
        }
        bottoms.extend(tops.into_iter().rev());
        bottoms
    }
}

fn around(share: f64) -> Point {
    let at = 4.0 * share;
    let quarter = at as i32;
    let t = at - f64::from(quarter);
    let (x, y) = match quarter % 4 {
        0 => (1.0 - t, t),
        1 => (-t, 1.0 - t),
        2 => (t - 1.0, -t),
        _ => (t, t - 1.0),
    };
    let length = (x * x + y * y).sqrt();
    Point::new(x / length, y / length)
}

fn plain(outer: Vec<Point>) -> Region {
    Region { outer, holes: Vec::new() }
}

fn total(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

/// What this kernel finds for a case, and the operands' area.
fn measured(case: u64) -> (Vec<f64>, f64) {
    let mut dice = Dice::for_case(case);
    match case % 8 {
        kind @ 0..=5 => {
            let mut outline = || match kind {
                0 | 1 => dice.round_outline(),
                2 | 3 => dice.star_outline(),
                _ => dice.skyline(),
            };
            let (a, b) = (plain(outline()), plain(outline()));
            let both = total(&intersection(&a, &b));
            let either = total(&union(&[a.clone(), b.clone()]));
            let rest = total(&difference(&a, std::slice::from_ref(&b)));
            (vec![a.area(), b.area(), both, either, rest], a.area() + b.area())
        }
        6 => {
            let outline = dice.star_outline();
            let through = Point::new(dice.between(-2.0, 2.0), dice.between(-2.0, 2.0));
            let along = around(dice.share());
            let line = Line::from_point(through, Turn { cos: along.x, sin: along.y });
            let inside = polygon::area(&clip_half_plane(&outline, line, 0.0));
            let area = polygon::area(&outline);
            (vec![area, inside], area)
        }
        _ => {
            let outline = if dice.share() < 0.5 { dice.round_outline() } else { dice.star_outline() };
            let d = dice.between(0.05, 0.5);
            let a = plain(outline);
            let grown = total(&offset(&a, d, 100.0));
            let shrunk = total(&offset(&a, -d, 100.0));
            (vec![a.area(), grown, shrunk, d], a.area())
        }
    }
}

#[test]
fn ten_thousand_areas_agree_with_a_general_geometry_library() {
    // Source: shapely 2.2 on GEOS 3.14; versions and seed in the table's first line.
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/geometry.csv");
    let table = std::fs::read_to_string(&path)
        .unwrap_or_else(|e| panic!("{}: {e}; write it with xtask/refs/geometry.py", path.display()));
    let mut rows = 0;
    let mut worst = (0.0_f64, 0);
    let mut wrong = Vec::new();
    for (case, line) in table.lines().filter(|line| !line.starts_with('#')).enumerate() {
        let row: Vec<f64> = line.split(',').skip(1).map(|v| v.parse().unwrap()).collect();
        let (found, operands) = measured(case as u64);
        assert_eq!(found.len(), row.len(), "case {case} has another number of values");
        let error = found.iter().zip(&row).map(|(f, r)| (f - r).abs()).fold(0.0, f64::max);
        if error / operands > worst.0 {
            worst = (error / operands, case);
        }
        if error > 1e-9 * operands {
            wrong.push((case, line.to_owned(), found));
        }
        rows += 1;
    }
    println!("worst {:.2e} of the operands' area, case {}", worst.0, worst.1);
    assert!(rows >= 10_000, "the table has only {rows} rows");
    assert!(wrong.is_empty(), "{} cases differ: {:?}", wrong.len(), &wrong[..wrong.len().min(8)]);
}
