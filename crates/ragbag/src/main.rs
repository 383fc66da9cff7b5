//! Ragbag: a heap of scraps, and what becomes of it. This crate only adapts: the command line in
//! `cli`, the local page in `server`. No rule lives here.

mod cli;
mod demo;
mod letters;
mod server;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run()
}
