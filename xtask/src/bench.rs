//! `cargo xtask bench`: every figure of `docs/BENCHMARKS.md`, in release builds, one after the
//! other so that none disturbs another.

use crate::tools::{Outcome, cargo, done};

/// A figure's name and the example that measures it: package, example, arguments.
type Bench = (&'static str, &'static str, &'static str, &'static [&'static str]);

const BENCHES: [Bench; 18] = [
    ("colour", "colour", "difference_speed", &[]),
    ("fit", "plane", "fit_bench", &[]),
    ("fill", "plane", "fill_bench", &[]),
    ("nest", "nest", "nest_bench", &[]),
    ("drawing", "drawing", "speed", &[]),
    ("quality", "grow", "quality", &["101", "120"]),
    ("next", "grow", "next_bench", &[]),
    ("grow", "grow", "grow_bench", &[]),
    ("eye", "quilt", "eye_speed", &["2000"]),
    ("replay", "quilt", "replay_bench", &[]),
    ("store", "workroom", "store_bench", &[]),
    ("outlines", "vision", "outline_speed", &[]),
    ("look", "papers", "look", &[]),
    ("photos", "vision", "photos", &["200"]),
    ("photo", "vision", "photo_speed", &[]),
    ("cards", "vision", "cards_bench", &[]),
    ("corners", "vision", "cards_accuracy", &[]),
    ("papers", "ragbag", "papers_speed", &[]),
];

/// Runs all of them, or those whose name holds the first word; the other words go to them.
pub(crate) fn bench(words: &[String]) -> Outcome<()> {
    let only = words.first().map(String::as_str);
    let more: Vec<&str> = words.iter().skip(1).map(String::as_str).collect();
    let wanted = |bench: &&Bench| only.is_none_or(|name| bench.0.contains(name));
    let chosen: Vec<&Bench> = BENCHES.iter().filter(wanted).collect();
    if chosen.is_empty() {
        let names: Vec<&str> = BENCHES.iter().map(|bench| bench.0).collect();
        return Err(format!("no benchmark is named so; there are: {}", names.join(", ")).into());
    }
    for (name, package, example, args) in chosen {
        println!("\n== {name}");
        if *package == "ragbag" {
            // Its examples measure the program itself.
            done(&mut cargo(&["build", "--quiet", "--release", "--package", package]))?;
        }
        let mut words = vec!["run", "--quiet", "--release", "--package", package, "--example", example];
        if !args.is_empty() || !more.is_empty() {
            words.push("--");
            words.extend(*args);
            words.extend(&more);
        }
        done(&mut cargo(&words))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::BENCHES;
    use crate::place;

    #[test]
    fn every_benchmark_is_there() {
        for (name, package, example, _) in BENCHES {
            let path = place::root().join(format!("crates/{package}/examples/{example}"));
            let there = path.with_extension("rs").is_file() || path.join("main.rs").is_file();
            assert!(there, "{name}: {} is missing", path.display());
        }
    }
}
