//! Other programs that the tests start: Debian's, installed where that is possible.

use crate::place;
use crate::tools::{Outcome, command, done, is_there};

/// What the tests start, and the package that brings it.
const WANTED: [(&str, &str); 3] = [("chromium", "chromium"), ("pdftoppm", "poppler-utils"), ("qpdf", "qpdf")];

/// Installs what is missing where that is possible, and says what to install where it isn't.
pub(crate) fn install() -> Outcome<()> {
    let named = std::env::var("CHROMIUM").is_ok_and(|path| is_there(&path));
    let here = |program: &str| is_there(program) || (program == "chromium" && named);
    let missing: Vec<&str> =
        WANTED.iter().filter(|(program, _)| !here(program)).map(|(_, package)| *package).collect();
    if missing.is_empty() {
        return Ok(());
    }
    if !is_there("apt-get") {
        let list = missing.join(", ");
        return Err(format!("missing: {list}. Install them, or name a Chromium in CHROMIUM").into());
    }
    let mut args = vec!["-o", "DPkg::Lock::Timeout=300", "install", "-y", "--no-install-recommends"];
    args.extend(&missing);
    let mut install = command("apt-get", &args);
    install.env("DEBIAN_FRONTEND", "noninteractive").current_dir(place::root());
    done(&mut install).map_err(|problem| {
        let list = missing.join(" ");
        format!("{problem}. Install them yourself: apt-get install {list}").into()
    })
}
