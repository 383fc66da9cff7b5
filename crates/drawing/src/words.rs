//! How much room words take, near enough to keep them apart.

/// The type families asked for, best first: a highly legible open family, then what most
/// machines have.
pub const FONT_FAMILY: &str = "Atkinson Hyperlegible, DejaVu Sans, sans-serif";

/// About how wide words are, in inches, set in letters of `size_in`. Never less than what
/// [`FONT_FAMILY`] takes for figures and small letters; nothing is measured.
#[must_use]
pub fn words_width_in(words: &str, size_in: f64) -> f64 {
    let em = |c: char| match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | '\'' | '|' => 0.32,
        ' ' | 'f' | 't' | 'r' => 0.42,
        'm' | 'w' | 'M' | 'W' | '×' | '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' => 0.97,
        'A'..='Z' => 0.72,
        _ => 0.64,
    };
    words.chars().map(em).sum::<f64>() * size_in
}
