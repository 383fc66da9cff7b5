//! What the tests of papers share.
#![allow(dead_code, reason = "each test uses its part")]
#![allow(unreachable_pub, reason = "shared by tests only")]

use papers::Fonts;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The types that the program carries.
///
/// # Panics
/// When the packages aren't there: `cargo xtask test` fetches them.
pub fn types() -> Fonts {
    let packages = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/node_modules/@expo-google-fonts");
    let files = [
        "atkinson-hyperlegible/400Regular/AtkinsonHyperlegible_400Regular.ttf",
        "atkinson-hyperlegible/700Bold/AtkinsonHyperlegible_700Bold.ttf",
        "noto-sans/400Regular/NotoSans_400Regular.ttf",
        "noto-sans-arabic/400Regular/NotoSansArabic_400Regular.ttf",
        "noto-sans-hebrew/400Regular/NotoSansHebrew_400Regular.ttf",
    ];
    let read = |name: &str| {
        let file = packages.join(name);
        std::fs::read(&file).unwrap_or_else(|e| panic!("{}: {e}; run `npm ci` in web", file.display()))
    };
    Fonts::from_bytes(files.map(read))
}

/// A file for one test, that goes when it is dropped.
pub struct Kept(pub PathBuf);

impl Drop for Kept {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

/// Keeps a PDF for another program to read.
pub fn kept(pdf: &[u8]) -> Kept {
    use std::sync::atomic::{AtomicUsize, Ordering};
    static NUMBER: AtomicUsize = AtomicUsize::new(0);
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let place = std::env::temp_dir().join(format!("papers-{}-{number}.pdf", std::process::id()));
    std::fs::write(&place, pdf).unwrap();
    Kept(place)
}

/// The words of a PDF as poppler's pdftotext reads them.
pub fn text_of(pdf: &[u8]) -> String {
    let file = kept(pdf);
    let told = Command::new("pdftotext").arg("-layout").arg(&file.0).arg("-").output().expect("pdftotext");
    assert!(told.status.success() && told.stderr.is_empty(), "{}", String::from_utf8_lossy(&told.stderr));
    String::from_utf8_lossy(&told.stdout).into_owned()
}
