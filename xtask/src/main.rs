//! Everything a developer types: `cargo xtask run | test | bench | types | refs`.
//!
//! Standard library only, so that it builds in a second. It knows no rule of the trade: it starts
//! other programs, one after the other, in the repository's root, and stops at the first that
//! fails. What it remembers between runs is content hashes under `target/xtask`.

mod bench;
mod browser;
mod page;
mod place;
mod program;
mod refs;
mod run;
mod stamp;
mod test;
#[cfg(test)]
mod tidy;
mod tools;
mod types;
mod wanted;

use std::process::ExitCode;
use tools::Outcome;

const HELP: &str = "\
Usage: cargo xtask COMMAND

  run [ARGS]      build the page and the program, and start it with the demo; ARGS go to the program
  test            everything that has to hold: format, lints, tests, types, the page in a browser
  bench [NAME] [ARGS]
                  the figures of docs/BENCHMARKS.md, in release builds; all, or those named so, and
                  ARGS go to them (`bench nest FOLDER` measures the published instances there too)
  types [--check] write the page's types from the program's own description, or compare them
  refs [NAME]     write the tables of reference values that tests read, from other libraries";

fn main() -> ExitCode {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let (command, rest) = match given.split_first() {
        Some((command, rest)) => (command.as_str(), rest),
        None => ("help", &[][..]),
    };
    match dispatch(command, rest) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("\nxtask: {problem}");
            ExitCode::FAILURE
        }
    }
}

fn dispatch(command: &str, rest: &[String]) -> Outcome<()> {
    match command {
        "run" => run::run(rest),
        "test" => test::test(),
        "bench" => bench::bench(rest),
        "types" => types::types(rest.iter().any(|arg| arg == "--check")),
        "refs" => refs::refs(rest.first().map(String::as_str)),
        "help" | "--help" | "-h" => {
            println!("{HELP}");
            Ok(())
        }
        other => Err(format!("there is no command `{other}`\n\n{HELP}").into()),
    }
}
