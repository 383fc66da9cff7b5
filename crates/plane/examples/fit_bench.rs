//! Times of single fits: median and 95th percentile over random pieces and cloths, for piece
//! and cloth prepared beforehand and for preparing them.
//!
//! Run with `cargo run -p plane --example fit_bench`. The generator is seeded: the same shapes
//! on every machine.

use plane::{
    BUDGET, Fit, FitCloth, FitPiece, Point, Region, ShapeSummary, Turn, Turning, best_of, remainder, try_fit,
};
use std::time::Instant;

struct Dice(u64);

impl Dice {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// A star-shaped outline; `rough` 0 puts all corners on an ellipse.
    fn outline(&mut self, corners: usize, size: f64, rough: f64) -> Vec<Point> {
        let flat = self.between(0.4, 1.0);
        let start = self.between(0.0, 360.0);
        (0..corners)
            .map(|i| {
                let at = (i as f64 + self.between(-0.3, 0.3)) * 360.0 / corners as f64;
                let reach = size * self.between(1.0 - rough, 1.0);
                let v = Turn::from_degrees(at).vec();
                let p = Turn::from_degrees(start).apply(plane::Vec2::new(v.x, v.y * flat));
                Point::new(p.x * reach, p.y * reach)
            })
            .collect()
    }
}

fn report(name: &str, mut micros: Vec<f64>, note: &str) {
    micros.sort_by(f64::total_cmp);
    let at = |share: f64| micros[((micros.len() - 1) as f64 * share) as usize];
    let mean = micros.iter().sum::<f64>() / micros.len() as f64;
    println!(
        "{name:<42} median {:>8.2}  95 % {:>8.2}  most {:>9.2}  mean {mean:>8.2} us  {note}",
        at(0.5),
        at(0.95),
        at(1.0)
    );
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let start = Instant::now();
    let result = work();
    (result, start.elapsed().as_secs_f64() * 1e6)
}

fn run(name: &str, cloth_corners: (usize, usize), rough: f64, hole: bool, turning: Turning) {
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let (mut fit, mut best, mut prepare) = (Vec::new(), Vec::new(), Vec::new());
    let (mut summaries, mut cuts) = (Vec::new(), Vec::new());
    let (mut yes, mut no, mut unknown) = (0, 0, 0);
    let (mut yes_times, mut no_times) = (Vec::new(), Vec::new());
    for _ in 0..1500 {
        let corners = 4 + (dice.next() * 3.0) as usize;
        let size = dice.between(0.5, 3.0);
        let piece = plane::polygon::hull(&dice.outline(corners, size, 0.2));
        let span = cloth_corners.1 - cloth_corners.0 + 1;
        let corners = cloth_corners.0 + (dice.next() * span as f64) as usize;
        let outer = dice.outline(corners, 3.0, rough);
        let mut holes = Vec::new();
        if hole {
            let mut ring = dice.outline(4, 0.3, 0.2);
            ring.reverse();
            holes.push(ring);
        }
        let region = Region { outer, holes };
        let (pair, time) = timed(|| Some((FitPiece::new(&piece, &[])?, FitCloth::new(&region)?)));
        prepare.push(time);
        summaries.push(timed(|| ShapeSummary::of(&region)).1);
        cuts.push(timed(|| remainder(&region, &piece)).1);
        let Some((piece, cloth)) = pair else { continue };
        let (answer, time) = timed(|| try_fit(&piece, &cloth, turning, Turn::NONE, BUDGET));
        fit.push(time);
        match answer {
            Fit::Yes(_) => {
                yes += 1;
                yes_times.push(time);
                best.push(timed(|| best_of(&piece, &cloth, turning, Turn::NONE)).1);
            }
            Fit::No => {
                no += 1;
                no_times.push(time);
            }
            Fit::Unknown => unknown += 1,
        }
    }
    report(name, fit, &format!("{yes} yes, {no} no, {unknown} unknown"));
    report("  of these yes", yes_times, "");
    report("  of these no", no_times, "");
    report("  best fit, where it fits", best, "");
    report("  preparing piece and cloth", prepare, "");
    report("  summary of the cloth", summaries, "");
    report("  one cut", cuts, "");
}

/// Pieces a hundredth of a percent under and over the largest that fits: the hardest asks.
fn run_tight(name: &str, cloth_corners: usize, rough: f64, piece_rough: f64) {
    let mut dice = Dice(0x51f1_5eed);
    let (mut under, mut over, mut unknown) = (Vec::new(), Vec::new(), 0);
    for _ in 0..150 {
        let corners = 4 + (dice.next() * 3.0) as usize;
        let mut shape = dice.outline(corners, 1.0, piece_rough);
        if piece_rough <= 0.2 {
            shape = plane::polygon::hull(&shape);
        }
        let region = Region { outer: dice.outline(cloth_corners, 3.0, rough), holes: Vec::new() };
        let Some(cloth) = FitCloth::new(&region) else { continue };
        let mut ask = |scale: f64| {
            let scaled: Vec<Point> = shape.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect();
            let piece = FitPiece::new(&scaled, &[]);
            let (answer, time) =
                timed(|| piece.as_ref().map(|p| try_fit(p, &cloth, Turning::Any, Turn::NONE, BUDGET)));
            unknown += usize::from(answer == Some(Fit::Unknown));
            (matches!(answer, Some(Fit::Yes(_))), time)
        };
        let (mut low, mut high) = (0.0, 10.0);
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if ask(middle).0 { low = middle } else { high = middle }
        }
        under.push(ask(low * 0.9999).1);
        over.push(ask(high * 1.0001).1);
    }
    report(name, under, "just fits");
    report("  just does not", over, &format!("{unknown} unknown of 4800"));
}

fn main() {
    run_tight("tight: convex 4-6 in convex 6", 6, 0.0, 0.2);
    run_tight("tight: convex 4-6 in rough 8", 8, 0.5, 0.2);
    run_tight("tight: convex 4-6 in rough 12", 12, 0.4, 0.2);
    run_tight("tight: notched 4-6 in rough 8", 8, 0.5, 0.6);
    run("convex 4-6 in convex-ish 4-8, any turn", (4, 8), 0.0, false, Turning::Any);
    run("convex 4-6 in slightly rough 4-8, any turn", (4, 8), 0.15, false, Turning::Any);
    run("convex 4-6 in rough 4-8, any turn", (4, 8), 0.5, false, Turning::Any);
    run("convex 4-6 in rough 8-12, any turn", (8, 12), 0.5, false, Turning::Any);
    run("convex 4-6 in 4-8 with a flaw, any turn", (4, 8), 0.1, true, Turning::Any);
    run("convex 4-6 in rough 16-24, any turn", (16, 24), 0.3, false, Turning::Any);
    run("convex 4-6 in rough 4-8, half turns", (4, 8), 0.5, false, Turning::HalfTurns);
}
