//! Starting other programs: loudly, and stopping when one fails.

use crate::place;
use std::error::Error;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};

/// Done, or why not, in words for a developer.
pub(crate) type Outcome<T> = Result<T, Box<dyn Error>>;

/// A command in the repository's root.
pub(crate) fn command(program: &str, args: &[&str]) -> Command {
    let mut command = Command::new(program);
    command.args(args).current_dir(place::root());
    command
}

/// Cargo, the one that started this.
pub(crate) fn cargo(args: &[&str]) -> Command {
    let program = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    command(&program, args)
}

/// A program of the page's own, from its `node_modules`, in the page's folder.
pub(crate) fn of_page(program: &str, args: &[&str]) -> Command {
    let path = place::web().join("node_modules/.bin").join(program);
    let mut command = command(&path.to_string_lossy(), args);
    command.current_dir(place::web());
    command
}

/// Runs it to its end.
pub(crate) fn done(command: &mut Command) -> Outcome<()> {
    announce(command);
    let status = command.status().map_err(|error| missing(command, &error))?;
    if status.success() { Ok(()) } else { Err(failed(command)) }
}

/// Runs it to its end and returns what it said on standard output, which is shown too.
pub(crate) fn heard(command: &mut Command) -> Outcome<String> {
    announce(command);
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(|error| missing(command, &error))?;
    let mut said = String::new();
    if let Some(out) = child.stdout.take() {
        for line in BufReader::new(out).lines() {
            let line = line?;
            println!("{line}");
            said.push_str(&line);
            said.push('\n');
        }
    }
    if child.wait()?.success() { Ok(said) } else { Err(failed(command)) }
}

/// Runs it to its end and returns its standard output, which is not shown.
pub(crate) fn output(command: &mut Command) -> Outcome<String> {
    announce(command);
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| missing(command, &error))?;
    if output.status.success() { Ok(String::from_utf8(output.stdout)?) } else { Err(failed(command)) }
}

/// Whether a program can be started at all.
pub(crate) fn is_there(program: &str) -> bool {
    if program.contains('/') {
        return Path::new(program).is_file();
    }
    let paths = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&paths).any(|dir| dir.join(program).is_file())
}

fn announce(command: &Command) {
    eprintln!("\n> {}", shown(command));
}

fn shown(command: &Command) -> String {
    let name = Path::new(command.get_program()).file_name().unwrap_or(command.get_program());
    let words = std::iter::once(name).chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}

fn failed(command: &Command) -> Box<dyn Error> {
    format!("`{}` failed; what it said stands above", shown(command)).into()
}

fn missing(command: &Command, error: &std::io::Error) -> Box<dyn Error> {
    format!("`{}` could not be started: {error}. Is it installed?", shown(command)).into()
}
