//! `cargo xtask types`: the page's types, written from the program's own description of its API.

use crate::tools::{Outcome, command, done, of_page, output};
use crate::{page, place, program};
use std::fs;

const FILE: &str = "src/api/types.gen.ts";
const HEAD: &str =
    "// Written by `cargo xtask types` from the program's description of its API. Do not edit.\n\n";

/// Writes the types, or with `check` fails when they differ from what would be written.
pub(crate) fn types(check: bool) -> Outcome<()> {
    page::packages()?;
    let built = program::build()?;
    let description = output(&mut command(&built.to_string_lossy(), &["openapi"]))?;
    fs::create_dir_all(place::memory())?;
    let (from, to) = (place::memory().join("openapi.json"), place::memory().join("types.gen.ts"));
    fs::write(&from, description)?;
    let (from, path) = (from.to_string_lossy(), to.to_string_lossy());
    done(&mut of_page("openapi-typescript", &[&from, "--output", &path, "--immutable"]))?;
    let text = format!("{HEAD}{}", without_banner(&fs::read_to_string(&to)?));
    let kept = place::web().join(FILE);
    if !check {
        return Ok(fs::write(kept, text)?);
    }
    if fs::read_to_string(kept).unwrap_or_default() == text {
        return Ok(());
    }
    Err(format!("web/{FILE} is not what the program describes: run `cargo xtask types`").into())
}

/// The text after the comment that the generator opens it with.
fn without_banner(text: &str) -> &str {
    let text = text.trim_start();
    let rest = text.strip_prefix("/*").and_then(|rest| rest.split_once("*/"));
    rest.map_or(text, |(_, after)| after).trim_start()
}

#[cfg(test)]
mod tests {
    use super::without_banner;

    #[test]
    fn only_the_first_comment_is_taken_off() {
        assert_eq!(without_banner("/**\n * by x\n */\n\nexport /* a */ b"), "export /* a */ b");
        assert_eq!(without_banner("export b"), "export b");
    }
}
