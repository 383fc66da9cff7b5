//! How well pieces are laid, for `docs/BENCHMARKS.md`.
//!
//! `stash`: twenty plans from demo heaps, cloth opened against first fit by area. `eighty`: eighty pieces into six rough
//! scraps, against an exact greedy. `bins FOLDER` and `strips FOLDER [SECONDS]`: published instances, which are not
//! part of this repository; without their folder nothing is measured, and that is said.

mod exact;
mod own;
mod published;

use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words[..] {
        ["stash"] => own::stash(),
        ["eighty"] => own::eighty(),
        ["bins", folder] => return told(published::bins(folder)),
        ["strips", folder] => return told(published::strips(folder, 5.0)),
        ["strips", folder, seconds] => match seconds.parse() {
            Ok(seconds) => return told(published::strips(folder, seconds)),
            Err(_) => println!("`{seconds}` is no number of seconds"),
        },
        [] => {
            own::stash();
            own::eighty();
            println!("bins and strips: name the folder of the published instances to measure them");
        }
        _ => println!("say stash, eighty, bins FOLDER or strips FOLDER [SECONDS]"),
    }
    ExitCode::SUCCESS
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
