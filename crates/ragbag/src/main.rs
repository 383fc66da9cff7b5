//! Ragbag: a heap of scraps, and what becomes of it. This crate only adapts: the command line in
//! `cli`, the local page in `server`. No rule lives here.

mod cli;
mod demo;
mod letters;
mod server;

use std::process::ExitCode;

fn main() -> ExitCode {
    // Decoders of pictures are caught when they stumble; what they mutter is for those who ask for it.
    if std::env::var_os("RUST_BACKTRACE").is_none() {
        std::panic::set_hook(Box::new(|_| {}));
    }
    std::panic::catch_unwind(cli::run).unwrap_or_else(|_| {
        eprintln!("ragbag: a fault of the program itself; nothing that was said to be kept is lost.");
        eprintln!("  Please report it with what you typed; RUST_BACKTRACE=1 tells more.");
        ExitCode::FAILURE
    })
}
