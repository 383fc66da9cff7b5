//! The page's folder must be there when the program is compiled, and a new build of it must be
//! noticed. The types that papers are set in come from the packages that the page takes its own from.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Best first: what one lacks is taken from the next.
const TYPES: [&str; 7] = [
    "atkinson-hyperlegible/400Regular/AtkinsonHyperlegible_400Regular.ttf",
    "atkinson-hyperlegible/700Bold/AtkinsonHyperlegible_700Bold.ttf",
    "noto-sans/400Regular/NotoSans_400Regular.ttf",
    "noto-sans/700Bold/NotoSans_700Bold.ttf",
    "noto-sans-arabic/400Regular/NotoSansArabic_400Regular.ttf",
    "noto-sans-hebrew/400Regular/NotoSansHebrew_400Regular.ttf",
    "noto-sans-hebrew/700Bold/NotoSansHebrew_700Bold.ttf",
];

fn main() {
    let web = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web");
    let page = web.join("dist");
    if let Err(error) = std::fs::create_dir_all(&page) {
        println!("cargo:warning=the page's folder can't be made: {error}");
    }
    println!("cargo:rerun-if-changed={}", page.display());
    types(&web.join("node_modules/@expo-google-fonts"));
}

/// Writes a list of the types that are there; the program looks for the machine's own when there are none.
fn types(packages: &Path) {
    let mut list = String::from("&[");
    for name in TYPES {
        let file = packages.join(name);
        println!("cargo:rerun-if-changed={}", file.display());
        if file.is_file() {
            let _ = write!(list, "include_bytes!({:?}), ", file.display().to_string());
        } else {
            println!("cargo:warning=no {name}: run `npm ci` in web, or `cargo xtask run`");
        }
    }
    list.push(']');
    let Some(out) = std::env::var_os("OUT_DIR").map(PathBuf::from) else { return };
    if let Err(error) = std::fs::write(out.join("types.rs"), list) {
        println!("cargo:warning=the list of types can't be written: {error}");
    }
}
