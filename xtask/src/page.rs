//! The browser side: its packages, its checks, its build. Nothing is done twice for the same bytes.

use crate::tools::{Outcome, command, done, heard, is_there, of_page};
use crate::{place, stamp};

/// What is not source: packages, what was built, what tests left.
const SKIPPED: [&str; 4] = ["node_modules", "dist", "test-results", "playwright-report"];

/// Fetches the packages that the lock file names, if it has changed.
pub(crate) fn packages() -> Outcome<()> {
    for (program, what) in [("node", "Node 20 or later"), ("npm", "npm, which comes with Node")] {
        if !is_there(program) {
            return Err(format!("`{program}` is missing: install {what}").into());
        }
    }
    let lock = place::web().join("package-lock.json");
    let hash = stamp::hash(&[lock], &[])?;
    if stamp::is_fresh("packages", &hash) && place::web().join("node_modules").is_dir() {
        return Ok(());
    }
    done(command("npm", &["ci", "--no-progress"]).current_dir(place::web()))?;
    stamp::keep("packages", &hash)
}

/// Builds the page into `web/dist`, if its sources have changed.
pub(crate) fn build() -> Outcome<()> {
    let hash = stamp::hash(&[place::web()], &SKIPPED)?;
    if stamp::is_fresh("page", &hash) && place::web().join("dist/index.html").is_file() {
        return Ok(());
    }
    packages()?;
    done(&mut of_page("vite", &["build", "--logLevel", "warn"]))?;
    stamp::keep("page", &hash)
}

/// Format, lints, types and unit tests of the page. Returns how many unit tests passed.
pub(crate) fn check() -> Outcome<usize> {
    packages()?;
    done(&mut of_page("prettier", &["--check", "--log-level", "warn", "."]))?;
    done(&mut of_page("eslint", &["."]))?;
    done(&mut of_page("svelte-check", &["--fail-on-warnings", "--output", "human"]))?;
    done(&mut of_page("tsc", &["--noEmit", "--project", "tsconfig.node.json"]))?;
    let said = heard(of_page("vitest", &["run"]).env("NO_COLOR", "1"))?;
    passed(&said, "Tests ").ok_or_else(|| "vitest passed without running a test".into())
}

/// The number before ` passed` on the line that has `label` in it, if it is not 0.
pub(crate) fn passed(said: &str, label: &str) -> Option<usize> {
    let line = said.lines().rev().find(|line| line.contains(label) && line.contains(" passed"))?;
    let (before, _) = line.split_once(" passed")?;
    before.rsplit(|c: char| !c.is_ascii_digit()).next()?.parse().ok().filter(|count| *count > 0)
}

#[cfg(test)]
mod tests {
    use super::passed;

    #[test]
    fn the_count_is_read_from_the_runners_last_lines() {
        assert_eq!(passed(" Test Files  9 passed (9)\n      Tests  32 passed (32)\n", "Tests "), Some(32));
        assert_eq!(passed("  1 skipped\n  31 passed (1.6m)\n", ""), Some(31));
        assert_eq!(passed("  2 failed\n", ""), None);
        assert_eq!(passed("Tests  0 passed (0)", "Tests "), None, "a runner that ran nothing");
    }
}
