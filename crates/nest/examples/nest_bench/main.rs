//! How well pieces are laid, for `docs/BENCHMARKS.md`.
//!
//! `stash [SEED]`: twenty plans from demo heaps, cloth opened against first fit by area; while the search is worked at,
//! other seeds are taken than the one that is reported. `eighty`: eighty pieces into six rough scraps, against an exact
//! greedy. `bins FOLDER [SEED]` and `strips FOLDER [SECONDS [NAME]]`: published instances, which are not part of this
//! repository; without their folder they are not measured, and that is said. Nothing named, all of ours; a folder, all.

mod exact;
mod own;
mod published;

use std::process::ExitCode;

/// Where the plans that are reported begin: these heaps were not looked at while the search was made.
const OWN_SEED: u64 = 9_000;

/// How long a strip is sought when nothing else is said: as long as a maker waits.
const SECONDS: f64 = 5.0;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words[..] {
        ["stash"] => own::stash(OWN_SEED),
        ["stash", seed] => match seed.parse() {
            Ok(seed) => own::stash(seed),
            Err(_) => println!("`{seed}` is no number to begin with"),
        },
        ["eighty"] => own::eighty(),
        ["bins", folder] => return told(published::bins(folder, 1)),
        ["bins", folder, seed] => match seed.parse() {
            Ok(seed) => return told(published::bins(folder, seed)),
            Err(_) => println!("`{seed}` is no number to begin with"),
        },
        ["strips", folder] => return told(published::strips(folder, SECONDS, None)),
        ["strips", folder, seconds] => return strips(folder, seconds, None),
        ["strips", folder, seconds, only] => return strips(folder, seconds, Some(only)),
        [] => {
            own::stash(OWN_SEED);
            own::eighty();
            println!("bins and strips: name the folder of the published instances to measure them");
        }
        [folder] => {
            own::stash(OWN_SEED);
            own::eighty();
            let measured = published::bins(folder, 1).and_then(|()| published::strips(folder, SECONDS, None));
            return told(measured);
        }
        _ => println!(
            "say nothing, FOLDER, stash, eighty, bins FOLDER [SEED] or strips FOLDER [SECONDS [NAME]]"
        ),
    }
    ExitCode::SUCCESS
}

fn strips(folder: &str, seconds: &str, only: Option<&str>) -> ExitCode {
    match seconds.parse() {
        Ok(seconds) => told(published::strips(folder, seconds, only)),
        Err(_) => told(Err(format!("`{seconds}` is no number of seconds"))),
    }
}

fn told(done: Result<(), String>) -> ExitCode {
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            println!("{why}");
            ExitCode::FAILURE
        }
    }
}
