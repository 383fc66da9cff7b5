//! Looks of the demo's prints, told from painted scraps, against what the prints know of themselves.

mod tabletop;

use colour::difference;
use plane::{Point, Region, Vec2};
use tabletop::{Dice, PAINTED, Table, laid};
use vision::{Look, PrintSize, Runs, look, same_print};

/// A scrap of a print as it was looked at.
struct Told {
    print: usize,
    look: Look,
    /// Up the print, on the table, in degrees.
    up_deg: f64,
    scale: f64,
}

/// Scraps of all prints, turned and moved at random, blurred and noisy.
fn told(rounds: u64, first: u64, scales: &[f64], side: (f64, f64)) -> Vec<Told> {
    let mut list = Vec::new();
    for round in first..first + rounds {
        for print in 0..PAINTED.len() {
            let mut dice = Dice(round * 1000 + print as u64);
            let (wide, high) = (dice.between(side.0, side.1), dice.between(side.0, side.1));
            let region = Region::rectangle(wide, high);
            let centred = region.outer.iter().map(|&p| p - Vec2::new(wide, high) * 0.5).collect();
            let region = Region::try_new(centred, vec![]).unwrap();
            let size = wide.hypot(high) + 0.4;
            let mut scrap = laid(&mut dice, &region, print, Point::new(size / 2.0, size / 2.0));
            scrap.threads.clear();
            scrap.scale = scales[dice.below(scales.len())];
            let table = Table {
                size_in: [size, size],
                per_in: dice.between(60.0, 80.0),
                mat: 0x80_8080,
                grid: None,
                cards: vec![],
                fall_off: 0.0,
                shadow: (0.0, 0.0, 0.1),
                blur_px: dice.between(0.5, 1.5),
                noise: dice.between(0.5, 2.5),
                scraps: vec![scrap.clone()],
            };
            let flat = table.paint(round);
            let up_deg = 90.0 - scrap.pose.turn.to_degrees();
            let look = look(&flat, &scrap.outline);
            list.push(Told { print, look, up_deg, scale: scrap.scale });
        }
    }
    list
}

/// 0 any way, 1 both ways, 2 one way: as the print says of itself.
fn kind_of_print(print: usize) -> usize {
    let words = format!("{:?}", PAINTED[print].print.look().runs);
    ["AnyWay", "BothWays", "OneWay"].iter().position(|word| words.starts_with(word)).unwrap()
}

fn kind(runs: Runs) -> usize {
    match runs {
        Runs::AnyWay => 0,
        Runs::BothWays { .. } => 1,
        Runs::OneWay { .. } => 2,
    }
}

fn rounds() -> u64 {
    std::env::var("ROUNDS").ok().and_then(|v| v.parse().ok()).unwrap_or(2)
}

/// Seeds from here on; others with `FIRST`.
fn first(usual: u64) -> u64 {
    std::env::var("FIRST").ok().and_then(|v| v.parse().ok()).unwrap_or(usual)
}

#[test]
fn directions_are_told() {
    let mut table = [[0; 3]; 3];
    let mut off: Vec<f64> = Vec::new();
    let mut axes: Vec<(f64, String)> = Vec::new();
    for one in told(rounds(), first(0), &[1.0], (3.0, 6.0)) {
        table[kind_of_print(one.print)][kind(one.look.runs)] += 1;
        let print = &PAINTED[one.print].print;
        let name = &print.name;
        let axis_off = |deg: f64| {
            let apart = (deg - one.up_deg - print.leans_deg()).rem_euclid(180.0);
            apart.min(180.0 - apart)
        };
        if let (2, Runs::OneWay { deg }) = (kind_of_print(one.print), one.look.runs) {
            axes.push((axis_off(deg), name.clone()));
        }
        if name.ends_with("stripe") || name == "ticking" || name == "drizzle" {
            match one.look.runs {
                Runs::BothWays { deg } => off.push(axis_off(deg)),
                _ => off.push(90.0),
            }
        }
    }
    off.sort_by(f64::total_cmp);
    println!("print any, both, one; told any, both, one: {table:?}");
    let share = |kind: usize| table[kind][kind] as f64 / table[kind].iter().sum::<usize>() as f64;
    let right = (share(0) + share(1) + share(2)) / 3.0;
    println!("right, all kinds alike: {right:.2}");
    axes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let near = axes.iter().filter(|(deg, _)| *deg <= 5.0).count();
    println!(
        "one way: axis within 5 degrees {near} of {}; worst {:?}",
        axes.len(),
        axes.iter().rev().take(12).collect::<Vec<_>>()
    );
    assert!(right >= 0.85, "{right}");
    assert!(near * 10 >= axes.len() * 6, "{near} of {}", axes.len());
    println!("stripes off by {off:.1?} degrees");
    assert!(off.iter().all(|&deg| deg <= 5.0), "{off:?}");
}

#[test]
fn sizes_of_prints_are_told() {
    let mut table = [[0; 3]; 3];
    for one in told(rounds(), first(100), &[0.5, 1.0, 1.8], (4.0, 6.0)) {
        if one.look.busy < 0.06 {
            continue;
        }
        let print = &PAINTED[one.print].print;
        let size = PrintSize::of(print.motif_in() * one.scale);
        table[size as usize][one.look.print_size as usize] += 1;
        if size != one.look.print_size {
            println!("{} {:.2} in, told {:.2}", print.name, print.motif_in() * one.scale, one.look.motif_in);
        }
    }
    println!("print small, medium, large; told small, medium, large: {table:?}");
    // Nine in ten is the aim; it isn't reached (docs/BENCHMARKS.md has the table).
    let right = table[0][0] + table[1][1] + table[2][2];
    let all: usize = table.iter().flatten().sum();
    assert!(right * 100 >= all * 50, "{right} of {all}");
}

#[test]
fn colours_busyness_and_prints_are_told() {
    let all = told(rounds(), first(200), &[1.0], (3.0, 5.0));
    let mut off: Vec<f64> = Vec::new();
    let mut busy: Vec<f64> = Vec::new();
    for one in &all {
        let truth = PAINTED[one.print].print.look();
        for shade in truth.shades.iter().filter(|shade| shade.share > 0.1) {
            let nearest = one.look.shades.iter().map(|s| difference(s.lab, shade.lab)).fold(100.0, f64::min);
            off.push(nearest);
        }
        busy.push((one.look.busy - truth.busy).abs());
    }
    off.sort_by(f64::total_cmp);
    busy.sort_by(f64::total_cmp);
    let at = |list: &[f64], share: f64| list[((list.len() - 1) as f64 * share) as usize];
    println!(
        "colours off: median {:.2}, nine in ten {:.2}; busy off: median {:.3}, nine in ten {:.3}",
        at(&off, 0.5),
        at(&off, 0.9),
        at(&busy, 0.5),
        at(&busy, 0.9)
    );
    // Each scrap of the second round against one of every print from the first.
    let (stash, asked) = all.split_at(PAINTED.len());
    let (mut first, mut third) = (0, 0);
    for one in asked {
        let own = same_print(&one.look, &stash[one.print].look);
        let better = stash.iter().filter(|other| same_print(&one.look, &other.look) > own).count();
        first += usize::from(better == 0);
        third += usize::from(better < 3);
    }
    println!("same print: first {first}, among three {third} of {}", asked.len());
    assert!(at(&off, 0.5) < 3.0);
    assert!(first * 100 >= asked.len() * 85 && third * 100 >= asked.len() * 95);
}
