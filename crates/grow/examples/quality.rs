//! Grows a centre from each of a run of frozen heaps and says how good it is to the eye.
//!
//! `cargo run --release -p grow --example quality -- FIRST LAST [usual|quick|thorough]`
//!
//! Tuned on seeds 1 to 20, reported on 101 to 120. Every heap has 160 scraps; the wish is the same
//! for all: 20 inches across, seven sides, about 60 pieces, colours drifting from the hot to the
//! cool end of the heap's own prints. The limits are tested by `quilt::limits`, which shares
//! nothing with the search.

use colour::Lab;
use grow::{Effort, End, Goal, Grown, Heap, grow};
use plane::polygon;
use quilt::cloth::Cloth;
use quilt::eye::{EyeCheck, Grade, Quality, Shapes, eye_check, total_cost};
use quilt::table::{Table, replay};
use quilt::wish::{Wish, even_drift};
use std::collections::BTreeMap;
use std::time::Instant;

const SCRAPS: usize = 160;
const PIECES: usize = 60;

fn main() {
    let mut args = std::env::args().skip(1);
    let first: u64 = args.next().and_then(|a| a.parse().ok()).unwrap_or(1);
    let last: u64 = args.next().and_then(|a| a.parse().ok()).unwrap_or(first);
    let effort = match args.next().as_deref() {
        Some("quick") => Effort::QUICK,
        Some("thorough") => Effort::THOROUGH,
        _ => Effort::USUAL,
    };
    let mut all: Vec<Report> = (first..=last).filter_map(|seed| report(seed, effort)).collect();
    for report in &all {
        println!("{}", report.line());
    }
    summary(&mut all);
}

struct Report {
    seed: u64,
    check: EyeCheck,
    cost: f64,
    greedy_cost: f64,
    pieces: usize,
    across: f64,
    trimmed: f64,
    problems: usize,
    seconds: f64,
    end: End,
}

fn report(seed: u64, effort: Effort) -> Option<Report> {
    let basket = demo::frozen_heap(seed, SCRAPS);
    let cloths = basket.cloths();
    let heap = Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[]);
    let wish = wish(&cloths);
    let at = Instant::now();
    let grown = grow(&heap, &wish, Goal::SizeWith(PIECES), effort, seed, None, &mut ()).into_iter().next()?;
    let seconds = at.elapsed().as_secs_f64();
    let greedy =
        grow(&heap, &wish, Goal::SizeWith(PIECES), Effort::QUICK, seed, None, &mut ()).into_iter().next()?;
    let (table, check) = look(&grown, &cloths, &wish);
    let (_, greedy_check) = look(&greedy, &cloths, &wish);
    let top = table.piece()?.1;
    let cut: f64 = table.patches().values().map(|p| polygon::area(&p.cut)).sum();
    let off: f64 = table.offcuts().iter().flat_map(|o| &o.parts).map(|p| polygon::area(&p.piece)).sum();
    let finished = Shapes::of(top, wish.allowance_in, &|_| None).outline;
    let problems = quilt::limits::audit(top, wish.allowance_in, &wish.limits);
    if std::env::var_os("SHOW").is_some() {
        for problem in &problems {
            println!("seed {seed}: {problem}");
        }
        for row in &check.rows {
            println!("  {:?} {:?} {}", row.quality, row.grade, row.words);
        }
    }
    if let Some(folder) = std::env::var_os("DRAW") {
        draw(&folder.to_string_lossy(), seed, &table, &check, &cloths);
    }
    Some(Report {
        seed,
        cost: total_cost(&check),
        greedy_cost: total_cost(&greedy_check),
        pieces: grown.pieces,
        across: 2.0 * (polygon::area(&finished) / std::f64::consts::PI).sqrt(),
        trimmed: off / cut,
        problems: problems.len(),
        seconds,
        end: grown.end,
        check,
    })
}

fn look(grown: &Grown, cloths: &[Cloth], wish: &Wish) -> (Table, EyeCheck) {
    let by_id: BTreeMap<_, _> = cloths.iter().map(|c| (c.id, c)).collect();
    let (table, halt) = replay(&grown.entries);
    if let Some(halt) = halt {
        println!("HALT at {}: {}", halt.mark, halt.problem);
    }
    let shapes = table.piece().map(|(_, top)| {
        Shapes::of(top, wish.allowance_in, &|mark| {
            let cloth = by_id.get(&table.patches().get(&mark)?.cloth)?;
            Some((cloth.look.mean(), cloth.print, cloth.id))
        })
    });
    let check = eye_check(&shapes.unwrap_or_default(), wish);
    (table, check)
}

/// The same wish for every heap; its colours are those of the heap's own prints, hot to cool.
fn wish(cloths: &[Cloth]) -> Wish {
    let mut prints: BTreeMap<u64, Lab> = BTreeMap::new();
    for cloth in cloths {
        prints.insert(cloth.print.unwrap_or(cloth.id.0), cloth.look.mean());
    }
    let mut labs: Vec<Lab> = prints.into_values().collect();
    labs.sort_by(|a, b| (b.a + b.b).total_cmp(&(a.a + a.b)));
    let fifth = (labs.len() / 5).max(1);
    let fifths: Vec<Lab> = labs
        .chunks(fifth)
        .take(5)
        .map(|chunk| {
            let n = chunk.len() as f64;
            let mean = |part: fn(&Lab) -> f64| chunk.iter().map(part).sum::<f64>() / n;
            Lab { l: mean(|c| c.l), a: mean(|c| c.a), b: mean(|c| c.b) }
        })
        .collect();
    let drift = even_drift(&fifths);
    Wish { drift, ..Wish::default() }
}

impl Report {
    fn line(&self) -> String {
        let grades: String = self.check.rows.iter().map(|row| letter(row.grade)).collect();
        format!(
            "{:>4}  {grades}  good {:>2}  gates {}  cost {:.2} (greedy {:.2})  {} pieces  {:.2} across  {:.1} % off  {} problems  {:.2} s  {:?}",
            self.seed,
            self.check.good,
            if self.check.gates_passed { "yes" } else { "NO " },
            self.cost,
            self.greedy_cost,
            self.pieces,
            self.across,
            100.0 * self.trimmed,
            self.problems,
            self.seconds,
            self.end,
        )
    }
}

fn letter(grade: Grade) -> char {
    match grade {
        Grade::Good => '+',
        Grade::Fair => 'o',
        Grade::Poor => 'x',
        Grade::NotWished => '.',
        Grade::TooSoon => '?',
    }
}

fn summary(all: &mut [Report]) {
    let n = all.len();
    if n == 0 {
        return;
    }
    let median = |mut values: Vec<f64>| {
        values.sort_by(f64::total_cmp);
        values[values.len() / 2]
    };
    let worst = all.iter().map(|r| r.trimmed).fold(0.0, f64::max);
    println!();
    for (i, quality) in Quality::ALL.iter().enumerate() {
        let count = |grade| all.iter().filter(|r| r.check.rows[i].grade == grade).count();
        println!(
            "{quality:?}: {} good, {} fair, {} poor",
            count(Grade::Good),
            count(Grade::Fair),
            count(Grade::Poor)
        );
    }
    println!(
        "\n{n} heaps: good rows in the median {}, gates passed in {}, problems {}, lower cost than greedy in {}, trimmed {:.1} % in the median and {:.1} % at worst, size within 1/2 inch in {}, cost {:.2} in the median, {:.2} s in the median",
        median(all.iter().map(|r| r.check.good as f64).collect()),
        all.iter().filter(|r| r.check.gates_passed).count(),
        all.iter().map(|r| r.problems).sum::<usize>(),
        all.iter().filter(|r| r.cost < r.greedy_cost).count(),
        100.0 * median(all.iter().map(|r| r.trimmed).collect()),
        100.0 * worst,
        all.iter().filter(|r| (r.across - 20.0).abs() <= 0.5).count(),
        median(all.iter().map(|r| r.cost).collect()),
        median(all.iter().map(|r| r.seconds).collect()),
    );
}

fn draw(folder: &str, seed: u64, table: &Table, check: &EyeCheck, cloths: &[Cloth]) {
    let Some((_, top)) = table.piece() else { return };
    let Some((lo, hi)) = polygon::bounds(&top.outline_points()) else { return };
    let mut svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='{} {} {} {}' width='500'>",
        lo.x - 0.5,
        -hi.y - 0.5,
        hi.x - lo.x + 1.0,
        hi.y - lo.y + 1.0
    );
    for face in top.faces().values() {
        let cloth = cloths.iter().find(|c| Some(c.id) == table.patches().get(&face.patch).map(|p| p.cloth));
        let hex = cloth.map_or_else(String::new, |c| c.look.mean().to_srgb().to_string());
        let points: Vec<String> =
            top.face_points(face).iter().map(|p| format!("{:.3},{:.3}", p.x, -p.y)).collect();
        svg += &format!(
            "<polygon points='{}' fill='{hex}' stroke='#fff' stroke-width='.04'/>",
            points.join(" ")
        );
    }
    for row in &check.rows {
        if row.quality == Quality::NoLongLine {
            for mark in &row.marks {
                if let quilt::eye::EyeMark::Line(a, b) = mark {
                    svg += &format!(
                        "<line x1='{}' y1='{}' x2='{}' y2='{}' stroke='red' stroke-width='.12'/>",
                        a.x, -a.y, b.x, -b.y
                    );
                }
            }
        }
    }
    svg += "</svg>";
    let _ = std::fs::write(format!("{folder}/quality-{seed}.svg"), svg);
}
