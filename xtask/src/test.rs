//! `cargo xtask test`: everything that has to hold before a change is done. CI calls this and
//! nothing less. A runner that ran nothing fails.

use crate::tools::{Outcome, cargo, done, heard};
use crate::{browser, page, types, wanted};

/// Runs all checks, cheapest first, and closes with one line of what was run.
pub(crate) fn test() -> Outcome<()> {
    done(&mut cargo(&["fmt", "--all", "--check"]))?;
    let unit = page::check()?;
    page::build()?;
    wanted::install()?;
    done(&mut cargo(&["clippy", "--quiet", "--workspace", "--all-targets", "--", "-D", "warnings"]))?;
    let said = heard(&mut cargo(&["test", "--quiet", "--workspace"]))?;
    let program = counted(&said).ok_or("cargo passed without running a test")?;
    types::types(true)?;
    let browsed = browser::test()?;
    println!(
        "\nAll checks passed: {program} tests of the program, {unit} of the page, {browsed} in a browser."
    );
    Ok(())
}

/// The sum of the counts on cargo's `test result` lines, if it is not 0.
fn counted(said: &str) -> Option<usize> {
    let lines = said.lines().filter_map(|line| line.strip_prefix("test result: ok. "));
    let counts = lines.filter_map(|line| line.split_once(" passed")?.0.parse::<usize>().ok());
    Some(counts.sum()).filter(|sum| *sum > 0)
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn the_counts_of_all_test_programs_are_added_up() {
        let said = "running 2 tests\n..\ntest result: ok. 2 passed; 0 failed; 0 ignored\n\n\
                    test result: ok. 40 passed; 0 failed; 0 ignored; finished in 0.1s\n";
        assert_eq!(counted(said), Some(42));
        assert_eq!(counted("test result: ok. 0 passed; 0 failed"), None, "nothing was run");
        assert_eq!(counted(""), None);
    }
}
