//! The page's folder must be there when the program is compiled, and a new build of it must be
//! noticed.

use std::path::Path;

fn main() {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/dist");
    if let Err(error) = std::fs::create_dir_all(&page) {
        println!("cargo:warning=the page's folder can't be made: {error}");
    }
    println!("cargo:rerun-if-changed={}", page.display());
}
