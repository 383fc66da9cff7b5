//! Where things are: the repository, the page, what was built, what is remembered.

use std::path::PathBuf;

/// The repository's root.
pub(crate) fn root() -> PathBuf {
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    here.parent().map(PathBuf::from).unwrap_or(here)
}

/// The browser side.
pub(crate) fn web() -> PathBuf {
    root().join("web")
}

/// Where cargo builds.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), |dir| root().join(dir))
}

/// What is remembered between runs.
pub(crate) fn memory() -> PathBuf {
    target().join("xtask")
}
