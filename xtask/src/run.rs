//! `cargo xtask run`: the README's one command. Builds what has changed, starts the program on the
//! loopback with the demo, and lets it have the terminal.

use crate::program;
use crate::tools::{Outcome, command, done};

/// Builds and starts. Without arguments of its own the program serves the demo.
pub(crate) fn run(args: &[String]) -> Outcome<()> {
    let program = program::build()?;
    let args: Vec<&str> = args.iter().map(String::as_str).filter(|arg| *arg != "--").collect();
    let args = if args.is_empty() { vec!["serve", "--demo"] } else { args };
    done(&mut command(&program.to_string_lossy(), &args))
}
