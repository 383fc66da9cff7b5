//! Times of quilting lines over a bed-size outline: 108 inches across, rows at 1/4 inch, about
//! 46,000 inches of line. Each figure is the median of several runs.
//!
//! Run with `cargo run -p plane --example fill_bench`.

use clipper2_rust::{EndType, JoinType, Path64, Point64, inflate_paths_64};
use plane::fill::{
    Corners, Echoes, Fill, Ground, Lines, RoundSpiral, Sewing, Spacing, Unbroken, UnbrokenSpiral, echoes,
    lines, offset_row, round_spiral, unbroken_spiral,
};
use plane::gap::{KeepOuts, Sides, WIDEST_TOLERANCE, first_crossing, spacing, widest};
use plane::{Point, Region, Turn, polygon};
use std::time::Instant;

fn main() {
    let one = unbroken("unbroken spiral, nine sides, one keep-out", 1.0);
    let twice = unbroken("  the same over twice the area", std::f64::consts::SQRT_2);
    println!("  twice the length takes {:.2} times as long", twice / one);
    let one = round("round spiral", 54.0);
    let twice = round("  the same over twice the area", 54.0 * std::f64::consts::SQRT_2);
    println!("  twice the length takes {:.2} times as long", twice / one);
    matchstick();
    concentric("concentric rows, nine sides", &nine_sided(1.0));
    concentric("concentric rows, notched", &notched());
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let start = Instant::now();
    let result = work();
    (result, start.elapsed().as_secs_f64() * 1e3)
}

fn median<T>(runs: usize, mut work: impl FnMut() -> T) -> (T, f64) {
    let (mut last, first) = timed(&mut work);
    let mut times = vec![first];
    for _ in 1..runs {
        let (result, time) = timed(&mut work);
        last = result;
        times.push(time);
    }
    times.sort_by(f64::total_cmp);
    (last, times[runs / 2])
}

fn ring(corners: &[(f64, f64)], scale: f64) -> Region {
    Region {
        outer: corners.iter().map(|&(x, y)| Point::new(x * scale, y * scale)).collect(),
        holes: Vec::new(),
    }
}

/// Nine sides, all different; 11,500 square inches.
fn nine_sided(scale: f64) -> Region {
    let corners = [
        (3.0, 66.0),
        (44.0, 61.0),
        (80.0, 64.0),
        (122.0, 65.5),
        (158.0, 60.0),
        (204.0, 62.5),
        (243.0, 66.0),
        (281.0, 61.5),
        (318.0, 64.0),
    ];
    let outer = corners.map(|(at, reach)| Point::ORIGIN + Turn::from_degrees(at).vec() * (reach * scale));
    Region { outer: outer.to_vec(), holes: Vec::new() }
}

fn notched() -> Region {
    ring(
        &[
            (-54.0, -54.0),
            (54.0, -50.0),
            (50.0, 10.0),
            (20.0, 15.0),
            (10.0, 54.0),
            (-20.0, 30.0),
            (-54.0, 50.0),
        ],
        1.0,
    )
}

fn unbroken(name: &str, scale: f64) -> f64 {
    let keep_out = ring(&[(30.0, -5.0), (40.0, -3.0), (42.0, 4.0), (33.0, 7.0), (28.0, 2.0)], scale);
    let ground = Ground::try_new(&nine_sided(scale), &[keep_out]).expect("sound shapes");
    let choice = UnbrokenSpiral {
        centre: Point::ORIGIN,
        spacing: Spacing { wish_in: 0.25, least_in: 0.18, most_in: 0.32 },
        least_radius_in: 0.5,
        start_deg: None,
        clockwise: false,
        wobble: None,
    };
    let (laid, time) = median(7, || unbroken_spiral(&ground, &choice).expect("the bounds can be held"));
    let Unbroken { fill, spacing: rows, .. } = &laid;
    println!(
        "{name}: {time:.0} ms; {:.0} in, {} points, {} stroke; rows {:.3} to {:.3}, median {:.3}, at {} places",
        fill.length(),
        fill.strokes[0].points.len(),
        fill.starts(),
        rows.least_in,
        rows.most_in,
        rows.median_in,
        rows.samples
    );
    checks(&ground, fill);
    time
}

fn checks(ground: &Ground, fill: &Fill) {
    let (crossing, time) = median(3, || first_crossing(&fill.strokes));
    println!("  sweep for crossings: {time:.0} ms; {}", crossing.map_or("none", |_| "CROSSES"));
    let (gap, time) = median(3, || widest(ground, fill, KeepOuts::Closed, WIDEST_TOLERANCE));
    let gap = gap.expect("there is area");
    println!(
        "  widest gap: {time:.0} ms; {:.3} in at {:.2}, {:.2}",
        2.0 * gap.radius,
        gap.centre.x,
        gap.centre.y
    );
}

fn round(name: &str, half: f64) -> f64 {
    let ground = Ground::try_new(&ring(&[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)], half), &[]);
    let ground = ground.expect("a square");
    let choice = RoundSpiral {
        centre: Point::ORIGIN,
        spacing: Spacing::about(0.25),
        least_radius_in: 0.0,
        start_deg: 0.0,
        clockwise: false,
        wobble: None,
    };
    let (fill, time) = median(7, || round_spiral(&ground, &choice).expect("a sound choice"));
    println!("{name}: {time:.1} ms; {:.0} in, {} starts", fill.length(), fill.starts());
    checks(&ground, &fill);
    let (rows, slow) = timed(|| spacing(&fill.strokes, &ground.edges(true), Sides::Both, 0.25, 1.0));
    println!(
        "  row distances on both sides: {slow:.0} ms; {:?}",
        rows.map(|rows| (rows.least_in, rows.median_in))
    );
    time
}

fn matchstick() {
    let ground = Ground::try_new(&nine_sided(1.0), &[]).expect("a sound outline");
    let choice = Lines {
        angle_deg: 33.0,
        spacing: Spacing::about(0.125),
        through: None,
        sewing: Sewing::Joined,
        wobble: None,
    };
    let (fill, time) = median(5, || lines(&ground, &choice).expect("a sound choice"));
    println!("matchstick lines, joined: {time:.0} ms; {:.0} in, {} starts", fill.length(), fill.starts());
    checks(&ground, &fill);
}

/// The same rows by this crate and by a general offset library, side by side.
fn concentric(name: &str, outline: &Region) {
    const P: f64 = 0.25;
    const STEPS: f64 = (1_u64 << 32) as f64;
    let ground = Ground::try_new(outline, &[]).expect("a sound outline");
    let choice = Echoes {
        of: None,
        spacing: Spacing::about(P),
        first_in: None,
        rows: None,
        corners: Corners::Round,
        start_deg: 0.0,
        clockwise: false,
        wobble: None,
    };
    let theirs = || -> f64 {
        let path: Path64 = outline
            .outer
            .iter()
            .map(|p| Point64 { x: (p.x * STEPS) as i64, y: (p.y * STEPS) as i64 })
            .collect();
        let paths = vec![path];
        let mut length = 0.0;
        for row in 0.. {
            let inches = P * (f64::from(row) + 0.5);
            let delta = -inches * STEPS;
            let rings =
                inflate_paths_64(&paths, delta, JoinType::Round, EndType::Polygon, 2.0, 0.6 / 64.0 * STEPS);
            if rings.is_empty() {
                break;
            }
            for ring in rings {
                let ring: Vec<Point> =
                    ring.iter().map(|p| Point::new(p.x as f64 / STEPS, p.y as f64 / STEPS)).collect();
                length += polygon::perimeter(&ring);
            }
        }
        length
    };
    let one_by_one = || -> f64 {
        let rows = (0..).map(|row| offset_row(&outline.outer, -P * (f64::from(row) + 0.5), Corners::Round));
        rows.take_while(|rings| !rings.is_empty()).flatten().map(|ring| polygon::perimeter(&ring)).sum()
    };
    let (mut ours_ms, mut rows_ms, mut theirs_ms) = (Vec::new(), Vec::new(), Vec::new());
    let (mut ours, mut by_row, mut other) = (0.0, 0.0, 0.0);
    for _ in 0..15 {
        let (fill, time) = timed(|| echoes(&ground, &choice).expect("a sound choice"));
        (ours, _) = (fill.length(), ours_ms.push(time));
        let (length, time) = timed(one_by_one);
        (by_row, _) = (length, rows_ms.push(time));
        let (length, time) = timed(theirs);
        (other, _) = (length, theirs_ms.push(time));
    }
    for times in [&mut ours_ms, &mut rows_ms, &mut theirs_ms] {
        times.sort_by(f64::total_cmp);
    }
    println!(
        "{name}: as strokes {:.2} ms, rows alone {:.2} ms, clipper2-rust {:.2} ms; lengths {ours:.1}, {by_row:.1}, {other:.1}: {:.4} % apart",
        ours_ms[7],
        rows_ms[7],
        theirs_ms[7],
        100.0 * (ours / other - 1.0).abs()
    );
}
